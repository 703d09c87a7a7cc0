"""The ledger of margins, worst first, and the fixes offered for weak elements."""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import Any, Final

from boomwright import charts
from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.report.model import Canvas, Change, Fact, Offered, Picture, Table, column, fact
from boomwright.report.structure.cases import LoadCases
from boomwright.structure import Margin, StructureReport
from boomwright.study.element_fixes import FixOffer
from boomwright.study.part_fixes import PartFix

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


def answer(report: StructureReport, *, wind: Value) -> tuple[Fact, ...]:
    """Count the verdicts; name the check nearest to its limit, or furthest beyond, and the wind."""
    lines = report.ledger
    counts = [
        phrase("{count} {word}", count=sum(line.verdict == word for line in lines), word=word)
        for word in ("exceeded", "not checked", "within")
    ]
    facts = [fact("Checks", listed(counts))]
    used = [(line.use, line.name) for line in lines if line.use is not None]
    if used:
        use, name = max(used, key=lambda each: each[0])
        label = "Furthest over its limit" if use > 1.0 else "Closest to its limit"
        said = phrase("{use:use}, {name}", use=use, name=name)
        facts.append(fact(label, said))
    return (*facts, fact("Design wind", wind))


def held(line: Margin, value: float | None) -> Value:
    """Take a demand or a limit of a line as a quantity.

    Args:
        value: its demand or its capacity; None when there is none [unit of the line]
    """
    if value is None:
        return ""
    kind, factor = _KINDS[line.unit]
    return Quantity(value * factor, kind)


def _use(line: Margin) -> Value:
    if line.verdict == "not checked":
        return ""
    return "over" if line.use is None else Quantity(line.use, "use")


def _demand(line: Margin) -> Value:
    if line.verdict == "not checked":
        return ""
    return line.reason if line.demand is None else held(line, line.demand)


def _basis(line: Margin, cases: LoadCases | None = None) -> Value:
    """What the verdict rests on and what would change it.

    Args:
        cases: what is told once beside the table; each line only names it
    """
    basis = (
        phrase("because {why}", why=line.reason) if line.verdict == "not checked" else line.basis
    )
    basis = cases.name_in(basis) if cases else basis
    if line.verdict == "within" or not line.change:
        return basis
    return phrase("{basis}. To change it: {change}", basis=basis, change=line.change)


def ledger(lines: tuple[Margin, ...], *, cases: LoadCases) -> Table[Margin]:
    """Put beside every verdict what it rests on.

    Args:
        cases: what several lines rest on, told once
    """
    return Table(
        name="ledger",
        caption="Margins, worst first",
        columns=(
            column("check", lambda line: line.name),
            column("verdict", lambda line: line.verdict),
            column("use", _use),
            column("demand", _demand),
            column("limit", lambda line: held(line, line.capacity)),
            column("basis", lambda line: _basis(line, cases), full=True),
        ),
        items=lines,
        basis=cases.told,
        note="Use is demand over limit. A check that lacks an input is never a pass.",
        group="margins",
        sentences=True,
    )


def ledger_pictures(
    report: StructureReport, *, wind: Value, table: Table[Margin], most_rows: int | None
) -> list[Picture]:
    """Draw the margins closest to their limits as bars, and all that are not within.

    Args:
        wind: wind that the checks rest on
        most_rows: most lines of a picture; more that are not within stand in further pictures
    """
    most = most_rows or len(report.ledger)
    shown = report.ledger[: max(most, sum(line.verdict != "within" for line in report.ledger))]
    count = max(len(shown), 1)
    parts = ceil(count / max(most, 1))
    left = len(report.ledger) - len(shown)
    step = ceil(count / parts)

    def part(number: int) -> Picture:
        def draw(canvas: Canvas) -> str:
            stated = canvas.write(phrase("Design wind: {wind}", wind=wind))
            told = [canvas.write(_told(line)) for line in shown]
            lines = [_written(line, canvas) for line in shown]
            return charts.ledger_chart(
                lines=lines, told=told, wind=stated, first=step * (number - 1),
                most_rows=step, palette=canvas.palette, width=canvas.width,
            )  # fmt: skip

        of = f", part {number} of {parts}" if parts > 1 else ""
        return Picture(
            name="ledger" if number == 1 else f"ledger-{number}",
            title=f"Margins, worst first{of}",
            draw=draw,
            caption="Each bar: share of the limit in use. Hatched: past the limit."
            + (f" {left} more are further from their limits: see the table." if left else ""),
            behind=table,
            group="margins",
        )

    return [part(number) for number in range(1, parts + 1)]


def _written(line: Margin, canvas: Canvas) -> Margin:
    """Write what a bar says beside it."""
    return replace(
        line,
        name=canvas.write(line.name),
        reason=canvas.write(line.reason),
        change=canvas.write(line.change),
    )


def _told(line: Margin) -> Value:
    """The whole line in one sentence, for those who point at its bar."""
    if line.verdict == "not checked":
        return phrase("{name}: not checked, {basis}.", name=line.name, basis=_basis(line))
    return phrase(
        "{name}: {demand}{limit}, {use}, {verdict}. {basis}.", name=line.name,
        demand=_demand(line),
        limit=phrase(" of {limit}", limit=held(line, line.capacity)) if line.capacity else "",
        use=phrase("{use} of the limit", use=_use(line)) if line.use else "no finite use",
        verdict=line.verdict, basis=_basis(line),
    )  # fmt: skip


def _added(fix: FixOffer) -> Quantity:
    return Quantity(fix.weight_change / STANDARD_GRAVITY, "mass change")


def _electrical(fix: FixOffer) -> Value:
    if fix.electrical is None:
        return "unchanged, outer sizes stay"
    words = "reactance {:reactance}, {:move} at each tip brings it back"
    return phrase(words, fix.electrical.reactance_change, fix.electrical.trim)


def fixes(offers: tuple[FixOffer, ...]) -> Table[FixOffer]:
    """List the fixes for weak elements, with what the field solver says of them."""
    columns: tuple[Any, ...] = (
        column("element", lambda fix: fix.label),
        column("change", lambda fix: fix.text),
        column("use after", lambda fix: Quantity(fix.use_after, "use"), key="use_after"),
        column("stress before", lambda fix: fix.stress_before, kind="tube stress",
               key="stress_before_pa"),
        column("stress after", lambda fix: fix.stress_after, kind="tube stress",
               key="stress_after_pa"),
        column("added mass", _added),
        column("more droop", lambda fix: Quantity(fix.droop_change, "move"), key="droop_change_m"),
        column("electrical length", _electrical),
    )  # fmt: skip
    return Table(
        name="fixes",
        caption="Fixes for weak elements, highest stress bare or iced",
        columns=columns,
        items=offers,
        group="margins",
        sentences=True,
    )


def offers(fixes: tuple[PartFix, ...]) -> tuple[Offered, ...]:
    """Offer each fix of boom, mast and guys: those that suffice come first."""
    return tuple(
        Offered(
            text=phrase(
                "{text}: {use:use} of its limit instead of {used:use}, {verdict}{passed}",
                text=fix.text,
                use=fix.use_after,
                used=fix.use_before,
                verdict="enough" if fix.use_after <= 1.0 else "not enough by itself",
                passed=phrase("; then past its limit: {names}", names=listed(fix.passed))
                if fix.passed
                else "",
            ),
            place=fix.place,
            value=fix.value,
        )
        for fix in sorted(fixes, key=lambda fix: not fix.suffices)
    )


def changes(offers: tuple[FixOffer, ...]) -> tuple[Change, ...]:
    """Offer each fix, to be taken into the plan."""
    return tuple(
        Change(
            beam=fix.beam,
            element=fix.element,
            number=fix.number,
            label=fix.label,
            text=fix.text,
            gain=phrase(
                "{use:use} of its limit instead of {used:use}, {verdict}; {before:tube stress} to "
                "{after:tube stress}, {added}; electrical length: {electrical}",
                use=fix.use_after,
                used=fix.use_before,
                verdict="enough" if fix.use_after <= 1.0 else "not enough by itself",
                before=fix.stress_before,
                after=fix.stress_after,
                added=_added(fix),
                electrical=_electrical(fix),
            ),
        )
        for fix in offers
    )
