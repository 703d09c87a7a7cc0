"""A table of a report as heads and rows of text, or as plain data: what all readers begin with."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Any

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.quantity import Phrase, Quantity, unit_of, write
from boomwright.charts import ReadingTable
from boomwright.report.model import Column, Table

_NUMBER = re.compile(r"^[+−±]?[0-9].*|^$|^nowhere$|^not known$")
#: share of the width that the shortest column gets, in letters
_LEAST_LETTERS, _MOST_LETTERS = 8, 24
#: a cell of more letters is a sentence: it wraps, at the left, and its column gets more room
_SENTENCE, _WIDEST = 28, 60


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
        return float(value) if math.isfinite(value) else None
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, Mapping):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    return value


def column_widths(table: ReadingTable) -> tuple[tuple[float, ...], tuple[bool, ...]]:
    """Give each column its share of the width of a page, and say whether it holds numbers.

    Returns
    -------
    tuple
        shares [-], and whether each column holds numbers (2,)
    """
    columns = list(zip(table.header, *table.rows, strict=True))
    longest = [max(len(cell) for cell in column[1:] or ("",)) for column in columns]
    words = [max((len(word) for word in column[0].split()), default=0) for column in columns]
    numeric = [
        long <= _SENTENCE and all(_NUMBER.match(cell) for cell in column[1:])
        for long, column in zip(longest, columns, strict=True)
    ]
    shares = (_share(long, word) for long, word in zip(longest, words, strict=True))
    return tuple(shares), tuple(numeric)


def _share(longest: int, word: int) -> float:
    """Width of a column by its longest cell and the longest word of its head."""
    # Heads are set bolder than cells.
    wanted = max(longest, word + 1, _LEAST_LETTERS)
    more = 0.2 * max(0, wanted - 2 * _MOST_LETTERS)
    return float(min(min(wanted, _MOST_LETTERS) + more, _WIDEST))
