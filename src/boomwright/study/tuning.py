"""From a plan with its measured sweeps to what to move, and what to expect of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from boomwright.base import Fault, Notice, PlanError
from boomwright.base.files import ReadFile, last_part
from boomwright.base.quantity import PerReader, Quantity, phrase
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.resolve.tuning import (
    adjustable_parts,
    measured_beam,
    meter_of,
    side_readings,
    trial_moves,
    tuning_installation,
)
from boomwright.solver import Ground
from boomwright.study.effort import refuse_long_work
from boomwright.study.tuning_parts.line import measured_line
from boomwright.study.tuning_parts.on_air import aimed_at, heard_runs
from boomwright.study.tuning_parts.results import Trial, TuneResult
from boomwright.study.tuning_parts.sweeps import load_sweep
from boomwright.tuning import (
    MOST_POINTS,
    Bench,
    Installation,
    Reading,
    SideReading,
    Surrogate,
    Sweep,
    Tolerance,
    after_changes,
    antenna_surrogate,
    at_line,
    at_meter,
    check_sweep,
    find_fault,
    list_suspects,
    trim,
)
from boomwright.tuning.cautions import TUNING_CAUTIONS
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.identify import identify
from boomwright.tuning.phase import sweep_phase

Progress = Callable[[float], None]

#: a sweep is used so far beyond each band edge, as a share of the edge
_BEYOND = 0.02
#: solutions of the beam that surrogate and fit are worth, and further ones for each element
_SOLUTIONS, _SOLUTIONS_BY_ELEMENT = 100, 60
#: readings below which no fault is looked for
_FEWEST_FOR_FAULTS = 7
_NO_SEARCH = Notice(
    code="tuning.no-fault-search",
    text="No fault was looked for: that needs seven frequencies of the first sweep or more.",
)
#: tips of a builder who cuts badly, over the wavelength
_CARELESS = 1e-3
#: share of the work that the antenna takes
_ANTENNA = 0.7


def _refuse_long_fit(beam: Beam, ground: Ground) -> None:
    """Refuse a beam of more elements than can be fitted to a sweep in bearable time."""
    refuse_long_work(
        (beam,),
        ground=ground,
        solutions=_SOLUTIONS + _SOLUTIONS_BY_ELEMENT * len(beam.elements),
        asked="fitted to what was measured",
        remedy="take out directors far from the driven element",
    )


def tune_plan(
    plan: Plan,
    *,
    files: ReadFile,
    sweep: str = "",
    faults: bool = False,
    progress: Progress | None = None,
) -> TuneResult:
    """Read the measured sweeps of a plan and say what to move.

    Args:
        sweep: name of a file to read in place of the plan's own sweep and trials; empty for those
        faults: whether to look for a fault too: takes some seconds more
    """
    measured = _measured(plan, sweep)
    if sweep:
        plan = replace(plan, measured=measured)
    beam = measured_beam(plan)
    _refuse_long_fit(beam, plan.site.ground)
    names = (measured.sweep, *(trial.sweep for trial in measured.trial))
    places = ("measured.sweep", *(f"measured.trial[{n}].sweep" for n in range(len(names) - 1)))
    given = {"reference": measured.reference, "noise": measured.noise or 0.0}
    whole = [
        load_sweep(name, files=files, place=place, **given)
        for name, place in zip(names, places, strict=True)
    ]
    line = measured_line(
        installation=tuning_installation(plan), measured=measured, sweeps=whole, files=files
    )
    used = [_in_band(each, beam, name) for each, name in zip(line.sweeps, names, strict=True)]
    trials, cut = _fitted(plan, line.installation, measured, used, progress)
    last = trials[-1]
    bench = last.trimming.model.surrogate.bench
    identification = identify(last.trimming)
    stands = standing(bench.installation, last)
    heard = heard_runs(plan, measured, bench, stands)
    aimed = aimed_at(plan, measured)
    checks = [
        n for each in whole for n in (*each.notices, *check_sweep(sweep=each, band=beam.band))
    ]
    on_air = [n for each in heard for n in each.reading.notices]
    on_air += aimed.alignment.notices if aimed else ()
    found = (*_no_line(plan), *_together(beam), *line.notices, *checks, *cut, *last.phase_notices,
             *last.trimming.notices, *identification.notices, *on_air,
             *TUNING_CAUTIONS)  # fmt: skip
    result = TuneResult(
        plan=plan,
        beam=beam,
        installation=line.installation,
        files=tuple(last_part(name) for name in names),
        trials=trials,
        first_sweep=used[0],
        sweep=used[-1],
        planned=_as_planned(bench, last, used[-1]),
        identification=identification,
        faults=None,
        line_reading=line.reading,
        heard=heard,
        aimed=aimed,
        notices=tuple(dict.fromkeys(found)),
    )
    return with_fault(result) if faults else result


def _in_band(sweep: Sweep, beam: Beam, name: str) -> Sweep:
    lowest, highest = beam.band[0] * (1.0 - _BEYOND), beam.band[1] * (1.0 + _BEYOND)
    try:
        return sweep.between(lowest=lowest, highest=highest)
    except MeasurementError as error:
        raise MeasurementError(f"{last_part(name)}: {error}") from None


def _no_line(plan: Plan) -> tuple[Notice, ...]:
    """Ask for the line where the plan has none between meter and feed point."""
    if plan.measured is None or plan.measured.line is not None:
        return ()
    return (
        Notice(
            code="tuning.no-line",
            severity="note",
            text="The plan names no line between meter and feed point, so the sweep is taken as "
            'made at the feed point. Otherwise write line = { type = "RG-213", length = "18 m" } '
            "into [measured].",
        ),
    )


def _together(beam: Beam) -> tuple[Notice, ...]:
    """Say that elements driven together are not trimmed by one sweep of both."""
    if len(beam.driven_indices) < 2:
        return ()
    return (
        Notice(
            code="tuning.driven-together",
            severity="note",
            text="Elements that are driven together are not trimmed by this sweep: one of them "
            "moved alone upsets the currents that the pattern rests on. Trim each by itself, the "
            "other one open, before the lines are joined.",
        ),
    )


def _as_planned(bench: Bench, last: Trial, sweep: Sweep) -> np.ndarray:
    """Reflection at the meter of the antenna as planned, with the moves made since (f,)."""
    at = last.trimming.model.readings[-1].sweep.frequencies
    changed = after_changes(installation=bench.installation, changes=last.moves)
    surrogate = last.trimming.model.surrogate
    port = surrogate.between(bench.impedance(changed, surrogate.nodes), surrogate.weights(at))
    start = at_line(installation=changed, impedance=port, frequencies=at)
    return at_meter(installation=changed, impedance=start, frequencies=at)


def with_fault(result: TuneResult, *, progress: Progress | None = None) -> TuneResult:
    """Look for a fault in the first sweep; takes some seconds."""
    if len(result.first_sweep.frequencies) < _FEWEST_FOR_FAULTS:
        return replace(result, notices=(_NO_SEARCH, *result.notices))
    first = result.trials[0].trimming
    suspects = list_suspects(first.model.surrogate, first.causes, _part(progress, 0.0, 0.6))
    report = find_fault(
        suspects=suspects,
        reading=first.model.readings[0],
        meter=meter_of(result.plan),
        progress=_part(progress, 0.6, 0.4),
    )
    return replace(result, faults=report, notices=(*report.notices, *result.notices))


def tuning_for_book(plan: Plan, *, files: ReadFile) -> TuneResult | None:
    """Read the measured sweeps where the plan names them; None when the plan names no sweep."""
    return None if plan.measured is None else tune_plan(plan, files=files, faults=True)


def _measured(plan: Plan, sweep: str) -> MeasuredPlan:
    """The measurements to read: the plan's, or those of one file given from outside."""
    if sweep:
        given = plan.measured or MeasuredPlan(sweep="")
        return replace(given, sweep=sweep, trial=())
    if plan.measured is None:
        fault = Fault(
            path="measured",
            message="the plan names no measured sweep",
            remedy=PerReader(
                file='add [measured] with sweep = "antenna.s1p", or give --sweep',
                forms="choose the file of a sweep",
            ),
        )
        raise PlanError((fault,))
    return plan.measured


def _fitted(
    plan: Plan,
    installation: Installation,
    measured: MeasuredPlan,
    sweeps: list[Sweep],
    progress: Progress | None,
) -> tuple[tuple[Trial, ...], tuple[Notice, ...]]:
    """Fit all sweeps; once more for a builder who cuts worse, where nothing usual explains them."""
    usual, wavelength = measured.tolerance or Tolerance(), installation.beam.wavelength
    cutting, careless_cutting = usual.tip_at(wavelength), _CARELESS * wavelength
    strap = max(usual.strap_at(wavelength), careless_cutting)
    careless = replace(usual, cutting=careless_cutting, strap=strap)

    def fitted(tolerance: Tolerance) -> tuple[Trial, ...]:
        surrogate = antenna_surrogate(
            installation=installation,
            lowest_frequency=min(float(each.frequencies[0]) for each in sweeps),
            highest_frequency=max(float(each.frequencies[-1]) for each in sweeps),
            tolerance=tolerance,
            progress=_part(progress, 0.0, _ANTENNA),
        )
        return _trials(plan, surrogate, measured, sweeps, tolerance, progress)

    trials = fitted(usual)
    said = usual.cutting is not None
    if trials[-1].trimming.explained or said or cutting >= careless_cutting:
        return trials, ()
    again = fitted(careless)
    if not again[-1].trimming.explained:
        return trials, ()
    text = phrase(
        "Tips within {usual} do not explain this sweep, tips within {careless} do, and it is read "
        "that way. Lay a tape along the elements before you move anything.",
        usual=Quantity(cutting, "trim"),
        careless=Quantity(round(careless_cutting, 3), "trim"),
    )
    return again, (Notice(code="tuning.cut-worse", severity="doubt", text=text),)


def _trials(
    plan: Plan,
    surrogate: Surrogate,
    measured: MeasuredPlan,
    sweeps: list[Sweep],
    tolerance: Tolerance,
    progress: Progress | None,
) -> tuple[Trial, ...]:
    """Fit the first sweep, the first two together, and so on: what was known at each."""
    installation = surrogate.bench.installation
    days = (measured.day, *(trial.day for trial in measured.trial))
    meter, moves = meter_of(plan), dict[str, float]()
    readings: tuple[Reading, ...] = ()
    trials: tuple[Trial, ...] = ()
    for number, sweep in enumerate(sweeps):
        planned = measured.trial[number - 1] if number else None
        if planned is not None:
            path = f"measured.trial[{number - 1}]"
            made = trial_moves(planned, installation=installation, path=path)
            moves = {k: moves.get(k, 0.0) + made.get(k, 0.0) for k in (*moves, *made)}
        reading, notices = sweep_phase(
            surrogate=surrogate,
            reading=Reading(
                sweep=sweep.thinned(points=MOST_POINTS),
                moves=dict(moves),
                rise=planned.rise if planned else 0.0,
            ),
            meter=meter,
            tolerance=tolerance,
        )
        readings += (reading,)
        sides: tuple[SideReading, ...] = ()
        if number == len(sweeps) - 1:
            sides = side_readings(plan)
        share = (_ANTENNA + (1.0 - _ANTENNA) * number / len(sweeps), (1.0 - _ANTENNA) / len(sweeps))
        trimming = trim(
            surrogate=surrogate,
            readings=readings,
            sides=sides,
            meter=meter,
            tolerance=tolerance,
            care=measured.moving,
            adjustable=adjustable_parts(plan, installation=installation),
            progress=_part(progress, *share),
        )
        trials += (
            Trial(
                number=number + 1,
                day=days[number],
                moves=dict(moves),
                trimming=trimming,
                note=planned.note if planned else "",
                phase_notices=notices,
            ),
        )
    return trials


def _part(progress: Progress | None, start: float, width: float) -> Progress | None:
    if progress is None:
        return None
    return lambda share: progress(start + width * share)


def standing(installation: Installation, last: Trial) -> Installation:
    """The antenna as it acts by the sweeps."""
    acting = last.trimming.acting.mean(axis=0).tolist()
    changes = {
        cause.key: value
        for cause, value in zip(last.trimming.causes, acting, strict=True)
        if cause.key in ("height", "ground", "strap", "radials", "foot")
        or cause.key.startswith(("tip.", "stage."))
    }
    for key, amount in last.moves.items():
        changes[key] = changes.get(key, 0.0) + amount
    return after_changes(installation=installation, changes=changes)
