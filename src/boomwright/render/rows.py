"""A table of a report as heads and rows of text, or as plain data: what all readers begin with."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, unit_of, write
from boomwright.charts import ReadingTable
from boomwright.report.model import Column, Table


def quick_look(table: Table[Any]) -> Table[Any]:
    """Leave out the columns that only the full account shows."""
    return replace(table, columns=tuple(each for each in table.columns if not each.full))


def text_table(table: Table[Any], *, system: UnitSystem) -> ReadingTable:
    """Write a table; the unit of a column stands once, in its head."""
    return ReadingTable(
        header=tuple(_head(column, system) for column in table.columns),
        rows=tuple(
            tuple(
                write(column.get(item), system=system, unit=not column.kind)
                for column in table.columns
            )
            for item in table.items
        ),
    )


def _head(column: Column[Any], system: UnitSystem) -> str:
    unit = unit_of(column.kind, system=system) if column.kind else ""
    return f"{column.head}, {unit}" if unit else column.head


def plain_rows(table: Table[Any]) -> list[dict[str, Any]]:
    """Give a table as plain data: SI figures under the names of its columns."""
    keyed = [column for column in table.columns if column.key]
    return [{column.key: plain(column.get(item)) for column in keyed} for item in table.items]


def plain(value: object) -> Any:
    """Give a value as plain data; a figure without finite value is None."""
    if isinstance(value, Quantity):
        return plain(value.value)
    if isinstance(value, complex):
        return [value.real, value.imag]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    return value
