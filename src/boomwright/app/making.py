"""Making the book from what was computed.

The rooms that lay out pages and drawings are loaded inside the functions, because computing
must not wait for them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Sequence
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from boomwright.app.computing import Computation
from boomwright.app.feed_results import FeedResult
from boomwright.app.files import save_bytes
from boomwright.app.reach_book import shown_reach
from boomwright.app.reach_results import ReachResult
from boomwright.app.structure_book import shown_permits, shown_structure
from boomwright.app.tuning_results import TuneResult
from boomwright.base import Notice, PlanVerdict, UnitSystem

if TYPE_CHECKING:
    from boomwright.book import Chapter
    from boomwright.figures import ShownSubject

Paper = Literal["a4", "letter"]


#: rooms whose sources stand behind the figures of the book; a notice adds its own
_BOOK_ROOMS = {"base", "parts", "solver"}


def read_sources() -> dict[str, dict[str, Any]]:
    """Read the register of sources the package carries."""
    return tomllib.loads(packaged_text("sources.toml"))


def sources_behind(
    computation: Computation,
    *,
    notices: Sequence[Notice] = (),
    cited: Collection[str] = (),
) -> dict[str, str]:
    """Choose the sources that stand behind a computation, as the book prints them."""
    named = {notice.source for notice in (*computation.all_notices, *notices)} | set(cited)
    chosen: dict[str, str] = {}
    for key, entry in read_sources().items():
        if key in named or _BOOK_ROOMS & set(entry["rooms"]):
            parts = (entry["reference"], entry["edition"], entry["url"])
            chosen[key] = f"{', '.join(part for part in parts if part)} ({entry['seen']})"
    return chosen


def packaged_text(name: str) -> str:
    """Read a text file that comes with the program."""
    return (resources.files("boomwright.app") / "data" / name).read_text(encoding="utf-8")


def book_bytes(
    computation: Computation,
    *,
    verdict: PlanVerdict,
    digest: str,
    system: UnitSystem,
    paper: Paper,
    reach: ReachResult | None = None,
    feed: FeedResult | None = None,
    tuning: TuneResult | None = None,
    searched: Sequence[ShownSubject] = (),
    work: Sequence[Chapter] = (),
    issued: str = "",
) -> bytes:
    """Make the book.

    Parameters
    ----------
    verdict
        the one verdict of the plan, which stands on the first page
    paper
        ``a4`` or ``letter``
    reach
        what reach says of the plan; None leaves its chapters out
    feed
        what the feed says of the plan; None leaves its chapters out
    tuning
        what the measured sweeps say; None leaves the chapter out
    searched
        what searches found of the beams; none leaves its chapters out
    work
        chapters of work sheets; none leaves them out
    issued
        day of issue; when empty the plan's, else left for hand entry
    """
    from importlib import metadata

    from boomwright import book

    shown = shown_reach(reach, system=system) if reach is not None else ()
    fed = shown_feed(feed, system=system) if feed is not None else ()
    tuned = shown_tuning(tuning, system=system) if tuning is not None else ()
    stood = shown_structure(computation.plan, system=system)
    allowed = shown_permits(computation.plan, system=system)
    notices = [*(feed.notices if feed else ()), *(reach.notices if reach else ())]
    subjects = (*shown, *fed, *stood, *allowed, *tuned, *searched)
    notices += [notice for each in (*stood, *allowed, *tuned, *searched) for notice in each.notices]
    notices += [notice for chapter in work for notice in chapter.notices]
    cited = book.cited_cells(subjects=subjects, work=work)

    return book.make_book(
        plan=computation.plan,
        readings=computation.beams,
        verdict=verdict,
        version=metadata.version("boomwright"),
        digest=digest,
        sources=sources_behind(computation, notices=notices, cited=cited),
        system=system,
        paper="us-letter" if paper == "letter" else "a4",
        issued=issued or computation.plan.dated,
        reach=shown,
        feed=fed,
        structure=stood,
        permits=allowed,
        tuning=tuned,
        searched=searched,
        work=work,
    )


def shown_feed(result: FeedResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what the feed says of every beam in the colours of print."""
    from boomwright.app.feed_shown import show_feed
    from boomwright.book.pictures import PRINT_PALETTE

    return tuple(
        show_feed(result, number=number, palette=PRINT_PALETTE, system=system)
        for number in range(len(result.beams))
    )


def shown_tuning(result: TuneResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what the measured sweeps say in the colours of print.

    Parameters
    ----------
    system
        unit of the advice that stands first
    """
    from boomwright.app.tuning_shown import show_tuning
    from boomwright.book.pictures import PRINT_PALETTE

    return (show_tuning(result, palette=PRINT_PALETTE, system=system),)


def write_book(
    computation: Computation,
    path: Path,
    *,
    verdict: PlanVerdict,
    digest: str,
    system: UnitSystem,
    paper: Paper,
    reach: ReachResult | None = None,
    feed: FeedResult | None = None,
    tuning: TuneResult | None = None,
    searched: Sequence[ShownSubject] = (),
    work: Sequence[Chapter] = (),
    issued: str = "",
) -> None:
    """Make the book and write it.

    Parameters
    ----------
    verdict
        the one verdict of the plan, which stands on the first page
    paper
        ``a4`` or ``letter``
    reach
        what reach says of the plan; None leaves its chapters out
    feed
        what the feed says of the plan; None leaves its chapters out
    tuning
        what the measured sweeps say; None leaves the chapter out
    searched
        what searches found of the beams; none leaves its chapters out
    work
        chapters of work sheets; none leaves them out
    issued
        day of issue; when empty the plan's, else left for hand entry

    Raises
    ------
    FileRefusedError
        when the name is that of a plan
    OSError
        when it cannot be written
    """
    save_bytes(
        path,
        book_bytes(
            computation,
            verdict=verdict,
            digest=digest,
            system=system,
            paper=paper,
            reach=reach,
            feed=feed,
            tuning=tuning,
            searched=searched,
            work=work,
            issued=issued,
        ),
    )
