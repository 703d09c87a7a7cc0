"""What the feed says, as text for a terminal."""

from __future__ import annotations

from rich.console import Console

from boomwright.base import UnitSystem
from boomwright.charts import ShownTable
from boomwright.render.terminal.computation import make_console, make_table, print_notices, words
from boomwright.report.feed.shown import feed_facts, feed_tables
from boomwright.study.feed_results import FeedResult


def print_feed(result: FeedResult, *, system: UnitSystem) -> None:
    """Print everything the feed says."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for each in result.beams:
        console.print()
        console.print(words(f"Feed of {each.beam.name}", style="bold"))
        for label, value in feed_facts(result, each):
            console.print(words(f"{label}: {value}"))
        for table in feed_tables(result, each, system=system):
            console.print()
            _print_table(console, table)
    console.print()
    print_notices(console, result.notices)


def _print_table(console: Console, shown: ShownTable) -> None:
    console.print(words(shown.caption, style="bold"))
    header, rows = shown.table.header, shown.table.rows
    if shown.name in {"turning", "kinds", "ratings"}:
        # Sentences want lines of their own, not columns.
        heads = header if shown.name != "turning" else ("",) * len(header)
        for row in rows:
            said = (
                f"{head} {cell}".strip()
                for head, cell in zip(heads[1:], row[1:], strict=True)
                if cell
            )
            console.print(words(f"{row[0]}: {', '.join(said)}"))
    else:
        table = make_table(*header)
        for row in rows:
            table.add_row(*(words(cell) for cell in row))
        console.print(table)
    if shown.note:
        console.print(words(shown.note))
