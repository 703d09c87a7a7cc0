"""The structure as text for a terminal: the ledger first, then what it rests on."""

from __future__ import annotations

from functools import partial

from rich.console import Console
from rich.padding import Padding

from boomwright.base import (
    UnitSystem,
    in_system,
    length_text,
    quantity_text,
    use_text,
)
from boomwright.base.owner_text import plain
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    print_notices,
    span_text,
    words,
)
from boomwright.report.structure.loads import load_table
from boomwright.report.structure.texts import (
    electrical_text,
    speed_text,
    stress_change,
    tube_text,
    weight_change,
)
from boomwright.structure import BeamReport, ElementReport, Margin, ReminderList, StructureReport
from boomwright.study.element_fixes import FixOffer
from boomwright.study.structure import StructureCheck


def print_structure(found: StructureCheck, *, system: UnitSystem) -> None:
    """Print everything found about the structure of a plan."""
    console = make_console()
    report = found.report
    console.print(words(found.plan.title, style="bold"))
    console.print(words(f"Wind for elements, booms and mast: {report.basis}"))
    console.print()
    _print_ledger(console, report, system=system)
    ice = report.inputs.ice
    for beam in report.beams:
        console.print()
        _print_beam(console, beam, iced=ice is not None and ice.thickness > 0.0, system=system)
    _print_loads(console, report, system=system)
    if found.fixes:
        console.print()
        _print_fixes(console, found.fixes, system=system)
    console.print()
    for reminders in report.reminders:
        _print_reminders(console, reminders)
    console.print()
    print_notices(console, found.all_notices)


def _print_ledger(console: Console, report: StructureReport, *, system: UnitSystem) -> None:
    console.print(words("Margins, worst first", style="bold"))
    for line in report.ledger:
        style = {"exceeded": "bold red", "not checked": "bold"}.get(line.verdict, "")
        console.print(words(_headline(line, system=system), style=style))
        for text in _details(line):
            console.print(Padding(words(text, style="dim"), (0, 0, 0, 10)))


def _headline(line: Margin, *, system: UnitSystem) -> str:
    if line.verdict == "not checked":
        return f"   -    {line.name}: not checked, because {line.reason}"
    use = "  over " if line.use is None else f"{use_text(line.use):>7}"
    write = partial(quantity_text, unit=line.unit, system=system)
    demand = line.reason if line.demand is None else write(line.demand)
    capacity = "" if line.capacity is None else f" against {write(line.capacity)}"
    return f"{use} {line.name}: {demand}{capacity}, {line.verdict}"


def _details(line: Margin) -> list[str]:
    # What would change an exceeded check stands above, with the verdict.
    if line.verdict == "not checked":
        return [line.change] if line.change else []
    return [line.basis]


def _print_beam(console: Console, beam: BeamReport, *, iced: bool, system: UnitSystem) -> None:
    console.print(words(f"{beam.name}: elements", style="bold"))
    tube = "mm" if system == "metric" else "in"
    heads = ("element", "from boom", f"tube, {tube}", "stress", "yields at")
    table = make_table(*heads, *(("iced, stress", "iced, yields at") if iced else ()))
    for element in beam.elements:
        for row in _element_rows(element, system=system):
            table.add_row(*(row if iced else row[:5]))
    console.print(table)
    if beam.elements:
        console.print("Yields at: gust at the element itself. * weakest section in wind.")
        for element in beam.elements:
            console.print(words(_bending(element, iced=iced, system=system), style="dim"))
    for text in _beam_words(beam, system=system):
        console.print(words(text))


def _element_rows(element: ElementReport, *, system: UnitSystem) -> list[tuple[str, ...]]:
    strength = element.strength
    weak = strength.worst_bare.index
    rows: list[tuple[str, ...]] = []
    form = ".0f" if system == "metric" else ".1f"
    stress = partial(quantity_text, unit="MPa", system=system, form=form)
    for section in strength.sections:
        star = "*" if section.index == weak else " "
        rows.append(
            (
                plain(element.label) if section.index == 0 else "",
                span_text(section.from_boom, system=system),
                f"{tube_text(section.diameter, section.wall, system=system)}{star}",
                stress(section.bare_stress / 1e6),
                speed_text(section.yield_speed_bare, system=system),
                stress(section.iced_stress / 1e6),
                speed_text(section.yield_speed_iced, system=system),
            )
        )
    return rows


def _bending(element: ElementReport, *, iced: bool, system: UnitSystem) -> str:
    strength = element.strength
    droop = f"droops {length_text(strength.dead_droop, system=system)} in still air"
    if iced:
        droop += f", {length_text(strength.iced_droop, system=system)} iced"
    modes = ", ".join(
        f"{mode.frequency_hz:.1f} Hz at {speed_text(mode.critical_wind, system=system, form='.1f')}"
        for mode in element.modes[:4]
    )
    ratio = element.large_deflection_ratio
    bent = "" if ratio is None else f"; bent, its root carries {ratio:.2f} of the plain moment"
    return f"{element.label} {droop}; sings {modes} (from memory){bent}"


def _beam_words(beam: BeamReport, *, system: UnitSystem) -> list[str]:
    write = partial(quantity_text, system=system)
    worst, older = beam.wind.worst, beam.wind.older_worst
    area, square = in_system(1.0, unit="m2", system=system)
    lines = [
        f"Wind area, worst at {beam.wind.worst_angle_deg:.0f}° from the boom: projected "
        f"{area * worst.projected:.2f}, drag {area * worst.drag:.2f}, flat plate "
        f"{area * worst.flat:.2f} {square}; the older sum rule: {area * older.projected:.2f}, "
        f"{area * older.drag:.2f}, {area * older.flat:.2f} {square} at "
        f"{beam.wind.older_worst_angle_deg:.0f}°."
    ]
    if beam.iced_wind is not None:
        iced = beam.iced_wind
        lines.append(
            f"With ice: projected {area * iced.worst.projected:.2f}, drag "
            f"{area * iced.worst.drag:.2f}, flat plate {area * iced.worst.flat:.2f} {square} at "
            f"{iced.worst_angle_deg:.0f}°."
        )
    for which, arm in zip(("Rear", "Front"), beam.arms, strict=False):
        tie = "" if arm.tie is None else f", tie pull {write(arm.tie.pull, unit='N', form='.0f')}"
        lines.append(
            f"{which} boom arm {span_text(arm.length, system=system)}: "
            f"{write(arm.moment, unit='N m', form='.0f')}, "
            f"sag {length_text(arm.sag, system=system)}{tie}."
        )
    return lines


def _print_loads(console: Console, report: StructureReport, *, system: UnitSystem) -> None:
    rows = load_table(report, system=system).table.rows
    if rows:
        console.print()
        console.print(words("What it must carry", style="bold"))
    for what, load, origin in rows:
        console.print(words(f"{what}: {load}{f' ({origin})' if origin else ''}"))


def _print_fixes(console: Console, fixes: tuple[FixOffer, ...], *, system: UnitSystem) -> None:
    console.print(words("Fixes for weak elements, highest stress bare or iced", style="bold"))
    for fix in fixes:
        console.print(words(f"{fix.label}: {fix.text}"))
        console.print(Padding(words(_fix_words(fix, system=system), style="dim"), (0, 0, 0, 4)))


def _fix_words(fix: FixOffer, *, system: UnitSystem) -> str:
    """Say what a fix gains and what it costs."""
    droop = quantity_text(
        fix.droop_change * 1e3,
        unit="mm",
        system=system,
        form="+.0f" if system == "metric" else "+.2f",
    )
    return (
        f"{stress_change(fix, system=system)}, {weight_change(fix, system=system)}, droop {droop}; "
        f"electrical length: {electrical_text(fix, system=system)}"
    )


def _print_reminders(console: Console, reminders: ReminderList) -> None:
    console.print(words(reminders.title, style="bold"))
    for item in reminders.items:
        known = "" if item.known == "common practice" else f" ({item.known})"
        source = f" [{item.source}]" if item.source else ""
        console.print(Padding(words(f"- {item.text}{known}{source}"), (0, 0, 0, 2)))
