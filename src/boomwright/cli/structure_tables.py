"""The structure as text for a terminal: the ledger first, then what it rests on."""

from __future__ import annotations

import math

from rich.console import Console
from rich.padding import Padding

from boomwright.app import FixOffer, StructureCheck
from boomwright.base import STANDARD_GRAVITY, UnitSystem
from boomwright.cli.faults import plain
from boomwright.cli.tables import make_console, make_table, print_notices, span_text, words
from boomwright.structure import BeamReport, ElementReport, Margin, ReminderList, StructureReport

_MPH = 0.44704  # mile per hour in m/s, exact {nist-sp-811}


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
    _print_ledger(console, report)
    ice = report.inputs.ice
    for beam in report.beams:
        console.print()
        _print_beam(console, beam, iced=ice is not None and ice.thickness > 0.0, system=system)
    _print_loads(console, report, system=system)
    if found.fixes:
        console.print()
        _print_fixes(console, found.fixes)
    console.print()
    for reminders in report.reminders:
        _print_reminders(console, reminders)
    console.print()
    print_notices(console, found.all_notices)


def _print_ledger(console: Console, report: StructureReport) -> None:
    console.print(words("Margins, worst first", style="bold"))
    for line in report.ledger:
        style = {"exceeded": "bold red", "not checked": "bold"}.get(line.verdict, "")
        console.print(words(_headline(line), style=style))
        for text in _details(line):
            console.print(Padding(words(text, style="dim"), (0, 0, 0, 10)))


def _headline(line: Margin) -> str:
    if line.verdict == "not checked":
        return f"   -    {line.name}: not checked, because {line.reason}"
    use = "  over " if line.use is None else f"{line.use * 100.0:5.0f} %"
    demand = line.reason if line.demand is None else f"{line.demand:.4g} {line.unit}"
    capacity = "" if line.capacity is None else f" against {line.capacity:.4g} {line.unit}"
    return f"{use} {line.name}: {demand}{capacity}, {line.verdict}"


def _details(line: Margin) -> list[str]:
    if line.verdict == "not checked":
        return [line.change] if line.change else []
    change = [f"To change it: {line.change}"] if line.verdict == "exceeded" and line.change else []
    return [line.basis, *change]


def _print_beam(console: Console, beam: BeamReport, *, iced: bool, system: UnitSystem) -> None:
    console.print(words(f"{beam.name}: elements", style="bold"))
    heads = ("element", "from boom", "tube, mm", "stress", "yields at")
    table = make_table(*heads, *(("iced, stress", "iced, yields at") if iced else ()))
    for element in beam.elements:
        for row in _element_rows(element, system=system):
            table.add_row(*(row if iced else row[:5]))
    console.print(table)
    if beam.elements:
        console.print("Yields at: gust at the element itself. * weakest section in wind.")
        for element in beam.elements:
            console.print(words(_bending(element, iced=iced), style="dim"))
    for text in _beam_words(beam, system=system):
        console.print(words(text))


def _element_rows(element: ElementReport, *, system: UnitSystem) -> list[tuple[str, ...]]:
    strength = element.strength
    weak = strength.worst_bare.index
    rows: list[tuple[str, ...]] = []
    for section in strength.sections:
        star = "*" if section.index == weak else " "
        rows.append(
            (
                plain(element.label) if section.index == 0 else "",
                span_text(section.from_boom, system=system),
                f"{section.diameter * 1e3:.1f} x {section.wall * 1e3:.2f}{star}",
                f"{section.bare_stress / 1e6:.0f} MPa",
                speed_text(section.yield_speed_bare, system=system),
                f"{section.iced_stress / 1e6:.0f} MPa",
                speed_text(section.yield_speed_iced, system=system),
            )
        )
    return rows


def speed_text(speed: float, *, system: UnitSystem) -> str:
    """Write a wind speed.

    Parameters
    ----------
    speed
        speed [m/s]
    system
        ``metric`` or ``us`` [-]

    Returns
    -------
    str
        for instance ``31 m/s`` or ``69 mph`` [-]
    """
    if not math.isfinite(speed):
        return "no limit"
    return f"{speed:.0f} m/s" if system == "metric" else f"{speed / _MPH:.0f} mph"


def _bending(element: ElementReport, *, iced: bool) -> str:
    strength = element.strength
    droop = f"droops {strength.dead_droop * 1e3:.0f} mm in still air"
    if iced:
        droop += f", {strength.iced_droop * 1e3:.0f} mm iced"
    modes = ", ".join(
        f"{mode.frequency_hz:.1f} Hz at {mode.critical_wind:.1f} m/s" for mode in element.modes[:4]
    )
    ratio = element.large_deflection_ratio
    bent = "" if ratio is None else f"; bent, its root carries {ratio:.2f} of the plain moment"
    return f"{element.label} {droop}; sings {modes} (from memory){bent}"


def _beam_words(beam: BeamReport, *, system: UnitSystem) -> list[str]:
    worst, older = beam.wind.worst, beam.wind.older_worst
    lines = [
        f"Wind area, worst at {beam.wind.worst_angle_deg:.0f}° from the boom: projected "
        f"{worst.projected:.2f}, drag {worst.drag:.2f}, flat plate {worst.flat:.2f} m2; the older "
        f"sum rule: {older.projected:.2f}, {older.drag:.2f}, {older.flat:.2f} m2 at "
        f"{beam.wind.older_worst_angle_deg:.0f}°."
    ]
    if beam.weight is not None:
        iced = (
            ""
            if beam.iced_weight is None
            else f", with ice {beam.iced_weight / STANDARD_GRAVITY:.1f} kg"
        )
        lines.append(f"Weight {beam.weight / STANDARD_GRAVITY:.1f} kg{iced}.")
    if beam.balance is not None and beam.clamp is not None and beam.inertia is not None:
        lines.append(
            f"Balance point at {span_text(beam.balance, system=system)} along the boom, mast clamp "
            f"at {span_text(beam.clamp, system=system)}; moment of inertia "
            f"{beam.inertia:.0f} kg m2."
        )
    for which, arm in zip(("Rear", "Front"), beam.arms, strict=False):
        tie = "" if arm.tie is None else f", tie pull {arm.tie.pull:.0f} N"
        lines.append(
            f"{which} boom arm {span_text(arm.length, system=system)}: {arm.moment:.0f} N m, "
            f"sag {arm.sag * 1e3:.0f} mm{tie}."
        )
    if beam.torque is not None:
        vane = ""
        if beam.vane_drag_area is not None:
            vane = (
                f" A vane of {beam.vane_drag_area:.3f} m2 drag area at the end of the short arm "
                "cancels the boom's part."
            )
        lines.append(f"Wind torque about the mast {beam.torque.worst:.0f} N m at worst.{vane}")
    return lines


def _print_loads(console: Console, report: StructureReport, *, system: UnitSystem) -> None:
    lines = []
    mast, guys, base = report.mast, report.guys, report.base
    if mast is not None:
        lines.append(
            f"Mast: {mast.moment:.0f} N m at the top bearing, {mast.stress / 1e6:.0f} MPa."
        )
    if guys is not None:
        levels = zip(report.inputs.guying, guys.highest_tensions, strict=True)
        pulls = ", ".join(
            f"{tension / 1e3:.2f} kN at {span_text(level.height, system=system)}"
            for level, tension in levels
        )
        lines.append(f"Guys, highest tension over all wind directions: {pulls}.")
        lines += [
            f"Anchors at {span_text(anchor.radius, system=system)}: uplift "
            f"{anchor.uplift / 1e3:.2f} kN, slide {anchor.slide / 1e3:.2f} kN."
            for anchor in guys.anchors
        ]
    if base is not None:
        loads = base.reactions
        lines.append(
            f"Footing: {loads.moment / 1e3:.2f} kN m, {loads.shear / 1e3:.2f} kN sideways, "
            f"{loads.axial / 1e3:.2f} kN down ({loads.text}); {base.concrete.volume:.2f} m3 of "
            "concrete."
        )
    if lines:
        console.print()
        console.print(words("What it must carry", style="bold"))
    for text in lines:
        console.print(words(text))


def _print_fixes(console: Console, fixes: tuple[FixOffer, ...]) -> None:
    console.print(words("Fixes for weak elements, highest stress bare or iced", style="bold"))
    for fix in fixes:
        console.print(words(f"{fix.label}: {fix.text}"))
        console.print(Padding(words(fix_words(fix), style="dim"), (0, 0, 0, 4)))


def fix_words(fix: FixOffer) -> str:
    """Say what a fix gains and what it costs.

    Parameters
    ----------
    fix
        the fix [-]

    Returns
    -------
    str
        stress, weight, droop and electrical length [-]
    """
    text = (
        f"{fix.stress_before / 1e6:.0f} to {fix.stress_after / 1e6:.0f} MPa, "
        f"{fix.weight_change / STANDARD_GRAVITY:+.1f} kg, droop {fix.droop_change * 1e3:+.0f} mm; "
    )
    electrical = fix.electrical
    if electrical is None:
        return text + "outer sizes stay, so the electrical length does"
    return text + (
        f"reactance {electrical.reactance_change:+.1f} ohm, brought back by "
        f"{electrical.trim * 1e3:+.0f} mm at each tip"
    )


def _print_reminders(console: Console, reminders: ReminderList) -> None:
    console.print(words(reminders.title, style="bold"))
    for item in reminders.items:
        known = "" if item.known == "common practice" else f" ({item.known})"
        source = f" [{item.source}]" if item.source else ""
        console.print(Padding(words(f"- {item.text}{known}{source}"), (0, 0, 0, 2)))
