"""The tables of the structure, as page and book both show them."""

from __future__ import annotations

from functools import partial

from boomwright.base import UnitSystem, in_system, quantity_text, use_text
from boomwright.charts import ReadingTable, ShownTable
from boomwright.report.structure.texts import (
    electrical_text,
    span_text,
    speed_text,
    stress_change,
    tube_text,
    weight_change,
)
from boomwright.structure import BeamReport, Margin, ReminderList, StructureReport
from boomwright.study.element_fixes import FixOffer


def basis_table(report: StructureReport, *, system: UnitSystem) -> ShownTable:
    """Put beside every mark what it rests on and what would change it.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    return ShownTable(
        name="ledger-lines",
        caption="Every check with what its mark rests on",
        table=ReadingTable(
            header=("Check", "Mark", "Use", "Demand against limit", "Basis"),
            rows=tuple(_ledger_row(line, system=system) for line in report.ledger),
        ),
        note="Use is demand over limit. A check that lacks an input is never a pass.",
    )


def _ledger_row(line: Margin, *, system: UnitSystem) -> tuple[str, ...]:
    if line.verdict == "not checked":
        return (line.name, line.verdict, "", "", f"because {line.reason}")
    write = partial(quantity_text, unit=line.unit, system=system)
    demand = line.reason if line.demand is None else write(line.demand)
    held = demand if line.capacity is None else f"{demand} / {write(line.capacity)}"
    use = "over" if line.use is None else use_text(line.use)
    change = f" To change it: {line.change}." if line.verdict == "exceeded" and line.change else ""
    return (line.name, line.verdict, use, held, f"{line.basis}.{change}")


def element_table(beam: BeamReport, *, iced: bool, system: UnitSystem) -> ShownTable:
    """List the sections of every element with the wind at which each yields.

    Parameters
    ----------
    iced
        whether the site has ice
    system
        ``metric`` or ``us``
    """
    stress, tube = in_system(1.0, unit="MPa", system=system), "mm" if system == "metric" else "in"
    header = ("Element", "From the boom", f"Tube, {tube}", f"Stress, {stress[1]}", "Yields at")
    extra = (f"Iced, {stress[1]}", "Iced, yields at") if iced else ()
    form = ".0f" if system == "metric" else ".1f"
    rows = []
    for element in beam.elements:
        weak = element.strength.worst_bare.index
        for section in element.strength.sections:
            name = element.label.removeprefix(f"{beam.name} ") if section.index == 0 else ""
            mark = ", weakest" if section.index == weak else ""
            row = (
                name,
                span_text(section.from_boom, system=system),
                f"{tube_text(section.diameter, section.wall, system=system)}{mark}",
                f"{stress[0] * section.bare_stress / 1e6:{form}}",
                speed_text(section.yield_speed_bare, system=system),
                f"{stress[0] * section.iced_stress / 1e6:{form}}",
                speed_text(section.yield_speed_iced, system=system),
            )
            rows.append(row if iced else row[:5])
    return ShownTable(
        name="elements",
        caption=f"{beam.name}: tubes of one half and the gust at which each yields",
        table=ReadingTable(header=(*header, *extra), rows=tuple(rows)),
        note="The gust is that at the element itself; overlaps count as the outer tube only.",
    )


def vibration_table(beam: BeamReport, *, system: UnitSystem) -> ShownTable:
    """List the modes in which the wind makes the elements sing.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    rows = []
    for element in beam.elements:
        modes = [
            f"{mode.frequency_hz:.1f} Hz at "
            f"{speed_text(mode.critical_wind, system=system, form='.1f')}"
            for mode in element.modes[:4]
        ]
        modes += [""] * (4 - len(modes))
        rows.append((element.label.removeprefix(f"{beam.name} "), *modes))
    return ShownTable(
        name="vibration",
        caption=f"{beam.name}: modes and the steady wind that excites each",
        table=ReadingTable(
            header=("Element", "Mode 1", "Mode 2", "Mode 3", "Mode 4"), rows=tuple(rows)
        ),
        note="Strouhal number from memory. The higher modes are the buzz that cracks clamps.",
    )


def fix_table(fixes: tuple[FixOffer, ...], *, system: UnitSystem) -> ShownTable:
    """List the fixes for weak elements.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    return ShownTable(
        name="fixes",
        caption="Fixes for weak elements, with what the field solver says of them",
        table=ReadingTable(
            header=("Element", "Fix", "Highest stress", "Weight", "Electrical length"),
            rows=tuple(
                (
                    fix.label,
                    fix.text,
                    stress_change(fix, system=system),
                    weight_change(fix, system=system),
                    electrical_text(fix, system=system),
                )
                for fix in fixes
            ),
        ),
    )


def reminder_table(reminders: ReminderList) -> ShownTable:
    """List reminders with how each is known."""
    return ShownTable(
        name=f"reminder-{reminders.code}",
        caption=reminders.title,
        table=ReadingTable(
            header=("To do or look for", "Known from"),
            rows=tuple(
                (item.text, item.known + (f", {item.source}" if item.source else ""))
                for item in reminders.items
            ),
        ),
    )
