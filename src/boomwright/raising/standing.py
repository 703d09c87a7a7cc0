"""Where everybody stands during the lift: distance, side, and who must be in sight.

Common practice {common-practice-raising}: outside the circle of falling tools and of the turning
beam, never under the load or in line with a rope, and in sight of whoever gives the commands.
"""

from __future__ import annotations

import math

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.raising.job import Raising
from boomwright.raising.way import dropped_tool_radius, exclusion_radius, load_way
from boomwright.raising.weighing import MethodChoice
from boomwright.raising.wording import span


def standing_radius(best: MethodChoice, job: Raising) -> float:
    """Least distance from foot and way of the load of whoever has a task on the ground.

    Returns:
        a metre outside of what drops and turns; outside the whole reach of what is tilted [m]
    """
    way = load_way(best.way, job)
    if best.way == "tilt":
        return exclusion_radius(job, way)
    return float(math.ceil(max(dropped_tool_radius(job, way), job.swing_radius) + 1.0))


def tag_line(best: MethodChoice, job: Raising) -> float:
    """Length of a tag line: from where its holder stands to the boom at the clamp, with a hold.

    Returns:
        whole metres, 2 m to hold among them [m]
    """
    away = standing_radius(best, job) + load_way(best.way, job).out + 0.5 * job.load.boom_length
    return float(math.ceil(math.hypot(job.lift_height, away) + 2.0))


def standing_place(role: str, best: MethodChoice, job: Raising) -> Value:
    """Say where a role stands."""
    way = load_way(best.way, job)
    out, middle = Quantity(standing_radius(best, job), "span"), way.middle
    if role in {"lift director", "spotter"}:
        side = _directing(best) if role == "lift director" else _spotting(job)
        return phrase("at least {out} from {middle}, {side}", out=out, middle=middle, side=side)
    if role == "tag lines":
        return phrase(
            "at least {out} from {middle}, {side}, lines of {long} or more; in sight of the lift "
            "director",
            out=out, middle=middle, long=span(tag_line(best, job)),
            side="one on either side of the arm" if way.machine
            else "each off one end of the boom",
        )  # fmt: skip
    if role in {"hauling rope", "capstan winch"}:
        return phrase(
            "at least {out} from the foot, facing the foot block, never inside a bend of the rope",
            out=out,
        )
    if role == "winch":
        entered = None if job.tilt is None else job.tilt.operator_out
        away = out if entered is None else Quantity(entered, "span")
        return phrase("at least {away} from the hinge, beside the rope's line", away=away)
    if role == "wardens":
        edge = span(exclusion_radius(job, load_way(best.way, job)))
        return phrase("at the edge of the ground kept empty, {edge} from the foot", edge=edge)
    return {
        "climbers": "at the mast clamp, tied on",
        "platform operator": "on the platform",
        "platform hand": "on the platform",
        "crane operator": "in the crane",
        "hold-back line": "at its anchor, beside the way of the support and never under it",
        "ropes": "each at the lower end of a rope, clear of the ground under the wire",
    }.get(role, "")


def standing_points(best: MethodChoice, job: Raising) -> tuple[tuple[str, float, float], ...]:
    """Where people with a task on the ground stand when a machine lifts on a known bearing.

    Returns:
        name of the role, east and north of the foot; none without the bearing [m] (n_people,)
    """
    way = load_way(best.way, job)
    if way.bearing is None:
        return ()
    out = standing_radius(best, job)
    half_left = 0.25 * math.pi
    # Directions off the arm, clockwise; tag lines pull outwards, away from pole, guys and anchors.
    places = (
        ("lift director", (0.0, 0.0), 2.0 * half_left),
        ("spotter", (0.0, 0.0), -2.0 * half_left),
        ("tag line", way.place, half_left),
        ("tag line", way.place, -half_left),
    )
    return tuple(
        (
            role,
            east + out * math.sin(way.bearing + turn),
            north + out * math.cos(way.bearing + turn),
        )
        for role, (east, north), turn in places
    )


def _directing(best: MethodChoice) -> str:
    """Side on which the lift director stands, and who is in sight there."""
    if best.way == "tilt":
        return "square to the way of the support; in sight of winch and hold-back line"
    if best.way == "by hand":
        return "beside the wire, never under it; in sight of every rope"
    if best.way == "truck" or (best.platform and best.way == "crane"):
        return "square to the machine's arm; in sight of platform and tag lines"
    if best.way == "crane":
        return "square to the arm of the crane; in sight of its operator, the clamp and the spotter"
    return "square to the hauling rope; in sight of climbers, rope and spotter"


def _spotting(job: Raising) -> str:
    """Side on which the spotter stands."""
    if not job.power_lines:
        return "across from the lift director and in sight of that place"
    nearest = min(job.power_lines, key=lambda near: near.distance)
    return (
        f"towards the power line “{nearest.name}” but never under it, where the gap between line "
        "and beam shows; in sight of the lift director"
    )
