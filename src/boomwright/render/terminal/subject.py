"""A subject as text for a terminal: the reports of its result, then what is doubtful."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from boomwright.base import Notice, UnitSystem
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_report
from boomwright.report.model import Report


def print_subject(
    title: str,
    reports: Iterable[Report],
    *,
    notices: Iterable[Notice],
    system: UnitSystem,
    folded: bool = True,
    full: bool = False,
    told: Collection[str] = (),
) -> None:
    """Print everything a subject says.

    Args:
        title: title of the plan
        folded: whether tables that a quick look leaves out are printed
        full: whether columns of the full account are printed
        told: codes of notices that the reports say already
    """
    console = make_console()
    console.print(words(title, style="bold"))
    for report in reports:
        console.print()
        print_report(console, report, system=system, folded=folded, full=full)
    console.print()
    print_notices(console, [each for each in notices if each.code not in told], system=system)
