"""A report as lines of a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final, Literal

import rich.table
from rich.console import Console
from rich.padding import Padding

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.charts import ReadingTable
from boomwright.render.rows import text_table, without_empty
from boomwright.render.terminal.lines import make_table, words
from boomwright.report.model import Report, Table

#: a cell of more letters is a sentence
_SENTENCE: Final = 28
#: a sentence of more letters gets a line of its own
_LONG: Final = 60
#: room between columns [letters]
_BETWEEN: Final = 2


def print_report(console: Console, report: Report, *, system: UnitSystem) -> None:
    """Print title, answer and all tables; notices are the command's, which says each once."""
    print_answer(console, report, system=system)
    for table in (*_behind(report), *report.tables):
        console.print()
        print_table(console, table, system=system, full=True)


def print_answer(
    console: Console, report: Report, *, system: UnitSystem, most: int | None = None
) -> None:
    """Print title and answer.

    Args:
        most: most figures of the answer; None for all
    """
    console.print(words(report.title, style="bold"))
    for fact in report.answer[:most]:
        label, value = (write(said, system=system) for said in (fact.label, fact.value))
        console.print(words(f"{label}: {value}"))


def _behind(report: Report) -> Iterator[Table[Any]]:
    """Tables behind pictures that a terminal prints, thinned to their rows."""
    for picture in report.pictures:
        table = picture.behind
        if isinstance(table, Table) and table.rows:
            yield replace(table, items=table.items[:: max(1, len(table.items) // table.rows)])


def print_table(
    console: Console,
    table: Table[Any],
    *,
    system: UnitSystem,
    full: bool = False,
    rows: int | None = None,
) -> None:
    """Print a table; sentences get lines of their own, not columns.

    Args:
        rows: the most rows of a quick look, which leaves out the note; None for all
    """
    count, left = len(table.items), ""
    if rows is not None:
        left = f" ({rows} of {count})" if rows < count else ""
        table = replace(table, items=table.items[:rows], note=None)
    console.print(words(f"{write(table.caption, system=system)}{left}", style="bold"))
    if table.basis is not None:
        console.print(words(write(table.basis, system=system)))
    written = without_empty(text_table(table, system=system, full=full))
    widths = None if table.sentences and rows is None else _widths(written, console.width)
    if widths is None:
        written = text_table(table, system=system, full=full, in_heads=False)
        for row in written.rows:
            _print_row(console, written.header, row)
    else:
        console.print(_columns(written, widths))
    if table.note is not None:
        console.print(words(write(table.note, system=system)))


def _print_row(console: Console, header: tuple[str, ...], row: tuple[str, ...]) -> None:
    """Print a row that fits no columns: a long sentence gets a line of its own below the rest."""
    pairs = [pair for pair in zip(header[1:], row[1:], strict=True) if pair[1]]
    short = [f"{head} {cell}".strip() for head, cell in pairs if not head or len(cell) <= _LONG]
    console.print(words(f"{row[0]}: {', '.join(short)}" if short else row[0]))
    for head, cell in pairs:
        if head and len(cell) > _LONG:
            console.print(Padding(words(f"{head}: {cell}", style="dim"), (0, 0, 0, 4)))


def _widths(written: ReadingTable, room: int) -> list[int] | None:
    """Widths with which a table fits: long heads and sentences fold, a short cell is never cut.

    Returns:
        None where it does not fit
    """
    columns = list(zip(written.header, *written.rows, strict=True))
    widths = [max(len(cell) for cell in column) for column in columns]
    least = [
        max(
            max((len(word) for word in column[0].split()), default=0),
            min(max((len(cell) for cell in column[1:]), default=0), _SENTENCE),
        )
        for column in columns
    ]
    over = sum(widths) + _BETWEEN * (len(widths) - 1) - room
    while over > 0:
        spare = [wide - low for wide, low in zip(widths, least, strict=True)]
        # A head that folds may as well fold for all of them.
        taken = min(over, max(spare))
        if taken <= 0:
            return None
        widths[spare.index(max(spare))] -= taken
        over -= taken
    return widths


def _columns(written: ReadingTable, widths: list[int]) -> rich.table.Table:
    table = make_table()
    for number, (head, width) in enumerate(zip(written.header, widths, strict=True)):
        figures = number > 0 and written.figures[number]
        justify: Literal["left", "right"] = "right" if figures else "left"
        table.add_column(words(head), justify=justify, width=width, overflow="fold")
    for number, row in enumerate(written.rows):
        style = "bold" if number in written.headings else ""
        table.add_row(*(words(cell, style=style) for cell in row))
    return table
