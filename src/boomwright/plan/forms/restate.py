"""A plan's text with its quantities in the units of its reader."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from typing import Any

from boomwright.base import UnitSystem, feet_inches_sixteenths, inches_sixteenths
from boomwright.plan.format import quantity_text
from boomwright.plan.kinds import Kind
from boomwright.plan.layout import Path, lay_out
from boomwright.plan.numbers import Quantity
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.plan.read import parse_toml
from boomwright.plan.tables.root import ROOT
from boomwright.plan.units import Dimension

#: shorter lengths are read in inches with decimals, and in whole inches and sixteenths [m]
_DECIMAL, _INCHES = 0.1, 0.3
#: unit that a US reader writes
_UNITS: dict[Dimension, str] = {
    "speed": "mph",
    "mass": "lb",
    "force": "lbf",
    "torque": "lbf ft",
    "area": "ft2",
}


def restated(text: str, *, system: UnitSystem) -> str:
    """Write the quantities of a plan in its reader's units; comments and order stay.

    Lengths become feet and inches to a sixteenth, so that the plan that is read from it is the
    rounded one: restate before anything is computed. A text restated twice is as it was.

    Args:
        text: a plan that can be read, its quantities with metric units
    """
    if system == "metric":
        return text
    spans = lay_out(text).spans
    edits = []
    for path, kind, written in _quantities(ROOT, parse_toml(text), ()):
        if path not in spans:
            continue
        try:
            said = _said(parse_quantity(written, kind.dimension), kind.dimension)
        except QuantityError:
            continue
        if said:
            edits.append((spans[path], json.dumps(said)))
    for (start, end), said in sorted(edits, reverse=True):
        text = text[:start] + said + text[end:]
    return text


def _said(value: float, dimension: Dimension) -> str:
    """A quantity in US units; empty where there is none of its own [SI]."""
    if dimension == "length":
        if abs(value) < _DECIMAL:
            return f"{value / 0.0254:.3f}".rstrip("0").rstrip(".") + " in"
        return inches_sixteenths(value) if abs(value) < _INCHES else feet_inches_sixteenths(value)
    unit = _UNITS.get(dimension, "")
    return quantity_text(value, unit, digits=6) if unit else ""


def _quantities(kind: Kind | None, value: Any, path: Path) -> Iterator[tuple[Path, Quantity, str]]:
    """Every quantity of a parsed plan that is written as a text."""
    if isinstance(kind, Quantity) and isinstance(value, str):
        yield path, kind, value
    members: Iterable[tuple[str | int, Any]] = ()
    if isinstance(value, dict):
        members = value.items()
    elif isinstance(value, list):
        members = enumerate(value)
    for step, member in members:
        below = None if kind is None else kind.below(step)
        yield from _quantities(below, member, (*path, step))
