"""The raising as one plain document: what ``raise --json`` prints."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from boomwright.raising import LiftPlan, MethodChoice, TakingDown
from boomwright.study.raising import BeamLift, RaisingResult


def raising_document(result: RaisingResult) -> dict[str, Any]:
    """Write the raising as numbers, texts, lists and dictionaries only.

    Returns
    -------
    dict[str, Any]
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
        "notices": [asdict(notice) for notice in result.notices],
    }


def _beam(each: BeamLift, result: RaisingResult) -> dict[str, Any]:
    found = result.declination
    picks = each.picks
    return {
        "name": each.beam.name,
        "missing": list(each.gaps),
        "true_heading_deg": math.degrees(each.beam.heading) % 360.0,
        "compass_bearing_deg": None
        if found is None
        else math.degrees(found.compass(each.beam.heading)),
        "lift": None if each.lift is None else _lift(each.lift),
        "picks": None
        if picks is None
        else {
            "balance_m": picks.balance,
            "rear_m": picks.rear,
            "front_m": picks.front,
            "hook_above_boom_m": picks.rise,
            "leg_n": max(picks.forces.left, picks.forces.right),
            "least_breaking_strength_n": picks.least_strength,
        },
    }


def _lift(lift: LiftPlan) -> dict[str, Any]:
    job = lift.job
    return {
        "verdict": lift.verdict,
        "reasons": list(lift.reasons),
        "mass_kg": job.load.mass,
        "lift_height_m": job.lift_height,
        "methods": [_method(method) for method in lift.methods],
        "answers": [
            {
                "question": each.question.matter,
                "answer": None if each.said is None else each.said.yes,
                "by": "" if each.said is None else each.said.by,
                "on": "" if each.said is None else each.said.on,
            }
            for each in lift.answers
        ],
        "power_lines": [asdict(check) for check in lift.power_lines],
        "ground_kept": [
            {
                "name": check.name,
                "verdict": check.verdict,
                "reach_m": check.reach,
                "distance_m": check.distance,
                "reason": check.reason,
            }
            for check in lift.ground
        ],
        "weather": asdict(lift.weather),
        "stops": asdict(lift.stops),
        "exclusion_radius_m": lift.exclusion_radius,
        "dropped_tool_radius_m": lift.dropped_tool_radius,
        "falls": None if lift.falls is None else asdict(lift.falls),
        "crew": [asdict(role) for role in lift.crew],
        "signals": [asdict(signal) for signal in lift.signals],
        "hold_points": [asdict(point) for point in lift.hold_points],
        "sequence": list(lift.sequence),
        "emergency": list(lift.emergency),
        "taking_down": _taking_down(lift.taking_down),
        "swr_check": None if lift.swr_check is None else asdict(lift.swr_check),
    }


def _method(method: MethodChoice) -> dict[str, Any]:
    return {
        "name": method.name,
        "verdict": method.verdict,
        "reasons": list(method.reasons),
        "forces": [
            {"name": force.name, "value_n": force.value, "limit_n": force.limit}
            for force in method.forces
        ],
        "tower_top": asdict(method.tower_top),
        "climbers": method.people[0],
        "ground": method.people[1],
        "course": [
            {
                "angle_deg": math.degrees(state.angle),
                "turning_n_m": state.turning,
                "winch_line_n": state.winch_line,
                "lift_line_n": state.lift_line,
                "lifter_n": state.lifter,
                "hinge_thrust_n": state.thrust,
                "hinge_down_n": state.down,
                "axial_n": state.axial,
            }
            for state in method.course
        ],
    }


def _taking_down(down: TakingDown) -> dict[str, Any]:
    return {
        "order": list(down.order),
        "look_at": list(down.look_at),
        "sequence": list(down.sequence),
        "hold_points": [asdict(point) for point in down.hold_points],
    }
