"""A table of a report as heads and rows of text, or as plain data: what all readers begin with."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.quantity import (
    Citing,
    Listed,
    PerReader,
    PerSystem,
    Phrase,
    Quantity,
    Value,
    keyed,
    places_in,
    uncited,
    unit_of,
    write,
)
from boomwright.charts import ReadingTable
from boomwright.report.model import Column, Fact, Table
from boomwright.report.wording import clean

#: share of the width that the shortest column of words gets, and one of figures, in letters
_LEAST_LETTERS, _LEAST_FIGURES, _MOST_LETTERS = 8, 6, 24
#: a cell of more letters is a sentence: it wraps, at the left, and its column gets more room
_SENTENCE, _WIDEST = 28, 60
#: a column without a cell is filled in by hand: a name needs room
_BY_HAND = 16


def text_table(
    table: Table[Any],
    *,
    system: UnitSystem,
    full: bool = True,
    in_heads: bool = True,
    cite: Citing = uncited,
    forms: bool = False,
) -> ReadingTable:
    """Write a table; the unit of a column stands once, in its head.

    Args:
        in_heads: whether heads carry units; otherwise each cell does
    """
    columns = [column for column in table.columns if full or not column.full]

    def head(column: Column[Any]) -> str:
        said = write(column.head, system=system)
        unit = unit_of(column.kind, system=system) if column.kind and in_heads else ""
        return f"{said}, {unit}" if unit else said

    def cell(column: Column[Any], value: Value) -> str:
        unit = not (column.kind and in_heads)
        return write(value, system=system, unit=unit, cite=cite, forms=forms)

    rows: list[tuple[str, ...]] = []
    headings: list[int] = []
    figures = [True] * len(columns)
    above: Value = None
    told: list[Value] = []
    for item in table.items:
        if table.under is not None and table.under(item) != above:
            above = table.under(item)
            headings.append(len(rows))
            rows.append((write(above, system=system), *[""] * (len(columns) - 1)))
        values = [column.get(item) for column in columns]
        told += values
        rows.append(tuple(map(cell, columns, values)))
        for number, value in enumerate(values):
            figures[number] &= bool(columns[number].kind) or _is_figure(value)
    foot = any(column.foot is not None for column in columns)
    if foot:
        rows.append(tuple(cell(column, column.foot) for column in columns))
    return ReadingTable(
        header=tuple(head(column) for column in columns),
        rows=tuple(rows),
        headings=frozenset(headings),
        figures=tuple(figures),
        foot=foot,
        places=places_in(*told) if forms else (),
    )


def without_empty(table: ReadingTable, *, kept: Container[int] = ()) -> ReadingTable:
    """Leave out columns without a single cell.

    Args:
        kept: numbers of those that stay, such as what is filled in on paper
    """
    wanted = [
        number
        for number in range(len(table.header))
        if number == 0 or number in kept or any(row[number] for row in table.rows)
    ]

    def keep(cells: Sequence[Any]) -> tuple[Any, ...]:
        return tuple(cells[number] for number in wanted)

    return replace(
        table,
        header=keep(table.header),
        rows=tuple(map(keep, table.rows)),
        figures=keep(table.figures),
    )


def _is_figure(value: Value) -> bool:
    """Whether a cell is a figure, begins with one, or is empty."""
    if isinstance(value, Listed):
        return _is_figure(next(iter(value.values.values()), None))
    if isinstance(value, PerSystem):
        return isinstance(value.metric, str) and (value.metric == "–" or value.metric.isdigit())
    return not value or value == "–" or isinstance(value, (int, Quantity))


def fact_rows(facts: Iterable[Fact], *, system: UnitSystem) -> list[list[str]]:
    """Write facts, a label and its value each."""
    return [
        [clean(write(said, system=system)) for said in (fact.label, fact.value)] for fact in facts
    ]


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
    if isinstance(value, Phrase | PerSystem | PerReader):
        return write(value, system="metric", cite=keyed)
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

    Returns:
        shares [-], and whether each column holds numbers (2,)
    """
    body = table.rows[:-1] if table.foot else table.rows
    rows = [row for number, row in enumerate(body) if number not in table.headings]
    lines = [
        [line for row in rows for line in row[number].split("\n")] or [""]
        for number in range(len(table.header))
    ]
    longest = [max(map(len, cells)) for cells in lines]
    words = [max((len(word) for word in head.split()), default=0) for head in table.header]
    # Numbers behind a chart have what they are told over in their first column.
    figures = table.figures or (False, *[True] * (len(table.header) - 1))
    numeric = tuple(
        figure and long <= _SENTENCE for figure, long in zip(figures, longest, strict=True)
    )
    # A figure stays in one line with its unit.
    shares = tuple(
        _share(long + 3 * number if long else _BY_HAND, word, number=number)
        for long, word, number in zip(longest, words, numeric, strict=True)
    )
    return shares, numeric


def _share(longest: int, word: int, *, number: bool) -> float:
    """Width of a column by its longest cell and the longest word of its head."""
    # Heads are set bolder than cells.
    wanted = max(longest, word + 1, _LEAST_FIGURES if number else _LEAST_LETTERS)
    more = 0.2 * max(0, wanted - _MOST_LETTERS)
    return float(min(min(wanted, _MOST_LETTERS) + more, _WIDEST))
