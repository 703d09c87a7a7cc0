"""Ledger lines for the elements of one beam."""

from __future__ import annotations

from math import hypot, isfinite

import numpy as np

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam, Element, Material
from boomwright.structure.beam.elastica import elastica
from boomwright.structure.beam.elements import ElementStrength, element_strength
from boomwright.structure.beam.stepped import (
    Segment,
    cantilever_course,
    half_segments,
    moment_at,
    weight_loads,
    wind_loads,
)
from boomwright.structure.beam.tubing import SLENDER_TUBE, StressLimit
from boomwright.structure.beam.vibration import vibration_modes
from boomwright.structure.checks.findings import Blow, Findings, SiteLoads
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import ElementCourse, ElementReport
from boomwright.structure.weather.basis import EDITIONS
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


def _stress_lines(
    label: str,
    strength: ElementStrength,
    limit: StressLimit,
    site: SiteLoads,
    height: float,
    findings: Findings,
) -> None:
    """Hold the weakest section against its limit: in wind, under ice alone, in both."""
    for blow in site.blows(height=height):
        under: Value = phrase("{rule}; {dead_text}", rule=limit.rule, dead_text=site.dead_text)
        name, weak = f"{label}: bending in wind", strength.worst_bare
        stress, yields = weak.bare_stress, weak.yield_speed_bare
        if blow.coat is not None:
            ice = phrase(
                "{coat}; {dead_text}, ice too", coat=blow.coat.text, dead_text=site.dead_text
            )
            heavy = max(strength.sections, key=lambda section: section.ice_stress)
            findings.hold(
                name=f"{label}: ice alone",
                demand=heavy.ice_stress * site.dead_factor / 1e6,
                capacity=limit.value / 1e6,
                unit="MPa",
                basis=phrase("{ice_text}; {rule}; no wind", ice_text=ice, rule=limit.rule),
                change=_change(strength, heavy.index),
                part=label,
            )
            under = phrase("{ice_text}; {rule}", ice_text=ice, rule=limit.rule)
            name, weak = f"{label}: ice with its wind", strength.worst_iced
            stress, yields = weak.iced_stress, weak.yield_speed_iced
        if blow.pressure is None:
            findings.skip(name, blow.missing)
            continue
        findings.hold(
            name=name,
            demand=stress / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=phrase(
                "{pressure}; {under}; weakest section {number}, yields at {yields} local",
                pressure=blow.pressure.text, under=under, number=weak.index + 1,
                yields=speed(yields),
            ),
            change=_change(strength, weak.index),
            part=label,
            load_kind=blow.pressure.kind,
            limit_kind=limit.kind,
        )  # fmt: skip


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
    """Work out one element and write its lines; None for bent wire and what cannot be found."""
    beam, material = mounted.beam, mounted.beam.material
    element = beam.elements[index]
    if element.bent:
        return None
    label = element_label(beam=beam, index=index)
    trouble = element_trouble(element=element, material=material)
    if trouble:
        findings.skip(f"{label}: bending in wind", trouble)
        return None
    bare, iced = (site.blow(height=beam.height, iced=each) for each in (False, True))
    limit = None
    if material.yield_strength > 0.0 and isfinite(material.yield_strength):
        limit = site.alloy_limit(material, walls=[section.wall for section in element.half])
    strength = element_strength(
        element=element,
        material=material,
        pressure=bare.force,
        ice=iced.coat,
        ice_pressure=iced.force,
        dead_factor=site.dead_factor,
        beside=mounted.beside(index),
    )
    if limit is not None:
        _stress_lines(label, strength, limit, site, beam.height, findings)
    else:
        findings.skip(
            f"{label}: bending in wind", f"the yield strength of {material.name} is not known"
        )
    _doubts(label, strength, element.half_length, findings)
    segments = half_segments(element=element, material=material, beside=mounted.beside(index))
    _trap_lines(label, element, segments, site, beam.height, findings)
    ratio = None
    if bare.pressure is not None:
        try:
            ratio = elastica(segments=segments, pressure=bare.force)
        except StructureInputError as error:
            findings.doubt("no-bent-shape", f"{label}: {error}.")
    return ElementReport(
        index=index,
        label=label,
        strength=strength,
        modes=vibration_modes(segments=segments),
        large_deflection_ratio=ratio,
        course=_course(segments, bare, iced, site.dead_factor),
        limit=None if limit is None else limit.value,
    )


def _course(
    segments: tuple[Segment, ...], bare: Blow, iced: Blow, dead_factor: float
) -> ElementCourse:
    """Follow stress of weight and wind, and droop of the weight alone, along one element half."""
    stresses, droops = [], []
    for blow in (bare, iced):
        weight = weight_loads(segments=segments, ice=blow.coat)
        force = wind_loads(segments=segments, pressure=blow.force, ice=blow.coat)
        dead = cantilever_course(segments=segments, loads=weight)
        wind = cantilever_course(segments=segments, loads=force)
        stresses.append(np.hypot(dead_factor * dead.stress, wind.stress))
        droops.append(dead.deflection)
    return ElementCourse(
        place=dead.place,
        bare_stress=stresses[0],
        iced_stress=stresses[1],
        dead_droop=droops[0],
        iced_droop=droops[1],
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
    for number, trap in enumerate(element.traps, start=1):
        for blow in site.blows(height=height):
            case = "in wind" if blow.coat is None else "ice with its wind"
            name = f"{label}: body of trap {number}, {case}"
            if blow.pressure is None:
                findings.skip(name, site.missing or "the gust with the ice is not given")
                continue
            loads = (
                weight_loads(segments=segments, ice=blow.coat),
                wind_loads(segments=segments, pressure=blow.force, ice=blow.coat),
            )
            # Its rating is a working load: no factor comes on its weight.
            place = trap.place - 0.5 * trap.long
            down, across = (moment_at(segments=segments, loads=each, place=place) for each in loads)
            with findings.asked_of("maker of the traps"):
                findings.hold(
                    name=name,
                    demand=hypot(down, across),
                    capacity=trap.allowed_moment,
                    unit="N m",
                    basis=blow.pressure.text,
                    change="ask its maker what moment its body bears (allowed_moment in its "
                    "trap), or place it further out",
                    missing="nobody said what bending moment its body bears",
                    part=label,
                )


def ice_missing(*, site: SiteLoads) -> str:
    """Say why ice could not be looked at; empty when it is known, or known to be none."""
    ice = site.inputs.ice
    if ice is None:
        return "no ice thickness is given (enter 0 where there is none)"
    if ice.thickness > 0.0 and ice.mapped is not False and site.inputs.wind is None:
        known = ", ".join(EDITIONS)
        unsaid = "" if ice.mapped else "nobody said that it is not mapped, and "
        return f"{unsaid}a mapped ice thickness needs the code edition of its map ({known})"
    return ""
