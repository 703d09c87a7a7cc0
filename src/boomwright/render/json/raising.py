"""The raising as one plain document: what ``raise --json`` prints."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from boomwright.raising import HoldPoint, LiftPlan, MethodChoice, TakingDown
from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.raising.methods import course, methods
from boomwright.study.raising import BeamLift, RaisingResult


def raising_document(result: RaisingResult) -> dict[str, Any]:
    """Write the raising as numbers, texts, lists and dictionaries only.

    Returns:
        the document; the unit of each figure is in its name, forces in newtons
    """
    found = result.declination
    return {
        "today": result.today,
        "declination": None
        if found is None
        else {
            "east_deg": math.degrees(found.angle),
            "error_deg": math.degrees(found.error),
            "model": found.model,
        },
        "beams": [_beam(each, result) for each in result.lifts],
        "notices": notice_rows(result.notices),
    }


def _beam(each: BeamLift, result: RaisingResult) -> dict[str, Any]:
    found = result.declination
    picks = each.picks
    return {
        "name": each.beam.name,
        "missing": [plain(gap) for gap in each.gaps],
        "true_heading_deg": math.degrees(each.beam.heading) % 360.0,
        "compass_bearing_deg": None
        if found is None
        else math.degrees(found.compass(each.beam.heading)),
        "lift": None if each.lift is None else _lift(each.lift),
        "picks": None
        if picks is None
        else {
            **fields(picks, "balance_m", "rear_m", "front_m"),
            "hook_above_boom_m": picks.rise,
            "leg_n": max(picks.forces.left, picks.forces.right),
            "least_breaking_strength_n": picks.least_strength,
        },
    }


def _lift(lift: LiftPlan) -> dict[str, Any]:
    return {
        **fields(lift, "verdict", "reasons"),
        "mass_kg": lift.job.load.mass,
        "turning_radius_m": lift.job.swing_radius,
        "lift_height_m": lift.job.lift_height,
        "methods": [
            {**row, "verdict": lift.answer(method), **_method(method)}
            for row, method in zip(plain_rows(methods(lift)), lift.methods, strict=True)
        ],
        "answers": [
            {
                "question": each.question.matter,
                "answer": None if each.said is None else each.said.yes,
                "by": "" if each.said is None else each.said.by,
                "on": "" if each.said is None else each.said.on,
            }
            for each in lift.answers
        ],
        "power_lines": [
            fields(check, "name", "verdict", "gap", "required", "reason")
            for check in lift.power_lines
        ],
        "ground_kept": [
            fields(check, "name", "verdict", "reach_m", "distance_m", "reason")
            for check in lift.ground
        ],
        "weather": fields(lift.weather, "hoist", "climb", "reason"),
        "stops": asdict(lift.stops),
        **fields(lift, "exclusion_radius_m", "dropped_tool_radius_m"),
        "falls": None if lift.falls is None else asdict(lift.falls),
        "crew": [fields(role, "role", "people", "task", "place") for role in lift.crew],
        "signals": [asdict(signal) for signal in lift.signals],
        "hold_points": _holds(lift.hold_points),
        **fields(lift, "sequence", "emergency"),
        "taking_down": _taking_down(lift.taking_down),
        "swr_check": lift.swr_check and fields(lift.swr_check, "frequency", "swr", "text", "trim"),
    }


def _method(method: MethodChoice) -> dict[str, Any]:
    return {
        "forces": [fields(force, "name", "value_n", "limit_n") for force in method.forces],
        "tower_top": asdict(method.tower_top),
        "climbers": method.people[0],
        "ground": method.people[1],
        "course": [
            {**row, **fields(state, "lift_line_n", "axial_n")}
            for row, state in zip(plain_rows(course(method)), method.course, strict=True)
        ],
    }


def _holds(points: tuple[HoldPoint, ...]) -> list[dict[str, Any]]:
    return [fields(point, "name", "checks", "who") for point in points]


def _taking_down(down: TakingDown) -> dict[str, Any]:
    return {
        **fields(down, "order", "look_at", "sequence"),
        "hold_points": _holds(down.hold_points),
    }
