"""Advice for a place, and the files that follow from it; what exists is never touched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from boomwright.base import UnitSystem
from boomwright.base.files import ReadFile
from boomwright.plan import Plan
from boomwright.session.advice_keeping import AdviceKeeper
from boomwright.session.book import Paper
from boomwright.session.files import save_bytes
from boomwright.session.new_plan import make_plan
from boomwright.session.search_workers import IN_PROCESS, Workers
from boomwright.study.advice.advise import Advice, OnCandidate
from boomwright.study.advice.advise import advise as advise_plan
from boomwright.study.advice.choosing import chosen_text, prices_to_fill
from boomwright.study.advice.judged import Candidate
from boomwright.study.requests import RequestError


def advise_place(
    place: Plan,
    *,
    files: ReadFile,
    system: UnitSystem = "metric",
    path: Path | None = None,
    crew: Workers = IN_PROCESS,
    resume: bool = False,
    on_candidate: OnCandidate | None = None,
    stopped: Callable[[], bool] = lambda: False,
) -> Advice:
    """Put whole stations together for a place and hold them side by side.

    Args:
        system: units that the lengths of the plans are rounded in
        path: the place's file, beside which what is done is kept until the end; None keeps nothing
        resume: whether to go on with the run that lies beside the place
        stopped: asked now and then; True ends it with what is done

    Raises:
        BoomwrightError: when the place does not say what is wanted, or has no ground
        RequestError: when there is nothing to resume, or every worker is lost
        OSError: when what was kept cannot be read
    """
    keeper = None if path is None else AdviceKeeper(path, resume=resume)

    def ended() -> bool:
        crew.watch()
        return stopped()

    made = advise_plan(
        place,
        files=files,
        system=system,
        executor=crew.executor,
        on_candidate=on_candidate,
        stopped=ended,
        keeper=keeper,
    )
    if stopped():
        crew.end()
    if keeper is None:
        return made
    if not made.untried and not stopped():
        keeper.finish()
    return replace(made, told=keeper.notices)


def write_prices(advice: Advice, path: Path, *, system: UnitSystem, files: ReadFile) -> None:
    """Write the price list that all candidates ask for, to be filled in.

    Raises:
        FileRefusedError: when there is such a file already
        OSError: when it cannot be written
    """
    text = prices_to_fill(advice, system=system, files=files)
    save_bytes(path, text.encode("utf-8"), new=True)


def write_proposal(
    advice: Advice, path: Path, *, digest: str, system: UnitSystem, paper: Paper, issued: str = ""
) -> None:
    """Write the proposal: two pages to show to whoever pays and helps.

    Args:
        issued: day of issue, or empty for hand entry

    Raises:
        FileRefusedError: when the name is that of a plan
        OSError: when it cannot be written
    """
    from importlib import metadata

    from boomwright.render.book.proposal import make_proposal
    from boomwright.report.advice.proposal import propose

    made = make_proposal(
        propose(advice),
        system=system,
        paper="us-letter" if paper == "letter" else "a4",
        version=metadata.version("boomwright"),
        digest=digest,
        issued=issued or advice.plan.dated,
    )
    save_bytes(path, made)


def write_advised(
    advice: Advice, folder: Path, *, name: str, digest: str, system: UnitSystem, paper: Paper
) -> tuple[Path, ...]:
    """Write the proposal for a place, and the plan of the station put forward last, if any.

    Args:
        name: of the place, with which the names of its files begin

    Returns:
        what was written (n_files,)

    Raises:
        FileRefusedError: when there is such a plan already
        OSError: when one cannot be written
    """
    folder.mkdir(parents=True, exist_ok=True)
    proposal, plan = folder / f"{name}-proposal.pdf", folder / f"{name}-station.toml"
    written = [proposal]
    if advice.picks:
        write_chosen(advice, plan)
        written.append(plan)
    write_proposal(advice, proposal, digest=digest, system=system, paper=paper)
    return tuple(written)


def write_chosen(advice: Advice, path: Path, *, number: int | None = None) -> Candidate:
    """Write the plan of a chosen station.

    Args:
        number: its number, from 1; None for the last one put forward

    Raises:
        RequestError: when there is no such station, or none is put forward
        FileRefusedError: when there is such a file already, or the name is not that of a plan
        OSError: when it cannot be written
    """
    if number is None:
        if not advice.picks:
            raise RequestError(
                "no station keeps every limit", remedy="choose one by its number, or ease a limit"
            )
        number = advice.picks[-1].number + 1
    if not 1 <= number <= len(advice.candidates):
        raise RequestError(
            f"there is no station {number}", remedy=f"choose 1 to {len(advice.candidates)}"
        )
    chosen = advice.candidates[number - 1]
    make_plan(path, chosen_text(advice, chosen))
    return chosen
