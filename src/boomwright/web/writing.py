"""From what a window types to a changed plan text."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING, Any

from boomwright.base import PlanError
from boomwright.web.edits import Write
from boomwright.web.list_edits import Drop, Name
from boomwright.web.places import absent, typed_length

if TYPE_CHECKING:
    from boomwright.web.service import PlanDesk

#: values that may be empty again: the key then leaves the plan
_OPTIONAL = (
    "reach.",
    "site.position",
    "site.locator",
    "site.wind_basis.exposure",
    "site.wind_basis.terrain",
    "site.wind_basis.orography",
    "site.ice_basis.mapped",
    "transmitter.",
)
#: values that are yes or no, as typed -> as the plan has them
_YES_NO = {"site.ice_basis.mapped": {"yes": True, "true": True, "no": False, "false": False}}
#: values that are lists, typed with commas -> unit of a bare number in them, or empty
_LISTS = {"reach.wanted": "deg", "reach.stack": ""}
#: values that are plain numbers, without a unit
_NUMBERS = {"prices.budget", "site.wind_basis.orography"}
#: longest locator square written by hand [characters]
_LOCATOR_LONGEST = 10


def written(edit: Write | Name | Drop, *, desk: PlanDesk) -> tuple[str, str]:
    """Write what was typed into the plan's text.

    Raises
    ------
    PlanError
        when a value cannot be written or the plan has no such part
    """
    match edit:
        case Name():
            place = f"{edit.place}[{_count(desk, edit.place)}]"
            entry = _entry(edit)
            return desk.tools.rewrite(desk.text, {place: entry}), f"{edit.place} added"
        case Drop():
            place = f"{edit.place}[{edit.number}]"
            if edit.number >= _count(desk, edit.place):
                raise PlanError((absent(place),))
            return desk.tools.rewrite(desk.text, {place: None}), f"{edit.place} taken out"
        case Write():
            return _value(edit, desk=desk), f"{edit.place} typed"


def _value(edit: Write, *, desk: PlanDesk) -> str:
    if edit.place.startswith("beam[") and edit.place.endswith(".length"):
        beam_number, element = (int(part.split("]")[0]) for part in edit.place.split("[")[1:3])
        beam = desk.beam(beam_number)
        if element >= len(beam.elements):
            raise PlanError((absent(f"beam[{beam_number}].element[{element}]"),))
        length = typed_length(edit, wavelength=beam.wavelength)
        return desk.tools.set_element_length(
            desk.text, beam=beam_number, element=element, length=length
        )
    value: Any = edit.text
    if edit.place in _LISTS:
        value = _listed(edit.text, unit=_LISTS[edit.place])
    if edit.place in _YES_NO:
        value = _YES_NO[edit.place].get(edit.text.strip().lower(), edit.text)
    if edit.place in _NUMBERS:
        # What is no number stays as typed and is refused with its remedy.
        with suppress(ValueError):
            value = float(edit.text)
    if not edit.text and edit.place.startswith(_OPTIONAL):
        value = None
    return desk.tools.rewrite(desk.text, {edit.place: value})


def _listed(text: str, *, unit: str) -> list[str]:
    """Typed members; those of a list of quantities with or without their unit."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if not unit:
        return parts
    spelled = [part.replace("°", f" {unit}") for part in parts]
    return [part if part[-1:].isalpha() else f"{part} {unit}" for part in spelled]


def _entry(edit: Name) -> dict[str, Any]:
    typed = {key: text for key, text in edit.values if text}
    where = typed.pop("where", "")
    if where:
        square = where.isalnum() and len(where) <= _LOCATOR_LONGEST
        typed["locator" if square else "position"] = where
    return typed


def _count(desk: PlanDesk, place: str) -> int:
    table, key = place.split(".")
    return len(getattr(getattr(desk.plan, table), key, ()) or ())
