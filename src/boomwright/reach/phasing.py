"""What stacking gives, with its band, and the best spacing and phasing for a wanted angle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import VACUUM_IMPEDANCE, BoomwrightError, read_only
from boomwright.parts import Beam
from boomwright.reach.stack import Feeding, Stack, feed_stack, solve_stack, stack_gain_dbi
from boomwright.solver import (
    Ground,
    Preparer,
    far_field,
    prepare_run,
    reference_detail,
    remembering,
)

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: step of the phases tried [deg]
_PHASE_STEP_DEG = 5.0
#: step of the elevations in which a peak is sought [deg]
_PEAK_STEP_DEG = 0.25


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PhaseScan:
    """Gain of two beams with equal feed currents against the phase between them.

    Parameters
    ----------
    elevation_deg
        wanted elevation [deg]
    phase_deg
        phase of the second feed current behind the first's, 0 to 360 [deg] (n,)
    gain_dbi
        gain towards the heading at that elevation [dBi] (n,)
    best_phase_deg
        phase of the greatest gain [deg]
    best_gain_dbi
        that gain [dBi]
    bound_dbi
        gain with currents of any size and phase, a bound no feeding can exceed [dBi]
    """

    elevation_deg: float
    phase_deg: NDArray[np.float64]
    gain_dbi: NDArray[np.float64]
    best_phase_deg: float
    best_gain_dbi: float
    bound_dbi: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "phase_deg", read_only(self.phase_deg))
        object.__setattr__(self, "gain_dbi", read_only(self.gain_dbi))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpacingScan:
    """In-phase gain of two beams against the height of the lower one.

    Parameters
    ----------
    elevation_deg
        wanted elevation [deg]
    heights
        height of the lower beam [m] (n,)
    gain_dbi
        gain of both in phase [dBi] (n,)
    alone_dbi
        gain of the upper beam alone, the lower one idle [dBi] (n,)
    best_height
        height of the lower beam with the greatest gain [m]
    """

    elevation_deg: float
    heights: NDArray[np.float64]
    gain_dbi: NDArray[np.float64]
    alone_dbi: NDArray[np.float64]
    best_height: float

    def __post_init__(self) -> None:
        for name in ("heights", "gain_dbi", "alone_dbi"):
            object.__setattr__(self, name, read_only(getattr(self, name)))


def _port_fields(stack: Stack, *, elevation: float) -> Complexes:
    """Far field towards the heading for one ampere at each feed, both components (2, n)."""
    impedance = stack.impedance
    columns = []
    for feed in range(len(stack.beams)):
        source = stack.source(voltages=impedance[:, feed])
        vertical, horizontal = far_field(
            source=source,
            azimuth=np.zeros(1),
            elevation=np.array([elevation]),
            ground=stack.ground,
        )
        columns.append([vertical[0, 0], horizontal[0, 0]])
    return np.array(columns).T


def scan_phase(stack: Stack, *, elevation_deg: float) -> PhaseScan:
    """Turn the phase between two beams and read the gain at a wanted elevation.

    Parameters
    ----------
    stack
        two beams [-]
    elevation_deg
        wanted elevation, above 0 [deg]

    Returns
    -------
    PhaseScan
        gains, the best phase and the bound of any feeding [-]

    Raises
    ------
    BoomwrightError
        when the stack has not two beams

    Notes
    -----
    Gain is a ratio of two quadratic forms of the feed currents; its bound is the largest
    eigenvalue of R^-1 e e^H {harrington-1968}.
    """
    if len(stack.beams) != 2:
        msg = f"phase scan: {len(stack.beams)} beams; the phase is turned between two"
        raise BoomwrightError(msg)
    fields = _port_fields(stack, elevation=np.radians(elevation_deg))
    resistance = stack.impedance.real
    phase = np.arange(0.0, 360.0 + 1e-9, _PHASE_STEP_DEG)
    current = np.stack([np.ones(len(phase)), np.exp(-1j * np.radians(phase))])
    strength = (np.abs(fields @ current) ** 2).sum(axis=0) / (2.0 * VACUUM_IMPEDANCE)
    power = 0.5 * np.einsum("ip,ij,jp->p", current.conj(), resistance, current).real
    gain = 10.0 * np.log10(np.maximum(4.0 * np.pi * strength / power, 1e-6))
    form = np.linalg.solve(resistance, fields.conj().T @ fields)
    largest = float(np.linalg.eigvals(form).real.max())
    best = int(np.argmax(gain))
    return PhaseScan(
        elevation_deg=elevation_deg,
        phase_deg=phase,
        gain_dbi=gain,
        best_phase_deg=float(phase[best]),
        best_gain_dbi=float(gain[best]),
        bound_dbi=float(10.0 * np.log10(4.0 * np.pi * largest / VACUUM_IMPEDANCE)),
    )


def scan_spacing(
    *,
    beams: Sequence[Beam],
    ground: Ground,
    frequency: float,
    elevation_deg: float,
    heights: ArrayLike,
    prepare: Preparer = prepare_run,
) -> SpacingScan:
    """Move the lower of two beams and read the in-phase gain at a wanted elevation.

    Parameters
    ----------
    beams
        lower beam, then upper beam [-] (2,)
    ground
        ground below them [-]
    frequency
        frequency [Hz]
    elevation_deg
        wanted elevation [deg]
    heights
        heights of the lower beam to try [m] (n,)
    prepare
        prepares one run of wire; pass one that remembers to save time [-]

    Returns
    -------
    SpacingScan
        gain together and of the upper beam alone at each height [-]
    """
    lower, upper = beams
    tried = np.atleast_1d(np.asarray(heights, dtype=float))
    at = (np.zeros(1), np.array([np.radians(elevation_deg)]))
    together: list[float] = []
    alone: list[float] = []
    for height in tried:
        stack = solve_stack(
            beams=(replace(lower, height=float(height)), upper),
            ground=ground,
            frequency=frequency,
            prepare=prepare,
        )
        for weights, found in (((1.0 + 0j, 1.0 + 0j), together), ((0j, 1.0 + 0j), alone)):
            reading = feed_stack(stack, feeding=Feeding(name="", weights=weights))
            found.append(float(stack_gain_dbi(reading, azimuth=at[0], elevation=at[1])[0]))
    return SpacingScan(
        elevation_deg=elevation_deg,
        heights=tried,
        gain_dbi=np.array(together),
        alone_dbi=np.array(alone),
        best_height=float(tried[int(np.argmax(together))]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class StackingGain:
    """Gain of all beams in phase over the best of them alone, at the angle of each peak.

    Parameters
    ----------
    decibels
        difference of the peak gains towards the heading [dB]
    error_db
        half width of its band: how far a finer cut and, over real ground, half the change to
        the quick treatment of the ground move the difference [dB]
    over_bare_db
        the same against the best beam with the others taken off the tower [dB]
    peak_gain_dbi
        peak gain in phase [dBi]
    peak_elevation_deg
        its elevation [deg]
    power_balance
        in phase, over perfect ground or in free space; NaN over real ground [-]
    """

    decibels: float
    error_db: float
    over_bare_db: float
    peak_gain_dbi: float
    peak_elevation_deg: float
    power_balance: float


def stacking_gain(
    *,
    beams: Sequence[Beam],
    ground: Ground,
    frequency: float,
    prepare: Preparer = prepare_run,
) -> StackingGain:
    """Find what feeding all beams in phase gains over the best one alone.

    Parameters
    ----------
    beams
        the beams [-] (n_beams,)
    ground
        ground below them [-]
    frequency
        frequency [Hz]
    prepare
        prepares one run of wire; pass one that remembers to save time [-]

    Returns
    -------
    StackingGain
        the difference with its band [-]
    """
    prepare = remembering(prepare)
    highest = max([frequency, *(edge for beam in beams for edge in beam.band)])

    def solved(fine: bool = False, quick: bool = False) -> Stack:
        return solve_stack(
            beams=beams,
            ground=ground,
            frequency=frequency,
            detail=reference_detail(frequency=highest) if fine else None,
            method="image" if quick else "exact",
            prepare=prepare,
        )

    stack = solved()
    gain, peak, elevation = _stacking(stack)
    error = abs(_stacking(solved(fine=True))[0] - gain)
    if ground.kind == "real":
        error += 0.5 * abs(_stacking(solved(quick=True))[0] - gain)
    bare = max(
        _stacking(solve_stack(beams=(beam,), ground=ground, frequency=frequency, prepare=prepare))[
            1
        ]
        for beam in beams
    )
    return StackingGain(
        decibels=gain,
        error_db=error,
        over_bare_db=peak - bare,
        peak_gain_dbi=peak,
        peak_elevation_deg=elevation,
        power_balance=feed_stack(stack, feeding=in_phase(len(stack.beams))).power_balance,
    )


def in_phase(count: int) -> Feeding:
    """Feed all beams with equal currents in phase.

    Parameters
    ----------
    count
        number of beams [-]

    Returns
    -------
    Feeding
        the feeding [-]
    """
    return Feeding(name="in phase", weights=(1.0 + 0.0j,) * count)


def _stacking(stack: Stack) -> tuple[float, float, float]:
    """In-phase peak over the best single peak [dB], that peak [dBi] and its elevation [deg]."""
    count = len(stack.beams)
    angle_deg = np.arange(0.0, 90.0 + 1e-9, _PEAK_STEP_DEG)
    elevation = np.radians(angle_deg)

    def gain(feeding: Feeding, turn: float = 0.0) -> Floats:
        reading = feed_stack(stack, feeding=feeding)
        return stack_gain_dbi(reading, azimuth=np.full(len(elevation), turn), elevation=elevation)

    both = gain(in_phase(count))
    first = stack.beams[0].heading
    alone = max(
        float(
            gain(
                Feeding(name="", weights=tuple(complex(k == fed) for k in range(count))),
                turn=first - stack.beams[fed].heading,
            ).max()
        )
        for fed in range(count)
    )
    best = int(np.argmax(both))
    return float(both[best]) - alone, float(both[best]), float(angle_deg[best])
