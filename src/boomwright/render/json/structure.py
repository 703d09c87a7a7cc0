"""The structure as one plain document: what ``structure --json`` prints."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.structure.beams import areas, arms, sections
from boomwright.report.structure.ledger import fixes
from boomwright.structure import (
    AreaConventions,
    BaseReport,
    BeamReport,
    ElementReport,
    GuyReport,
    SupportCourse,
    SupportReport,
    Tower,
    TubeBending,
    leg_course,
)
from boomwright.study.element_fixes import FixOffer
from boomwright.study.structure import StructureCheck


def structure_document(result: StructureCheck) -> dict[str, Any]:
    """Write the findings as numbers, texts, lists and dictionaries only.

    A figure without a finite value, or that could not be found, becomes None.

    Returns:
        the document; the unit of each figure is in its name
    """
    report = result.report
    return {
        **fields(report, "basis"),
        "method": report.inputs.concept,
        "gusts": _gusts(report),
        "ledger": [
            fields(line, "name", "verdict", "use", "demand", "capacity", "unit", "basis",
                   "change", "reason")
            for line in report.ledger
        ],
        "beams": [_beam(beam) for beam in report.beams],
        "mast": report.mast
        and fields(report.mast, "moment_nm", "stress_pa", "growth", "rotator_reaction_n",
                   "top_deflection_m"),
        "rotator": report.rotator
        and fields(report.rotator, "survival_torque_nm", "turning_torque_nm",
                   "stopping_torque_nm", "inertia_kgm2", "vertical_load_n", "side_force_n"),
        **_below_the_beams(report, report.inputs.tower),
        "iced": report.iced
        and {
            **fields(report.iced, "basis"),
            "gusts": _gusts(report.iced),
            **_below_the_beams(report.iced, report.inputs.tower),
        },
        "fixes": [_fix(fix) for fix in result.fixes],
        "notices": notice_rows(result.all_notices),
        "reminders": [
            {
                **fields(each, "code", "title"),
                "items": [fields(item, "text", "known", "source") for item in each.items],
            }
            for each in report.reminders
        ],
    }  # fmt: skip


def _gusts(found: SupportReport) -> dict[str, Any] | None:
    gusts = found.gusts
    return None if gusts is None else fields(gusts, "factor", "frequency_hz", "text")


def _below_the_beams(found: SupportReport, tower: Tower | None) -> dict[str, Any]:
    """What stands below the beams, bare or iced."""
    return {
        "tower_area": found.tower_area
        and fields(found.tower_area, "demand_m2", "capacity_m2", "text"),
        "support_tube": found.tube and _tube(found.tube),
        "tower_along_height": _along(found.tower_course, tower),
        "guys": found.guys and _guys(found.guys),
        "base": found.base and _base(found.base),
    }


def _tube(tube: TubeBending) -> dict[str, Any]:
    columns = ("low_m", "high_m", "column_length_m", "axial_n", "moment_nm")
    return {
        **fields(tube, "moment_nm", "amplification", "stress_pa", "axial_n", "ice_weight_n"),
        "along_height": _along(tube.course, None),
        "columns": [fields(length, *columns) for length in tube.lengths],
        **fields(tube, "bracket_forces_n"),
    }


def _along(course: SupportCourse | None, tower: Tower | None) -> dict[str, Any] | None:
    """What a support carries along its height; None when not found, or when it buckles."""
    if course is None:
        return None
    legs = None if tower is None else leg_course(tower=tower, course=course)
    return {
        "height_m": plain(course.heights),
        **fields(course, "moment_nm", "shear_n", "compression_n"),
        "leg_load_n": plain(legs),
    }


def _beam(beam: BeamReport) -> dict[str, Any]:
    wind = beam.wind
    return {
        **fields(beam, "name", "height_m", "weight_n", "iced_weight_n", "force_n", "balance_m",
                 "clamp_m", "inertia_kgm2", "vane_drag_area_m2"),
        "torque_nm": beam.torque and plain(asdict(beam.torque)),
        "iced_torque_nm": beam.iced_torque and plain(asdict(beam.iced_torque)),
        "wind": {
            "worst_m2": _area(wind.worst),
            "worst_angle_deg": plain(wind.worst_angle_deg),
            "older_worst_m2": _area(wind.older_worst),
            "older_worst_angle_deg": plain(wind.older_worst_angle_deg),
            "angle_deg": plain(wind.angles_deg),
            **fields(wind, "drag_area_m2", "older_drag_area_m2"),
        },
        "iced_worst_m2": beam.iced_wind and _area(beam.iced_wind.worst),
        "arms": plain_rows(arms(beam.arms, name=beam.name)),
        "iced_arms": plain_rows(arms(beam.iced_arms, name=beam.name)),
        "elements": [_element(element) for element in beam.elements],
    }  # fmt: skip


def _area(area: AreaConventions) -> dict[str, Any]:
    return plain_rows(areas("", [("", area)]))[0]


def _element(element: ElementReport) -> dict[str, Any]:
    strength = element.strength
    return {
        **fields(element, "index", "label"),
        **fields(strength, "half_weight_n", "dead_droop_m", "iced_droop_m"),
        "weakest_section": strength.worst_bare.index,
        "large_deflection_ratio": plain(element.large_deflection_ratio),
        "sections": plain_rows(sections(element)),
        "modes": [fields(mode, "frequency_hz", "critical_wind_m_s") for mode in element.modes],
    }


def _guys(guys: GuyReport) -> dict[str, Any]:
    return {
        **fields(guys, "highest_tensions_n", "compression_n"),
        "support_buckles": guys.buckles,
        "directions": [fields(state, "wind_deg", "tensions_n", "slack") for state in guys.states],
        "anchors": [fields(anchor, "radius_m", "uplift_n", "slide_n") for anchor in guys.anchors],
    }


def _base(base: BaseReport) -> dict[str, Any]:
    return {
        **fields(base.reactions, "moment_nm", "shear_n", "axial_n", "kind", "text"),
        "concrete_m3": plain(base.concrete.volume),
    }


def _fix(fix: FixOffer) -> dict[str, Any]:
    electrical = fix.electrical
    return {
        **fields(fix, "beam", "element", "label", "text", "weight_change_n"),
        **plain_rows(fixes((fix,)))[0],
        "reactance_change_ohm": 0.0 if electrical is None else plain(electrical.reactance_change),
        "tip_trim_m": 0.0 if electrical is None else plain(electrical.trim),
        "half": [fields(tube, "diameter_m", "length_m", "wall_m") for tube in fix.changed.half],
    }
