"""New plan files; what exists is never touched."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base.files import FileRefusedError
from boomwright.session.files import save_text
from boomwright.study.requests import RequestError, Wishes, starter_text

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.study.candidates import Candidate


def make_plan(path: Path, text: str) -> None:
    """Write a new plan; an existing file is never touched.

    Raises:
        FileRefusedError: when there is such a file already, or the name is not that of a plan
        OSError: when it cannot be written
    """
    refuse_existing(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    save_text(path, text, expected=None)


def refuse_existing(path: Path) -> None:
    """Refuse a name that no new plan can have.

    Raises:
        FileRefusedError: when there is such a file already, or the name is not that of a plan
    """
    if path.suffix != ".toml":
        raise FileRefusedError(
            f"{path}: a plan is a TOML file", remedy="choose a name ending in .toml"
        )
    if path.exists():
        raise FileRefusedError(
            f"{path}: this file exists and is kept", remedy="choose another name"
        )


def make_starter(path: Path, wishes: Wishes) -> None:
    """Write a new plan by the trade's first guess, or one of wire.

    Raises:
        RequestError: when a wish cannot be read or met
        FileRefusedError: when there is such a file already, or the name is not that of a plan
        OSError: when it cannot be written
    """
    make_plan(path, new_text(wishes, searched=False))


def make_place(path: Path, typed: Mapping[str, str], *, system: UnitSystem) -> None:
    """Write a place to fill in.

    Args:
        typed: what is known, by the names of ``wishing.ASKED``
        system: units of its examples

    Raises:
        PlanError: with every fault of what was typed
        FileRefusedError: when there is such a file already, or the name is not that of a plan
        OSError: when it cannot be written
    """
    from boomwright.plan import read_place
    from boomwright.study.advice.wishing import place_text

    text = place_text(typed, system=system)
    read_place(text)
    make_plan(path, text)


def new_text(wishes: Wishes, *, searched: bool) -> str:
    """Write the text of a new plan.

    Args:
        searched: whether a beam of tubes is a design of the frontier with its match, not the
            trade's first guess

    Raises:
        RequestError: when a wish cannot be read or met
    """
    if wishes.shape:
        from boomwright.study.shapes import shaped_text

        return shaped_text(wishes)
    _refuse_further(wishes)
    return _candidate(wishes).text if searched else starter_text(wishes)


def _candidate(wishes: Wishes) -> Candidate:
    # The first guess needs no search, so it need not wait for one to load.
    from boomwright.study.candidates import choice_of, work_out

    return work_out(choice_of(wishes), wishes=wishes)


def _refuse_further(wishes: Wishes) -> None:
    """A new beam of tubes is for one band.

    Raises:
        RequestError: when there are more
    """
    if wishes.further_bands:
        more = ", ".join(wishes.further_bands)
        raise RequestError(
            f"a new beam of tubes is for one band, and {more} was asked for too",
            remedy="name one --band, or a --shape that takes several, such as hexagon",
        )


def make_searched(path: Path, wishes: Wishes) -> Candidate:
    """Write a new plan with a design of the frontier instead of the first guess.

    Errors are those of :func:`make_starter`.
    """
    refuse_existing(path)
    _refuse_further(wishes)
    made = _candidate(wishes)
    make_plan(path, made.text)
    return made
