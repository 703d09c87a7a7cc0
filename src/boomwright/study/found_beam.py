"""A found beam written into the owner's plan: places and tips change, all else stays."""

from __future__ import annotations

import tomllib
from typing import Any

from boomwright.parts import Beam, Element
from boomwright.plan import Plan, rewrite, set_element_length
from boomwright.plan.resolve import boom_order

#: smaller differences are not written: nobody can measure them [m]
_LEAST_CHANGE = 5e-5


def put_found_beam(text: str, plan: Plan, *, before: Beam, after: Beam) -> str:
    """Write a found beam into a plan.

    Args:
        after: the beam found, its elements in the order along the boom

    Returns:
        the plan with new places and lengths, in the owner's units; elements beyond those it had
        follow the
            last one and are made like it, elements no longer needed are taken out
    """
    number = plan.beams.index(before)
    order = boom_order(before)
    pairs = [*zip(order, after.elements, strict=False)]
    moved: dict[str, str | float] = {
        f"beam[{number}].element[{old}].at": new.position
        for old, new in pairs
        if abs(new.position - before.elements[old].position) > _LEAST_CHANGE
    }
    moved |= _moved_points(number, before, after)
    text = rewrite(text, moved) if moved else text
    for old, new in pairs:
        if abs(new.length - before.elements[old].length) > _LEAST_CHANGE:
            text = set_element_length(text, number, old, new.length)
    surplus = [f"beam[{number}].element[{old}]" for old in order[len(after.elements) :]]
    if surplus:
        return rewrite(text, dict.fromkeys(surplus))
    for new in after.elements[len(order) :]:
        listed = tomllib.loads(text.removeprefix("\ufeff"))["beam"][number]["element"]
        entry = _like(listed[order[-1]], new)
        text = rewrite(text, {f"beam[{number}].element[{len(listed)}]": entry})
    return text


def _moved_points(number: int, before: Beam, after: Beam) -> dict[str, str | float]:
    """Places of the plan where the frame has moved, with their new values [m]."""
    if before.frame is None or after.frame is None:
        return {}
    place = f"beam[{number}].frame"
    moved: dict[str, str | float] = {
        f"{place}.points[{index}][{axis + 1}]": new.place[axis]
        for index, (old, new) in enumerate(
            zip(before.frame.points, after.frame.points, strict=True)
        )
        for axis in range(3)
        if abs(new.place[axis] - old.place[axis]) > _LEAST_CHANGE
    }
    was, hub = before.frame.hub, after.frame.hub
    if was is not None and hub is not None and abs(hub - was) > _LEAST_CHANGE:
        moved[f"{place}.hub"] = hub
    return moved


def _like(pattern: dict[str, Any], new: Element) -> dict[str, Any]:
    """Entry of a new element made of the same tubes as another."""
    entry = {**pattern, "role": new.role, "at": new.position}
    if "half" in entry:
        *inner, tip = entry["half"]
        entry["half"] = [*inner, [tip[0], new.half[-1].length, *tip[2:]]]
    else:
        entry["length"] = new.length
    return entry
