"""The verdict of a plan as the first lines of a terminal."""

from __future__ import annotations

from typing import Final

from rich.console import Console
from rich.padding import Padding

from boomwright.base import (
    PlanVerdict,
    UnitSystem,
    exceeded_texts,
    open_text,
    stamp_text,
    verdict_text,
)
from boomwright.render.terminal.lines import words

#: command that lists the checks of a subject, in the order of the job
COMMANDS: Final = {
    "structure": "structure",
    "permits": "permits",
    "cost": "cost",
    "raising": "raise",
}


def print_verdict(console: Console, verdict: PlanVerdict, *, system: UnitSystem) -> None:
    """Print the verdict, what stands against building and is exceeded, what is open, money."""
    style = "bold red" if verdict.word == "exceeded" else "bold"
    console.print(words(verdict_text(verdict), style=style))
    stamp = stamp_text(verdict, system=system)
    if stamp:
        console.print(words(f"{stamp}.", style="bold red"))
    money = exceeded_texts(verdict.of("cost"), system=system)
    for text in exceeded_texts(verdict, system=system):
        if text in money:
            continue
        console.print(Padding(words(text, style="bold red"), (0, 0, 0, 2)))
    told = open_text(verdict)
    if told:
        console.print(words(f"{told} {_where(verdict)}"))
    for text in money:
        console.print(words(text, style="bold red"))


def _where(verdict: PlanVerdict) -> str:
    open_ = {finding.subject for finding in verdict.worst if finding.verdict != "exceeded"}
    *others, last = (name for subject, name in COMMANDS.items() if subject in open_)
    if not others:
        return f"See boomwright {last}."
    return f"See boomwright {', '.join(others)} and {last}."
