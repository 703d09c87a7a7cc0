"""Will it stand: the ledger of margins, worst first, and the fixes offered."""

from __future__ import annotations

from typing import Any, Final

from boomwright import charts
from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.report.model import Canvas, Fact, Picture, Report, Table, column
from boomwright.structure import Margin
from boomwright.study.element_fixes import FixOffer
from boomwright.study.structure import StructureCheck

#: unit of a margin: kind of quantity, and one of its units in SI
_KINDS: Final = {
    "": ("factor", 1.0),
    "N": ("force", 1.0),
    "kN": ("force", 1e3),
    "N m": ("moment", 1.0),
    "kN m": ("moment", 1e3),
    "kN/m": ("stiffness", 1e3),
    "MPa": ("stress", 1e6),
    "kPa": ("pressure", 1e3),
    "m": ("span", 1.0),
    "mm": ("small length", 1e-3),
    "m2": ("area", 1.0),
    "m/s": ("speed", 1.0),
}


def structure_report(found: StructureCheck) -> Report:
    """Say what stands against its limit, and what was not checked."""
    ledger = found.report.ledger
    table = _ledger(ledger)

    def draw(canvas: Canvas) -> str:
        return charts.ledger_chart(
            report=found.report, palette=canvas.palette, system=canvas.system, width=canvas.width
        )

    return Report(
        subject="structure",
        title=f"Structure of {found.plan.title}",
        answer=_answer(ledger),
        pictures=(Picture(name="ledger", title="Margins, worst first", draw=draw, behind=table),),
        tables=(table, *([_fixes(found.fixes)] if found.fixes else [])),
        findings=tuple(line.finding for line in ledger),
        notices=found.all_notices,
    )


def _answer(ledger: tuple[Margin, ...]) -> tuple[Fact, ...]:
    """The check nearest to its limit, or furthest beyond."""
    known = [line for line in ledger if line.use is not None]
    if not known:
        return ()
    worst = max(known, key=lambda line: line.use or 0.0)
    said = phrase("{use} of the limit, {name}", use=Quantity(worst.use or 0.0, "use"),
                  name=worst.name)  # fmt: skip
    return (Fact(label="Most used", value=said),)


def held(line: Margin, value: float | None) -> Value:
    """Take a demand or a limit of a line as a quantity.

    Parameters
    ----------
    value
        its demand or its capacity; None when there is none [unit of the line]
    """
    if value is None:
        return ""
    kind, factor = _KINDS[line.unit]
    return Quantity(value * factor, kind)


def _ledger(ledger: tuple[Margin, ...]) -> Table[Margin]:
    def use(line: Margin) -> Value:
        if line.verdict == "not checked":
            return ""
        return "over" if line.use is None else Quantity(line.use, "use")

    def demand(line: Margin) -> Value:
        return line.reason if line.demand is None else held(line, line.demand)

    return Table(
        name="ledger",
        caption="Margins, worst first",
        columns=(
            column("check", lambda line: line.name, key="name"),
            column("verdict", lambda line: line.verdict, key="verdict"),
            column("use", use, key="use"),
            column("demand", demand),
            column("limit", lambda line: held(line, line.capacity)),
            column("basis", lambda line: line.basis, key="basis", full=True),
            column("to change it", lambda line: line.change, key="change", full=True),
        ),
        items=ledger,
        note="Use is demand over limit. A check that lacks an input is never a pass.",
    )


def _fixes(fixes: tuple[FixOffer, ...]) -> Table[FixOffer]:
    def trim(fix: FixOffer) -> Value:
        if fix.electrical is None:
            return "unchanged"
        return Quantity(fix.electrical.trim, "move")

    columns: tuple[Any, ...] = (
        column("element", lambda fix: fix.label),
        column("fix", lambda fix: fix.text),
        column("stress before", lambda fix: fix.stress_before, kind="stress"),
        column("stress after", lambda fix: fix.stress_after, kind="stress"),
        column("added mass", lambda fix: fix.weight_change / STANDARD_GRAVITY, kind="mass"),
        column("more droop", lambda fix: Quantity(fix.droop_change, "move")),
        column("trim at each tip", trim),
    )
    return Table(
        name="fixes",
        caption="Fixes for weak elements, highest stress bare or iced",
        columns=columns,
        items=fixes,
    )
