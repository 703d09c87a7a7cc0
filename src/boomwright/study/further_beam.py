"""A further beam in a plan, taken from a plan of its own."""

from __future__ import annotations

import re

from boomwright.plan import read_plan, rewrite

#: the first beam of a plan, up to the next table that is no beam's
_BEAM = re.compile(r"^\[\[beam\]\].*?(?=^\[+(?!beam\b)[a-z]|\Z)", re.MULTILINE | re.DOTALL)
#: remarks at the end, which belong to what follows
_REMARKS = re.compile(r"(?:\s*^\s*#[^\n]*)+\s*\Z", re.MULTILINE)


def with_further_beam(text: str, new: str) -> str:
    """Append the beam of a new plan to a plan; what stands in the plan stays as it is.

    Args:
        text: text of the plan
        new: text of a plan of one beam

    Raises:
        PlanError: when the plan cannot take it
    """
    plan, made = read_plan(text), read_plan(new)
    names = {beam.name for beam in plan.beams}
    name = made.beams[0].name
    number = 2
    while name in names:
        name, number = f"{made.beams[0].name} {number}", number + 1
    found = _BEAM.search(rewrite(new, {"beam[0].name": name}))
    # Site, line and supports the plan has of its own.
    alone = "" if found is None else _REMARKS.sub("", found[0])
    changed = f"{text.rstrip()}\n\n{alone.rstrip()}\n"
    read_plan(changed)
    return changed
