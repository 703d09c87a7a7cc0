"""The ``advise`` command: which station suits a place."""

from __future__ import annotations

import json
import time
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from boomwright.base.records import dataclass
from boomwright.cli import options
from boomwright.cli.faults import refuse, say
from boomwright.cli.progress import ProgressLine, stopping

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.session.files import LoadedPlan
    from boomwright.session.search_workers import Workers
    from boomwright.study.advice.advise import Advice
    from boomwright.study.advice.judged import Candidate, Unmade


def advise(
    places: Annotated[
        list[str],
        typer.Argument(
            metavar="PLACE...",
            help="Plans with [place] and no antenna yet, or - for standard input.",
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
        typer.Option(
            "--out",
            "-o",
            metavar="FILE",
            help="Write the plan of the chosen station; of several places the folder for the "
            "proposal and the plan of each.",
        ),
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
    workers: options.Workers = None,
    cluster: options.Cluster = "",
    resume: Annotated[
        bool, typer.Option("--resume", help="Go on with the advice that was broken off.")
    ] = False,
    system: options.Units = None,
    paper: options.PaperSize = None,
    full: options.Full = False,
    as_json: options.Json = False,
) -> None:
    """Put whole stations together for a place and hold them side by side.

    Each is designed and matched, computed over the ground with its line, held against wind, ice
    and rules, priced from your own list and given a way up. Up to three are put forward, with
    their reasons and with what must be asked. What cannot be known is a question, never a guess.

    What is done is kept beside the place until the end. Ctrl-C ends it with what is done.
    """
    from boomwright.session.search_workers import search_workers
    from boomwright.study.requests import RequestError

    into = out if out is not None and (len(places) > 1 or out.suffix != ".toml") else None
    refuse(
        {
            "--workers and --cluster are both given -> give one of them": bool(cluster)
            and workers is not None,
            "several places need a folder -> add --out FOLDER": len(places) > 1 and out is None,
            "--choose, --blank and --proposal are for one place and --out for a file of its plan "
            "-> leave them out, or name FILE.toml": into is not None
            and (choose is not None or blank is not None or proposal is not None),
        }
    )
    with search_workers(workers, cluster=cluster) as crew, stopping() as line:
        asked = _Asked(crew=crew, line=line, resume=resume, system=system, paper=paper)
        if into is not None:
            _advise_all(places, asked, into=into, as_json=as_json)
            return
        loaded, made = asked.advise(places[0])
    refused: RequestError | None = None
    written: list[str] = []
    try:
        _write(written, asked, loaded, made, choose=choose, out=out, blank=blank,
               proposal=proposal)  # fmt: skip
    except RequestError as refusal:
        # What stops each station is told before that none could be written.
        refused = refusal
    if as_json:
        _print_json(_document(made))
    else:
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.advice import advice_report

        print_subject(
            loaded.plan.title,
            (advice_report(made),),
            notices=made.notices,
            system=asked.units(loaded),
            full=full,
            end=" ".join(written),
        )
    if refused is not None:
        raise refused


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """How places are advised and told of."""

    crew: Workers
    line: ProgressLine
    resume: bool
    system: options.UnitChoice | None
    paper: options.PaperChoice | None

    def units(self, loaded: LoadedPlan) -> UnitSystem:
        return options.units(self.system, otherwise=loaded.system)

    def advise(self, place: str) -> tuple[LoadedPlan, Advice]:
        """Advise one place, telling how far it is."""
        from boomwright.session.advice import advise_place
        from boomwright.session.files import load_plan

        loaded = load_plan(place, place=True)
        made = advise_place(
            loaded.plan,
            files=loaded.files,
            system=loaded.system,
            path=loaded.path,
            crew=self.crew,
            resume=self.resume,
            on_candidate=_Told(self.line),
            stopped=lambda: self.line.stop,
        )
        self.line.end()
        return loaded, made


class _Told:
    """Shows how many stations are judged, which is the strongest, and how long it takes yet."""

    def __init__(self, line: ProgressLine) -> None:
        self._line = line
        self._begun = time.monotonic()
        self._best: Candidate | None = None

    def __call__(self, done: int, total: int, found: Candidate | Unmade) -> None:
        from boomwright.study.advice.judged import Candidate

        if isinstance(found, Candidate) and found.allowed:
            best = self._best
            if best is None or found.served.mean_db > best.served.mean_db:
                self._best = found
        parts = [f"{done} of {total} stations"]
        if self._best is not None:
            parts.append(f"strongest so far: {self._best.name}")
        left = (time.monotonic() - self._begun) / done * (total - done)
        parts += [f"about {max(left, 1.0):.0f} s left", "Ctrl-C ends it"]
        self._line.show(", ".join(parts))


def _write(
    written: list[str],
    asked: _Asked,
    loaded: LoadedPlan,
    made: Advice,
    *,
    choose: int | None,
    out: Path | None,
    blank: Path | None,
    proposal: Path | None,
) -> None:
    """Write the files that were asked for, and say so of each."""
    from boomwright.session.advice import write_chosen, write_prices, write_proposal

    units = asked.units(loaded)
    if blank is not None:
        write_prices(made, blank, system=units, files=loaded.files)
        written.append(
            f"{blank} is written. Fill in low, likely, high and the day of each price, and name "
            "the file as list in [prices]."
        )
    if proposal is not None:
        paper = options.paper(asked.paper, system=units)
        write_proposal(made, proposal, digest=loaded.digest, system=units, paper=paper)
        written.append(f"{proposal} is written.")
    if out is not None:
        chosen = write_chosen(made, out, number=choose)
        written.append(f"{out} is written: {chosen.name}. Next: boomwright check {out}")


def _advise_all(places: list[str], asked: _Asked, *, into: Path, as_json: bool) -> None:
    """Advise place after place, each with its proposal and its plan in a folder."""
    from boomwright.session.advice import write_advised

    documents = {}
    for place in places:
        loaded, made = asked.advise(place)
        if asked.line.stop:
            break
        units = asked.units(loaded)
        paper = options.paper(asked.paper, system=units)
        paths = write_advised(
            made, into, name=Path(place).stem, digest=loaded.digest, system=units, paper=paper
        )
        documents[place] = _document(made)
        if not as_json:
            say((f"{place}: {', '.join(str(path) for path in paths)}",))
    if as_json:
        _print_json(documents)


def _document(made: Advice) -> dict[str, Any]:
    from boomwright.render.json.advice import advice_document

    return advice_document(made)


def _print_json(document: dict[str, Any]) -> None:
    typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
