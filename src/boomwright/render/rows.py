"""A table of a report as heads and rows of text, or as plain data: what all readers begin with."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import Listed, Phrase, Quantity, Value, unit_of, write
from boomwright.charts import ReadingTable
from boomwright.report.model import Column, Table
from boomwright.report.wording import first_upper

#: width that the shortest and any ordinary column gets on paper, and the widest [letters]
_LEAST_LETTERS, _MOST_LETTERS, _WIDEST = 8, 24, 60
#: a cell of more letters is a sentence: it wraps, at the left [letters]
_SENTENCE = 28


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

    def cell(column: Column[Any], value: Value) -> str:
        return write(value, system=system, unit=not (column.kind and in_heads))

    rows: list[tuple[str, ...]] = []
    headings: list[int] = []
    figures = [True] * len(columns)
    above: Value = None
    for item in table.items:
        if table.under is not None and table.under(item) != above:
            above = table.under(item)
            headings.append(len(rows))
            rows.append((write(above, system=system), *[""] * (len(columns) - 1)))
        values = [column.get(item) for column in columns]
        rows.append(tuple(map(cell, columns, values)))
        for number, value in enumerate(values):
            figures[number] &= bool(columns[number].kind) or _is_figure(value)
    return ReadingTable(
        header=tuple(head(column) for column in columns),
        rows=tuple(rows),
        headings=frozenset(headings),
        figures=tuple(figures),
    )


def _is_figure(value: Value) -> bool:
    """Whether a cell is a figure, begins with one, or is empty."""
    if isinstance(value, Listed):
        return _is_figure(next(iter(value.values.values()), None))
    return not value or isinstance(value, (int, Quantity))


def capital_head(title: str) -> str:
    """Begin a column's title with a capital, unless it begins with a symbol such as dB."""
    return first_upper(title) if title.partition(" ")[0].strip(",").islower() else title


def column_shares(header: Sequence[str], rows: Sequence[Sequence[str]]) -> tuple[float, ...]:
    """Widths of columns on paper, by their longest line and the longest word of their head.

    Returns
    -------
    tuple of float
        widths [letters]
    """
    shares = []
    for head, *cells in zip(header, *rows, strict=True):
        longest = max((len(line) for cell in cells for line in cell.split("\n")), default=0)
        # Heads are set bolder than cells.
        wanted = max(longest, *(len(word) + 1 for word in head.split()), _LEAST_LETTERS)
        more = 0.2 * max(0, wanted - 2 * _MOST_LETTERS)
        shares.append(float(min(min(wanted, _MOST_LETTERS) + more, _WIDEST)))
    return tuple(shares)


def to_the_right(table: ReadingTable) -> tuple[bool, ...]:
    """Whether each column is set to the right: figures are, sentences never."""
    figures = table.figures or (False, *[True] * (len(table.header) - 1))
    rows = [row for number, row in enumerate(table.rows) if number not in table.headings]
    return tuple(
        figure and all(len(row[number]) <= _SENTENCE for row in rows)
        for number, figure in enumerate(figures)
    )


def plain_rows(table: Table[Any]) -> list[dict[str, Any]]:
    """Give a table as plain data: SI figures under the names of its columns."""
    keyed = [column for column in table.columns if column.key]
    return [{column.key: plain(column.get(item)) for column in keyed} for item in table.items]


def plain(value: object) -> Any:
    """Give a value as plain data: what stands in a row as a list, no finite value as None.

    Words with figures in them are written, in metric units.
    """
    if isinstance(value, Quantity):
        return plain(value.value)
    if isinstance(value, Listed):
        return [plain(each) for each in value.values.values()]
    if isinstance(value, Phrase):
        return write(value, system="metric")
    if isinstance(value, complex):
        return [value.real, value.imag]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    return value
