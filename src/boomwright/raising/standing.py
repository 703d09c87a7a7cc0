"""Where everybody stands during the lift: distance, side, and who must be in sight.

Common practice {common-practice-raising}: outside the circle of falling tools and of the turning
beam, never under the load or in line with a rope, and in sight of whoever gives the commands.
"""

from __future__ import annotations

import math

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.raising.job import Raising
from boomwright.raising.surroundings import dropped_tool_radius, exclusion_radius
from boomwright.raising.weighing import MethodChoice
from boomwright.raising.wording import span


def standing_radius(best: MethodChoice, job: Raising) -> float:
    """Least distance from the foot at which somebody with a task on the ground stands.

    Returns:
        a metre outside of what drops and turns; outside the whole reach of what is tilted [m]
    """
    if best.way == "tilt":
        return exclusion_radius(job)
    return float(math.ceil(max(dropped_tool_radius(job), job.swing_radius) + 1.0))


def standing_place(role: str, best: MethodChoice, job: Raising) -> Value:
    """Say where a role stands."""
    out = Quantity(standing_radius(best, job), "span")
    if role == "lift director":
        return phrase("at least {out} from the foot, {side}", out=out, side=_directing(best))
    if role == "spotter":
        return phrase("at least {out} from the foot, {side}", out=out, side=_spotting(job))
    if role == "tag lines":
        return phrase(
            "at least {out} from the foot, each off one end of the boom; in sight of the lift "
            "director",
            out=out,
        )
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
        edge = span(exclusion_radius(job))
        return phrase("at the edge of the ground kept empty, {edge} from the foot", edge=edge)
    return {
        "climbers": "at the mast clamp, tied on",
        "platform operator": "on the platform",
        "platform hand": "on the platform",
        "crane operator": "in the crane",
        "hold-back line": "at its anchor, beside the way of the support and never under it",
        "ropes": "each at the lower end of a rope, clear of the ground under the wire",
    }.get(role, "")


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
