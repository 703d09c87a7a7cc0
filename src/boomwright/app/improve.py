"""The best beam for the plan's wishes: searched on all cores, kept as it goes, written back."""

from __future__ import annotations

import time
from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from boomwright.app.frontier import frontier_bytes, read_frontier
from boomwright.app.improve_checkpoint import load_checkpoint, save_checkpoint, search_name
from boomwright.app.improve_pool import climbers, usual_workers
from boomwright.app.improve_text import improved_text
from boomwright.app.improve_wishes import cost_notices, usual_notices, wish_prices
from boomwright.app.starting import RequestError
from boomwright.base import Notice
from boomwright.design import (
    BandFigures,
    ComparedSpacing,
    Improvement,
    Progress,
    SearchState,
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
from boomwright.plan.resolve import design_wish, wished_beam
from boomwright.solver import Preparer, remembering

#: starts in each round when nothing else is asked
USUAL_STARTS = 12
#: more starts than this take longer than anyone waits
MOST_STARTS = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchProgress:
    """How far a search is, by the clock.

    Parameters
    ----------
    doing
        what is searched, in words [-]
    done
        starts finished [-]
    total
        starts planned so far; a round that finds something better adds more [-]
    best_gain_dbi
        worst gain in the band of the best design so far; None before the first [dBi]
    seconds
        time since this run began [s]
    seconds_left
        time left if no further round is needed; None before it can be told [s]
    """

    doing: str
    done: int
    total: int
    best_gain_dbi: float | None
    seconds: float
    seconds_left: float | None


#: told how far the search is, several times a second; False stops it and keeps the best so far
OnSearch = Callable[[SearchProgress], bool]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ImproveResult:
    """The best beam found for a plan's wishes.

    Parameters
    ----------
    plan
        the plan the search began with [-]
    before
        its beam [-]
    wish
        what was wanted [-]
    seed, starts
        seed of the chance, and starts in each round [-]
    found
        best beam for each number of elements searched [-] (n_counts,)
    chosen
        which of them is best by the wish [-]
    text
        the plan's text with that beam in it [-]
    improved
        the plan in that text [-]
    after
        its beam [-]
    figures_before, figures_after
        figures of both beams by the full solver, as the plans give them [-]
    compared
        even and free spacing side by side; empty when not asked [-]
    tolerance
        how far the new beam may be off; None when not asked [-]
    seconds
        time it took [s]
    notices
        what is doubtful, and limits not kept [-]
    """

    plan: Plan
    before: Beam
    wish: Wish
    seed: int
    starts: int
    found: tuple[Improvement, ...]
    chosen: int
    text: str
    improved: Plan
    after: Beam
    figures_before: BandFigures
    figures_after: BandFigures
    compared: tuple[ComparedSpacing, ...]
    tolerance: Tolerance | None
    seconds: float
    notices: tuple[Notice, ...]

    @property
    def best(self) -> Improvement:
        """The best of those found [-]."""
        return self.found[self.chosen]

    @property
    def finished(self) -> bool:
        """Whether no search was stopped early [-]."""
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
    folder: Path | None = None,
    on_progress: OnSearch | None = None,
) -> ImproveResult:
    """Search the best beam for the wishes of a plan.

    Parameters
    ----------
    plan
        the plan [-]
    text
        its text, to write the beam into [-]
    seed
        seed of the chance: the same seed gives the same beam on any number of processes [-]
    starts
        starts in each round [-]
    workers
        processes to search on; None for one a core [-]
    checkpoint
        file the search is kept in as it goes; None for none [-]
    resume
        go on from that file [-]
    compare
        also search with even spacing, side by side [-]
    tolerance
        also find out how far the new beam may be off [-]
    folder
        folder of the plan file, where its price list lies; None when there is none [-]
    on_progress
        told how far it is; False stops it and keeps the best so far [-]

    Returns
    -------
    ImproveResult
        the best beam, and the plan with it [-]

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
    if seed < 0:
        message = f"the seed is below 0 ({seed}) -> give a whole number from 0"
        raise RequestError(message)
    prices = wish_prices(plan, folder=folder)
    before, wish = wished_beam(plan), design_wish(plan, prices=prices)
    clock = _Clock(on_progress)
    keeper = _Keeper(checkpoint, search_name(beam=before, wish=wish, frontier=frontier_bytes()))
    if resume:
        keeper.load()
    keep = remembering()
    with climbers(usual_workers() if workers is None else workers) as executor:
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
        figures_after=band_figures(beam=after, targets=wish.targets, prepare=keep),
        compared=compared,
        tolerance=tolerance_of(beam=after, targets=wish.targets, seed=seed) if tolerance else None,
        seconds=clock.seconds,
        notices=(*usual_notices(plan), *found[chosen].notices,
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
    clock: _Clock


def _search_counts(search: _Search, keeper: _Keeper, keep: Preparer) -> tuple[Improvement, ...]:
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


def _score(one: Improvement) -> float:
    best = one.state.best
    return -np.inf if best is None else best.score


def _in_place(before: Beam, wish: Wish, one: Improvement) -> Beam:
    """Put a found beam where the old one starts: searches that keep no place count from 0."""
    if wish.keep_positions:
        return one.beam
    start = min(element.position for element in before.elements)
    moved = (replace(each, position=each.position + start) for each in one.beam.elements)
    return replace(one.beam, elements=tuple(moved))


class _Clock:
    """Turns what a search tells into time left, and hears whether to stop."""

    def __init__(self, on_progress: OnSearch | None) -> None:
        self._on_progress = on_progress
        self._begun = time.monotonic()
        self.stopped = False

    @property
    def seconds(self) -> float:
        return time.monotonic() - self._begun

    def listen(
        self, doing: str, *, keeper: _Keeper | None = None, count: int = 0
    ) -> Callable[[Progress], bool]:
        begun = time.monotonic()
        first: int | None = None

        def on_progress(progress: Progress) -> bool:
            nonlocal first
            # What an earlier run did says nothing about the pace of this one.
            first = progress.done - int(progress.new_state) if first is None else first
            if keeper is not None and progress.new_state:
                keeper.keep(count, progress.state)
            made, spent = progress.done - first, time.monotonic() - begun
            best = progress.best
            told = SearchProgress(
                doing=doing,
                done=progress.done,
                total=progress.total,
                best_gain_dbi=None if best is None else best.gain_dbi,
                seconds=self.seconds,
                seconds_left=spent / made * (progress.total - progress.done) if made else None,
            )
            self.stopped = self._on_progress is not None and not self._on_progress(told)
            return not self.stopped

        return on_progress


class _Keeper:
    """Keeps the states of a search in its file; a full disk does not end the search."""

    def __init__(self, path: Path | None, name: str) -> None:
        self._path = path
        self._name = name
        self.states: dict[int, SearchState] = {}
        self.notices: tuple[Notice, ...] = ()

    def load(self) -> None:
        if self._path is None:
            message = "a plan from standard input has no search to resume -> name the plan file"
            raise RequestError(message)
        self.states = load_checkpoint(self._path, name=self._name)

    def keep(self, count: int, state: SearchState) -> None:
        self.states[count] = state
        if self._path is None or self.notices:
            return
        try:
            save_checkpoint(self._path, name=self._name, states=self.states)
        except OSError as error:
            text = (
                f"The search could not be kept in {self._path.name} ({error.strerror}), so it "
                "cannot be resumed; the result itself is not affected."
            )
            self.notices = (Notice(code="design.not-kept", text=text),)
