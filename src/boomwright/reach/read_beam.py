"""From a beam and its ground to everything the page, the book and the command line show."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.parts import Beam
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.notices import reading_notices
from boomwright.reach.pattern_cuts import azimuth_cut, elevation_cut
from boomwright.reach.readings import BeamReadings, Lobe, OverGround
from boomwright.solver import (
    BeamSolution,
    Detail,
    ErrorBand,
    Figures,
    Ground,
    GroundMethod,
    PatternCut,
    Preparer,
    SweepPoint,
    element_currents,
    error_band,
    feed_capacitance,
    gain_dbi,
    mount_edges,
    prepare_run,
    radiated_power,
    reference_detail,
    remembering,
    solve_assembled,
    solve_beam,
    solve_beam_both,
    standing_wave_ratio,
    working_detail,
)

Floats = NDArray[np.float64]

#: step of the elevation cut over ground, fine enough for the lobes of a high beam [deg]
_LOBE_STEP_DEG = 0.25
#: the same while a hand moves [deg]
_QUICK_LOBE_STEP_DEG = 0.5
#: where that cut ends: past the zenith, so that a lobe or null there is still seen to turn [deg]
_QUICK_LAST_DEG = 95.0
#: step of azimuth cuts while a hand moves [deg]
_QUICK_AZIMUTH_STEP_DEG = 2.0
#: step of the search for the strongest gain in the rear half-plane [deg]
_REAR_STEP_DEG = 2.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class QuickLook:
    """What changes under the hand: figures and pattern at one frequency."""

    point: SweepPoint  #: free-space figures
    azimuth_pattern: PatternCut  #: free-space cut at elevation 0
    over_ground: OverGround | None  #: lobes over the ground; None when the plan says free space


def read_beam(
    *,
    beam: Beam,
    ground: Ground,
    frequencies: Floats,
    reference_resistance: float = 50.0,
    prepare: Preparer = prepare_run,
) -> BeamReadings:
    """Compute all readings of a beam.

    Parameters
    ----------
    frequencies
        frequencies of the sweep, rising [Hz] (f,)
    reference_resistance
        resistance the standing wave ratio is held against [ohm]
    prepare
        prepares one run of wire; pass one that remembers to save time
    """
    prepare = remembering(prepare)
    highest = float(max(*beam.band, *frequencies))
    every = np.append(frequencies, beam.design_frequency)
    detail = working_detail(frequency=highest)
    solution = solve_beam(beam=beam, frequencies=every, detail=detail, prepare=prepare)
    figures = _figures(solution)
    twice = np.unique([every.min(), beam.design_frequency, every.max()])
    band = _band(
        beam=beam,
        few=_at(figures, twice),
        figures=figures,
        reference=reference_resistance,
        prepare=prepare,
    )
    points = _sweep_points(solution, figures, band, reference_resistance)
    design = len(every) - 1
    at_design = solution.at_frequency(number=design)
    balance = 1.0 - float(
        (radiated_power(source=at_design.source)[0] + at_design.lost[0]) / at_design.accepted[0]
    )
    over_ground = _over_ground(
        beam, ground, float(band.gain_db[design]), beam.design_frequency, prepare
    )
    return BeamReadings(
        beam=beam,
        reference_resistance=reference_resistance,
        sweep=points[:-1],
        free_space=points[-1],
        power_balance=balance,
        azimuth_pattern=azimuth_cut(solution, design),
        elevation_pattern=elevation_cut(solution, design),
        currents=element_currents(solution=solution, at=design),
        over_ground=over_ground,
        notices=reading_notices(beam=beam, sweep=points, balance=balance, over_ground=over_ground),
    )


def quick_look(
    *,
    beam: Beam,
    ground: Ground,
    frequency: float,
    reference_resistance: float = 50.0,
    previous: SweepPoint | None = None,
    prepare: Preparer = prepare_run,
) -> QuickLook:
    """Compute what a hand on the beam wants to see at once.

    Parameters
    ----------
    frequency
        the one frequency [Hz]
    reference_resistance
        resistance the standing wave ratio is held against [ohm]
    previous
        figures of the same beam a moment ago, whose error band is kept; None computes it
    """
    prepare = remembering(prepare)
    highest = max(*beam.band, frequency)
    at = np.array([frequency])
    detail = working_detail(frequency=highest)
    over: BeamSolution | None = None
    # Under the hand the quick image will do; a pause brings the exact integrals.
    method: GroundMethod = "exact" if previous is None else "image"
    if ground.kind == "real":
        solution, over = solve_beam_both(
            beam=beam,
            frequencies=at,
            detail=detail,
            ground=ground,
            method=method,
            prepare=prepare,
        )
    else:
        solution = solve_beam(beam=beam, frequencies=at, detail=detail, prepare=prepare)
    figures = _figures(solution)
    if previous is None:
        band = _band(
            beam=beam,
            few=figures,
            figures=figures,
            reference=reference_resistance,
            prepare=prepare,
        )
    else:
        band = ErrorBand(
            impedance=np.array([previous.impedance_error]),
            swr=np.array([previous.swr_error]),
            gain_db=np.array([previous.gain_error_db]),
            front_to_back_db=np.array([previous.front_to_back_error_db]),
        )
    return QuickLook(
        point=_sweep_points(solution, figures, band, reference_resistance)[0],
        azimuth_pattern=azimuth_cut(solution, 0, step=_azimuth_step(method)),
        over_ground=_over_ground(
            beam,
            ground,
            float(band.gain_db[0]),
            frequency,
            prepare,
            method=method,
            solution=over,
        ),
    )


def _figures(solution: BeamSolution) -> Figures:
    gain = gain_dbi(solution=solution, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2))
    return Figures(
        frequencies=solution.frequencies,
        impedance=solution.impedance,
        gain_dbi=gain[:, 0],
        front_to_back_db=gain[:, 0] - gain[:, 1],
    )


def _band(
    *, beam: Beam, few: Figures, figures: Figures, reference: float, prepare: Preparer
) -> ErrorBand:
    """Bands at all frequencies, from a few that are solved with finer pieces and other mounts."""
    highest = float(max(*beam.band, *figures.frequencies))
    working, finer = working_detail(frequency=highest), reference_detail(frequency=highest)

    def solved(other: Beam, detail: Detail) -> Figures:
        return _figures(
            solve_beam(beam=other, frequencies=few.frequencies, detail=detail, prepare=prepare)
        )

    return error_band(
        figures=few,
        finer=solved(beam, finer),
        edges=tuple(solved(edge, working) for edge in mount_edges(beam=beam)),
        shunt=feed_capacitance(beam=beam),
        frequencies=figures.frequencies,
        impedance=figures.impedance,
        reference=reference,
    )


def _at(figures: Figures, frequencies: Floats) -> Figures:
    """Figures at a subset of the frequencies they were computed for."""
    rows = [int(np.flatnonzero(figures.frequencies == f)[0]) for f in frequencies]
    return Figures(
        frequencies=frequencies,
        impedance=figures.impedance[rows],
        gain_dbi=figures.gain_dbi[rows],
        front_to_back_db=figures.front_to_back_db[rows],
    )


def _sweep_points(
    solution: BeamSolution, figures: Figures, band: ErrorBand, reference: float
) -> tuple[SweepPoint, ...]:
    rear = np.radians(np.arange(90.0, 180.0 + _REAR_STEP_DEG / 2.0, _REAR_STEP_DEG))
    # Without further wires a beam is the same on both sides of its heading.
    both_sides = np.concatenate([rear, -rear]) if solution.beam.wires else rear
    behind = gain_dbi(
        solution=solution, azimuth=both_sides, elevation=np.zeros(len(both_sides))
    ).max(axis=1)
    swr = standing_wave_ratio(impedance=figures.impedance, reference=reference)
    return tuple(
        SweepPoint(
            frequency=float(figures.frequencies[row]),
            impedance=complex(figures.impedance[row]),
            swr=float(swr[row]),
            gain_dbi=float(figures.gain_dbi[row]),
            front_to_back_db=float(figures.front_to_back_db[row]),
            front_to_rear_db=float(figures.gain_dbi[row] - behind[row]),
            efficiency=float(solution.efficiency[row]),
            impedance_error=float(band.impedance[row]),
            swr_error=float(band.swr[row]),
            gain_error_db=float(band.gain_db[row]),
            front_to_back_error_db=float(band.front_to_back_db[row]),
        )
        for row in range(len(figures.frequencies))
    )


def _over_ground(
    beam: Beam,
    ground: Ground,
    gain_error_db: float,
    frequency: float,
    prepare: Preparer,
    *,
    method: GroundMethod = "exact",
    solution: BeamSolution | None = None,
) -> OverGround | None:
    if ground.kind == "free space":
        return None
    detail = working_detail(frequency=max(*beam.band, frequency))
    solution = solution or solve_beam(
        beam=beam,
        frequencies=np.array([frequency]),
        detail=detail,
        ground=ground,
        method=method,
        prepare=prepare,
    )
    if method == "exact":
        gain_error_db += _ground_doubt_db(solution, ground)
    cut = elevation_cut(
        solution,
        0,
        ground=ground,
        height=beam.height,
        step=_LOBE_STEP_DEG if method == "exact" else _QUICK_LOBE_STEP_DEG,
        last=180.0 if method == "exact" else _QUICK_LAST_DEG,
    )
    lobes, nulls = forward_lobes(elevation_deg=cut.angle_deg, gain_dbi=cut.gain_dbi)
    found = tuple(Lobe(elevation_deg=place, gain_dbi=level) for place, level in lobes)
    peak = max(found, key=lambda lobe: lobe.gain_dbi, default=_strongest_ahead(cut))
    return OverGround(
        ground=ground,
        height=beam.height,
        impedance=complex(solution.impedance[0]),
        peak_gain_dbi=peak.gain_dbi,
        peak_elevation_deg=peak.elevation_deg,
        gain_error_db=float(gain_error_db),
        lobes=found,
        nulls_deg=tuple(nulls),
        elevation_pattern=cut,
        azimuth_pattern=azimuth_cut(
            solution,
            0,
            ground=ground,
            height=beam.height,
            elevation_deg=peak.elevation_deg,
            step=_azimuth_step(method),
        ),
    )


def _strongest_ahead(cut: PatternCut) -> Lobe:
    """Strongest place of an elevation cut on the side of the heading, lobe or not."""
    ahead = cut.angle_deg <= 90.0
    best = int(np.argmax(cut.gain_dbi[ahead]))
    return Lobe(elevation_deg=float(cut.angle_deg[best]), gain_dbi=float(cut.gain_dbi[best]))


def _azimuth_step(method: GroundMethod) -> float:
    """Step of azimuth cuts: no lobe is narrow enough to miss one under the hand [deg]."""
    return 1.0 if method == "exact" else _QUICK_AZIMUTH_STEP_DEG


def _ground_doubt_db(solution: BeamSolution, ground: Ground) -> float:
    """Half the difference in accepted power between the two ways of treating real ground [dB]."""
    if ground.kind != "real":
        return 0.0
    quick = solve_assembled(
        beam=solution.beam,
        assembly=solution.currents.assembly,
        frequencies=solution.frequencies,
        ground=ground,
        method="image",
    )
    overhead = (np.zeros(1), np.full(1, np.pi / 6.0))
    gains = [
        gain_dbi(
            solution=each,
            azimuth=overhead[0],
            elevation=overhead[1],
            ground=ground,
            height=solution.beam.height,
        )[0, 0]
        for each in (solution, quick)
    ]
    return 0.5 * abs(float(gains[0] - gains[1]))
