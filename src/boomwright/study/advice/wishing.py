"""A place written down from what its owner types: limits, wishes and what stands there."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from typing import Any, Final

from boomwright.plan import PLAN_VERSION, rewrite, where_key

#: what may be typed -> where it goes; what is typed there stays as its owner wrote it
_PLACES: Final[dict[str, str]] = {
    "title": "title",
    "ground": "site.ground",
    "wind": "site.wind",
    "ice": "site.ice",
    "kind": "site.wind_basis.kind",
    "edition": "site.wind_basis.edition",
    "exposure": "site.wind_basis.exposure",
    "terrain": "site.wind_basis.terrain",
    "highest": "place.highest",
    "power": "transmitter.power",
    "currency": "prices.currency",
    "list": "prices.list",
}
#: the same for plain numbers
_NUMBERS: Final[dict[str, str]] = {
    "orography": "site.wind_basis.orography",
    "region": "place.region",
    "ground_crew": "raising.ground_crew",
    "trained_climbers": "raising.trained_climbers",
    "budget": "prices.budget",
}
#: rows of a list that the form has
ROWS: Final = 3
#: everything that may be typed
ASKED: Final = (
    *_PLACES,
    *_NUMBERS,
    "place",
    "bands",
    "lot_length",
    "lot_width",
    *(f"{key}_{row}" for row in range(ROWS) for key in ("target", "where", "stands", "tall")),
)


def place_text(typed: Mapping[str, str]) -> str:
    """Write the text of a place; what is left empty is left out.

    Args:
        typed: texts by the names of ``ASKED``
    """
    said = {key: text.strip() for key, text in typed.items() if text.strip()}
    changes: dict[str, Any] = {}
    if "place" in said:
        changes[f"site.{where_key(said['place'])}"] = said["place"]
    changes.update({place: said[key] for key, place in _PLACES.items() if key in said})
    changes.update({place: _plain(said[key]) for key, place in _NUMBERS.items() if key in said})
    # A place without bands is refused with its remedy where it is read.
    changes["place.bands"] = [band.strip() for band in said.get("bands", "").split(",") if band]
    if "lot_length" in said or "lot_width" in said:
        changes["place.lot"] = [said.get("lot_length", ""), said.get("lot_width", "")]
    changes.update(_standing(said))
    changes.update(_targets(said))
    changes.setdefault("title", f"Station for {', '.join(changes['place.bands'])}")
    return rewrite(f"boomwright = {PLAN_VERSION}\n", changes)


def _plain(text: str) -> Any:
    """A number as TOML has it; what is none stays as typed and is refused with its remedy."""
    with suppress(ValueError):
        value = float(text.replace(",", "."))
        return int(value) if value.is_integer() else value
    return text


def _standing(said: Mapping[str, str]) -> dict[str, Any]:
    """What stands there already, one row after another."""
    rows = [row for row in range(ROWS) if f"tall_{row}" in said]
    changes: dict[str, Any] = {}
    for number, row in enumerate(rows):
        kind = said.get(f"stands_{row}", "")
        named = {"name": f"{kind} {number + 1}", "kind": kind, "height": said[f"tall_{row}"]}
        changes[f"place.standing[{number}]"] = named
    return changes


def _targets(said: Mapping[str, str]) -> dict[str, Any]:
    """What is to be reached, one row after another."""
    rows = [row for row in range(ROWS) if f"where_{row}" in said]
    changes: dict[str, Any] = {}
    for number, row in enumerate(rows):
        where = said[f"where_{row}"]
        changes[f"reach.target[{number}]"] = {
            "name": said.get(f"target_{row}", where),
            where_key(where): where,
        }
    return changes
