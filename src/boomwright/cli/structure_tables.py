"""The structure as text for a terminal: the ledger first, then what it rests on."""

from __future__ import annotations

from functools import partial

from rich.console import Console
from rich.padding import Padding

from boomwright.app import FixOffer, StructureCheck
from boomwright.app.structure_texts import (
    electrical_text,
    speed_text,
    stress_change,
    tube_text,
    weight_change,
)
from boomwright.base import (
    STANDARD_GRAVITY,
    UnitSystem,
    in_system,
    length_text,
    quantity_text,
)
from boomwright.cli.faults import plain
from boomwright.cli.tables import make_console, make_table, print_notices, span_text, words
from boomwright.structure import BeamReport, ElementReport, Margin, ReminderList, StructureReport


def print_structure(found: StructureCheck, *, system: UnitSystem) -> None:
    """Print everything found about the structure of a plan.

    Parameters
    ----------
    found
        what was found [-]
    system
        units of lengths [-]
    """
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
    use = "  over " if line.use is None else f"{line.use * 100.0:5.0f} %"
    write = partial(quantity_text, unit=line.unit, system=system)
    demand = line.reason if line.demand is None else write(line.demand)
    capacity = "" if line.capacity is None else f" against {write(line.capacity)}"
    return f"{use} {line.name}: {demand}{capacity}, {line.verdict}"


def _details(line: Margin) -> list[str]:
    if line.verdict == "not checked":
        return [line.change] if line.change else []
    change = [f"To change it: {line.change}"] if line.verdict == "exceeded" and line.change else []
    return [line.basis, *change]


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
    mass = partial(write, unit="kg", form=".1f")
    if beam.weight is not None:
        iced = ""
        if beam.iced_weight is not None:
            iced = f", with ice {mass(beam.iced_weight / STANDARD_GRAVITY)}"
        lines.append(f"Weight {mass(beam.weight / STANDARD_GRAVITY)}{iced}.")
    if beam.balance is not None and beam.clamp is not None and beam.inertia is not None:
        lines.append(
            f"Balance point at {span_text(beam.balance, system=system)} along the boom, mast clamp "
            f"at {span_text(beam.clamp, system=system)}; moment of inertia "
            f"{write(beam.inertia, unit='kg m2', form='.0f')}."
        )
    for which, arm in zip(("Rear", "Front"), beam.arms, strict=False):
        tie = "" if arm.tie is None else f", tie pull {write(arm.tie.pull, unit='N', form='.0f')}"
        lines.append(
            f"{which} boom arm {span_text(arm.length, system=system)}: "
            f"{write(arm.moment, unit='N m', form='.0f')}, "
            f"sag {length_text(arm.sag, system=system)}{tie}."
        )
    if beam.torque is not None:
        vane = ""
        if beam.vane_drag_area is not None:
            vane = (
                f" A vane of {write(beam.vane_drag_area, unit='m2', form='.3f')} drag area at the "
                "end of the short arm cancels the boom's part."
            )
        torque = write(beam.torque.worst, unit="N m", form=".0f")
        lines.append(f"Wind torque about the mast {torque} at worst.{vane}")
    return lines


def _print_loads(console: Console, report: StructureReport, *, system: UnitSystem) -> None:
    lines = []
    coarse, fine = (".0f", ".2f") if system == "metric" else (".1f", ".0f")
    force = partial(quantity_text, unit="kN", system=system, form=fine)
    mast, guys, base = report.mast, report.guys, report.base
    if mast is not None:
        moment = quantity_text(mast.moment, unit="N m", system=system, form=".0f")
        stress = quantity_text(mast.stress / 1e6, unit="MPa", system=system, form=coarse)
        lines.append(f"Mast: {moment} at the top bearing, {stress}.")
    if guys is not None:
        levels = zip(report.inputs.guying, guys.highest_tensions, strict=True)
        pulls = ", ".join(
            f"{force(tension / 1e3)} at {span_text(level.height, system=system)}"
            for level, tension in levels
        )
        lines.append(f"Guys, highest tension over all wind directions: {pulls}.")
        lines += [
            f"Anchors at {span_text(anchor.radius, system=system)}: uplift "
            f"{force(anchor.uplift / 1e3)}, slide {force(anchor.slide / 1e3)}."
            for anchor in guys.anchors
        ]
    if base is not None:
        loads = base.reactions
        moment = quantity_text(loads.moment / 1e3, unit="kN m", system=system, form=fine)
        concrete = quantity_text(base.concrete.volume, unit="m3", system=system, form=".2f")
        lines.append(
            f"Footing: {moment}, {force(loads.shear / 1e3)} sideways, {force(loads.axial / 1e3)} "
            f"down ({loads.text}); {concrete} of concrete."
        )
    if lines:
        console.print()
        console.print(words("What it must carry", style="bold"))
    for text in lines:
        console.print(words(text))


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
