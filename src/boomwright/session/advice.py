"""Advice for a place, and the files that follow from it; what exists is never touched."""

from __future__ import annotations

from pathlib import Path

from boomwright.base import UnitSystem
from boomwright.base.files import ReadFile
from boomwright.plan import Plan
from boomwright.session.book import Paper
from boomwright.session.files import save_bytes
from boomwright.session.new_plan import make_plan
from boomwright.study.advice.advise import Advice, OnCandidate
from boomwright.study.advice.advise import advise as advise_plan
from boomwright.study.advice.choosing import chosen_text, prices_to_fill
from boomwright.study.advice.judged import Candidate
from boomwright.study.requests import RequestError


def advise_place(
    place: Plan, *, files: ReadFile, on_candidate: OnCandidate | None = None
) -> Advice:
    """Put whole stations together for a place and hold them side by side.

    Args:
        files: reads the price list
        on_candidate: hears of each candidate as it is judged

    Raises:
        BoomwrightError: when the place does not say what is wanted, or has no ground
    """
    return advise_plan(place, files=files, on_candidate=on_candidate)


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
        digest: of the place's file
        paper: ``a4`` or ``letter``
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
            message = "no station keeps every limit -> choose one by its number, or ease a limit"
            raise RequestError(message)
        number = advice.picks[-1].number + 1
    if not 1 <= number <= len(advice.candidates):
        message = f"there is no station {number} -> choose 1 to {len(advice.candidates)}"
        raise RequestError(message)
    chosen = advice.candidates[number - 1]
    make_plan(path, chosen_text(advice, chosen))
    return chosen
