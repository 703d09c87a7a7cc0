"""What the feed says, as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.terminal.lines import (
    make_console,
    print_notices,
    words,
)
from boomwright.render.terminal.report import print_report
from boomwright.report.feed import feed_report
from boomwright.study.feed_results import FeedResult


def print_feed(result: FeedResult, *, system: UnitSystem) -> None:
    """Print everything the feed says."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for number in range(len(result.beams)):
        console.print()
        print_report(console, feed_report(result, number=number), system=system)
    console.print()
    print_notices(console, result.notices)
