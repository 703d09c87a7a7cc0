"""A table of a report as heads and rows of text, or as plain data: what all readers begin with."""

from __future__ import annotations

import math
from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import Phrase, Quantity, unit_of, write
from boomwright.charts import ReadingTable
from boomwright.report.model import Column, Table


def text_table(
    table: Table[Any], *, system: UnitSystem, full: bool = True, in_heads: bool = True
) -> ReadingTable:
    """Write a table; the unit of a column stands once, in its head.

    Parameters
    ----------
    full
        whether columns of the full account are among them
    in_heads
        whether heads carry units; otherwise each cell does
    """
    columns = [column for column in table.columns if full or not column.full]

    def head(column: Column[Any]) -> str:
        said = write(column.head, system=system)
        unit = unit_of(column.kind, system=system) if column.kind and in_heads else ""
        return f"{said}, {unit}" if unit else said

    def cell(column: Column[Any], item: object) -> str:
        return write(column.get(item), system=system, unit=not (column.kind and in_heads))

    return ReadingTable(
        header=tuple(head(column) for column in columns),
        rows=tuple(tuple(cell(column, item) for column in columns) for item in table.items),
    )


def plain_rows(table: Table[Any]) -> list[dict[str, Any]]:
    """Give a table as plain data: SI figures under the names of its columns."""
    keyed = [column for column in table.columns if column.key]
    return [{column.key: plain(column.get(item)) for column in keyed} for item in table.items]


def plain(value: object) -> Any:
    """Give a value as plain data: what stands in a row as a list, no finite value as None."""
    if isinstance(value, Quantity):
        return plain(value.value)
    if isinstance(value, Phrase):
        return [plain(each) for each in value.values.values()]
    if isinstance(value, complex):
        return [value.real, value.imag]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    return value
