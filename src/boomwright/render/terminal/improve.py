"""A search as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.terminal.lines import (
    make_console,
    print_notices,
    words,
)
from boomwright.render.terminal.report import print_report
from boomwright.report.improve import bands_report, improve_report
from boomwright.study.improve import ImproveResult
from boomwright.study.several_bands import BandsResult


def print_improvement(result: ImproveResult | BandsResult, *, system: UnitSystem) -> None:
    """Print what was found."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    report = bands_report(result) if isinstance(result, BandsResult) else improve_report(result)
    print_report(console, report, system=system)
    console.print(f"Searched for {result.seconds:.1f} s.")
    console.print()
    print_notices(console, result.notices, system=system)
