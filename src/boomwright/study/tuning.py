"""From a plan with its measured sweeps to what to move, by how much, and what to expect of it."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import Fault, Notice, PlanError
from boomwright.base.files import ReadFile, last_part
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.resolve.tuning import (
    adjustable_parts,
    measured_beam,
    moving_care,
    trial_moves,
    tuning_installation,
    tuning_tolerance,
)
from boomwright.solver import Ground
from boomwright.study.effort import refuse_long_work
from boomwright.study.requests import RequestError
from boomwright.study.tuning_line import measured_line
from boomwright.study.tuning_on_air import aimed_at, heard_runs
from boomwright.study.tuning_results import TuneResult
from boomwright.study.tuning_sweeps import load_sweep
from boomwright.tuning import (
    Predictor,
    Sweep,
    Trial,
    adjustable_keys,
    check_sweep,
    compute_fault_antennas,
    find_fault,
    first_knowledge,
    identify,
    make_predictor,
    next_trial,
    usual_causes,
)
from boomwright.tuning.cautions import TUNING_CAUTIONS

#: a sweep is used so far beyond each band edge, as a share of the edge
_BEYOND = 0.02
#: solutions of the beam that fit, forecast and their bands are worth, for each of its elements
_SOLUTIONS_BY_ELEMENT = 60
_NO_SEARCH = Notice(
    code="tuning.no-fault-search",
    text="No fault was looked for: the beam has further wires or wire with corners, and faults "
    "are known of straight elements only.",
)


def _refuse_long_fit(beam: Beam, ground: Ground) -> None:
    """Refuse a beam of more elements than can be fitted to a sweep in bearable time."""
    refuse_long_work(
        (beam,),
        ground=ground,
        solutions=_SOLUTIONS_BY_ELEMENT * len(beam.elements),
        asked="fitted to what was measured",
        remedy="take out directors far from the driven element",
    )


def tune_plan(plan: Plan, *, files: ReadFile, sweep: str = "", faults: bool = False) -> TuneResult:
    """Read the measured sweeps of a plan and say what to move.

    Args:
        sweep: name of a file to read in place of the plan's own sweep and trials; empty for those
        faults: whether to look for a fault too: takes some seconds more

    Raises:
        PlanError: when the plan names no sweep, or dimensions of the match are missing
        BoomwrightError: when a file cannot be read or holds no sweep of this antenna's band
    """
    measured = _measured(plan, sweep)
    plan = replace(plan, measured=measured)
    beam = measured_beam(plan)
    if beam.stands_on_ground:
        message = (
            f"beam {beam.name} stands on its ground: what soil and radials do to a measured sweep "
            "is not modelled -> cut it by the reading at its foot"
        )
        raise RequestError(message)
    _refuse_long_fit(beam, plan.site.ground)
    names = (measured.sweep, *(trial.sweep for trial in measured.trial))
    places = ("measured.sweep", *(f"measured.trial[{n}].sweep" for n in range(len(names) - 1)))
    noise, reference = measured.noise or 0.0, measured.reference
    whole = [
        load_sweep(name, files=files, reference=reference, place=place, noise=noise)
        for name, place in zip(names, places, strict=True)
    ]
    line = measured_line(
        installation=tuning_installation(plan), measured=measured, sweeps=whole, files=files
    )
    lowest, highest = beam.band[0] * (1.0 - _BEYOND), beam.band[1] * (1.0 + _BEYOND)
    used = [each.between(lowest=lowest, highest=highest) for each in line.sweeps]
    predictor = make_predictor(
        installation=line.installation,
        lowest_frequency=min(float(each.frequencies[0]) for each in used),
        highest_frequency=max(float(each.frequencies[-1]) for each in used),
    )
    trials = _trials(plan, predictor, measured, used)
    last = trials[-1]
    identification = identify(predictor=predictor, fit=last.fit, moves=last.moves)
    heard = heard_runs(plan, measured, predictor, last)
    aimed = aimed_at(plan, measured)
    checks = [
        n for each in whole for n in (*each.notices, *check_sweep(sweep=each, band=beam.band))
    ]
    on_air = [n for each in heard for n in each.reading.notices]
    on_air += aimed.alignment.notices if aimed else ()
    found = (*line.notices, *checks, *last.fit.notices, *identification.notices, *on_air,
             *TUNING_CAUTIONS)  # fmt: skip
    result = TuneResult(
        plan=plan,
        beam=beam,
        installation=line.installation,
        files=tuple(last_part(name) for name in names),
        trials=trials,
        first_sweep=used[0],
        sweep=used[-1],
        planned=predictor.sweep(changes=last.moves, frequencies=last.fit.sweep.frequencies),
        identification=identification,
        faults=None,
        line_reading=line.reading,
        heard=heard,
        aimed=aimed,
        notices=tuple(dict.fromkeys(found)),
    )
    return with_fault(result) if faults else result


def with_fault(result: TuneResult) -> TuneResult:
    """Look for a fault in the first sweep; takes some seconds.

    Returns:
        the same with the fault, or with none; without an answer and with a notice when the beam
        has further
            wires, which the faulty antennas would lack
    """
    if result.beam.wires or result.beam.bent:
        return replace(result, notices=(_NO_SEARCH, *result.notices))
    sweep, measured = result.first_sweep, result.plan.measured
    antennas = compute_fault_antennas(
        installation=result.installation,
        lowest_frequency=float(sweep.frequencies[0]),
        highest_frequency=float(sweep.frequencies[-1]),
    )
    report = find_fault(
        installation=result.installation,
        antennas=antennas,
        sweep=sweep,
        tolerance=tuning_tolerance(result.plan),
        noise=measured.noise if measured else None,
    )
    return replace(result, faults=report, notices=(*report.notices, *result.notices))


def tuning_for_book(plan: Plan, *, files: ReadFile) -> TuneResult | None:
    """Read the measured sweeps where the plan names them.

    Returns:
        the result; None when the plan names no sweep

    Raises:
        BoomwrightError: when a sweep that is named cannot be read or used
    """
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
            remedy='add [measured] with sweep = "antenna.s1p", or give --sweep',
        )
        raise PlanError((fault,))
    return plan.measured


def _trials(
    plan: Plan, predictor: Predictor, measured: MeasuredPlan, sweeps: list[Sweep]
) -> tuple[Trial, ...]:
    installation = predictor.installation
    causes = usual_causes(installation=installation, tolerance=tuning_tolerance(plan))
    adjustable = adjustable_parts(plan, adjustable=adjustable_keys(installation=installation))
    days = (measured.day, *(trial.day for trial in measured.trial))
    trials: tuple[Trial, ...] = ()
    for sweep, day, planned in zip(sweeps, days, (None, *measured.trial), strict=True):
        trial = next_trial(
            predictor=predictor,
            sweep=sweep,
            start=first_knowledge(causes),
            past=trials,
            made=trial_moves(planned) if planned else None,
            care=moving_care(plan),
            noise=measured.noise,
            adjustable=adjustable,
            day=day,
            note=planned.note if planned else "",
        )
        trials += (trial,)
    return trials
