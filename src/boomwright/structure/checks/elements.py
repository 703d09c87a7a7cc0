"""Ledger lines for the elements of one beam."""

from __future__ import annotations

from math import hypot, isfinite

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam, Element, Material
from boomwright.structure.beam.elastica import elastica
from boomwright.structure.beam.element_course import element_course
from boomwright.structure.beam.elements import ElementStrength, element_strength
from boomwright.structure.beam.stepped import (
    Segment,
    half_segments,
    moment_at,
    weight_loads,
    wind_loads,
)
from boomwright.structure.beam.tubing import SLENDER_TUBE, StressLimit
from boomwright.structure.beam.vibration import vibration_modes
from boomwright.structure.checks.findings import Findings, SiteLoads, is_steel
from boomwright.structure.checks.margins import Margin, margin
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.memory import recalled
from boomwright.structure.report import ElementReport
from boomwright.structure.weather.basis import EDITIONS
from boomwright.structure.weather.wind import VelocityPressure
from boomwright.structure.wording import speed, stretch, thickness


def element_trouble(*, element: Element, material: Material) -> str:
    """Say why an element cannot be worked out, or nothing; empty when all is there."""
    if not element.half:
        return "it has no tube sections"
    for number, section in enumerate(element.half, start=1):
        sizes = (section.diameter, section.length, section.wall)
        if not all(isfinite(size) for size in sizes):
            return f"section {number} has a size that is no number"
        if section.wall == 0.0:
            return f"the wall of section {number} is not given"
        if min(sizes) <= 0.0 or 2.0 * section.wall > section.diameter:
            return f"the sizes of section {number} make no tube"
    wanted = (material.density, material.elastic_modulus)
    if not all(isfinite(value) and value > 0.0 for value in wanted):
        return f"density or stiffness of {material.name} is not known"
    return ""


def element_yield(*, element: Element, material: Material) -> float:
    """Lowest minimum yield among the walls of an element.

    Returns:
        minimum yield of the weakest wall [Pa]
    """
    return min(material.minimum_yield(wall=section.wall) for section in element.half)


def element_label(*, beam: Beam, index: int) -> str:
    """Name an element for people."""
    return f"{beam.name} {beam.elements[index].role} (element {index + 1})"


def _change(strength: ElementStrength, weak: int) -> Value:
    tube = strength.sections[weak]
    where = (
        phrase("from {from_boom} out", from_boom=stretch(tube.from_boom))
        if tube.from_boom > 0.0
        else "at the boom"
    )
    return phrase(
        "double the wall of section {number} ({diameter}, {where}) or let the "
        "larger tube reach further out", number=weak + 1, diameter=thickness(tube.diameter),
        where=where,
    )  # fmt: skip


def _wind_lines(
    label: str,
    strength: ElementStrength,
    limit: StressLimit,
    site: SiteLoads,
    height: float,
    findings: Findings,
) -> None:
    name = f"{label}: bending in wind"
    pressure = site.pressure(height=height)
    if pressure is None:
        findings.skip(name, site.missing)
        return
    weak = strength.worst_bare
    under = phrase("{rule}; {dead_text}", rule=limit.rule, dead_text=site.dead_text)
    worst = (weak.index, weak.bare_stress, weak.yield_speed_bare)
    findings.add(_wind_line(name, label, strength, limit, pressure, under, worst))


def _wind_line(
    name: str,
    label: str,
    strength: ElementStrength,
    limit: StressLimit,
    pressure: VelocityPressure,
    under: Value,
    worst: tuple[int, float, float],
) -> Margin:
    """Hold the weakest section against its limit in wind.

    Args:
        under: rule and what else pulls on it
        worst: its number, its stress and the gust at which it yields [-, Pa, m/s] (3,)
    """
    index, stress, yields = worst
    return margin(
        name=name,
        demand=stress / 1e6,
        capacity=limit.value / 1e6,
        unit="MPa",
        basis=phrase(
            "{pressure}; {under}; weakest section {number}, yields at {yields} local",
            pressure=pressure.text, under=under, number=index + 1, yields=speed(yields),
        ),
        change=_change(strength, index),
        part=label,
        load_kind=pressure.kind,
        limit_kind=limit.kind,
    )  # fmt: skip


def _ice_lines(
    label: str,
    strength: ElementStrength,
    limit: StressLimit,
    site: SiteLoads,
    height: float,
    findings: Findings,
) -> None:
    coat = site.coat(height=height)
    if coat is None:
        return
    heavy = max(strength.sections, key=lambda section: section.ice_stress)
    ice_text = phrase("{coat}; {dead_text}, ice too", coat=coat.text, dead_text=site.dead_text)
    findings.add(
        margin(
            name=f"{label}: ice alone",
            demand=heavy.ice_stress * site.dead_factor / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=phrase("{ice_text}; {rule}; no wind", ice_text=ice_text, rule=limit.rule),
            change=_change(strength, heavy.index),
            part=label,
        )
    )
    name = f"{label}: ice with its wind"
    pressure = site.ice_pressure(height=height)
    if pressure is None:
        reason = site.missing or "the gust that comes with the ice is not given"
        findings.skip(name, reason)
        return
    weak = strength.worst_iced
    under = phrase("{ice_text}; {rule}", ice_text=ice_text, rule=limit.rule)
    worst = (weak.index, weak.iced_stress, weak.yield_speed_iced)
    findings.add(_wind_line(name, label, strength, limit, pressure, under, worst))


def _doubts(label: str, strength: ElementStrength, half: float, findings: Findings) -> None:
    if strength.large_deflection:
        findings.doubt(
            "large-deflection",
            f"{label} bends too far for the simple formula, which overstates its stress and "
            "droop; the full calculation stands beside it.",
            value=phrase(
                "iced droop {droop} of {half}",
                droop=Quantity(strength.iced_droop, "span"),
                half=Quantity(half, "span"),
            ),
        )
    thin = max(section.slenderness for section in strength.sections)
    if thin > SLENDER_TUBE:
        findings.doubt(
            "thin-tube",
            f"{label} has a tube so thin that its wall may buckle before it yields.",
            value=f"diameter over wall {thin:.0f}",
            limit=f"{SLENDER_TUBE:.0f} (common practice)",
        )


def _bent_ratio(
    label: str, segments: tuple[Segment, ...], pressure: float, findings: Findings
) -> float | None:
    try:
        return elastica(segments=segments, pressure=pressure)
    except StructureInputError as error:
        findings.doubt("no-bent-shape", f"{label}: {error}.")
        return None


def check_elements(
    *, mounted: MountedBeam, site: SiteLoads, findings: Findings
) -> tuple[ElementReport, ...]:
    """Work out every element of a beam and write its ledger lines."""
    reports = (
        check_element(mounted=mounted, index=index, site=site, findings=findings)
        for index in range(len(mounted.beam.elements))
    )
    return tuple(report for report in reports if report is not None)


def check_element(
    *, mounted: MountedBeam, index: int, site: SiteLoads, findings: Findings
) -> ElementReport | None:
    """Work out one element of a beam and write its ledger lines.

    Returns:
        None for bent wire and for what cannot be worked out
    """
    beam, material = mounted.beam, mounted.beam.material
    element = beam.elements[index]
    if element.bent:
        return None
    label = element_label(beam=beam, index=index)
    trouble = element_trouble(element=element, material=material)
    if trouble:
        findings.skip(f"{label}: bending in wind", trouble)
        return None
    pressure = site.pressure(height=beam.height)
    ice_pressure = site.ice_pressure(height=beam.height)
    known = material.yield_strength > 0.0 and isfinite(material.yield_strength)
    limit = site.limit(
        yield_strength=element_yield(element=element, material=material) if known else 1.0,
        steel=is_steel(material),
        ultimate=material.ultimate_strength,
        known=recalled(material.recalled_strength),
    )
    strength = element_strength(
        element=element,
        material=material,
        pressure=0.0 if pressure is None else pressure.for_force,
        ice=site.coat(height=beam.height),
        ice_pressure=0.0 if ice_pressure is None else ice_pressure.for_force,
        dead_factor=site.dead_factor,
        beside=mounted.beside(index),
    )
    if known:
        _wind_lines(label, strength, limit, site, beam.height, findings)
        _ice_lines(label, strength, limit, site, beam.height, findings)
    else:
        findings.skip(
            f"{label}: bending in wind", f"the yield strength of {material.name} is not known"
        )
    _doubts(label, strength, element.half_length, findings)
    segments = half_segments(element=element, material=material, beside=mounted.beside(index))
    _trap_lines(label, element, segments, site, beam.height, findings)
    ratio = None
    if pressure is not None:
        ratio = _bent_ratio(label, segments, pressure.for_force, findings)
    return ElementReport(
        index=index,
        label=label,
        strength=strength,
        modes=vibration_modes(segments=segments),
        large_deflection_ratio=ratio,
        course=element_course(segments=segments, site=site, height=beam.height),
        limit=limit.value if known else None,
    )


def _trap_lines(
    label: str,
    element: Element,
    segments: tuple[Segment, ...],
    site: SiteLoads,
    height: float,
    findings: Findings,
) -> None:
    """Hold the body of each trap against the bending moment that its maker rates it for."""
    coat = site.coat(height=height)
    bare = (site.pressure(height=height), None, "in wind")
    iced = (site.ice_pressure(height=height), coat, "ice with its wind")
    cases = (bare,) if coat is None else (bare, iced)
    for number, trap in enumerate(element.traps, start=1):
        for pressure, ice, case in cases:
            name = f"{label}: body of trap {number}, {case}"
            if pressure is None:
                findings.skip(name, site.missing or "the gust with the ice is not given")
                continue
            loads = (
                weight_loads(segments=segments, ice=ice),
                wind_loads(segments=segments, pressure=pressure.for_force, ice=ice),
            )
            # Its rating is a working load: no factor comes on its weight.
            place = trap.place - 0.5 * trap.long
            down, across = (moment_at(segments=segments, loads=each, place=place) for each in loads)
            with findings.asked_of("maker of the traps"):
                findings.add(
                    margin(
                        name=name,
                        demand=hypot(down, across),
                        capacity=trap.allowed_moment,
                        unit="N m",
                        basis=pressure.text,
                        change="ask its maker what moment its body bears (allowed_moment in its "
                        "trap), or place it further out",
                        missing="nobody said what bending moment its body bears",
                        part=label,
                    )
                )


def ice_missing(*, site: SiteLoads) -> str:
    """Say why ice could not be looked at, or nothing.

    Returns:
        reason in words, empty when ice is known or known to be none
    """
    ice = site.inputs.ice
    if ice is None:
        return "no ice thickness is given (enter 0 where there is none)"
    if ice.thickness > 0.0 and ice.mapped is not False and site.inputs.wind is None:
        known = ", ".join(EDITIONS)
        unsaid = "" if ice.mapped else "nobody said that it is not mapped, and "
        return f"{unsaid}a mapped ice thickness needs the code edition of its map ({known})"
    return ""
