"""What stands first in the answer of every command that shows a plan: its verdict."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, Final

import typer

from boomwright.base import PlanVerdict, UnitSystem, finding_text
from boomwright.base.owner_text import plain
from boomwright.cli.faults import Status, say
from boomwright.render.json.plan import verdict_document
from boomwright.render.terminal.lines import make_console
from boomwright.render.terminal.verdict import COMMANDS
from boomwright.render.terminal.verdict import print_verdict as print_lines

#: every subject that the verdict counts
SUBJECTS: Final = tuple(COMMANDS)


def print_verdict(verdict: PlanVerdict, *, system: UnitSystem) -> None:
    """Print the verdict before what a command made."""
    console = make_console()
    print_lines(console, verdict, system=system)
    console.print()


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
