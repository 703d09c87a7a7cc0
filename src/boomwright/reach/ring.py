"""Two beams on one tower, one on a ring that turns: what each does as the headings part.

Every difference of heading is solved with all wires of both beams and the ground, so the
coupling is in the figures. Over real ground the sweep takes the quick image of the ground; how
far the exact integrals and a finer cut move the figures, at the headings of the plan, is their
band.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.reach.ground_zones import ZonedGround
from boomwright.reach.stack import (
    Feeding,
    Idle,
    Stack,
    feed_stack,
    solve_stack,
    stack_gain_dbi,
)
from boomwright.solver import (
    Ground,
    GroundMethod,
    Preparer,
    prepare_run,
    reference_detail,
    remembering,
)

#: step of the differences of heading [deg]
_STEP_DEG = 15.0
#: elevations in which the strongest lobe is sought [deg]
_PEAK_STEP_DEG = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RingReading(ReadOnlyArrays):
    """What one of the beams does as the other turns away from it."""

    name: str  #: the beam
    frequency: float  #: its design frequency [Hz]
    elevation_deg: float  #: elevation of its strongest lobe at the headings of the plan [deg]
    gain_dbi: NDArray[np.float64]  #: gain towards its own heading at that elevation [dBi] (n,)
    #: the same over the gain exactly backwards at that elevation [dB] (n,)
    front_to_back_db: NDArray[np.float64]
    impedance: NDArray[np.complex128]  #: at its feed [ohm] (n,)
    gain_error_db: float  #: half widths of their bands [dB]
    front_to_back_error_db: float  #: half widths of their bands [dB]
    impedance_error: float  #: half width of the band of the impedance [ohm]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RingSweep(ReadOnlyArrays):
    """Both beams against the difference of their headings."""

    #: heading of the turning beam less that of the other, clockwise [deg] (n,)
    turn_deg: NDArray[np.float64]
    own_deg: float  #: the same in the plan, within half a turn [deg]
    idle: Idle  #: what hangs on the feed of the beam that is not fed
    fixed: RingReading  #: what each does, fed alone
    turning: RingReading


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

    Args:
        turn_deg: differences of heading, rising; None for steps of 15 degrees, over half a turn
            where both
            beams are alike on both sides of their booms [deg] (n,)

    Raises:
        BoomwrightError: when the differences do not rise
        SolverError: when the wires cannot be modelled
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
    angle = np.arange(_PEAK_STEP_DEG, 90.0 + 1e-9, _PEAK_STEP_DEG)
    exact = pair.both(turn=own, elevations=(np.radians(angle),) * 2, method="exact")
    peaks = [int(np.argmax(each.front)) for each in exact]
    at = tuple(np.radians(angle[peak : peak + 1]) for peak in peaks)
    here = pair.both(turn=own, elevations=at, method="image")
    fine = pair.both(turn=own, elevations=at, method="image", fine=True)
    swept = [pair.both(turn=math.radians(turn), elevations=at, method="image") for turn in turns]
    readings = [
        _reading(
            beam,
            elevation_deg=float(angle[peaks[number]]),
            swept=[each[number] for each in swept],
            band=_band(exact[number].at(peaks[number]), here[number].at(0), fine[number].at(0)),
        )
        for number, beam in enumerate((fixed, turning))
    ]
    return RingSweep(
        turn_deg=turns,
        own_deg=math.degrees(own),
        idle=idle,
        fixed=readings[0],
        turning=readings[1],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fed:
    """One beam fed alone: impedance [ohm], gain ahead and gain backwards [dBi] (e,)."""

    impedance: complex
    front: Floats
    back: Floats

    def at(self, number: int) -> tuple[complex, float, float]:
        """Impedance, gain and front-to-back ratio at one elevation."""
        front = float(self.front[number])
        return self.impedance, front, front - float(self.back[number])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    """Both beams over their ground, to be solved at any difference of heading."""

    fixed: Beam
    turning: Beam
    ground: Ground
    far_ground: ZonedGround | None
    idle: Idle
    prepare: Preparer

    def both(
        self,
        *,
        turn: float,
        elevations: tuple[Floats, ...],
        method: GroundMethod,
        fine: bool = False,
    ) -> tuple[_Fed, _Fed]:
        """Feed each beam alone at one difference of heading; one solution a frequency."""
        beams = (self.fixed, replace(self.turning, heading=self.fixed.heading + turn))
        solved: dict[float, Stack] = {}
        found = []
        for number, beam in enumerate(beams):
            frequency = beam.design_frequency
            if frequency not in solved:
                highest = max([frequency, *self.fixed.band, *self.turning.band])
                solved[frequency] = solve_stack(
                    beams=beams,
                    ground=self.ground,
                    frequency=frequency,
                    detail=reference_detail(frequency=highest) if fine else None,
                    method=method,
                    prepare=self.prepare,
                )
            found.append(self._fed(solved[frequency], number, turn, elevations[number]))
        return found[0], found[1]

    def _fed(self, stack: Stack, number: int, turn: float, elevation: Floats) -> _Fed:
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
        return _Fed(
            impedance=complex(reading.feed_impedances[number] or 0.0), front=front, back=back
        )


def _band(
    exact: tuple[complex, float, float],
    here: tuple[complex, float, float],
    fine: tuple[complex, float, float],
) -> tuple[float, float, float]:
    """How far the exact ground and a finer cut move impedance, gain and front-to-back ratio."""
    impedance, gain, ratio = (
        abs(a - b) + abs(c - b) for a, b, c in zip(exact, here, fine, strict=True)
    )
    return float(impedance), float(gain), float(ratio)


def _reading(
    beam: Beam, *, elevation_deg: float, swept: list[_Fed], band: tuple[float, float, float]
) -> RingReading:
    figures = [each.at(0) for each in swept]
    return RingReading(
        name=beam.name,
        frequency=beam.design_frequency,
        elevation_deg=elevation_deg,
        gain_dbi=np.array([gain for _, gain, _ in figures]),
        front_to_back_db=np.array([ratio for _, _, ratio in figures]),
        impedance=np.array([impedance for impedance, _, _ in figures]),
        gain_error_db=band[1],
        front_to_back_error_db=band[2],
        impedance_error=band[0],
    )
