"""What to move, by how much, and what the sweeps say of the antenna."""

from __future__ import annotations

import math
from typing import Any, Final

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.report.model import Fact, Report, Table, column
from boomwright.report.tuning.tables import BAND
from boomwright.study.tuning_results import TuneResult
from boomwright.tuning import Cause

_PARTS: Final = {"m": "move", "share": "signed share"}


def tuning_report(result: TuneResult) -> Report:
    """Say what to move and what to expect of it."""
    last = result.last
    tables = [_deviations(result)]
    if last.advice.steps:
        tables.insert(0, _moves(result))
    return Report(
        subject="tuning",
        title=f"Tuning of {result.beam.name}",
        answer=_answer(result),
        tables=tuple(tables),
        notices=result.notices,
    )


def _answer(result: TuneResult) -> tuple[Fact, ...]:
    last, swr = result.last, result.sweep.swr
    at = int(swr.argmin())
    lowest = phrase(
        "{swr} at {frequency}",
        swr=Quantity(float(swr[at]), "swr"),
        frequency=Quantity(float(result.sweep.frequencies[at]), "frequency"),
    )
    expected = phrase(
        "{swr}, below {limit} with 97.5 % probability",
        swr=Quantity(last.advice.expected_swr, "swr"),
        limit=Quantity(last.advice.expected_swr_limit, "swr"),
    )
    facts = [
        Fact(label="Sweep", value=result.files[-1]),
        Fact(label=f"Lowest SWR {result.where}", value=lowest),
        Fact(label="SWR at the antenna, design frequency", value=Quantity(last.swr, "swr")),
        Fact(label="SWR expected after the change", value=expected),
    ]
    if not last.advice.steps:
        facts.append(Fact(label="To move", value="nothing at the design frequency"))
    return tuple(facts)


def deviation(cause: Cause, amount: float, band: float) -> Value:
    """Take a deviation of a part with the half width of its 95 % band.

    Parameters
    ----------
    amount
        by how much it is off, in the unit of the cause, mixed units [-]
    band
        half width of its band, in the same unit [-]
    """
    if cause.unit in _PARTS:
        return Quantity(amount, _PARTS[cause.unit], band)
    return phrase(
        "times {factor}, {low} to {high}",
        factor=Quantity(math.exp(amount), "factor"),
        low=Quantity(math.exp(amount - band), "factor"),
        high=Quantity(math.exp(amount + band), "factor"),
    )


def _moves(result: TuneResult) -> Table[Any]:
    causes = {cause.key: cause for cause in result.last.fit.before.causes}
    return Table(
        name="moves",
        caption="What to move",
        columns=(
            column("part", lambda step: causes[step.key].label),
            column("by", lambda step: deviation(causes[step.key], step.amount, step.band)),
        ),
        items=result.last.advice.steps,
        note="Each with its 95 % band. Tips: each of both ends by the same amount, plus is "
        "outwards. Measure again after moving.",
    )


def _deviations(result: TuneResult) -> Table[Any]:
    known = result.last.fit.after
    return Table(
        name="deviations",
        caption="What the sweeps say of the antenna against the plan",
        columns=(
            column("part", lambda item: item[0].label),
            column("off by", lambda item: deviation(*item)),
        ),
        items=[
            (cause, float(mean), BAND * float(spread))
            for cause, mean, spread in zip(known.causes, known.mean, known.spread, strict=True)
        ],
        note="Each with its 95 % band.",
    )
