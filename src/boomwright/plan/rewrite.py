"""Changing single values of an owner's plan text; comments, order and units stay.

Each edit replaces the characters of one value and nothing else, so whatever the owner wrote
around it is kept to the letter.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boomwright.base import place_error
from boomwright.plan.faults import path_text, shown
from boomwright.plan.layout import Path
from boomwright.plan.places import kind_at, parse_path
from boomwright.plan.plan_text import PlanText
from boomwright.plan.quantity import QuantityError, parse_quantity


def rewrite(text: str, edits: Mapping[str, Any]) -> str:
    """Change single values of a plan text and leave all else to the letter.

    Args:
        edits: place, such as ``beam[0].element[1].at``, to new value: a text is written as it is, a
            number is SI and gets a unit, a mapping at the index after the last appends a table,
            None removes [SI]
    """
    work = PlanText(text)
    paths = {name: parse_path(name) for name in edits}
    for name, value in edits.items():
        kind_at(paths[name])
        if value is not None:
            work.set(paths[name], value)
    removed = [paths[name] for name, value in edits.items() if value is None]

    # The last one first, so that the indices of the others still hold.
    def order(path: Path) -> tuple[tuple[str, int], ...]:
        return tuple((step, -1) if isinstance(step, str) else ("", step) for step in path)

    for path in sorted(removed, key=order, reverse=True):
        work.remove(path)
    return work.text


def set_element_length(text: str, beam: int | str, element: int, new_length: float) -> str:
    """Give an element a new length; of an element in sections only the tips change.

    Args:
        new_length: full length from tip to tip [m]

    Raises:
        PlanError: no such element, or the tip section would vanish
    """
    work = PlanText(text)
    index = _beam_index(work, beam)
    place: Path = ("beam", index, "element", element)
    entry = work.at(place)
    if not isinstance(entry, dict):
        message = "the plan has no such element"
        remedy = "count elements from 0 in the plan's order"
        raise place_error(path_text(place), message, remedy=remedy)
    if "half" not in entry:
        work.set((*place, "length"), new_length)
        return work.text
    rows = entry["half"]
    wavelength = work.wavelength(place)
    try:
        inner = [parse_quantity(row[1], "length", wavelength=wavelength) for row in rows[:-1]]
    except (QuantityError, TypeError, IndexError) as error:
        remedy = "correct the sections first; read_plan lists what is wrong"
        message = "a section cannot be read"
        raise place_error(path_text((*place, "half")), message, remedy=remedy) from error
    tip = new_length / 2 - sum(inner)
    if tip <= 0:
        message = f"the tip section would have no length left ({1000 * tip:.0f} mm)"
        remedy = f"keep the element longer than {2 * sum(inner):.3f} m, or shorten inner sections"
        place_text = path_text((*place, "half"))
        raise place_error(place_text, message, remedy=remedy, value=f"{new_length:.4g} m")
    work.set((*place, "half", len(rows) - 1, 1), tip)
    return work.text


def _beam_index(work: PlanText, beam: int | str) -> int:
    beams = work.at(("beam",)) or []
    if isinstance(beam, int):
        return beam
    names = [entry.get("name") for entry in beams if isinstance(entry, dict)]
    if beam not in names:
        listed = ", ".join(str(name) for name in names)
        message = "no beam has this name"
        remedy = f"beams of this plan: {listed}"
        raise place_error(path_text(("beam",)), message, remedy=remedy, value=shown(beam))
    return names.index(beam)
