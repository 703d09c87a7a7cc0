"""From fault-free values of a table to its frozen model."""

from __future__ import annotations

from typing import Any

from boomwright.plan.kinds import Kind
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.spec import NameOrTable, Tables, TableSpec, Values


def build_table(spec: TableSpec, values: Values, **further: Any) -> Any:
    """Make the model of a table; a key that is not written takes the model's default.

    Args:
        spec: the table, with its ``model``
        values: what it read, free of faults [SI]
    """
    if spec.model is None:
        msg = f"the {spec.noun} table has no model; give its TableSpec one"
        raise TypeError(msg)
    fields = {
        entry.attribute or entry.key: _built(entry.kind, values[entry.key])
        for entry in spec.fields
        if entry.key in values
    }
    return spec.model(**fields, **further)


def _built(kind: Kind, value: Any) -> Any:
    if isinstance(kind, NameOrTable):
        return build_table(kind.table, value) if isinstance(value, dict) else value
    if isinstance(kind, TableSpec):
        return build_table(kind, value)
    if isinstance(kind, Tables):
        return tuple(build_table(kind.spec, member) for member in value)
    if isinstance(kind, ListOf):
        return tuple(_built(kind.item, member) for member in value)
    if isinstance(kind, Row):
        pairs = zip(kind.items, value, strict=False)
        return tuple(_built(item, member) for item, member in pairs)
    return value
