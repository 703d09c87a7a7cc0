"""Making the book from what was computed.

The rooms that lay out pages and drawings are loaded inside the functions, because computing
must not wait for them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from boomwright.base import Notice, PlanError, PlanVerdict, UnitSystem
from boomwright.base.files import ReadFile
from boomwright.base.quantity import Citing, on_paper, uncited
from boomwright.plan import Plan
from boomwright.report.structure.book import structure_chapters
from boomwright.session.files import packaged_text, save_bytes
from boomwright.session.work_files import NO_WORK, WorkPages
from boomwright.solver import Preparer, prepare_run
from boomwright.study.computing import Computation, compute
from boomwright.study.feed import feed_plan
from boomwright.study.feed_parts.results import FeedResult
from boomwright.study.reach import reach_plan
from boomwright.study.reach_parts.results import ReachResult
from boomwright.study.tuning_parts.results import TuneResult
from boomwright.study.verdict import judge_plan

if TYPE_CHECKING:
    from boomwright.charts import ShownSubject
    from boomwright.render.book.citations import Citations
    from boomwright.report.chapter import Part
    from boomwright.report.model import Report

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
    work: WorkPages = NO_WORK,
    citations: Citations | None = None,
    issued: str = "",
    parts: Sequence[Part] = ("book",),
) -> dict[Part, bytes]:
    """Make the parts of the book; what is None or empty leaves its chapters out.

    Args:
        verdict: the one verdict of the plan, which stands on the first page
        citations: what the work pages cite of the register of sources
        issued: day of issue; when empty the plan's, else left for hand entry
    """
    from importlib import metadata

    from boomwright.render.book.citations import Citations
    from boomwright.render.book.typesetting import make_book
    from boomwright.report.tuning import tuning_report

    citations = citations or Citations()
    laid = partial(_laid, system=system, cite=citations)
    shown = laid(_reach_reports(reach)) if reach is not None else ()
    fed = laid(_feed_reports(feed)) if feed is not None else ()
    tuned = laid((tuning_report(tuning),)) if tuning is not None else ()
    stood = shown_structure(computation.plan, system=system, cite=citations)
    allowed = shown_permits(computation.plan, system=system, cite=citations)
    notices = [*(feed.notices if feed else ()), *(reach.notices if reach else ())]
    notices += [notice for each in (*stood, *allowed, *tuned, *searched) for notice in each.notices]
    notices += [notice for chapter in work.chapters for notice in chapter.notices]

    return make_book(
        plan=computation.plan,
        readings=computation.beams,
        verdict=verdict,
        version=metadata.version("boomwright"),
        digest=digest,
        sources=sources_behind(computation, notices=notices, cited=citations.listed()),
        citations=citations,
        system=system,
        paper="us-letter" if paper == "letter" else "a4",
        issued=issued or computation.plan.dated,
        measured=(
            [each.measured for each in feed.beams]
            if feed is not None and feed.plan is computation.plan
            else computation.as_measured
        ),
        reach=shown,
        feed=fed,
        structure=stood,
        permits=allowed,
        tuning=tuned,
        searched=searched,
        work=work.chapters,
        summary=work.summary,
        parts=parts,
    )


def write_parts(made: Mapping[Part, bytes], path: Path) -> list[Path]:
    """Write the parts: the book under its name, the others beside it with a suffix.

    Returns:
        what was written (n_parts,)

    Raises:
        OSError: when one cannot be written
    """
    written = []
    for part, data in made.items():
        target = path if part == "book" else path.with_stem(f"{path.stem}-{part}")
        save_bytes(target, data)
        written.append(target)
    return written


def shown_structure(
    plan: Plan, *, system: UnitSystem, cite: Citing = uncited
) -> tuple[ShownSubject, ...]:
    """Check the structure and lay it out for the book; nothing where the plan says nothing."""
    return _laid(structure_chapters(plan), system=system, width=600.0, cite=cite)


def _laid(
    reports: Iterable[Report], *, system: UnitSystem, width: float = 520.0, cite: Citing = uncited
) -> tuple[ShownSubject, ...]:
    """Lay reports out in the colours of print; pictures of 600 units fill the text of a page."""
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.render.laid import lay_out
    from boomwright.report.model import Canvas

    canvas = Canvas(palette=PRINT_PALETTE, system=system, width=width, cite=cite)
    with on_paper():
        return tuple(lay_out(report, canvas=canvas) for report in reports)


def shown_permits(
    plan: Plan, *, system: UnitSystem, cite: Citing = uncited
) -> tuple[ShownSubject, ...]:
    """Hold the plan against the rules; no chapter when it says nothing of its surroundings."""
    from boomwright.report.permits import permits_report
    from boomwright.report.structure import refused_report
    from boomwright.study.permits import permit_plan

    if plan.permits is None:
        return ()
    try:
        report = permits_report(permit_plan(plan))
        return _laid((report,), system=system, width=600.0, cite=cite)
    except PlanError as error:
        return _laid((refused_report("permits", error),), system=system)


def _feed_reports(result: FeedResult) -> Iterator[Report]:
    from boomwright.report.feed import feed_report

    return (feed_report(result, number=number) for number in range(len(result.beams)))


def _reach_reports(result: ReachResult) -> Iterator[Report]:
    from boomwright.report.reach import reach_report

    numbers = range(len(result.beams))
    return (reach_report(result, number=number, together=number == 0) for number in numbers)


#: told the share done before a step and what it does; it may raise to stop the making
OnStep = Callable[[float, str], None]

#: shares of the time at which each step begins, from the demo's book on two cores
_BEGINS = {
    "the band": 0.0,
    "the reach": 0.02,
    "the feed": 0.38,
    "measured sweeps and searches": 0.69,
    "the workshop": 0.73,
    "the pages": 0.79,
}


def unwatched(share: float, words: str) -> None:
    """Hear of a step and do nothing.

    Args:
        share: share of the time gone [-]
    """


def book_of(
    plan: Plan,
    *,
    files: ReadFile,
    path: Path | None,
    digest: str,
    system: UnitSystem,
    paper: Paper,
    today: str = "",
    computation: Computation | None = None,
    verdict: PlanVerdict | None = None,
    reach: ReachResult | Callable[[Plan], ReachResult] | None = None,
    feed: FeedResult | Callable[[Plan], FeedResult] = feed_plan,
    prepare: Preparer = prepare_run,
    on_step: OnStep = unwatched,
    parts: Sequence[Part] = ("book",),
) -> dict[Part, bytes]:
    """Compute everything the book holds, and make its parts.

    Args:
        path: the plan's file, beside which what searches found is kept; None when there is none
        today: day of issue, of prices and declination; when empty the plan's, else left for
            hand entry
        computation, verdict: what was computed already; None to compute it
        reach, feed: what was computed already, or what computes it
        on_step: told the share done and what comes next; what it raises stops the making

    Raises:
        BoomwrightError: when a file or a geometry is refused
    """
    from boomwright.render.book.citations import Citations
    from boomwright.session.search_records import found_for_book
    from boomwright.session.work_files import work_for_book
    from boomwright.study.tuning import tuning_for_book

    def begin(words: str) -> None:
        on_step(_BEGINS[words], words)

    begin("the band")
    made = computation or compute(plan, prepare=prepare)
    begin("the reach")
    reach = reach or partial(reach_plan, files=files, prepare=prepare)
    if callable(reach):
        reach = None if plan.site.ground.kind == "free space" else reach(plan)
    begin("the feed")
    feed = feed(plan) if callable(feed) else feed
    begin("measured sweeps and searches")
    tuning = tuning_for_book(plan, files=files)
    searched = found_for_book(plan, path=path, system=system)
    begin("the workshop")
    citations = Citations()
    work = work_for_book(made, files=files, system=system, today=today, cite=citations)
    begin("the pages")
    return book_bytes(
        made,
        verdict=verdict or judge_plan(plan, files=files, prepare=prepare),
        digest=digest,
        system=system,
        paper=paper,
        reach=reach,
        feed=feed,
        tuning=tuning,
        searched=searched,
        work=work,
        citations=citations,
        issued=today,
        parts=parts,
    )
