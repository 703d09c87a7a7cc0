"""The best beam for the plan's wishes: searched on all cores, kept as it goes, written back."""

from __future__ import annotations

from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import numpy as np

from boomwright.base import Notice
from boomwright.design import (
    BandFigures,
    ComparedSpacing,
    Improvement,
    Tolerance,
    Wish,
    WishError,
    band_figures,
    compare_spacings,
    improve_beam,
    tolerance_of,
)
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import design_targets, design_wish, wished_beam
from boomwright.reach import beside_notices
from boomwright.session.files import Folder
from boomwright.session.improve_checkpoint import search_name
from boomwright.session.improve_clock import OnSearch, SearchClock, SearchKeeper
from boomwright.session.improve_pool import climbers, end_climbers, usual_workers
from boomwright.session.improve_text import improved_text
from boomwright.solver import Preparer, remembering
from boomwright.study.build_errors import build_errors
from boomwright.study.frontier import frontier_bytes, read_frontier
from boomwright.study.improve_wishes import cost_notices, usual_notices, wish_prices
from boomwright.study.starting import RequestError

#: starts in each round when nothing else is asked
USUAL_STARTS = 12
#: more starts than this take longer than anyone waits
MOST_STARTS = 10_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ImproveResult:
    """The best beam found for a plan's wishes."""

    plan: Plan  #: the plan the search began with
    before: Beam
    wish: Wish  #: what was wanted
    seed: int  #: seed of the chance, and starts in each round
    starts: int
    found: tuple[Improvement, ...]  #: best beam for each number of elements searched (n_counts,)
    chosen: int  #: which of them is best by the wish
    text: str  #: the plan's text with that beam in it
    improved: Plan  #: the plan in that text
    after: Beam
    figures_before: BandFigures  #: figures of both beams by the full solver, as the plans give them
    figures_after: BandFigures
    #: even and free spacing side by side; empty when not asked
    compared: tuple[ComparedSpacing, ...]
    tolerance: Tolerance | None  #: how far the new beam may be off; None when not asked
    seconds: float  #: time it took [s]
    notices: tuple[Notice, ...]  #: what is doubtful, and limits not kept

    @property
    def best(self) -> Improvement:
        """The best of those found."""
        return self.found[self.chosen]

    @property
    def finished(self) -> bool:
        """Whether no search was stopped early."""
        return all(one.state.finished for one in self.found)


def improve_plan(
    plan: Plan,
    *,
    text: str,
    seed: int = 0,
    starts: int = USUAL_STARTS,
    workers: int | None = None,
    checkpoint: Path | None = None,
    resume: bool = False,
    compare: bool = False,
    tolerance: bool = False,
    folder: Folder | None = None,
    on_progress: OnSearch | None = None,
) -> ImproveResult:
    """Search the best beam for the wishes of a plan.

    Parameters
    ----------
    workers
        processes to search on; None for one a core
    checkpoint
        file the search is kept in as it goes; None for none
    folder
        folder of the plan file, where its price list lies; None when there is none
    on_progress
        told how far it is; False stops it and keeps the best so far

    Raises
    ------
    RequestError
        when the number of starts makes no sense, there is nothing to resume, or the cost is
        limited without a price list
    WishError
        when the wishes contradict themselves, or it was stopped before its first design
    PlanError
        when the beam cannot be written into the plan
    OSError
        when the search cannot be read
    """
    if not 2 <= starts <= MOST_STARTS:
        message = f"the number of starts cannot be met ({starts}) -> ask for 2 to {MOST_STARTS}"
        raise RequestError(message)
    if plan.wish is not None and plan.wish.bands:
        message = (
            "[wish] has further bands -> search them with the command improve, or take bands out "
            "of [wish]"
        )
        raise RequestError(message)
    if seed < 0:
        message = f"the seed is below 0 ({seed}) -> give a whole number from 0"
        raise RequestError(message)
    prices = wish_prices(plan, folder=folder)
    before, wish = wished_beam(plan), design_wish(plan, prices=prices)
    clock = SearchClock(on_progress)
    keeper = SearchKeeper(
        checkpoint, search_name(beam=before, wish=wish, frontier=frontier_bytes())
    )
    if resume:
        keeper.load()
    keep = remembering()
    with climbers(usual_workers() if workers is None else workers) as executor:
        # The check of the best so far shall not share the machine with climbs nobody wants.
        clock.at_stop = partial(end_climbers, executor)
        search = _Search(
            beam=before, wish=wish, seed=seed, starts=starts, executor=executor, clock=clock
        )
        found = _search_counts(search, keeper, keep)
        compared = _compare(search) if compare and not clock.stopped else ()
    chosen = max(range(len(found)), key=lambda i: (found[i].kept, _score(found[i]), -i))
    new_beam = _in_place(before, wish, found[chosen])
    new_text = improved_text(text, plan, before=before, after=new_beam)
    improved = read_plan(new_text)
    after = improved.beams[plan.beams.index(before)]
    return ImproveResult(
        plan=plan, before=before, wish=wish, seed=seed, starts=starts, found=found, chosen=chosen,
        text=new_text, improved=improved, after=after,
        figures_before=found[chosen].before,
        figures_after=_checked(after, new_beam, found[chosen], wish, keep),
        compared=compared,
        tolerance=_tolerance(improved, after, wish, seed, clock) if tolerance else None,
        seconds=clock.seconds,
        notices=(*usual_notices(plan), *found[chosen].notices,
                 *beside_notices(beam=after, prepare=keep),
                 *cost_notices(plan, after, prices=prices), *keeper.notices),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Search:
    """What all searches of one run share."""

    beam: Beam
    wish: Wish
    seed: int
    starts: int
    executor: Executor | None
    clock: SearchClock


def _search_counts(
    search: _Search, keeper: SearchKeeper, keep: Preparer
) -> tuple[Improvement, ...]:
    """Search each number of elements wished, fewest first, until stopped."""
    present = len(search.beam.elements)
    low, high = search.wish.elements or (present, present)
    found: list[Improvement] = []
    for count in range(low, high + 1):
        if search.clock.stopped:
            break
        listen = search.clock.listen(f"{count} elements", keeper=keeper, count=count)
        try:
            one = improve_beam(
                beam=search.beam,
                wish=replace(search.wish, elements=(count, count)),
                seed=search.seed,
                starts=search.starts,
                state=keeper.states.get(count),
                frontier=read_frontier(),
                executor=search.executor,
                on_progress=listen,
                prepare=keep,
            )
        except WishError:
            # Stopped before a first design with more elements: those with fewer stand.
            if found and search.clock.stopped:
                break
            raise
        found.append(one)
        keeper.keep(count, one.state)
    return tuple(found)


def _compare(search: _Search) -> tuple[ComparedSpacing, ...]:
    try:
        return compare_spacings(
            beam=search.beam,
            wish=search.wish,
            seed=search.seed,
            starts=search.starts,
            executor=search.executor,
            on_progress=search.clock.listen("even and free spacing"),
        )
    except WishError:
        if search.clock.stopped:
            return ()
        raise


def _tolerance(
    plan: Plan, beam: Beam, wish: Wish, seed: int, clock: SearchClock
) -> Tolerance | None:
    """How far a beam may be off; None when it was stopped."""
    if clock.stopped:
        return None
    try:
        return tolerance_of(
            beam=beam,
            targets=wish.targets,
            errors=build_errors(plan, beam),
            seed=seed,
            go_on=clock.go_on("build tolerance"),
        )
    except WishError:
        if clock.stopped:
            return None
        raise


def compare_plan(
    plan: Plan,
    *,
    seed: int = 0,
    starts: int = USUAL_STARTS,
    workers: int | None = None,
    folder: Folder | None = None,
    on_progress: OnSearch | None = None,
) -> tuple[ComparedSpacing, ...]:
    """Search even and free spacing for the wishes of a plan, side by side.

    Parameters
    ----------
    workers
        processes to search on; None for one a core
    folder
        folder of the plan file, where its price list lies; None when there is none
    on_progress
        told how far it is; False stops it

    Raises
    ------
    BoomwrightError
        when the wishes contradict themselves
    """
    wish = design_wish(plan, prices=wish_prices(plan, folder=folder))
    clock = SearchClock(on_progress)
    with climbers(usual_workers() if workers is None else workers) as executor:
        clock.at_stop = partial(end_climbers, executor)
        return _compare(
            _Search(
                beam=wished_beam(plan),
                wish=wish,
                seed=seed,
                starts=starts,
                executor=executor,
                clock=clock,
            )
        )


def tolerate_plan(
    plan: Plan, *, number: int, seed: int = 0, on_progress: OnSearch | None = None
) -> Tolerance | None:
    """Find out how far a beam of a plan may be off as it stands.

    Parameters
    ----------
    number
        number of the beam, from 0
    on_progress
        asked whether to go on; False stops it

    Returns
    -------
    Tolerance or None
        None when it was stopped

    Raises
    ------
    WishError
        when the beam cannot be computed so
    """
    beam = plan.beams[number]
    own = plan.wish is not None and wished_beam(plan) is beam
    targets = design_targets(plan if own else replace(plan, wish=None))
    return _tolerance(plan, beam, Wish(targets=targets), seed, SearchClock(on_progress))


def _score(one: Improvement) -> float:
    best = one.state.best
    return -np.inf if best is None else best.score


def _checked(
    after: Beam, new_beam: Beam, one: Improvement, wish: Wish, keep: Preparer
) -> BandFigures:
    """Figures of the beam as written, which rounding to the owner's units may have moved."""
    if after.elements == new_beam.elements:
        return one.after
    return band_figures(beam=after, targets=wish.targets, prepare=keep)


def _in_place(before: Beam, wish: Wish, one: Improvement) -> Beam:
    """Put a found beam where the old one starts: searches that keep no place count from 0."""
    if wish.keep_positions:
        return one.beam
    start = min(element.position for element in before.elements)
    moved = (replace(each, position=each.position + start) for each in one.beam.elements)
    return replace(one.beam, elements=tuple(moved))
