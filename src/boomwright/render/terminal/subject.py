"""A subject as text for a terminal: verdict, answer, next steps, lines that matter, cautions."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Final

from rich.console import Console
from rich.padding import Padding

from boomwright.base import Notice, PlanVerdict, UnitSystem
from boomwright.base.quantity import write
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_answer, print_report, print_table
from boomwright.render.terminal.verdict import print_verdict
from boomwright.report.model import Report

#: lines of a quick look; verdict, exceeded checks and cautions are never cut for it [lines]
MOST_LINES: Final = 40
#: rows of a quick look's tables together, most and fewest, and the most next steps [rows]
_MOST_ROWS, _FEWEST_ROWS, _MOST_STEPS = 8, 3, 3
#: how codes of notices begin that say what the plan leaves out, what was taken instead, or what
#: is added while it is built
_FIRST: Final = ("no-", "usual-", "boom-sag")
#: notices that are never left out
_NEVER_CUT: Final = frozenset({"caution", "limit"})


#: end of an answer that does not judge the plan
NO_VERDICT: Final = "Not judged here: whether the plan stands. Its verdict: boomwright structure."


def print_subject(
    title: str,
    reports: Iterable[Report],
    *,
    notices: Iterable[Notice],
    system: UnitSystem,
    verdict: PlanVerdict | None = None,
    full: bool = False,
    told: Collection[str] = (),
    end: str = "",
) -> None:
    """Print what a subject says: a quick look, or all of it.

    Args:
        told: codes of notices that the reports say already
        end: a sentence about the command itself
    """
    console = make_console()
    write_subject(
        console, title, tuple(reports), verdict=verdict, system=system, full=full, end=end,
        notices=tuple(dict.fromkeys(each for each in notices if each.code not in told)),
    )  # fmt: skip


def write_subject(
    console: Console,
    title: str,
    reports: Sequence[Report],
    *,
    notices: Sequence[Notice],
    system: UnitSystem,
    verdict: PlanVerdict | None = None,
    full: bool = False,
    end: str = "",
) -> None:
    """Write what a subject says to a console, as ``print_subject`` does."""
    if full:
        with console.capture() as captured:
            _head(console, title, verdict, system)
            for report in reports:
                console.print()
                print_report(console, report, system=system)
            console.print()
            print_notices(console, notices, system=system)
            if end:
                console.print(words(end))
        console.file.write(_trimmed(captured.get()))
        return
    cautions = [each for each in notices if each.severity in _NEVER_CUT]
    others = [each for each in notices if each.severity not in _NEVER_CUT]
    # What the plan leaves out, and what its builder must add, stands before what is only doubtful.
    doubts = [each for each in others if each.code.partition(".")[2].startswith(_FIRST)]
    doubts += [each for each in others if each.severity == "doubt" and each not in doubts]
    # What fits: first with fewer doubts, then with fewer rows.
    tries = [(_MOST_ROWS, len(doubts[:count])) for count in range(len(doubts), -1, -1)]
    tries += [(rows, 0) for rows in range(_MOST_ROWS - 1, _FEWEST_ROWS - 1, -1)]
    for rows, count in tries:
        with console.capture() as captured:
            _head(console, title, verdict, system)
            for number, report in enumerate(reports):
                if number:
                    console.print()
                _quick(console, report, rows=max(1, rows // len(reports)), system=system)
            console.print()
            print_notices(console, (*cautions, *doubts[:count]), system=system)
            if end:
                console.print(words(end))
            left = [each for each in others if each not in doubts[:count]]
            console.print(words(_rest(reports, left), style="dim"))
        text = _trimmed(captured.get())
        if text.count("\n") <= MOST_LINES:
            break
    console.file.write(text)


def _trimmed(text: str) -> str:
    """Take off the blanks that fill a column at the end of a line."""
    return "\n".join(line.rstrip() for line in text.split("\n"))


def _head(console: Console, title: str, verdict: PlanVerdict | None, system: UnitSystem) -> None:
    if verdict is not None:
        print_verdict(console, verdict, system=system)
        console.print()
    if title:
        console.print(words(title, style="bold"))


def _quick(console: Console, report: Report, *, rows: int, system: UnitSystem) -> None:
    """Print the answer, what to do next, and the rows that matter most."""
    print_answer(console, report, system=system, most=5)
    for number, step in enumerate(report.steps[:_MOST_STEPS]):
        text = words(f"{'Next: ' if number == 0 else ''}{write(step, system=system)}")
        console.print(Padding(text, (0, 0, 0, 0 if number == 0 else 6)))
    brief = report.brief or report.tables[:1]
    for table, share in zip(brief, _shares([len(each.items) for each in brief], rows), strict=True):
        if share:
            console.print()
            print_table(console, table, system=system, rows=share)


def _shares(wanted: Sequence[int], rows: int) -> list[int]:
    """Give each table its part of the rows: what earlier ones leave, and three if it has them."""
    kept = [min(_FEWEST_ROWS, count) for count in wanted]
    spare = max(0, rows - sum(kept))
    shares = []
    for count, least in zip(wanted, kept, strict=True):
        more = min(spare, count - least)
        spare -= more
        shares.append(least + more)
    return shares


def _rest(reports: Sequence[Report], left: Sequence[Notice]) -> str:
    """Say where the rest is, and how much of it there is."""
    tables = sum(len(report.tables) for report in reports)
    counts = [(tables, "table")]
    counts += [
        (sum(each.severity == severity for each in left), severity)
        for severity in ("doubt", "note")
    ]
    told = [f"{count} {name}{'' if count == 1 else 's'}" for count, name in counts if count]
    return f"All of it with --full: {', '.join(told)}." if told else "All of it with --full."
