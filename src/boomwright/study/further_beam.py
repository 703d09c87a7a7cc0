"""A further beam in a plan, taken from a plan of its own."""

from __future__ import annotations

from boomwright.plan import read_plan, rewrite
from boomwright.plan.read import parse_toml


def with_further_beam(text: str, new: str) -> str:
    """Append the beam of a new plan to a plan; what stands in the plan stays as it is.

    Whatever else the new plan has, site, line and supports, the plan has of its own.

    Args:
        text: text of the plan
        new: text of a plan of one beam

    Raises:
        PlanError: when the plan cannot take it
    """
    plan = read_plan(text)
    (beam,) = parse_toml(new)["beam"]
    names = {each.name for each in plan.beams}
    name, number = beam["name"], 2
    while name in names:
        name, number = f"{beam['name']} {number}", number + 1
    changed = rewrite(text, {f"beam[{len(plan.beams)}]": {**beam, "name": name}})
    read_plan(changed)
    return changed
