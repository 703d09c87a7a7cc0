"""What stands first in the answer of every command that shows a plan: its verdict."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, Final

import typer
from rich.padding import Padding

from boomwright.base import (
    PlanVerdict,
    UnitSystem,
    exceeded_texts,
    finding_text,
    open_text,
    verdict_text,
)
from boomwright.base.owner_text import plain
from boomwright.cli.faults import Status, say
from boomwright.render.json.plan import verdict_document
from boomwright.render.terminal.lines import make_console, words

#: command that lists the checks of a subject, in the order of the job
_COMMANDS: Final = {
    "structure": "structure",
    "permits": "permits",
    "cost": "cost",
    "raising": "raise",
}

#: every subject that the verdict counts
SUBJECTS: Final = tuple(_COMMANDS)


def print_verdict(verdict: PlanVerdict, *, system: UnitSystem) -> None:
    """Print the verdict, every exceeded check, and where the open ones are listed."""
    console = make_console()
    style = "bold red" if verdict.word == "exceeded" else "bold"
    console.print(words(verdict_text(verdict), style=style))
    for text in exceeded_texts(verdict, system=system):
        console.print(Padding(words(text, style="bold red"), (0, 0, 0, 2)))
    told = open_text(verdict)
    if told:
        console.print(words(f"{told} {_where(verdict)}"))
    console.print()


def _where(verdict: PlanVerdict) -> str:
    open_ = {finding.subject for finding in verdict.worst if finding.verdict != "exceeded"}
    *others, last = (name for subject, name in _COMMANDS.items() if subject in open_)
    if not others:
        return f"The command {last} lists them."
    return f"The commands {', '.join(others)} and {last} list them."


def print_document(verdict: PlanVerdict, document: dict[str, Any]) -> None:
    """Print one JSON document with the verdict of its plan first."""
    whole = {"verdict": verdict_document(verdict)} | document
    typer.echo(json.dumps(whole, indent=2, allow_nan=False, ensure_ascii=False))


def end_strict(
    verdict: PlanVerdict,
    subjects: Iterable[str],
    *,
    system: UnitSystem,
    more: Iterable[str] = (),
) -> None:
    """End with status 3 where a limit of the subjects is exceeded or the beam may come down.

    Args:
        subjects: subjects of the command; what holds the beam up counts in any, exceeded or not
            checked
        more: further limits that are exceeded, in words
    """
    named, may_fall = set(subjects), verdict.beam_may_fall
    lines = [
        ("limit exceeded: " if finding.verdict == "exceeded" else "")
        + finding_text(finding, system=system)
        for finding in verdict.worst
        if finding in may_fall or (finding.verdict == "exceeded" and finding.subject in named)
    ]
    lines += [f"limit exceeded: {text}" for text in more]
    if lines:
        say(plain(line) for line in lines)
        raise typer.Exit(Status.OVER_LIMIT)
