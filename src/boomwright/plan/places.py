"""Places of a plan by name: ``beam[0].element[2].length`` to keys and indices, and in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boomwright.base import place_error
from boomwright.plan.faults import key_words, path_text, shown, split_path
from boomwright.plan.kinds import Kind, nearest
from boomwright.plan.layout import Path
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.plan.spec import Tables, TableSpec
from boomwright.plan.tables.root import ROOT

#: keys whose value names a table of a list, best first
NAMES = ("name", "place", "airport", "band", "beam")


def parse_path(text: str) -> Path:
    """Read a place such as ``beam[0].element[2].length``.

    Raises:
        PlanError: not a place
    """
    path = split_path(text)
    if path is None:
        message = "this is not a place in a plan"
        raise place_error(shown(text), message, remedy='write it as "beam[0].element[2].length"')
    return path


def kind_at(path: Path) -> Kind:
    """Find what a place of a plan holds.

    Raises:
        PlanError: no such place in any plan, with the nearest key
    """
    kind: Kind = ROOT
    for depth, step in enumerate(path):
        below = kind.below(step)
        if below is None:
            known = [entry.key for entry in kind.fields] if isinstance(kind, TableSpec) else []
            close = nearest(str(step), known)
            remedy = f'did you mean "{close}"?' if close else f"known here: {', '.join(known)}"
            message = "no plan has this place"
            raise place_error(path_text(path[: depth + 1]), message, remedy=remedy)
        kind = below
    return kind


def element_words(elements: Any, index: int) -> str:
    """Name an element by its role; several of one role are numbered along the boom."""
    rows = [row if isinstance(row, Mapping) else {} for row in elements or []]
    role = str(rows[index].get("role", "element")) if index < len(rows) else "element"
    same = [n for n, row in enumerate(rows) if row.get("role", "element") == role]
    word = "driven element" if role == "driven" else role
    if index not in same or (len(same) == 1 and role != "director"):
        return word
    order = sorted(same, key=lambda n: (_along(rows[n].get("at")), n))
    return f"{word} {order.index(index) + 1}"


def _along(raw: Any) -> float:
    """Place along the boom, to put elements in order [m]; ``wl`` counts as one metre."""
    try:
        return parse_quantity(raw, "length", wavelength=1.0)
    except (QuantityError, TypeError, ValueError):
        return 0.0


def member_words(spec: TableSpec, listed: Any, index: int) -> str:
    """Name one table of a list: by its own name, by its role, or by its number."""
    if spec.noun == "element":
        return element_words(listed, index)
    row = listed[index] if isinstance(listed, list) and index < len(listed) else None
    if isinstance(row, Mapping):
        names = (str(row[key]).strip()[:40] for key in NAMES if isinstance(row.get(key), str))
        name = next(filter(None, names), "")
        if name:
            return f"{spec.noun} {name}"
    return f"{spec.noun} {index + 1}"


def place_words(path: Path, data: Any) -> str:
    """Name a place as its owner would: ``driven element, tube 2, exposed length``."""
    words: list[str] = []
    kind: Kind | None = ROOT
    node = data
    for step in path:
        if isinstance(step, str):
            last = kind.below(step) if kind is not None else None
            if not isinstance(last, Tables):
                words.append(key_words(step))
        elif isinstance(kind, Tables):
            words.append(member_words(kind.spec, node, step))
        elif isinstance(kind, ListOf) and isinstance(kind.item, TableSpec):
            words[-1] = member_words(kind.item, node, step)
        elif isinstance(kind, Row) and step < len(kind.names):
            words.append(kind.names[step])
        elif words[-1:] == ["half"]:
            words[-1] = f"tube {step + 1}"
        else:
            words.append(f"{'row' if isinstance(kind, ListOf) else 'value'} {step + 1}")
        kind = kind.below(step) if kind is not None else None
        node = below(node, step)
    beams = data.get("beam") if isinstance(data, Mapping) else None
    if path[:1] == ("beam",) and isinstance(beams, list) and len(beams) == 1 and len(words) > 1:
        words = words[1:]
    return ", ".join(words) or "plan"


def below(node: Any, step: str | int) -> Any:
    """What stands under a key or an index; None where nothing does."""
    if isinstance(node, Mapping):
        return node.get(step)
    if isinstance(node, list) and isinstance(step, int) and step < len(node):
        return node[step]
    return None
