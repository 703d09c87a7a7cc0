"""What a window asks of the plan's forms: fill one in, take a table out, move it, confirm."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass
from boomwright.plan.faults import split_path
from boomwright.plan.layout import Path
from boomwright.web.homes import home_of

#: most texts and rows in one form, and how deep they may nest
_MOST, _DEEPEST = 400, 5
#: longest text of one field [characters]
_LONGEST = 200


class MessageError(BoomwrightError):
    """A message from the browser that does not follow the page's own rules."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """Write what was typed into a form."""

    place: str  #: the table
    values: Mapping[str, Any]  #: texts, rows of texts and tables in it, by key
    assumed: tuple[str, ...] = ()  #: keys whose value is assumed until it is confirmed


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOut:
    """Take a table out of the plan."""

    place: str  #: the table


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """Let a table of a list change places with a neighbour."""

    place: str  #: the table
    by: int  #: 1 down, -1 up


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirm:
    """Confirm an assumed value, or all of a table."""

    place: str  #: the key or the table


@dataclass(frozen=True, slots=True, kw_only=True)
class TypePrice:
    """Write a row of the owner's price list."""

    cells: tuple[tuple[str, str], ...]  #: name and text of each cell that was typed
    place: str = "prices"  #: what its faults are about


FormEdit = Fill | TakeOut | Shift | Confirm
#: cells of a price that are typed; its currency is that of the plan
_CELLS = ("item", "unit", "low", "likely", "high", "supplier", "dated")


def table_path(place: str) -> Path | None:
    """Read a place as the page writes it; empty is the plan itself.

    Returns:
        None when this is no place that the page changes
    """
    path = split_path(place) if place else ()
    return path if path is not None and home_of(path) else None


def read_form_edit(raw: Mapping[str, Any]) -> FormEdit:
    """Read one of them from a message.

    Raises:
        MessageError: when it does not follow the page's own rules
    """
    place = raw.get("place")
    if not isinstance(place, str) or len(place) > _LONGEST or table_path(place) is None:
        raise MessageError(f"place: the page has no form for {repr(place)[:40]}")
    match raw.get("kind"):
        case "take-out":
            return TakeOut(place=place)
        case "shift" if type(raw.get("by")) is int and raw["by"] in {1, -1}:
            return Shift(place=place, by=raw["by"])
        case "confirm":
            return Confirm(place=place)
        case "fill" if isinstance(raw.get("values"), dict):
            assumed = raw.get("assumed", [])
            if not isinstance(assumed, list) or not all(_plain(each) for each in assumed):
                raise MessageError("assumed: a list of keys is needed")
            values = _checked(raw["values"], depth=0, left=[_MOST])
            return Fill(place=place, values=values, assumed=tuple(assumed[:_MOST]))
    raise MessageError("edit: this is not something this page asks for")


def read_price(raw: Mapping[str, Any]) -> TypePrice:
    """Read a typed price from a message.

    Raises:
        MessageError: when it does not follow the page's own rules
    """
    cells = raw.get("cells")
    if not isinstance(cells, dict) or not all(_plain(cells.get(name)) for name in _CELLS):
        raise MessageError(f"cells: printable text of {', '.join(_CELLS)} is needed")
    return TypePrice(cells=tuple((name, cells[name].strip()) for name in _CELLS))


def _plain(text: object) -> bool:
    return isinstance(text, str) and len(text) <= _LONGEST and text.isprintable()


def _checked(raw: Any, *, depth: int, left: list[int]) -> Any:
    """Take texts, lists and tables of them; anything else is none of the page's own."""
    left[0] -= 1
    if depth > _DEEPEST or left[0] < 0:
        raise MessageError("values: more than a form of this page holds")
    if isinstance(raw, dict) and all(_plain(key) for key in raw):
        return {key: _checked(each, depth=depth + 1, left=left) for key, each in raw.items()}
    if isinstance(raw, list):
        return [_checked(each, depth=depth + 1, left=left) for each in raw]
    if not _plain(raw):
        raise MessageError(f"values: printable text of at most {_LONGEST} characters is needed")
    return raw.strip()
