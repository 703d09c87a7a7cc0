"""From a beam and its ground to everything the page, the book and the command line show."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.parts import Beam, IdleFeed
from boomwright.reach.ahead import LOBE_STEP_DEG, front_to_rear, strongest_ahead
from boomwright.reach.beside import notices_of, read_beside
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.notices import reading_notices
from boomwright.reach.pattern_cuts import azimuth_cut, elevation_cut
from boomwright.reach.readings import (
    BeamReadings,
    Drive,
    Known,
    Lobe,
    MainLobe,
    OverGround,
    QuickLook,
)
from boomwright.solver import (
    BeamSolution,
    Detail,
    ErrorBand,
    Figures,
    Ground,
    PatternCut,
    Preparer,
    SweepPoint,
    element_currents,
    error_band,
    feed_capacitance,
    gain_dbi,
    mount_edges,
    prepare_run,
    reference_detail,
    remembering,
    settled_feeds,
    solve_beam,
    solve_beam_both,
    standing_wave_ratio,
    standing_wave_spread,
    step_safety,
    working_detail,
)

#: how far a beam moved by hand may drift from the one whose bands are carried over; chosen on
#: random beams so that the band still covers more than 95 % (docs/benchmarks/error_calibration.md)
_DRIFT = 1.6


def carried_impedance(impedance: complex, last: complex, error: float) -> float:
    """Carry the band of an impedance over: an error of the admittance stays, or of itself.

    Args:
        impedance, last: impedance now and when the band was found [ohm]
        error: that band [ohm]

    Returns:
        the band now [ohm]
    """
    return _DRIFT * error * max(1.0, abs(impedance / last) ** 2)


def carried_gain(error: float) -> float:
    """Carry the band of a gain over.

    Args:
        error: that band [dB]

    Returns:
        the band now [dB]
    """
    return _DRIFT * error


def carried_band(*, figures: Figures, last: SweepPoint, reference: float) -> ErrorBand:
    """Carry the free-space bands of a moment ago over to the figures of now.

    Args:
        reference: reference resistance of the standing wave ratio [ohm]
    """
    impedance = complex(figures.impedance[0])
    error = carried_impedance(impedance, last.impedance, last.impedance_error)
    # What is left behind the beam is a difference: the deeper, the more an error of it counts.
    deeper = 10.0 ** (max(0.0, figures.front_to_back_db[0] - last.front_to_back_db) / 20.0)
    return ErrorBand(
        impedance=np.array([error]),
        swr=standing_wave_spread(
            impedance=figures.impedance, error=np.array([error]), reference=reference
        ),
        gain_db=np.array([carried_gain(last.gain_error_db)]),
        front_to_back_db=np.array([_DRIFT * last.front_to_back_error_db * deeper]),
    )


#: the same while a hand moves [deg]
_QUICK_LOBE_STEP_DEG = 0.5
#: step of azimuth cuts while a hand moves [deg]
_QUICK_AZIMUTH_STEP_DEG = 2.0


def read_beam(
    *,
    beam: Beam,
    ground: Ground,
    frequencies: Floats,
    reference_resistance: float = 50.0,
    prepare: Preparer = prepare_run,
) -> BeamReadings:
    """Compute all readings of a beam.

    Args:
        frequencies: frequencies of the sweep, rising [Hz] (f,)
        reference_resistance: resistance the standing wave ratio is held against [ohm]
    """
    prepare = remembering(prepare)
    beside = read_beside(beam=beam, prepare=prepare)
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
    balance = 1.0 - float((at_design.radiated[0] + at_design.lost[0]) / at_design.accepted[0])
    above = at_design
    if ground.kind != "free space":
        above = _solved_over(beam, ground, beam.design_frequency, prepare, fine=False)
    over_ground = _over_ground(
        beam=beam,
        ground=ground,
        frequency=beam.design_frequency,
        prepare=prepare,
        solution=above,
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
        notices=(
            *(() if beside is None else notices_of(beside)),
            *reading_notices(beam=beam, sweep=points, balance=balance, over_ground=over_ground),
        ),
        beside=beside,
        drives=_drives(above),
    )


def _drives(solution: BeamSolution) -> tuple[Drive, ...]:
    """Impedance and current of each of several driven elements; empty for a single one."""
    beam = solution.beam
    if len(beam.driven_indices) < 2:
        return ()
    volts, amperes = solution.drives[0]
    return tuple(
        Drive(
            label=beam.element_labels[number],
            impedance=complex(volts[gap] / amperes[gap]),
            current=complex(amperes[gap] / amperes[0]),
        )
        for gap, number in enumerate(beam.driven_indices)
    )


def quick_look(
    *,
    beam: Beam,
    ground: Ground,
    frequency: float,
    reference_resistance: float = 50.0,
    previous: Known | None = None,
    prepare: Preparer = prepare_run,
) -> QuickLook:
    """Compute what a hand on the beam wants to see at once.

    Args:
        reference_resistance: resistance the standing wave ratio is held against [ohm]
        previous: figures of the same beam a moment ago, whose error bands are carried over;
            None computes
            them
    """
    prepare = remembering(prepare)
    if previous is not None:
        beam = _fed_as_before(beam, previous.feeds)
    highest = max(*beam.band, frequency)
    moving = previous is not None
    at = np.array([frequency])
    detail = working_detail(frequency=highest)
    over: BeamSolution | None = None
    if ground.kind == "real":
        solution, over = solve_beam_both(
            beam=beam, frequencies=at, detail=detail, ground=ground, prepare=prepare
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
        band = carried_band(figures=figures, last=previous.point, reference=reference_resistance)
    return QuickLook(
        point=_sweep_points(solution, figures, band, reference_resistance)[0],
        azimuth_pattern=azimuth_cut(solution, 0, step=_azimuth_step(quick=moving)),
        over_ground=_over_ground(
            beam=beam,
            ground=ground,
            frequency=frequency,
            prepare=prepare,
            quick=moving,
            solution=over,
            last=previous.over_ground if previous is not None else None,
        ),
    )


def _fed_as_before(beam: Beam, feeds: tuple[IdleFeed, ...]) -> Beam:
    """Keep under the hand what was found to do most harm on the feeds nobody speaks of."""
    if len(feeds) != len(beam.neighbours):
        return beam
    others = tuple(
        other if other.idle_feed else replace(other, idle_feed=feed)
        for other, feed in zip(beam.neighbours, feeds, strict=True)
    )
    return replace(beam, neighbours=others)


def idle_feeds(*, beam: Beam) -> tuple[IdleFeed, ...]:
    """What is taken to hang on the feed of each neighbour, for ``Known``."""
    return tuple(other.idle_feed for other in settled_feeds(beam=beam).neighbours)


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
        safety=step_safety(beam=beam),
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
    to_rear = front_to_rear(solution)
    swr = standing_wave_ratio(impedance=figures.impedance, reference=reference)
    return tuple(
        SweepPoint(
            frequency=float(figures.frequencies[row]),
            impedance=complex(figures.impedance[row]),
            swr=float(swr[row]),
            gain_dbi=float(figures.gain_dbi[row]),
            front_to_back_db=float(figures.front_to_back_db[row]),
            front_to_rear_db=float(to_rear[row]),
            efficiency=float(solution.efficiency[row]),
            impedance_error=float(band.impedance[row]),
            swr_error=float(band.swr[row]),
            gain_error_db=float(band.gain_db[row]),
            front_to_back_error_db=float(band.front_to_back_db[row]),
        )
        for row in range(len(figures.frequencies))
    )


def _over_ground(
    *,
    beam: Beam,
    ground: Ground,
    frequency: float,
    prepare: Preparer,
    quick: bool = False,
    solution: BeamSolution | None = None,
    last: OverGround | None = None,
) -> OverGround | None:
    """Read a beam over its ground; bands are computed unless those of a moment ago are given."""
    if ground.kind == "free space":
        return None
    solution = solution or _solved_over(beam, ground, frequency, prepare, fine=False)
    cut = elevation_cut(
        solution,
        0,
        ground=ground,
        height=beam.height,
        step=_QUICK_LOBE_STEP_DEG if quick else LOBE_STEP_DEG,
        last=180.0,
    )
    lobes, nulls = forward_lobes(elevation_deg=cut.angle_deg, gain_dbi=cut.gain_dbi)
    found = tuple(Lobe(elevation_deg=place, gain_dbi=level) for place, level in lobes)
    peak = strongest_ahead(found, cut)
    around = azimuth_cut(
        solution,
        0,
        ground=ground,
        height=beam.height,
        elevation_deg=peak.elevation_deg,
        step=_azimuth_step(quick=quick),
    )
    impedance = complex(solution.impedance[0])
    if last is None:
        impedance_error, gain_error = _ground_band(
            solution, ground=ground, elevation_deg=peak.elevation_deg, prepare=prepare
        )
    else:
        impedance_error = carried_impedance(impedance, last.impedance, last.impedance_error)
        gain_error = carried_gain(last.gain_error_db)
    return OverGround(
        ground=ground,
        height=beam.height,
        impedance=impedance,
        impedance_error=impedance_error,
        peak_gain_dbi=peak.gain_dbi,
        peak_elevation_deg=peak.elevation_deg,
        gain_error_db=gain_error,
        lobes=found,
        nulls_deg=tuple(nulls),
        elevation_pattern=cut,
        azimuth_pattern=around,
        main_lobe=_main_lobe(peak, cut, around),
    )


def _main_lobe(peak: Lobe, cut: PatternCut, around: PatternCut) -> MainLobe:
    """The strongest place of both cuts."""
    found = [MainLobe(azimuth_deg=0.0, elevation_deg=peak.elevation_deg, gain_dbi=peak.gain_dbi)]
    best = int(np.argmax(cut.gain_dbi))
    angle = float(cut.angle_deg[best])
    found.append(
        MainLobe(
            azimuth_deg=0.0 if angle <= 90.0 else 180.0,
            elevation_deg=min(angle, 180.0 - angle),
            gain_dbi=float(cut.gain_dbi[best]),
        )
    )
    best = int(np.argmax(around.gain_dbi))
    found.append(
        MainLobe(
            azimuth_deg=(float(around.angle_deg[best]) + 180.0) % 360.0 - 180.0,
            elevation_deg=around.at_deg,
            gain_dbi=float(around.gain_dbi[best]),
        )
    )
    return max(found, key=lambda lobe: lobe.gain_dbi)


def _azimuth_step(*, quick: bool) -> float:
    """Step of azimuth cuts: no lobe is narrow enough to miss one under the hand [deg]."""
    return _QUICK_AZIMUTH_STEP_DEG if quick else 1.0


def _solved_over(
    beam: Beam, ground: Ground, frequency: float, prepare: Preparer, *, fine: bool
) -> BeamSolution:
    chosen = reference_detail if fine else working_detail
    return solve_beam(
        beam=beam,
        frequencies=np.array([frequency]),
        detail=chosen(frequency=max(*beam.band, frequency)),
        ground=ground,
        prepare=prepare,
    )


def _ground_band(
    solution: BeamSolution, *, ground: Ground, elevation_deg: float, prepare: Preparer
) -> tuple[float, float]:
    """Half widths of impedance [ohm] and gain [dB] over ground, as they are found without it."""
    beam, frequency = solution.beam, float(solution.frequencies[0])

    def figures(solved: BeamSolution) -> Figures:
        gain = gain_dbi(
            solution=solved,
            azimuth=np.zeros(1),
            elevation=np.radians([elevation_deg]),
            ground=ground,
            height=beam.height,
        )[:, 0]
        return Figures(
            frequencies=solved.frequencies,
            impedance=solved.impedance,
            gain_dbi=gain,
            front_to_back_db=gain,
        )

    band = error_band(
        figures=figures(solution),
        finer=figures(_solved_over(beam, ground, frequency, prepare, fine=True)),
        edges=tuple(
            figures(_solved_over(edge, ground, frequency, prepare, fine=False))
            for edge in mount_edges(beam=beam)
        ),
        shunt=feed_capacitance(beam=beam),
        frequencies=solution.frequencies,
        impedance=solution.impedance,
        reference=50.0,
        safety=step_safety(beam=beam),
    )
    return float(band.impedance[0]), float(band.gain_db[0])
