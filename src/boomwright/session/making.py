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

from boomwright.base import Notice, UnitSystem
from boomwright.report.structure.book import shown_permits, shown_structure
from boomwright.session.files import save_bytes
from boomwright.session.reach_book import shown_reach
from boomwright.study.computing import Computation
from boomwright.study.feed_results import FeedResult
from boomwright.study.reach_results import ReachResult
from boomwright.study.tuning_results import TuneResult

if TYPE_CHECKING:
    from boomwright.charts import ShownSubject
    from boomwright.report.chapter import Chapter

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
    return (resources.files("boomwright.session") / "data" / name).read_text(encoding="utf-8")


def book_bytes(
    computation: Computation,
    *,
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

    from boomwright.render.book.citations import cited_cells
    from boomwright.render.book.typesetting import make_book

    shown = shown_reach(reach, system=system) if reach is not None else ()
    fed = shown_feed(feed, system=system) if feed is not None else ()
    tuned = shown_tuning(tuning, system=system) if tuning is not None else ()
    stood = shown_structure(computation.plan, system=system)
    allowed = shown_permits(computation.plan, system=system)
    notices = [*(feed.notices if feed else ()), *(reach.notices if reach else ())]
    subjects = (*shown, *fed, *stood, *allowed, *tuned, *searched)
    notices += [notice for each in (*stood, *allowed, *tuned, *searched) for notice in each.notices]
    notices += [notice for chapter in work for notice in chapter.notices]
    cited = cited_cells(subjects=subjects, work=work)

    return make_book(
        plan=computation.plan,
        readings=computation.beams,
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
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.render.laid import lay_out
    from boomwright.report.feed import feed_report
    from boomwright.report.model import Canvas

    canvas = Canvas(palette=PRINT_PALETTE, system=system)
    return tuple(
        lay_out(feed_report(result, number=number), canvas=canvas)
        for number in range(len(result.beams))
    )


def shown_tuning(result: TuneResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what the measured sweeps say in the colours of print.

    Parameters
    ----------
    system
        unit of the advice that stands first
    """
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.report.tuning.shown import show_tuning

    return (show_tuning(result, palette=PRINT_PALETTE, system=system),)


def write_plan_book(
    computation: Computation,
    path: Path,
    *,
    plan_path: Path | None,
    digest: str,
    system: UnitSystem,
    paper: Paper,
    today: str = "",
) -> ReachResult | None:
    """Compute everything the book holds beside the readings, make it and write it.

    Parameters
    ----------
    plan_path
        the plan's file, beside which its sweeps, terrain, prices and searches lie; None when
        there is none
    paper
        ``a4`` or ``letter``
    today
        day of issue, of prices and declination; when empty the plan's, else left for hand entry

    Returns
    -------
    ReachResult or None
        what was computed of reach on the way; None in free space

    Raises
    ------
    BoomwrightError
        when a file or a geometry is refused
    OSError
        when the book cannot be written
    """
    from boomwright.session.improve_book import found_for_book
    from boomwright.session.reach_book import reach_for_book
    from boomwright.session.work_files import work_for_book
    from boomwright.study.feed import feed_plan
    from boomwright.study.tuning import tuning_for_book

    plan = computation.plan
    folder = None if plan_path is None else plan_path.parent
    reached = reach_for_book(plan, folder=folder)
    write_book(
        computation,
        path,
        digest=digest,
        system=system,
        paper=paper,
        reach=reached,
        feed=feed_plan(plan),
        tuning=tuning_for_book(plan, folder=folder),
        searched=found_for_book(plan, path=plan_path, system=system),
        work=work_for_book(computation, folder=folder, system=system, today=today),
        issued=today,
    )
    return reached


def write_book(
    computation: Computation,
    path: Path,
    *,
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
