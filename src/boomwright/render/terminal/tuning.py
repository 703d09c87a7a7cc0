"""What tuning says, as text for a terminal."""

from __future__ import annotations

from rich.console import Console

from boomwright.base import UnitSystem
from boomwright.charts import ShownTable
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    print_notices,
    words,
)
from boomwright.report.tuning.tables import tuning_facts, tuning_tables
from boomwright.study.tuning_results import TuneResult

#: tables with sentences in them, a line for each row
_SENTENCES = {"trials", "faults"}


def print_tuning(result: TuneResult, *, system: UnitSystem) -> None:
    """Print everything tuning says."""
    console = make_console()
    console.print(words(f"Tuning of {result.beam.name}", style="bold"))
    for label, value in tuning_facts(result):
        console.print(words(f"{label}: {value}"))
    for table in tuning_tables(result, system=system):
        console.print()
        _print_table(console, table)
    console.print()
    print_notices(console, result.notices)


def _print_table(console: Console, shown: ShownTable) -> None:
    console.print(words(shown.caption, style="bold"))
    header, rows = shown.table.header, shown.table.rows
    if shown.name in _SENTENCES:
        for row in rows:
            said = ", ".join(
                f"{head}: {cell}" for head, cell in zip(header[1:], row[1:], strict=True)
            )
            console.print(words(f"{row[0]}: {said}"))
    else:
        table = make_table(*header)
        for row in rows:
            table.add_row(*(words(cell) for cell in row))
        console.print(table)
    if shown.note:
        console.print(words(shown.note))
