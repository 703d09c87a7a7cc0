"""The tables of the structure, as page and book both show them."""

from __future__ import annotations

from boomwright.app.element_fixes import FixOffer
from boomwright.base import STANDARD_GRAVITY, UnitSystem, length_text
from boomwright.figures import ReadingTable, ShownTable
from boomwright.structure import BeamReport, Margin, ReminderList, StructureReport

_MPH = 0.44704  # exact {nist-sp-811}


def span_text(length: float, *, system: UnitSystem) -> str:
    """Write a length of the station.

    Parameters
    ----------
    length
        length [m]
    system
        ``metric`` or ``us`` [-]

    Returns
    -------
    str
        metres to the centimetre, or feet and inches [-]
    """
    return f"{length:.2f} m" if system == "metric" else length_text(length, system=system)


def basis_table(report: StructureReport) -> ShownTable:
    """Put beside every mark what it rests on and what would change it.

    Parameters
    ----------
    report
        what the structure room found [-]

    Returns
    -------
    ShownTable
        one row for each check, worst first [-]
    """
    return ShownTable(
        name="ledger-lines",
        caption="Every check with what its mark rests on",
        table=ReadingTable(
            header=("Check", "Mark", "Use", "Demand against limit", "Basis"),
            rows=tuple(_ledger_row(line) for line in report.ledger),
        ),
        note="Use is demand over limit. A check that lacks an input is never a pass.",
    )


def _ledger_row(line: Margin) -> tuple[str, ...]:
    if line.verdict == "not checked":
        return (line.name, line.verdict, "", "", f"because {line.reason}")
    demand = line.reason if line.demand is None else f"{line.demand:.4g} {line.unit}"
    held = demand if line.capacity is None else f"{demand} / {line.capacity:.4g} {line.unit}"
    use = "over" if line.use is None else f"{line.use * 100.0:.0f} %"
    change = f" To change it: {line.change}." if line.verdict == "exceeded" and line.change else ""
    return (line.name, line.verdict, use, held, f"{line.basis}.{change}")


def element_table(beam: BeamReport, *, iced: bool, system: UnitSystem) -> ShownTable:
    """List the sections of every element with the wind at which each yields.

    Parameters
    ----------
    beam
        what was found about the beam [-]
    iced
        whether the site has ice [-]
    system
        ``metric`` or ``us`` [-]

    Returns
    -------
    ShownTable
        one row for each section [-]
    """
    header = ("Element", "From the boom", "Tube, mm", "Stress, MPa", "Yields at")
    extra = ("Iced, MPa", "Iced, yields at") if iced else ()
    rows = []
    for element in beam.elements:
        weak = element.strength.worst_bare.index
        for section in element.strength.sections:
            name = element.label.removeprefix(f"{beam.name} ") if section.index == 0 else ""
            mark = ", weakest" if section.index == weak else ""
            row = (
                name,
                span_text(section.from_boom, system=system),
                f"{section.diameter * 1e3:.1f} × {section.wall * 1e3:.2f}{mark}",
                f"{section.bare_stress / 1e6:.0f}",
                speed_text(section.yield_speed_bare, system=system),
                f"{section.iced_stress / 1e6:.0f}",
                speed_text(section.yield_speed_iced, system=system),
            )
            rows.append(row if iced else row[:5])
    return ShownTable(
        name="elements",
        caption=f"{beam.name}: tubes of one half and the gust at which each yields",
        table=ReadingTable(header=(*header, *extra), rows=tuple(rows)),
        note="The gust is that at the element itself; overlaps count as the outer tube only.",
    )


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
        metres a second or miles an hour [-]
    """
    if speed == float("inf"):
        return "no limit"
    return f"{speed:.0f} m/s" if system == "metric" else f"{speed / _MPH:.0f} mph"


def vibration_table(beam: BeamReport, *, system: UnitSystem) -> ShownTable:
    """List the modes in which the wind makes the elements sing.

    Parameters
    ----------
    beam
        what was found about the beam [-]
    system
        ``metric`` or ``us`` [-]

    Returns
    -------
    ShownTable
        one row for each element [-]
    """
    rows = []
    for element in beam.elements:
        modes = [
            f"{mode.frequency_hz:.1f} Hz at {mode.critical_wind:.1f} m/s"
            if system == "metric"
            else f"{mode.frequency_hz:.1f} Hz at {mode.critical_wind / _MPH:.1f} mph"
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


def load_table(report: StructureReport, *, system: UnitSystem) -> ShownTable:
    """List what mast, rotator, guys, anchors and footing must carry.

    Parameters
    ----------
    report
        what the structure room found [-]
    system
        ``metric`` or ``us`` [-]

    Returns
    -------
    ShownTable
        one row for each load [-]
    """
    rows: list[tuple[str, str, str]] = []
    for beam in report.beams:
        rows += _beam_rows(beam, system=system)
    mast, rotator, guys, base = report.mast, report.rotator, report.guys, report.base
    if mast is not None:
        rows.append(("Mast, bending at the top bearing", f"{mast.moment:.0f} N m", report.basis))
    if rotator is not None:
        rows += [
            ("Rotator, wind torque", f"{rotator.survival_torque:.0f} N m", "nominal wind"),
            ("Rotator, moment of inertia", f"{rotator.inertia:.0f} kg m²", ""),
            ("Rotator, weight on it", f"{rotator.vertical_load:.0f} N", "without ice"),
        ]
    if guys is not None:
        for level, tension in zip(report.inputs.guying, guys.highest_tensions, strict=True):
            place = span_text(level.height, system=system)
            rows.append((f"Guys at {place}", f"{tension / 1e3:.2f} kN", "highest, nominal wind"))
        for anchor in guys.anchors:
            place = span_text(anchor.radius, system=system)
            pull = f"{anchor.uplift / 1e3:.2f} kN up, {anchor.slide / 1e3:.2f} kN sideways"
            rows.append((f"Anchors at {place}", pull, "nominal wind"))
    if base is not None:
        loads = base.reactions
        rows += [
            ("Footing, moment", f"{loads.moment / 1e3:.2f} kN m", loads.text),
            ("Footing, sideways", f"{loads.shear / 1e3:.2f} kN", loads.text),
            ("Footing, straight down", f"{loads.axial / 1e3:.2f} kN", loads.text),
            ("Concrete", f"{base.concrete.volume:.2f} m³", "without waste"),
        ]
    return ShownTable(
        name="loads",
        caption="What must be carried",
        table=ReadingTable(header=("What", "Load", "From"), rows=tuple(rows)),
    )


def _beam_rows(beam: BeamReport, *, system: UnitSystem) -> list[tuple[str, str, str]]:
    rows = []
    if beam.weight is not None:
        iced = ""
        if beam.iced_weight is not None:
            iced = f", with ice {beam.iced_weight / STANDARD_GRAVITY:.1f} kg"
        weight = f"{beam.weight / STANDARD_GRAVITY:.1f} kg{iced}"
        rows.append((f"{beam.name}, weight", weight, "elements, boom, fittings"))
    if beam.force is not None:
        rows.append((f"{beam.name}, wind force", f"{beam.force:.0f} N", "nominal, worst direction"))
    if beam.clamp is not None and beam.balance is not None:
        places = (
            f"{span_text(beam.balance, system=system)}, clamp at "
            f"{span_text(beam.clamp, system=system)}"
        )
        rows.append((f"{beam.name}, balance point", places, "along the boom"))
    if beam.torque is not None:
        torque = f"{beam.torque.worst:.0f} N m at {beam.torque.worst_angle_deg:.0f}°"
        vane = ""
        if beam.vane_drag_area is not None:
            vane = f"a vane of {beam.vane_drag_area:.3f} m² at the short arm's end takes the boom's"
        rows.append((f"{beam.name}, wind torque", torque, vane))
    for which, arm in zip(("rear", "front"), beam.arms, strict=False):
        if arm.tie is not None:
            pull = f"{arm.tie.pull:.0f} N, boom pressed with {arm.tie.push:.0f} N"
            rows.append((f"{beam.name}, {which} tie", pull, "weights alone"))
    return rows


def fix_table(fixes: tuple[FixOffer, ...]) -> ShownTable:
    """List the fixes for weak elements.

    Parameters
    ----------
    fixes
        fixes offered [-]

    Returns
    -------
    ShownTable
        one row for each fix [-]
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
                    f"{fix.stress_before / 1e6:.0f} to {fix.stress_after / 1e6:.0f} MPa",
                    f"{fix.weight_change / STANDARD_GRAVITY:+.1f} kg",
                    electrical_text(fix),
                )
                for fix in fixes
            ),
        ),
    )


def electrical_text(fix: FixOffer) -> str:
    """Say what a fix does to the electrical length.

    Parameters
    ----------
    fix
        the fix [-]

    Returns
    -------
    str
        words with the trim that brings it back [-]
    """
    if fix.electrical is None:
        return "unchanged, outer sizes stay"
    return (
        f"reactance {fix.electrical.reactance_change:+.1f} ohm, "
        f"{fix.electrical.trim * 1e3:+.0f} mm at each tip brings it back"
    )


def reminder_table(reminders: ReminderList) -> ShownTable:
    """List reminders with how each is known.

    Parameters
    ----------
    reminders
        the list [-]

    Returns
    -------
    ShownTable
        one row for each reminder [-]
    """
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
