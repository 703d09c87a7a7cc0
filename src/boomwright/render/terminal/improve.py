"""A search as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.json.improve import improve_document
from boomwright.render.terminal.lines import (
    make_console,
    print_notices,
    words,
)
from boomwright.render.terminal.report import print_report
from boomwright.report.improve import bands_report, improve_report
from boomwright.report.model import Report
from boomwright.study.improve import ImproveResult
from boomwright.study.several_bands import BandsResult


def print_improvement(result: ImproveResult | BandsResult, *, system: UnitSystem) -> None:
    """Print what was found."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    print_report(console, improvement_report(result), system=system)
    console.print(f"Searched for {result.seconds:.1f} s.")
    console.print()
    print_notices(console, result.notices)


def improvement_report(result: ImproveResult | BandsResult) -> Report:
    """Say what a search found just now."""
    if isinstance(result, BandsResult):
        return bands_report(result)
    document = improve_document(result)
    return improve_report({"search": document, **document}, name=result.before.name)
