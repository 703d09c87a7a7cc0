"""Every use case as a verb, for work from Python: plan in, result out.

A plan from ``load`` remembers its file: price list, sweeps and terrain are looked for beside it,
and a report answers in the units it is written in.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from boomwright.plan import Plan, read_place, write_plan, written_system
from boomwright.report.chapter import PARTS, Part
from boomwright.session.advice import advise_place, write_proposal
from boomwright.session.book import Paper, book_of, write_parts
from boomwright.session.files import PlanFolder, day_of_today, load_prices, text_digest
from boomwright.session.search import OnProgress, search_plan
from boomwright.session.search_workers import search_workers
from boomwright.study.advice.advise import Advice, OnCandidate
from boomwright.study.as_measured import measure_plan
from boomwright.study.computing import USUAL_POINTS, USUAL_REFERENCE, Computation, compute
from boomwright.study.cost import Costing, price_plan
from boomwright.study.improve import ImproveResult
from boomwright.study.raising import RaisingResult, raise_plan
from boomwright.study.reach import reach_plan
from boomwright.study.reach_parts.results import ReachResult
from boomwright.study.several_bands import BandsResult
from boomwright.study.tuning import tune_plan
from boomwright.study.tuning_parts.results import TuneResult


def improve(
    plan: Plan,
    *,
    seed: int = 0,
    starts: int | None = None,
    workers: int | None = 1,
    cluster: str = "",
    compare: bool = False,
    tolerance: bool = False,
    on_progress: OnProgress | None = None,
) -> ImproveResult | BandsResult:
    """Search the best beam for the plan's wish; with bands in it, for all of them at once.

    Args:
        starts: starts in each round; None for the usual number
        workers: processes to search on; None for one a core, which a script may ask for only
            under ``if
            __name__ == "__main__"``
        cluster: address of a dask scheduler whose workers search in their place,
            ``tcp://192.0.2.7:8786``;
            it runs what it is sent, so only on a network you trust, or ``tls://``
        compare: whether to search even against free spacing too; not for several bands
        tolerance: whether to say how finely to cut the new beam; not for several bands

    Raises:
        BoomwrightError: when the wishes contradict themselves, or it was stopped before its
            first design
    """
    return search_plan(
        plan,
        text=_text(plan),
        files=_files(plan),
        seed=seed,
        starts=starts,
        workers=workers,
        cluster=cluster,
        compare=compare,
        tolerance=tolerance,
        on_progress=on_progress,
    )


def compute_reach(plan: Plan) -> ReachResult:
    """Compute what the height gives, where it goes, and who stands near it.

    Raises:
        BoomwrightError: in free space, or when the terrain file cannot be read
    """
    return reach_plan(plan, files=_files(plan))


def price(plan: Plan, *, prices: Path | str | None = None, today: str = "") -> Costing:
    """List what to buy and hire, and price it from the plan's own list.

    Args:
        prices: a price list in place of the plan's
        today: day the ages of prices are counted to, ``2026-01-31``; the clock's when empty

    Raises:
        PlanError: with every fault of the price list
        OSError: when a price list that was asked for cannot be read
    """
    listed = None if prices is None else load_prices(Path(prices))
    return price_plan(plan, files=_files(plan), prices=listed, today=today or day_of_today())


def advise(
    place: Plan, *, workers: int | None = 1, on_candidate: OnCandidate | None = None
) -> Advice:
    """Put whole stations together for a place and hold them side by side.

    Args:
        place: a plan with ``[place]``, from ``load("place.toml", place=True)``
        workers: processes to work on; None for one a core, one means this process

    Raises:
        BoomwrightError: when the place does not say what is wanted, or has no ground
    """
    with search_workers(workers) as crew:
        return advise_place(
            place,
            files=_files(place),
            system=written_system(_text(place)),
            crew=crew,
            on_candidate=on_candidate,
        )


def make_proposal(
    advice: Advice,
    path: Path | str = "proposal.pdf",
    *,
    paper: Paper | None = None,
    today: str = "",
) -> Path:
    """Make the proposal of an advice, two pages, and write it.

    Args:
        paper: ``a4`` or ``letter``; None for the one usual with the place's units
        today: day of issue, ``2026-01-31``; when empty the place's, else left for hand entry

    Returns:
        where it was written

    Raises:
        OSError: when it cannot be written
    """
    target, text = Path(path), _text(advice.plan)
    system = written_system(text)
    write_proposal(
        advice,
        target,
        digest=text_digest(text),
        system=system,
        paper=paper or ("letter" if system == "us" else "a4"),
        issued=today,
    )
    return target


def plan_raising(
    plan: Plan, *, computation: Computation | None = None, today: str = ""
) -> RaisingResult:
    """Choose a way up for every beam, with everything the crew must know.

    Args:
        computation: the plan as computed, for the SWR check on stands; None to solve the match
        today: day of the declination, ``2026-01-31``; the clock's when empty

    Raises:
        BoomwrightError: when values of the plan contradict each other or a geometry is refused
    """
    measured = measure_plan(plan) if computation is None else computation.as_measured
    return raise_plan(plan, measured=measured, today=today or day_of_today())


def tune(plan: Plan, *, sweep: Path | str | None = None, faults: bool = False) -> TuneResult:
    """Read the measured sweeps of a plan and say what to move.

    Args:
        sweep: a file to read in place of the plan's own sweep and trials
        faults: whether to look for a fault too: takes some seconds more

    Raises:
        BoomwrightError: when the plan names no sweep, or a file cannot be used
    """
    given = "" if sweep is None else str(Path(sweep).resolve())
    return tune_plan(plan, files=_files(plan), sweep=given, faults=faults)


def make_book(
    plan: Plan,
    path: Path | str = "book.pdf",
    *,
    points: int = USUAL_POINTS,
    reference: float = USUAL_REFERENCE,
    paper: Paper | None = None,
    today: str = "",
    parts: Sequence[Part] = PARTS,
) -> Path:
    """Make the book of a plan, its annex and its pocket sheets, and write them.

    Args:
        points: frequencies over the band
        reference: resistance the standing wave ratio is held against [ohm]
        paper: ``a4`` or ``letter``; None for the one usual with the plan's units
        today: day of issue, ``2026-01-31``; when empty the plan's, else left for hand entry
        parts: which to make; ``-annex`` and ``-pocket`` are added to the names of the others

    Returns:
        where the book was written

    Raises:
        BoomwrightError: when a file or a geometry is refused
        OSError: when it cannot be written
    """
    target, text = Path(path), _text(plan)
    system = written_system(text)
    made = book_of(
        plan,
        files=_files(plan),
        path=_path(plan),
        digest=text_digest(text),
        system=system,
        paper=paper or ("letter" if system == "us" else "a4"),
        today=today,
        computation=compute(plan, points=points, reference=reference),
        parts=parts,
    )
    write_parts(made, target)
    return target


def _path(plan: Plan) -> Path | None:
    named = plan.file is not None and plan.file.name
    return Path(plan.file.folder, plan.file.name) if plan.file and named else None


def _files(plan: Plan) -> PlanFolder:
    path = _path(plan)
    return PlanFolder(Path() if path is None else path.parent)


def _text(plan: Plan) -> str:
    """The owner's text as long as it says what the plan says; a changed plan is written anew."""
    if plan.file is not None and read_place(plan.file.text) == plan:
        return plan.file.text
    return write_plan(plan)
