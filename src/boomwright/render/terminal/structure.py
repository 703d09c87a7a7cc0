"""The structure as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_report
from boomwright.report.structure import structure_report
from boomwright.study.structure import StructureCheck


def print_structure(found: StructureCheck, *, system: UnitSystem) -> None:
    """Print everything found about the structure of a plan."""
    console = make_console()
    console.print(words(found.plan.title, style="bold"))
    report = structure_report(found)
    print_report(console, report, system=system, full=True)
    console.print()
    print_notices(console, report.notices, system=system)
