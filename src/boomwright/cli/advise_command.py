"""The ``advise`` command: which station suits a place."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from boomwright.cli import options

if TYPE_CHECKING:
    from boomwright.study.advice.advise import OnCandidate
    from boomwright.study.advice.judged import Candidate, Unmade


@contextmanager
def _told() -> Iterator[OnCandidate]:
    """Show each station on a terminal as it is judged; the lines go with the answer."""
    shown, width = sys.stderr.isatty(), 0

    def on_candidate(done: int, total: int, found: Candidate | Unmade) -> None:
        nonlocal width
        if shown:
            line = f"{done} of {total} stations: {found.station.name}"
            width = max(width, len(line))
            typer.echo(f"\r{line:{width}}", err=True, nl=False)

    try:
        yield on_candidate
    finally:
        if width:
            typer.echo(f"\r{'':{width}}\r", err=True, nl=False)


def advise(
    place: Annotated[
        str,
        typer.Argument(
            metavar="PLACE", help="A plan with [place] and no antenna yet, or - for standard input."
        ),
    ],
    *,
    choose: Annotated[
        int | None,
        typer.Option(
            "--choose",
            metavar="NUMBER",
            help="The station to write with --out; the last one put forward if left out.",
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="FILE", help="Write the plan of the chosen station."),
    ] = None,
    blank: Annotated[
        Path | None,
        typer.Option(
            "--blank", metavar="FILE", help="Write the price list that all stations ask for."
        ),
    ] = None,
    proposal: Annotated[
        Path | None,
        typer.Option(
            "--proposal",
            metavar="FILE",
            help="Write the proposal, a PDF of two pages: place and wishes, the stations put "
            "forward side by side, cost, questions, and how sure it is.",
        ),
    ] = None,
    system: options.Units = None,
    paper: options.PaperSize = None,
    full: options.Full = False,
    as_json: options.Json = False,
) -> None:
    """Put whole stations together for a place and hold them side by side.

    Each is designed and matched, computed over the ground with its line, held against wind, ice
    and rules, priced from your own list and given a way up. Up to three are put forward, with
    their reasons and with what must be asked. What cannot be known is a question, never a guess.
    """
    from boomwright.render.json.advice import advice_document
    from boomwright.session.advice import advise_place, write_chosen, write_prices, write_proposal
    from boomwright.session.files import load_plan

    loaded = load_plan(place, place=True)
    units = options.units(system, otherwise=loaded.system)
    with _told() as on_candidate:
        made = advise_place(loaded.plan, files=loaded.files, on_candidate=on_candidate)
    written = []
    if blank is not None:
        write_prices(made, blank, system=units, files=loaded.files)
        written.append(
            f"{blank} is written. Fill in low, likely, high and the day of each price, and name "
            "the file as list in [prices]."
        )
    if out is not None:
        chosen = write_chosen(made, out, number=choose)
        written.append(f"{out} is written: {chosen.name}. Next: boomwright check {out}")
    if proposal is not None:
        write_proposal(
            made,
            proposal,
            digest=loaded.digest,
            system=units,
            paper=options.paper(paper, system=units),
        )
        written.append(f"{proposal} is written.")
    if as_json:
        document = advice_document(made)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
        return
    from boomwright.render.terminal.subject import print_subject
    from boomwright.report.advice import advice_report

    print_subject(
        loaded.plan.title,
        (advice_report(made),),
        notices=made.notices,
        system=units,
        full=full,
        end=" ".join(written),
    )
