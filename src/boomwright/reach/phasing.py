"""What stacking gives, with its band, and the best spacing and phasing for a wanted angle."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import VACUUM_IMPEDANCE, BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Conductor
from boomwright.reach.ground_zones import ZonedGround, zoned_far_field
from boomwright.reach.stack import Feeding, Stack, feed_stack, solve_stack, stack_gain_dbi
from boomwright.solver import (
    Ground,
    Preparer,
    far_field,
    prepare_run,
    reference_detail,
    remembering,
)

#: step of the phases tried [deg]
_PHASE_STEP_DEG = 5.0
#: step of the elevations in which a peak is sought [deg]
_PEAK_STEP_DEG = 0.25


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PhaseScan(ReadOnlyArrays):
    """Gain of two beams with equal feed currents against the phase between them."""

    elevation_deg: float  #: wanted elevation [deg]
    #: phase of the second feed current behind the first's, 0 to 360 [deg] (n,)
    phase_deg: NDArray[np.float64]
    gain_dbi: NDArray[np.float64]  #: gain towards the heading at that elevation [dBi] (n,)
    best_phase_deg: float  #: phase of the greatest gain [deg]
    best_gain_dbi: float  #: that gain [dBi]
    #: gain with currents of any size and phase, a bound no feeding can exceed [dBi]
    bound_dbi: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpacingScan(ReadOnlyArrays):
    """In-phase gain of two beams against the height of the lower one."""

    elevation_deg: float  #: wanted elevation [deg]
    heights: NDArray[np.float64]  #: height of the lower beam [m] (n,)
    gain_dbi: NDArray[np.float64]  #: gain of both in phase [dBi] (n,)
    alone_dbi: NDArray[np.float64]  #: gain of the upper beam alone, the lower one idle [dBi] (n,)
    best_height: float  #: height of the lower beam with the greatest gain [m]


def _port_fields(stack: Stack, *, elevation: float, far_ground: ZonedGround | None) -> Complexes:
    """Far field towards the heading for one ampere at each feed, both components (2, n)."""
    impedance = stack.impedance
    ahead, at = np.zeros(1), np.array([elevation])
    columns = []
    for feed, beam in enumerate(stack.beams):
        source = stack.source(voltages=impedance[:, feed])
        if far_ground is None:
            vertical, horizontal = far_field(
                source=source, azimuth=ahead, elevation=at, ground=stack.ground
            )
        else:
            vertical, horizontal = zoned_far_field(
                source, azimuth=ahead, elevation=at, ground=far_ground, height=beam.height
            )
        columns.append([vertical[0, 0], horizontal[0, 0]])
    return np.array(columns).T


def scan_phase(
    stack: Stack, *, elevation_deg: float, far_ground: ZonedGround | None = None
) -> PhaseScan:
    """Turn the phase between two beams and read the gain at a wanted elevation.

    Args:
        elevation_deg: wanted elevation, above 0 [deg]

    Raises:
        BoomwrightError: when the stack has not two beams

    Notes:
        Gain is a ratio of two quadratic forms of the feed currents; its bound is the largest
        eigenvalue of R^-1 e e^H {harrington-1968}.
    """
    if len(stack.beams) != 2:
        msg = f"phase scan: {len(stack.beams)} beams; the phase is turned between two"
        raise BoomwrightError(msg)
    fields = _port_fields(stack, elevation=np.radians(elevation_deg), far_ground=far_ground)
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
    elevations_deg: Sequence[float],
    heights: ArrayLike,
    beside: Sequence[Beam] = (),
    conductors: Sequence[Conductor] = (),
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> tuple[SpacingScan, ...]:
    """Move the lower of two beams and read the in-phase gain at wanted elevations.

    Args:
        beams: lower beam, then upper beam (2,)
        elevations_deg: wanted elevations [deg] (n_elevations,)
        heights: heights of the lower beam to try [m] (n,)
    """
    lower, upper = beams
    tried = np.atleast_1d(np.asarray(heights, dtype=float))
    elevation = np.radians(np.asarray(elevations_deg, dtype=float))
    together, alone = np.empty((2, len(tried), len(elevation)))
    for row, height in enumerate(tried):
        stack = solve_stack(
            beams=(replace(lower, height=float(height)), upper),
            beside=beside,
            conductors=conductors,
            ground=ground,
            frequency=frequency,
            prepare=prepare,
        )
        for weights, found in (((1.0 + 0j, 1.0 + 0j), together), ((0j, 1.0 + 0j), alone)):
            reading = feed_stack(stack, feeding=Feeding(name="", weights=weights))
            found[row] = stack_gain_dbi(
                reading,
                azimuth=np.zeros(len(elevation)),
                elevation=elevation,
                far_ground=far_ground,
            )
    return tuple(
        SpacingScan(
            elevation_deg=float(angle),
            heights=tried,
            gain_dbi=together[:, column],
            alone_dbi=alone[:, column],
            best_height=float(tried[int(np.argmax(together[:, column]))]),
        )
        for column, angle in enumerate(elevations_deg)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class StackingGain:
    """Gain of all beams in phase over the best of them alone, at the angle of each peak."""

    decibels: float  #: difference of the peak gains towards the heading [dB]
    #: half width of its band: how far a finer cut and, over real ground, half the change to the
    #: quick treatment of the ground move the difference [dB]
    error_db: float
    over_bare_db: float  #: the same against the best beam with the others taken off the tower [dB]
    peak_gain_dbi: float  #: peak gain in phase [dBi]
    peak_elevation_deg: float  #: its elevation [deg]
    #: in phase, over perfect ground or in free space; NaN over real ground [-]
    power_balance: float


def stacking_gain(
    *,
    beams: Sequence[Beam],
    ground: Ground,
    frequency: float,
    beside: Sequence[Beam] = (),
    conductors: Sequence[Conductor] = (),
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> StackingGain:
    """Find what feeding all beams in phase gains over the best one alone."""
    prepare = remembering(prepare)
    highest = max([frequency, *(edge for beam in beams for edge in beam.band)])

    def solved(fine: bool = False, quick: bool = False) -> Stack:
        return solve_stack(
            beams=beams,
            beside=beside,
            conductors=conductors,
            ground=ground,
            frequency=frequency,
            detail=reference_detail(frequency=highest) if fine else None,
            method="image" if quick else "exact",
            prepare=prepare,
        )

    stack = solved()
    gain, peak, elevation = _stacking(stack, far_ground)
    error = abs(_stacking(solved(fine=True), far_ground)[0] - gain)
    if ground.kind == "real":
        error += 0.5 * abs(_stacking(solved(quick=True), far_ground)[0] - gain)
    singles = [
        solve_stack(
            beams=(beam,),
            beside=beside,
            conductors=conductors,
            ground=ground,
            frequency=frequency,
            prepare=prepare,
        )
        for beam in beams
    ]
    bare = max(_stacking(single, far_ground)[1] for single in singles)
    return StackingGain(
        decibels=gain,
        error_db=error,
        over_bare_db=peak - bare,
        peak_gain_dbi=peak,
        peak_elevation_deg=elevation,
        power_balance=feed_stack(stack, feeding=in_phase(len(stack.beams))).power_balance,
    )


def in_phase(count: int) -> Feeding:
    """Feed all beams with equal currents in phase."""
    return Feeding(name="in phase", weights=(1.0 + 0.0j,) * count)


def _stacking(stack: Stack, far_ground: ZonedGround | None) -> tuple[float, float, float]:
    """In-phase peak over the best single peak [dB], that peak [dBi] and its elevation [deg]."""
    count = len(stack.beams)
    angle_deg = np.arange(0.0, 90.0 + 1e-9, _PEAK_STEP_DEG)
    elevation = np.radians(angle_deg)

    def gain(feeding: Feeding, turn: float = 0.0) -> Floats:
        reading = feed_stack(stack, feeding=feeding)
        return stack_gain_dbi(
            reading,
            azimuth=np.full(len(elevation), turn),
            elevation=elevation,
            far_ground=far_ground,
        )

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
