"""The raising as text for a terminal."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_report
from boomwright.report.raising import raising_report
from boomwright.study.raising import RaisingResult

_TOLD = {
    f"raising.{code}" for code in ("no-method", "power-line", "ground", "weather", "structure")
}


def print_raising(result: RaisingResult, *, system: UnitSystem) -> None:
    """Print the lift plan of every beam."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for number in range(len(result.lifts)):
        console.print()
        print_report(console, raising_report(result, number=number), system=system, folded=False)
    console.print()
    # Why a lift is not a go stands in its answer already.
    told = [each for each in result.notices if each.code not in _TOLD]
    print_notices(console, told, system=system)
