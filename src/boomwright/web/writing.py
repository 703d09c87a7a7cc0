"""From what a window does to the plan to the changed text of it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from itertools import product
from typing import Any

from boomwright.base import Fault, PlanError
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.plan import (
    QuantityError,
    parse_quantity,
    rewrite,
    set_element_length,
)
from boomwright.plan.model import Plan
from boomwright.plan.places import place_words
from boomwright.plan.read import parse_toml
from boomwright.web.edits import Adopt, Corner, Lengthen, Move, Raise, Strengthen, TakeMoves, Write
from boomwright.web.form_edits import Confirm, Fill, FormEdit, Shift, TakeOut, table_path
from boomwright.web.improve_edits import Take
from boomwright.web.plan_forms import applied

TextEdit = (
    Move | Lengthen | Corner | Raise | Write | Strengthen | Adopt | TakeMoves | Take | FormEdit
)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A changed plan that lies ready to be taken, until the plan moves on."""

    revision: int  #: state of the plan it was made from; with another one it is out of date
    text: str  #: the changed plan
    label: str  #: what taking it is called, e.g. ``better beam taken``


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """A plan as it stands before an edit."""

    text: str
    plan: Plan
    offer: Offer | None  #: what lies ready to be taken; None when nothing does

    def beam(self, number: int) -> Beam:
        """Take a beam.

        Raises:
            PlanError: when the plan has no such beam
        """
        if number >= len(self.plan.beams):
            raise PlanError((_absent(f"beam[{number}]"),))
        return self.plan.beams[number]

    def role(self, beam: int, element: int) -> str:
        """Name an element's role.

        Raises:
            PlanError: when the plan has no such element
        """
        elements = self.beam(beam).elements
        if element >= len(elements):
            raise PlanError((_absent(f"beam[{beam}].element[{element}]"),))
        return elements[element].role


def edited(
    edit: TextEdit,
    *,
    before: Before,
    take_fix: Callable[..., str],
    take_match: Callable[..., str],
) -> tuple[str, str]:
    """Apply an edit to a plan's text.

    Returns:
        the new text, and the name of the step

    Raises:
        PlanError: when a value cannot be written, the plan has no such part, or nothing lies ready
    """
    match edit:
        case Move():
            label = f"{before.role(edit.beam, edit.element)} moved"
            place = f"beam[{edit.beam}].element[{edit.element}].at"
            return rewrite(before.text, {place: edit.position}), label
        case Lengthen():
            label = f"length of {before.role(edit.beam, edit.element)} changed"
            changed = set_element_length(before.text, edit.beam, edit.element, edit.length)
            return changed, label
        case Corner():
            return _corner(edit, before)
        case Raise():
            label = f"height of {before.beam(edit.beam).name} changed"
            return rewrite(before.text, {f"beam[{edit.beam}].height": edit.height}), label
        case Strengthen(beam=beam, element=element, number=number):
            label = f"{before.role(beam, element)} strengthened"
            return take_fix(before.text, beam=beam, element=element, number=number), label
        case Adopt(beam=beam):
            label = f"match of {before.beam(beam).name} adopted"
            return take_match(before.text, before.plan, number=beam), label
        case TakeMoves():
            from boomwright.study.taking_moves import taken_moves

            return taken_moves(before.text, before.plan), "moves of the trials taken"
        case Take():
            return _taken(edit, before)
        case Fill() | TakeOut() | Shift() | Confirm():
            return applied(edit, before.text)
        case Write():
            new = _value(edit, before)
            name = place_words(table_path(edit.place) or (), parse_toml(new.removeprefix("\ufeff")))
            return new, f"{name} typed"


def with_its_boom(text: str, before: Before) -> str:
    """Let all beams of one boom go along when one of them is raised or turned."""
    beams = before.plan.beams
    if not any(beam.on_boom_of for beam in beams):
        return text
    old, new = (parse_toml(each.removeprefix("\ufeff"))["beam"] for each in (before.text, text))
    if len(old) != len(new):
        return text
    along: dict[str, Any] = {}
    for key, (number, beam) in product(("height", "heading"), enumerate(beams)):
        if old[number].get(key) == new[number].get(key):
            continue
        for other, one in enumerate(beams):
            if one.shares_boom(beam) and old[other].get(key) == new[other].get(key):
                along[f"beam[{other}].{key}"] = new[number].get(key)
    return rewrite(text, along) if along else text


def _corner(edit: Corner, before: Before) -> tuple[str, str]:
    """Move a point of a frame; elements whose middle it is go along.

    Raises:
        PlanError: when the frame has no such point
    """
    beam = before.beam(edit.beam)
    points = () if beam.frame is None else beam.frame.points
    place = f"beam[{edit.beam}].frame.points[{edit.point}]"
    if edit.point >= len(points):
        raise PlanError((_absent(place),))
    point = points[edit.point]
    moved: dict[str, Any] = {f"{place}[1]": edit.x}
    if point.place[1] > 0.0:
        moved[f"{place}[2]"] = edit.y
    for number, element in enumerate(beam.elements):
        if element.bent and element.path[0].name == point.name:
            moved[f"beam[{edit.beam}].element[{number}].at"] = edit.x
    return rewrite(before.text, moved), f"point {point.name} moved"


def _taken(edit: Take, before: Before) -> tuple[str, str]:
    """Take what lies ready, or a point of the trade-off."""
    if edit.point is not None:
        # Searching designs loads all rooms below, which other edits must not wait for.
        from boomwright.study.frontier_fit import with_trade_off_point

        curve, number = edit.point
        label = f"{before.beam(edit.beam).name} taken from the trade-off"
        return with_trade_off_point(before.text, beam=edit.beam, curve=curve, number=number), label
    if before.offer is None:
        fault = Fault(
            path="beam",
            message="the plan was changed after the beam was found",
            remedy="search again",
        )
        raise PlanError((fault,))
    return before.offer.text, before.offer.label


def _value(edit: Write, before: Before) -> str:
    if edit.place.startswith("beam[") and edit.place.endswith(".length"):
        beam, element = (int(part.split("]")[0]) for part in edit.place.split("[")[1:3])
        before.role(beam, element)
        length = _typed_length(edit, wavelength=before.beam(beam).wavelength)
        return set_element_length(before.text, beam, element, length)
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
    return rewrite(before.text, {edit.place: value})


def _typed_length(edit: Write, *, wavelength: float) -> float:
    """Read a length as typed [m]; ``wl`` stands for the wavelength."""
    try:
        return parse_quantity(edit.text, "length", wavelength=wavelength)
    except QuantityError as error:
        fault = Fault(path=edit.place, message=error.message, value=edit.text, remedy=error.remedy)
        raise PlanError((fault,)) from None


def _absent(place: str) -> Fault:
    """Say that the plan has no such part."""
    return Fault(
        path=place,
        message="the plan has no such part",
        remedy="reload the page; the plan was changed elsewhere",
    )


def _listed(text: str, *, unit: str) -> list[str]:
    """Typed members; those of a list of quantities with or without their unit."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if not unit:
        return parts
    spelled = [part.replace("°", f" {unit}") for part in parts]
    return [part if part[-1:].isalpha() else f"{part} {unit}" for part in spelled]
