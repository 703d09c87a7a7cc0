"""From fault-free values of a table to its frozen model."""

from __future__ import annotations

from typing import Any

from boomwright.base import BoomwrightError
from boomwright.plan.kinds import Kind
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.spec import NameOrTable, Tables, TableSpec, Values, at_home


class UnfitError(BoomwrightError):
    """Keys of a table that are each in order and together contradict each other."""

    path: tuple[str | int, ...] = ()


def build_table(spec: TableSpec, values: Values, **further: Any) -> Any:
    """Make the model of a table; a key that is not written takes the model's default."""
    if spec.model is None:
        raise TypeError(f"the {spec.noun} table has no model; give its TableSpec one")
    fields = {
        entry.attribute or entry.key: build_value(entry.kind, values[entry.key], entry.key)
        for entry in spec.fields
        if entry.key in values
    }
    model = at_home(spec.model) if isinstance(spec.model, str) else spec.model
    try:
        return model(**dict(spec.always), **fields, **further)
    except UnfitError:
        raise
    except BoomwrightError as refusal:
        raise UnfitError(str(refusal)) from refusal


def build_given(spec: TableSpec, values: Values | None) -> Any:
    """Make the model of a table that need not be written; None without it."""
    return None if values is None else build_table(spec, values)


def build_value(kind: Kind, value: Any, *steps: str | int) -> Any:
    """Make what a key holds out of what was read, free of faults [SI].

    Args:
        steps: key or index it stands at, for the place of a refusal
    """
    try:
        return _built(kind, value)
    except UnfitError as unfit:
        unfit.path = (*steps, *unfit.path)
        raise


def _built(kind: Kind, value: Any) -> Any:
    if isinstance(kind, NameOrTable):
        if isinstance(value, dict):
            return build_table(kind.table, value)
        return at_home(kind.named)[value] if kind.named else value
    if isinstance(kind, TableSpec):
        return build_table(kind, value)
    if isinstance(kind, Tables):
        return tuple(build_value(kind.spec, each, place) for place, each in enumerate(value))
    if isinstance(kind, ListOf):
        return tuple(build_value(kind.item, each, place) for place, each in enumerate(value))
    if isinstance(kind, Row):
        pairs = zip(kind.items, value, strict=False)
        row = tuple(build_value(item, member) for item, member in pairs)
        return row if kind.makes is None else kind.makes(*row)
    return value
