"""What reach says, as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_report
from boomwright.report.reach import reach_report
from boomwright.study.reach_results import ReachResult


def print_reach(result: ReachResult, *, system: UnitSystem) -> None:
    """Print everything reach says."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for number in range(len(result.beams)):
        console.print()
        report = reach_report(result, number=number, together=number == 0)
        print_report(console, report, system=system)
    console.print()
    print_notices(console, result.notices)
