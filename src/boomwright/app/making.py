"""Making files from what was computed: the book, drawings for other programs, the demo.

The rooms that lay out pages and drawings are loaded inside the functions, because computing
must not wait for them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from boomwright.app.computing import Computation, compute
from boomwright.app.cost import day_of_today, demo_prices
from boomwright.app.feed import feed_plan, feed_touchstone
from boomwright.app.feed_results import FeedResult
from boomwright.app.files import load_plan, save_bytes
from boomwright.app.reach_book import reach_for_book, shown_reach
from boomwright.app.reach_results import ReachResult
from boomwright.app.starting import make_plan
from boomwright.app.structure_book import shown_permits, shown_structure
from boomwright.app.tuning_results import TuneResult
from boomwright.app.work_files import work_for_book, write_work
from boomwright.base import Notice, UnitSystem
from boomwright.parts import Beam
from boomwright.reach import BeamReadings

if TYPE_CHECKING:
    from boomwright.book import Chapter
    from boomwright.figures import ShownSubject

Paper = Literal["a4", "letter"]


#: rooms whose sources stand behind the figures of the book; a notice adds its own
_BOOK_ROOMS = {"base", "parts", "solver"}


def read_sources() -> dict[str, dict[str, Any]]:
    """Read the register of sources the package carries.

    Returns
    -------
    dict[str, dict[str, Any]]
        reference, edition, url, licence, how it is known and citing rooms, by key [-]
    """
    return tomllib.loads(_packaged("sources.toml"))


def sources_behind(computation: Computation, *, notices: Sequence[Notice] = ()) -> dict[str, str]:
    """Choose the sources that stand behind a computation, as the book prints them.

    Parameters
    ----------
    computation
        the readings [-]
    notices
        notices of further subjects in the book [-]

    Returns
    -------
    dict[str, str]
        one line per source by key: reference, edition, address, how it is known [-]
    """
    named = {notice.source for notice in (*computation.all_notices, *notices)}
    chosen: dict[str, str] = {}
    for key, entry in read_sources().items():
        if key in named or _BOOK_ROOMS & set(entry["rooms"]):
            parts = (entry["reference"], entry["edition"], entry["url"])
            chosen[key] = f"{', '.join(part for part in parts if part)} ({entry['seen']})"
    return chosen


def _packaged(name: str) -> str:
    return (resources.files("boomwright.app") / "data" / name).read_text(encoding="utf-8")


def book_bytes(
    computation: Computation,
    *,
    digest: str,
    system: UnitSystem,
    paper: Paper,
    reach: ReachResult | None = None,
    feed: FeedResult | None = None,
    tuning: TuneResult | None = None,
    work: Sequence[Chapter] = (),
    issued: str = "",
) -> bytes:
    """Make the book.

    Parameters
    ----------
    computation
        the readings [-]
    digest
        digest of the plan's text, printed in the book [-]
    system
        units of lengths [-]
    paper
        ``a4`` or ``letter`` [-]
    reach
        what reach says of the plan; None leaves its chapters out [-]
    feed
        what the feed says of the plan; None leaves its chapters out [-]
    tuning
        what the measured sweeps say; None leaves the chapter out [-]
    work
        chapters of work sheets; none leaves them out [-]
    issued
        day of issue; the clock's when empty [-]

    Returns
    -------
    bytes
        a PDF file [-]
    """
    from importlib import metadata

    from boomwright import book

    shown = shown_reach(reach, system=system) if reach is not None else ()
    fed = shown_feed(feed, system=system) if feed is not None else ()
    tuned = shown_tuning(tuning, system=system) if tuning is not None else ()
    stood = shown_structure(computation.plan, system=system)
    allowed = shown_permits(computation.plan, system=system)
    notices = [*(feed.notices if feed else ()), *(reach.notices if reach else ())]
    notices += [notice for subject in (*stood, *allowed, *tuned) for notice in subject.notices]

    return book.make_book(
        plan=computation.plan,
        readings=computation.beams,
        version=metadata.version("boomwright"),
        digest=digest,
        sources=sources_behind(computation, notices=notices),
        system=system,
        paper="us-letter" if paper == "letter" else "a4",
        issued=issued or day_of_today(),
        reach=shown,
        feed=fed,
        structure=stood,
        permits=allowed,
        tuning=tuned,
    )


def shown_feed(result: FeedResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what the feed says of every beam in the colours of print.

    Parameters
    ----------
    result
        the result [-]
    system
        units of lengths [-]

    Returns
    -------
    tuple of ShownSubject
        one chapter a beam [-] (n_beams,)
    """
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
    result
        the result [-]
    system
        unit of the advice that stands first [-]

    Returns
    -------
    tuple of ShownSubject
        one chapter [-] (1,)
    """
    from boomwright.app.tuning_shown import show_tuning
    from boomwright.book.pictures import PRINT_PALETTE

    return (show_tuning(result, palette=PRINT_PALETTE, system=system),)


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
    work: Sequence[Chapter] = (),
    issued: str = "",
) -> None:
    """Make the book and write it.

    Parameters
    ----------
    computation
        the readings [-]
    path
        the PDF file [-]
    digest
        digest of the plan's text, printed in the book [-]
    system
        units of lengths [-]
    paper
        ``a4`` or ``letter`` [-]
    reach
        what reach says of the plan; None leaves its chapters out [-]
    feed
        what the feed says of the plan; None leaves its chapters out [-]
    tuning
        what the measured sweeps say; None leaves the chapter out [-]
    work
        chapters of work sheets; none leaves them out [-]
    issued
        day of issue; the clock's when empty [-]

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
            work=work,
            issued=issued,
        ),
    )


def write_drawings(computation: Computation, folder: Path) -> tuple[Path, ...]:
    """Write each beam's cut list and plan view in forms other programs read.

    Parameters
    ----------
    computation
        the readings [-]
    folder
        where to; made when missing [-]

    Returns
    -------
    tuple[Path, ...]
        the files written: per beam a CSV and a DXF [-]

    Raises
    ------
    OSError
        when one cannot be written
    """
    from boomwright import book

    written = []
    for number, beam in enumerate(computation.plan.beams, start=1):
        stem, boom = file_stem(beam, number=number), computation.plan.boom_of(beam.name)
        for name, data in (
            (f"{stem}-cut-list.csv", book.cut_list_csv(beam=beam, boom=boom)),
            (f"{stem}-plan-view.dxf", book.plan_view_dxf(beam=beam, boom=boom)),
        ):
            save_bytes(folder / name, data)
            written.append(folder / name)
    return tuple(written)


def write_figures(
    computation: Computation, folder: Path, *, system: UnitSystem
) -> tuple[Path, ...]:
    """Write every figure of every beam as SVG.

    Parameters
    ----------
    computation
        the readings [-]
    folder
        where to; made when missing [-]
    system
        units of lengths [-]

    Returns
    -------
    tuple[Path, ...]
        the files written [-]

    Raises
    ------
    OSError
        when one cannot be written
    """
    written = []
    for number, readings in enumerate(computation.beams, start=1):
        stem = file_stem(readings.beam, number=number)
        for name, svg in _drawn(readings, system=system).items():
            path = folder / f"{stem}-{name}.svg"
            save_bytes(path, svg.encode())
            written.append(path)
    return tuple(written)


def _drawn(readings: BeamReadings, *, system: UnitSystem) -> dict[str, str]:
    from boomwright import figures

    drawn = {
        "plan-view": figures.plan_view(beam=readings.beam, system=system),
        "swr": figures.sweep_chart(readings=readings, system=system),
        "impedance": figures.impedance_chart(readings=readings, system=system),
        "gain": figures.gain_chart(readings=readings, system=system),
        "azimuth": figures.azimuth_pattern(cuts=[readings.azimuth_pattern], system=system),
        "elevation": figures.elevation_pattern(cuts=[readings.elevation_pattern], system=system),
        "currents": figures.current_chart(currents=readings.currents, system=system),
        "phasors": figures.current_phasors(currents=readings.currents, system=system),
    }
    for index in range(len(readings.beam.elements)):
        drawn[f"element-{index + 1}"] = figures.element_detail(
            beam=readings.beam, index=index, system=system
        )
    over = readings.over_ground
    if over is not None:
        drawn["lobes"] = figures.lobe_chart(over_ground=over, system=system)
        drawn["azimuth-over-ground"] = figures.azimuth_pattern(
            cuts=[over.azimuth_pattern], title="Azimuth pattern over the ground", system=system
        )
        drawn["elevation-over-ground"] = figures.elevation_pattern(
            cuts=[over.elevation_pattern], title="Elevation pattern over the ground", system=system
        )
    return drawn


def write_touchstone(result: FeedResult, folder: Path) -> tuple[Path, ...]:
    """Write both ends of each beam's line as Touchstone files.

    Parameters
    ----------
    result
        what the feed says of the plan [-]
    folder
        where to; made when missing [-]

    Returns
    -------
    tuple[Path, ...]
        the files written [-]

    Raises
    ------
    OSError
        when one cannot be written
    """
    written = []
    for index, each in enumerate(result.beams):
        stem = file_stem(each.beam, number=index + 1)
        for name, text in feed_touchstone(result, number=index).items():
            path = folder / f"{stem}-{name}"
            save_bytes(path, text.encode("ascii", "replace"))
            written.append(path)
    return tuple(written)


def file_stem(beam: Beam, *, number: int) -> str:
    """Turn the owner's name of a beam into the start of a file name.

    Parameters
    ----------
    beam
        the beam [-]
    number
        its number in the plan, used when nothing of the name is left [-]

    Returns
    -------
    str
        letters, digits and hyphens only [-]
    """
    kept = "".join(c if c.isascii() and c.isalnum() else " " for c in beam.name)
    return "-".join(kept.split()) or f"beam-{number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """The demo as it was made.

    Parameters
    ----------
    plan
        its plan file [-]
    was_there
        whether the plan file was there already and was used as found [-]
    files
        files made from it: the book first, then drawings [-]
    computation
        its readings [-]
    """

    plan: Path
    was_there: bool
    files: tuple[Path, ...]
    computation: Computation


def write_demo(folder: Path, *, system: UnitSystem = "metric", paper: Paper = "a4") -> Demo:
    """Run the main job on the demo plan: plan, readings, book and drawings in one folder.

    A plan found in the folder is used as it is, so that what a visitor changed is kept.

    Parameters
    ----------
    folder
        where to; made when missing [-]
    system
        units of lengths in the book [-]
    paper
        ``a4`` or ``letter`` [-]

    Returns
    -------
    Demo
        what was made [-]

    Raises
    ------
    PlanError
        when the plan found in the folder has faults
    OSError
        when something cannot be written
    """
    path = folder / "plan.toml"
    was_there = path.exists()
    if not was_there:
        make_plan(path, _packaged("demo.toml"))
        save_bytes(folder / "prices.csv", demo_prices().encode())
    loaded = load_plan(path)
    computation = compute(loaded.plan)
    book = folder / "book.pdf"
    write_book(
        computation,
        book,
        digest=loaded.digest,
        system=system,
        paper=paper,
        reach=reach_for_book(loaded.plan, folder=folder),
        feed=feed_plan(loaded.plan),
        work=work_for_book(computation, folder=folder, system=system),
    )
    drawings = folder / "drawings"
    return Demo(
        plan=path,
        was_there=was_there,
        files=(
            book,
            *write_drawings(computation, folder),
            *write_work(loaded.plan, drawings, digest=loaded.digest, system=system),
        ),
        computation=computation,
    )
