"""From a frozen model back to the lines of its table, told by the same declaration."""

from __future__ import annotations

import json
from dataclasses import MISSING, fields
from typing import Any

from boomwright.plan.format import decimal_text, default_unit, quantity_text
from boomwright.plan.kinds import Kind, Parsed
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import NameOrTable, Tables, TableSpec, at_home

# Digits enough to read the same plan back to twelve or better.
_DIGITS = 14


def table_lines(spec: TableSpec, value: Any, header: str, *, listed: bool = False) -> list[str]:
    """Write a table with all tables below it; what may be left out and equals the default is.

    Args:
        header: dotted name, e.g. ``support.mast``
        listed: whether it is one of several, with double brackets

    Returns:
        lines, tables parted by an empty one (n_lines,)
    """
    lines = [f"[[{header}]]" if listed else f"[{header}]"]
    below: list[str] = []
    for key, kind, member in _members(spec, value):
        inner = f"{header}.{key}"
        if isinstance(kind, TableSpec):
            below += ["", *table_lines(kind, member, inner)]
        elif isinstance(kind, Tables):
            for each in member:
                below += ["", *table_lines(kind.spec, each, inner, listed=True)]
        else:
            lines.append(f"{key} = {value_text(kind, member)}")
    return lines + below


def inline_table(spec: TableSpec, value: Any) -> str:
    """Write a table on one line."""
    pairs = [f"{key} = {value_text(kind, member)}" for key, kind, member in _members(spec, value)]
    return f"{{ {', '.join(pairs)} }}"


def _members(spec: TableSpec, value: Any) -> list[tuple[str, Kind, Any]]:
    defaults = {
        entry.name: entry.default if entry.default_factory is MISSING else entry.default_factory()
        for entry in fields(value)
    }
    found = []
    for entry in spec.fields:
        attribute = entry.attribute or entry.key
        member, default = getattr(value, attribute), defaults[attribute]
        if entry.required or default is MISSING or member != default:
            found.append((entry.key, entry.kind, member))
    return found


def value_text(kind: Kind, value: Any) -> str:
    """Write one value as TOML."""
    if isinstance(kind, NameOrTable):
        short = _short_form(kind, value)
        return inline_table(kind.table, value) if short is None else value_text(kind.name, short)
    if isinstance(kind, TableSpec):
        return inline_table(kind, value)
    if isinstance(kind, Tables):
        return f"[{', '.join(inline_table(kind.spec, member) for member in value)}]"
    if isinstance(kind, ListOf):
        return f"[{', '.join(value_text(kind.item, member) for member in value)}]"
    if isinstance(kind, Row):
        pairs = zip(kind.items, value, strict=False)
        return f"[{', '.join(value_text(item, member) for item, member in pairs)}]"
    return _leaf_text(kind, value)


def _short_form(kind: NameOrTable, value: Any) -> Any:
    if kind.named:
        return next((name for name, one in at_home(kind.named).items() if one == value), None)
    return value if isinstance(value, str | bool) else None


def _leaf_text(kind: Kind, value: Any) -> str:
    if isinstance(kind, Quantity):
        unit = default_unit(value, kind.dimension)
        if not unit:
            return decimal_text(value, digits=_DIGITS)
        return json.dumps(quantity_text(value, unit, digits=_DIGITS))
    if isinstance(kind, Parsed):
        value = kind.write(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    return decimal_text(value, digits=_DIGITS) if isinstance(value, float) else str(value)
