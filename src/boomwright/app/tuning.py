"""From a plan with its measured sweeps to what to move, by how much, and what to expect of it."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np

from boomwright.app.tuning_files import load_sweep
from boomwright.app.tuning_results import TuneResult
from boomwright.base import Fault, Notice, PlanError
from boomwright.plan import Plan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.resolve.tuning import measured_beam, trial_moves, tuning_installation
from boomwright.tuning import (
    FaultReport,
    Installation,
    LineReading,
    Predictor,
    Sweep,
    Trial,
    check_sweep,
    compute_fault_antennas,
    find_fault,
    first_knowledge,
    identify,
    make_predictor,
    next_trial,
    read_open_and_short,
    usual_causes,
)
from boomwright.tuning.cautions import TUNING_CAUTIONS

#: a sweep is used so far beyond each band edge, as a share of the edge
_BEYOND = 0.02
#: impedance of a line that differs by more than this share is not the type it should be
_OTHER_LINE = 0.1
_DB_PER_NEPER = 20.0 / math.log(10.0)


def tune_plan(
    plan: Plan, *, folder: Path | None, sweep: Path | None = None, faults: bool = False
) -> TuneResult:
    """Read the measured sweeps of a plan and say what to move.

    Parameters
    ----------
    plan
        the plan [-]
    folder
        folder that the plan's file names start from; None for the present one [-]
    sweep
        a file to read in place of the plan's own sweep and trials; None for those [-]
    faults
        whether to look for a fault too: takes some seconds more [-]

    Returns
    -------
    TuneResult
        trials, advice, doubts [-]

    Raises
    ------
    PlanError
        when the plan names no sweep, or dimensions of the match are missing
    BoomwrightError
        when a file cannot be read or holds no sweep of this antenna's band
    """
    measured = _measured(plan, sweep)
    plan = replace(plan, measured=measured)
    beam = measured_beam(plan)
    start = Path() if folder is None else folder
    installation, reading, doubts = _with_line(tuning_installation(plan), measured, start)
    names = (measured.sweep, *(trial.sweep for trial in measured.trial))
    places = ("measured.sweep", *(f"measured.trial[{n}].sweep" for n in range(len(names) - 1)))
    whole = [
        load_sweep(name, folder=start, reference=measured.reference, place=place)
        for name, place in zip(names, places, strict=True)
    ]
    lowest, highest = beam.band[0] * (1.0 - _BEYOND), beam.band[1] * (1.0 + _BEYOND)
    used = [each.between(lowest=lowest, highest=highest) for each in whole]
    predictor = make_predictor(
        installation=installation,
        lowest_frequency=min(float(each.frequencies[0]) for each in used),
        highest_frequency=max(float(each.frequencies[-1]) for each in used),
    )
    trials = _trials(predictor, measured, used)
    last = trials[-1]
    identification = identify(predictor=predictor, fit=last.fit, moves=last.moves)
    report = _fault(installation, used[0]) if faults else None
    checks = [
        n for each in whole for n in (*each.notices, *check_sweep(sweep=each, band=beam.band))
    ]
    found = (*doubts, *checks, *last.fit.notices, *(report.notices if report else ()),
             *identification.notices, *TUNING_CAUTIONS)  # fmt: skip
    return TuneResult(
        plan=plan,
        beam=beam,
        installation=installation,
        files=tuple(Path(name).name for name in names),
        trials=trials,
        sweep=used[-1],
        planned=predictor.sweep(changes=last.moves, frequencies=last.fit.sweep.frequencies),
        identification=identification,
        faults=report,
        line_reading=reading,
        notices=tuple(dict.fromkeys(found)),
    )


def tuning_for_book(plan: Plan, *, folder: Path | None) -> TuneResult | None:
    """Read the measured sweeps where the plan names them.

    Parameters
    ----------
    plan
        the plan [-]
    folder
        folder that the plan's file names start from; None for the present one [-]

    Returns
    -------
    TuneResult or None
        the result; None when the plan names no sweep [-]

    Raises
    ------
    BoomwrightError
        when a sweep that is named cannot be read or used
    """
    return None if plan.measured is None else tune_plan(plan, folder=folder)


def _measured(plan: Plan, sweep: Path | None) -> MeasuredPlan:
    """The measurements to read: the plan's, or those of one file given from outside."""
    if sweep is not None:
        given = plan.measured or MeasuredPlan(sweep="")
        return replace(given, sweep=str(sweep.resolve()), trial=())
    if plan.measured is None:
        fault = Fault(
            path="measured",
            message="the plan names no measured sweep",
            remedy='add [measured] with sweep = "antenna.s1p", or give --sweep',
        )
        raise PlanError((fault,))
    return plan.measured


def _with_line(
    installation: Installation, measured: MeasuredPlan, folder: Path
) -> tuple[Installation, LineReading | None, tuple[Notice, ...]]:
    """Take length and loss of the line from its own sweeps where there are both."""
    line, given = installation.line, measured.line
    if line is None or given is None or not (given.open_sweep and given.short_sweep):
        return installation, None, ()
    ends = [
        load_sweep(name, folder=folder, reference=measured.reference, place=f"measured.line.{key}")
        for key, name in (("open", given.open_sweep), ("short", given.short_sweep))
    ]
    reading = read_open_and_short(open_end=ends[0], short_end=ends[1])
    middle = float(np.mean(ends[0].frequencies))
    gamma, _ = line.propagation(frequency=middle)
    length = reading.electrical_length * line.velocity_factor
    nominal = _DB_PER_NEPER * gamma.real * length
    factor = reading.loss_db / nominal if nominal > 0.0 else 1.0
    doubts: tuple[Notice, ...] = ()
    if abs(reading.impedance - line.impedance) > _OTHER_LINE * line.impedance:
        doubts = (
            Notice(
                code="tuning.other-line",
                severity="doubt",
                text="The measured line is not of the impedance of its type: is the type right?",
                value=f"{reading.impedance:.0f} ohm",
                limit=f"{line.impedance:.0f} ohm",
            ),
        )
    found = replace(installation, line_length=length, line_loss_factor=max(0.0, factor))
    return found, reading, doubts


def _trials(predictor: Predictor, measured: MeasuredPlan, sweeps: list[Sweep]) -> tuple[Trial, ...]:
    start = first_knowledge(usual_causes(installation=predictor.installation))
    first = next_trial(predictor=predictor, sweep=sweeps[0], start=start, day=measured.day)
    trials: tuple[Trial, ...] = (first,)
    for planned, sweep in zip(measured.trial, sweeps[1:], strict=True):
        trials += (
            next_trial(
                predictor=predictor,
                sweep=sweep,
                start=start,
                past=trials,
                made=trial_moves(planned),
                day=planned.day,
                note=planned.note,
            ),
        )
    return trials


def _fault(installation: Installation, sweep: Sweep) -> FaultReport:
    antennas = compute_fault_antennas(
        installation=installation,
        lowest_frequency=float(sweep.frequencies[0]),
        highest_frequency=float(sweep.frequencies[-1]),
    )
    return find_fault(installation=installation, antennas=antennas, sweep=sweep)
