"""Two beams on one tower, one on a ring that turns: what each does as the headings part.

Every difference of heading is solved with all wires of both beams and the ground, so the
coupling is in the figures. Over real ground the sweep takes the quick image of the ground; how
far the exact integrals and a finer cut move the figures, at the headings of the plan, is their
band.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.parts import Beam
from boomwright.reach.ground_zones import ZonedGround
from boomwright.reach.stack import Feeding, Idle, feed_stack, solve_stack, stack_gain_dbi
from boomwright.solver import (
    Detail,
    Ground,
    GroundMethod,
    Preparer,
    prepare_run,
    reference_detail,
    remembering,
)

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: step of the differences of heading [deg]
_STEP_DEG = 15.0
#: elevations in which the strongest lobe is sought [deg]
_PEAK_STEP_DEG = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RingReading:
    """What one of the beams does as the other turns away from it.

    Parameters
    ----------
    name
        the beam [-]
    frequency
        its design frequency [Hz]
    elevation_deg
        elevation of its strongest lobe at the headings of the plan [deg]
    gain_dbi
        gain towards its own heading at that elevation [dBi] (n,)
    front_to_back_db
        the same over the gain exactly backwards at that elevation [dB] (n,)
    impedance
        at its feed [ohm] (n,)
    gain_error_db, front_to_back_error_db
        half widths of their bands [dB]
    impedance_error
        half width of the band of the impedance [ohm]
    """

    name: str
    frequency: float
    elevation_deg: float
    gain_dbi: NDArray[np.float64]
    front_to_back_db: NDArray[np.float64]
    impedance: NDArray[np.complex128]
    gain_error_db: float
    front_to_back_error_db: float
    impedance_error: float

    def __post_init__(self) -> None:
        for name in ("gain_dbi", "front_to_back_db"):
            object.__setattr__(self, name, read_only(getattr(self, name)))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RingSweep:
    """Both beams against the difference of their headings.

    Parameters
    ----------
    turn_deg
        heading of the turning beam less that of the other, clockwise [deg] (n,)
    own_deg
        the same in the plan, within half a turn [deg]
    idle
        what hangs on the feed of the beam that is not fed [-]
    fixed, turning
        what each does, fed alone [-]
    """

    turn_deg: NDArray[np.float64]
    own_deg: float
    idle: Idle
    fixed: RingReading
    turning: RingReading

    def __post_init__(self) -> None:
        object.__setattr__(self, "turn_deg", read_only(self.turn_deg))


def sweep_ring(
    *,
    fixed: Beam,
    turning: Beam,
    ground: Ground,
    turn_deg: ArrayLike | None = None,
    idle: Idle = "open",
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> RingSweep:
    """Turn one beam on its ring and read both.

    Parameters
    ----------
    fixed
        the beam that stays [-]
    turning
        the beam on the ring [-]
    ground
        ground below them [-]
    turn_deg
        differences of heading, rising; None for steps of 15 degrees, over half a turn where
        both beams are alike on both sides of their booms [deg] (n,)
    idle
        what hangs on the feed of the beam that is not fed [-]
    far_ground
        zones further out; None when all is alike [-]
    prepare
        prepares one run of wire; pass one that remembers to save time [-]

    Returns
    -------
    RingSweep
        gain, front-to-back ratio and impedance of each [-]

    Raises
    ------
    BoomwrightError
        when the differences do not rise
    SolverError
        when the wires cannot be modelled
    """
    if turn_deg is None:
        last = 360.0 if fixed.wires or turning.wires else 180.0
        turns = np.arange(0.0, last + 1e-9, _STEP_DEG)
    else:
        turns = np.atleast_1d(np.asarray(turn_deg, dtype=float))
    if (np.diff(turns) <= 0.0).any():
        msg = "ring: the differences of heading do not rise; give them from the least up"
        raise BoomwrightError(msg)
    pair = _Pair(
        fixed=fixed,
        turning=turning,
        ground=ground,
        far_ground=far_ground,
        idle=idle,
        prepare=remembering(prepare),
    )
    own = math.remainder(turning.heading - fixed.heading, math.tau)
    readings = [_read(pair, fed=fed, turns=np.radians(turns), own=own) for fed in (0, 1)]
    return RingSweep(
        turn_deg=turns,
        own_deg=math.degrees(own),
        idle=idle,
        fixed=readings[0],
        turning=readings[1],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    """Both beams over their ground, to be solved at any difference of heading."""

    fixed: Beam
    turning: Beam
    ground: Ground
    far_ground: ZonedGround | None
    idle: Idle
    prepare: Preparer

    def fed(
        self,
        number: int,
        *,
        turn: float,
        elevation: Floats,
        method: GroundMethod,
        detail: Detail | None = None,
    ) -> tuple[complex, Floats, Floats]:
        """Impedance [ohm], gain ahead and gain backwards [dBi] of one beam fed alone."""
        stack = solve_stack(
            beams=(self.fixed, replace(self.turning, heading=self.fixed.heading + turn)),
            ground=self.ground,
            frequency=(self.fixed, self.turning)[number].design_frequency,
            detail=detail,
            method=method,
            prepare=self.prepare,
        )
        weights = (1.0 + 0.0j, 0.0j) if number == 0 else (0.0j, 1.0 + 0.0j)
        reading = feed_stack(stack, feeding=Feeding(name="", weights=weights, idle=self.idle))
        # Angles run counter-clockwise from the fixed beam's heading, turns clockwise.
        ahead = 0.0 if number == 0 else -turn
        front, back = (
            stack_gain_dbi(
                reading,
                azimuth=np.full(len(elevation), azimuth),
                elevation=elevation,
                far_ground=self.far_ground,
            )
            for azimuth in (ahead, ahead + math.pi)
        )
        return complex(reading.feed_impedances[number] or 0.0), front, back


def _read(pair: _Pair, *, fed: int, turns: Floats, own: float) -> RingReading:
    beam = (pair.fixed, pair.turning)[fed]
    angle = np.arange(_PEAK_STEP_DEG, 90.0 + 1e-9, _PEAK_STEP_DEG)
    impedance, front, back = pair.fed(fed, turn=own, elevation=np.radians(angle), method="exact")
    peak = int(np.argmax(front))
    exact = (impedance, float(front[peak]), float(front[peak] - back[peak]))
    at = np.radians(angle[peak : peak + 1])

    def quick(turn: float, detail: Detail | None = None) -> tuple[complex, float, float]:
        z, ahead, behind = pair.fed(fed, turn=turn, elevation=at, method="image", detail=detail)
        return z, float(ahead[0]), float(ahead[0] - behind[0])

    found = [quick(float(turn)) for turn in turns]
    here = quick(own)
    highest = max([beam.design_frequency, *pair.fixed.band, *pair.turning.band])
    finer = quick(own, detail=reference_detail(frequency=highest))
    band = [abs(a - b) + abs(c - b) for a, b, c in zip(exact, here, finer, strict=True)]
    return RingReading(
        name=beam.name,
        frequency=beam.design_frequency,
        elevation_deg=float(angle[peak]),
        gain_dbi=np.array([each[1] for each in found]),
        front_to_back_db=np.array([each[2] for each in found]),
        impedance=np.array([each[0] for each in found]),
        gain_error_db=float(band[1]),
        front_to_back_error_db=float(band[2]),
        impedance_error=float(band[0]),
    )
