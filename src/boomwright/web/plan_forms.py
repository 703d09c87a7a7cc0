"""The forms of the plan as a sheet shows them, and what they ask, written into the plan's text."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from boomwright.base import UnitSystem, length_text, place_error
from boomwright.plan import QuantityError, parse_quantity
from boomwright.plan.faults import path_text, shown
from boomwright.plan.forms import (
    Addition,
    Branch,
    Form,
    branch_of,
    confirm,
    fill,
    form_of,
    move,
    take_out,
)
from boomwright.plan.forms.declared import listed_spec
from boomwright.plan.layout import Path
from boomwright.plan.places import kind_at, place_words
from boomwright.plan.read import parse_toml
from boomwright.plan.spec import TableSpec
from boomwright.plan.tables.root import ROOT
from boomwright.web.form_edits import Confirm, Fill, FormEdit, Shift, TakeOut, table_path
from boomwright.web.homes import home_of, reaches, roots_of


def sheet_tables(
    text: str, *, slug: str, beam: int
) -> tuple[tuple[Branch, ...], tuple[Addition, ...]]:
    """Lay out the tables of a sheet.

    Returns:
        tables that the plan has, and those that it may have besides
    """
    found = [
        branch_of(text, root, wanted=lambda path: reaches(path, slug))
        for root in roots_of(slug, beam=beam)
    ]
    branches = tuple(each for each in found if isinstance(each, Branch))
    return branches, tuple(each for each in found if isinstance(each, Addition))


def _numbered(path: Path, *, beam: int) -> Path:
    """Number the tables of lists that a place names without saying which."""
    kind: Any = ROOT
    found: list[str | int] = []
    for step in path:
        if isinstance(step, str) and listed_spec(kind) is not None:
            number = beam if found == ["beam"] else 0
            found.append(number)
            kind = kind.below(number)
        found.append(step)
        kind = kind.below(step)
        if kind is None:
            return path
    if listed_spec(kind) is not None:
        found.append(beam if found == ["beam"] else 0)
    return tuple(found)


def table_form(text: str, place: str, *, system: UnitSystem, beam: int = 0) -> tuple[Form, str]:
    """Make the form of a table, or of the table that a key stands in.

    Args:
        place: the table or the key; where it does not say which of a list, the beam in view is
            meant, and the first of any other
        beam: number of the beam in view, from 0

    Returns:
        the form, and the place of the key that was asked for; empty for none

    Raises:
        PlanError: no plan has such a place
    """
    found = table_path(place)
    if found is None:
        message = "the page has no form for this place"
        raise place_error(shown(place), message, remedy="go back to the page and use its buttons")
    path, key = _numbered(found, beam=beam), ""
    if not isinstance(kind_at(path), TableSpec):
        path, key = path[:-1], path_text(path)
    # A table whose keys have their homes on two sheets is asked for by one of its keys.
    slug = home_of((*path, key.rsplit(".", 1)[-1]) if key else path)
    form = form_of(text, path, system=system, wanted=lambda each: home_of(each) == slug)
    return (_with_tube(form, system=system) if path[2:-1] == ("element",) else form), key


def _with_tube(form: Form, *, system: UnitSystem) -> Form:
    """Lay out an element of one diameter as the tube that it is, so that its wall can be typed."""
    texts = {each.key: each.text for each in form.keys}
    try:
        half = 0.5 * parse_quantity(texts["length"], "length", wavelength=math.nan)
    except QuantityError:
        return form
    if math.isnan(half) or texts["through"]:
        return form
    row = texts["diameter"], length_text(half, system=system), ""
    keys = (replace(each, first=row) if each.key == "half" else each for each in form.keys)
    return replace(form, keys=tuple(keys))


def applied(edit: FormEdit, text: str) -> tuple[str, str]:
    """Apply what a form asks.

    Returns:
        the new text, and the name of the step

    Raises:
        PlanError: when it cannot be written
    """
    path = table_path(edit.place) or ()
    name = place_words(path, parse_toml(text.removeprefix("\ufeff")))
    match edit:
        case Fill():
            values = dict(edit.values)
            if path[2:-1] == ("element",) and values.get("half"):
                # Tubes say what one diameter and length said before.
                values = {"diameter": "", "length": ""} | values
            new = fill(text, path, values, assumed=edit.assumed)
            return new, f"{name} written"
        case TakeOut():
            return take_out(text, path), f"{name} taken out"
        case Shift():
            return move(text, path, edit.by), f"{name} moved"
        case Confirm():
            return confirm(text, path), f"{name} confirmed"
