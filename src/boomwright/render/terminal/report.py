"""A report as lines of a terminal."""

from __future__ import annotations

from typing import Any, Final, Literal

import rich.table
from rich.console import Console

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.charts import ReadingTable
from boomwright.render.rows import quick_look, text_table
from boomwright.render.terminal.lines import (
    make_table,
    words,
)
from boomwright.report.model import Report, Table

#: a cell of more letters is a sentence
_SENTENCE: Final = 28


def print_report(
    console: Console, report: Report, *, system: UnitSystem, quick: bool = False
) -> None:
    """Print title, answer and tables; notices are the command's, which says each once.

    Parameters
    ----------
    quick
        whether to leave out what only the full account shows
    """
    console.print(words(report.title, style="bold"))
    for fact in report.answer:
        console.print(words(f"{fact.label}: {write(fact.value, system=system)}"))
    for table in report.tables:
        if quick and table.folded:
            continue
        console.print()
        print_table(console, quick_look(table) if quick else table, system=system)


def print_table(console: Console, table: Table[Any], *, system: UnitSystem) -> None:
    """Print a table; sentences get lines of their own, not columns."""
    console.print(words(write(table.caption, system=system), style="bold"))
    written = text_table(table, system=system)
    if table.sentences:
        for row in written.rows:
            pairs = zip(written.header[1:], row[1:], strict=True)
            said = (f"{head} {cell}".strip() for head, cell in pairs if cell)
            console.print(words(f"{row[0]}: {', '.join(said)}"))
    else:
        console.print(_columns(written))
    if table.note is not None:
        console.print(words(write(table.note, system=system)))


def _columns(written: ReadingTable) -> rich.table.Table:
    """Columns as wide as their cells: a long head folds, a short cell is never cut."""
    table = make_table()
    for number, head in enumerate(written.header):
        cells = [len(row[number]) for row in written.rows]
        word = max((len(part) for part in head.split()), default=0)
        # Words may fold, figures may not.
        least = max(word, min(max(cells, default=0), _SENTENCE))
        justify: Literal["left", "right"] = "left" if number == 0 else "right"
        table.add_column(words(head), justify=justify, min_width=least, overflow="fold")
    for row in written.rows:
        table.add_row(*(words(cell) for cell in row))
    return table
