"""The structure as one plain document: what ``structure --json`` prints."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from boomwright.structure import (
    AreaConventions,
    ArmBending,
    BaseReport,
    BeamReport,
    ElementReport,
    GustResponse,
    GuyReport,
    IcedReport,
    Margin,
    RatedArea,
    ReminderList,
    SectionStrength,
    SupportCourse,
    Tower,
    TubeBending,
    WindTorque,
    leg_course,
)
from boomwright.study.element_fixes import FixOffer
from boomwright.study.structure import StructureCheck


def structure_document(result: StructureCheck) -> dict[str, Any]:
    """Write the findings as numbers, texts, lists and dictionaries only.

    A figure without a finite value, or that could not be found, becomes None.

    Returns
    -------
    dict[str, Any]
        the document; the unit of each figure is in its name
    """
    report = result.report
    return {
        "basis": report.basis,
        "method": report.inputs.concept,
        "gusts": None if report.gusts is None else _gusts(report.gusts),
        "ledger": [_line(line) for line in report.ledger],
        "beams": [_beam(beam) for beam in report.beams],
        "mast": None
        if report.mast is None
        else {
            "moment_nm": _finite(report.mast.moment),
            "stress_pa": _finite(report.mast.stress),
            "growth": _finite(report.mast.growth),
            "rotator_reaction_n": _finite(report.mast.rotator_reaction),
            "top_deflection_m": _finite(report.mast.top_deflection),
        },
        "rotator": None
        if report.rotator is None
        else {
            "survival_torque_nm": _finite(report.rotator.survival_torque),
            "turning_torque_nm": _finite(report.rotator.turning_torque),
            "stopping_torque_nm": _finite(report.rotator.stopping_torque),
            "inertia_kgm2": _finite(report.rotator.inertia),
            "vertical_load_n": _finite(report.rotator.vertical_load),
            "side_force_n": _finite(report.rotator.side_force),
        },
        "tower_area": None if report.tower_area is None else _area(report.tower_area),
        "support_tube": None if report.tube is None else _tube(report.tube),
        "tower_along_height": _along(report.tower_course, report.inputs.tower),
        "guys": None if report.guys is None else _guys(report.guys),
        "base": None if report.base is None else _base(report.base),
        "iced": None if report.iced is None else _iced(report.iced, report.inputs.tower),
        "fixes": [_fix(fix) for fix in result.fixes],
        "notices": [asdict(notice) for notice in result.all_notices],
        "reminders": [_reminders(each) for each in report.reminders],
    }


def _gusts(gusts: GustResponse) -> dict[str, Any]:
    return {
        "factor": _finite(gusts.factor),
        "frequency_hz": _finite(gusts.frequency_hz),
        "text": gusts.text,
    }


def _area(area: RatedArea) -> dict[str, Any]:
    return {
        "demand_m2": _finite(area.demand),
        "capacity_m2": _finite(area.capacity),
        "text": area.text,
    }


def _tube(tube: TubeBending) -> dict[str, Any]:
    return {
        "moment_nm": _finite(tube.moment),
        "amplification": _finite(tube.amplification),
        "stress_pa": _finite(tube.stress),
        "axial_n": _finite(tube.axial),
        "ice_weight_n": _finite(tube.ice_weight),
        "along_height": _along(tube.course, None),
        "columns": [
            {
                "low_m": _finite(length.low),
                "high_m": _finite(length.high),
                "column_length_m": _finite(length.column_length),
                "axial_n": _finite(length.axial),
                "moment_nm": _finite(length.moment),
            }
            for length in tube.lengths
        ],
        "bracket_forces_n": [_finite(force) for force in tube.bracket_forces],
    }


def _along(course: SupportCourse | None, tower: Tower | None) -> dict[str, Any] | None:
    """What a support carries along its height; None when not found, or when it buckles."""
    if course is None:
        return None
    legs = None if tower is None else leg_course(tower=tower, course=course)
    return {
        "height_m": _finites(course.heights),
        "moment_nm": _finites(course.moment),
        "shear_n": _finites(course.shear),
        "compression_n": _finites(course.compression),
        "leg_load_n": None if legs is None else _finites(legs),
    }


def _iced(iced: IcedReport, tower: Tower | None) -> dict[str, Any]:
    return {
        "basis": iced.basis,
        "gusts": None if iced.gusts is None else _gusts(iced.gusts),
        "tower_area": None if iced.tower_area is None else _area(iced.tower_area),
        "support_tube": None if iced.tube is None else _tube(iced.tube),
        "tower_along_height": _along(iced.tower_course, tower),
        "guys": None if iced.guys is None else _guys(iced.guys),
        "base": None if iced.base is None else _base(iced.base),
    }


def _line(line: Margin) -> dict[str, Any]:
    return {
        "name": line.name,
        "verdict": line.verdict,
        "use": _finite(line.use),
        "demand": _finite(line.demand),
        "capacity": _finite(line.capacity),
        "unit": line.unit,
        "basis": line.basis,
        "change": line.change,
        "reason": line.reason,
    }


def _beam(beam: BeamReport) -> dict[str, Any]:
    wind = beam.wind
    return {
        "name": beam.name,
        "height_m": beam.height,
        "weight_n": _finite(beam.weight),
        "iced_weight_n": _finite(beam.iced_weight),
        "force_n": _finite(beam.force),
        "balance_m": _finite(beam.balance),
        "clamp_m": _finite(beam.clamp),
        "inertia_kgm2": _finite(beam.inertia),
        "vane_drag_area_m2": _finite(beam.vane_drag_area),
        "torque_nm": None if beam.torque is None else _torque(beam.torque),
        "iced_torque_nm": None if beam.iced_torque is None else _torque(beam.iced_torque),
        "wind": {
            "worst_m2": _areas(wind.worst),
            "worst_angle_deg": _finite(wind.worst_angle_deg),
            "older_worst_m2": _areas(wind.older_worst),
            "older_worst_angle_deg": _finite(wind.older_worst_angle_deg),
            "angle_deg": _finites(wind.angles_deg),
            "drag_area_m2": _finites(wind.drag_area),
            "older_drag_area_m2": _finites(wind.older_drag_area),
        },
        "iced_worst_m2": None if beam.iced_wind is None else _areas(beam.iced_wind.worst),
        "arms": [_arm(arm) for arm in beam.arms],
        "iced_arms": [_arm(arm) for arm in beam.iced_arms],
        "elements": [_element(element) for element in beam.elements],
    }


def _torque(torque: WindTorque) -> dict[str, float | None]:
    return {name: _finite(value) for name, value in asdict(torque).items()}


def _areas(areas: AreaConventions) -> dict[str, float | None]:
    return {
        "projected": _finite(areas.projected),
        "drag": _finite(areas.drag),
        "flat": _finite(areas.flat),
    }


def _arm(arm: ArmBending) -> dict[str, Any]:
    tie = arm.tie
    return {
        "length_m": _finite(arm.length),
        "moment_nm": _finite(arm.moment),
        "wind_moment_nm": _finite(arm.wind_moment),
        "sag_m": _finite(arm.sag),
        "stress_pa": _finite(arm.stress),
        "tie_pull_n": None if tie is None else _finite(tie.pull),
    }


def _element(element: ElementReport) -> dict[str, Any]:
    strength = element.strength
    return {
        "index": element.index,
        "label": element.label,
        "half_weight_n": _finite(strength.half_weight),
        "dead_droop_m": _finite(strength.dead_droop),
        "iced_droop_m": _finite(strength.iced_droop),
        "weakest_section": strength.worst_bare.index,
        "large_deflection_ratio": _finite(element.large_deflection_ratio),
        "sections": [_section(section) for section in strength.sections],
        "modes": [
            {
                "frequency_hz": _finite(mode.frequency_hz),
                "critical_wind_m_s": _finite(mode.critical_wind),
            }
            for mode in element.modes
        ],
    }


def _section(section: SectionStrength) -> dict[str, Any]:
    return {
        "from_boom_m": _finite(section.from_boom),
        "diameter_m": _finite(section.diameter),
        "wall_m": _finite(section.wall),
        "bare_stress_pa": _finite(section.bare_stress),
        "iced_stress_pa": _finite(section.iced_stress),
        "yield_speed_bare_m_s": _finite(section.yield_speed_bare),
        "yield_speed_iced_m_s": _finite(section.yield_speed_iced),
    }


def _guys(guys: GuyReport) -> dict[str, Any]:
    return {
        "highest_tensions_n": _finites(guys.highest_tensions),
        "compression_n": _finite(guys.compression),
        "support_buckles": guys.buckles,
        "directions": [
            {
                "wind_deg": _finite(state.wind_deg),
                "tensions_n": [_finites(ring) for ring in state.tensions],
                "slack": state.slack,
            }
            for state in guys.states
        ],
        "anchors": [
            {
                "radius_m": _finite(anchor.radius),
                "uplift_n": _finite(anchor.uplift),
                "slide_n": _finite(anchor.slide),
            }
            for anchor in guys.anchors
        ],
    }


def _base(base: BaseReport) -> dict[str, Any]:
    loads = base.reactions
    return {
        "moment_nm": _finite(loads.moment),
        "shear_n": _finite(loads.shear),
        "axial_n": _finite(loads.axial),
        "kind": loads.kind,
        "text": loads.text,
        "concrete_m3": _finite(base.concrete.volume),
    }


def _fix(fix: FixOffer) -> dict[str, Any]:
    electrical = fix.electrical
    return {
        "beam": fix.beam,
        "element": fix.element,
        "label": fix.label,
        "text": fix.text,
        "stress_before_pa": _finite(fix.stress_before),
        "stress_after_pa": _finite(fix.stress_after),
        "weight_change_n": _finite(fix.weight_change),
        "droop_change_m": _finite(fix.droop_change),
        "reactance_change_ohm": 0.0 if electrical is None else _finite(electrical.reactance_change),
        "tip_trim_m": 0.0 if electrical is None else _finite(electrical.trim),
        "half": [
            {"diameter_m": s.diameter, "length_m": s.length, "wall_m": s.wall}
            for s in fix.changed.half
        ],
    }


def _reminders(reminders: ReminderList) -> dict[str, Any]:
    return {
        "code": reminders.code,
        "title": reminders.title,
        "items": [asdict(item) for item in reminders.items],
    }


def _finite(value: float | None) -> float | None:
    return float(value) if value is not None and math.isfinite(value) else None


def _finites(values: Iterable[float]) -> list[float | None]:
    return [_finite(value) for value in values]
