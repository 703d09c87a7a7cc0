"""A report as lines of a terminal."""

from __future__ import annotations

from typing import Any

from rich.console import Console

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.render.rows import text_table
from boomwright.render.terminal.computation import make_table, words
from boomwright.report.model import Report, Table


def print_report(console: Console, report: Report, *, system: UnitSystem) -> None:
    """Print title, answer and tables; notices are the command's, which says each once."""
    console.print(words(report.title, style="bold"))
    for fact in report.answer:
        console.print(words(f"{fact.label}: {write(fact.value, system=system)}"))
    for table in report.tables:
        console.print()
        print_table(console, table, system=system)


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
        columns = make_table(*written.header)
        for row in written.rows:
            columns.add_row(*(words(cell) for cell in row))
        console.print(columns)
    if table.note is not None:
        console.print(words(write(table.note, system=system)))
