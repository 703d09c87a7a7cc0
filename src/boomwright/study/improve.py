"""The best beam for the plan's wishes, searched wherever an executor climbs, written back."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from concurrent.futures import Executor
from functools import partial

import numpy as np

from boomwright.base import Notice
from boomwright.base.files import ReadFile, no_files
from boomwright.base.records import dataclass, field, replace
from boomwright.cost import Price
from boomwright.design import (
    BandFigures,
    ComparedSpacing,
    Improvement,
    Progress,
    SearchState,
    Targets,
    Tolerance,
    Wish,
    WishError,
    band_figures,
    compare_spacings,
    improve_beam,
    tolerance_of,
)
from boomwright.design.figures_of import missed_notices as check_notices
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import design_targets, design_wish, wished_beam
from boomwright.reach import beside_notices
from boomwright.solver import Preparer, remembering
from boomwright.study.as_measured import measure_beam
from boomwright.study.build_errors import build_errors
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.found_beam import put_found_beam
from boomwright.study.frontier import frontier_bytes, read_frontier
from boomwright.study.requests import RequestError
from boomwright.study.search_match import (
    SUPERSEDED,
    SettledMatch,
    at_the_match,
    driven_place_notice,
    missed_notices,
    settle_match,
    unmatched_notice,
    with_match,
)
from boomwright.study.search_wishes import cost_notices, usual_notices, wish_prices, written_grid

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
    #: what the owner will measure of both: matched, over the ground, through the line
    measured_before: AsMeasured | NotMeasured
    measured_after: AsMeasured | NotMeasured
    #: even and free spacing side by side; empty when not asked
    compared: tuple[ComparedSpacing, ...]
    tolerance: Tolerance | None  #: how far the new beam may be off; None when not asked
    notices: tuple[Notice, ...]  #: what is doubtful, and limits not kept
    seconds: float = 0.0  #: time it took, by the clock of whoever asked [s]

    @property
    def best(self) -> Improvement:
        """The best of those found."""
        return self.found[self.chosen]

    @property
    def finished(self) -> bool:
        """Whether no search was stopped early."""
        return all(one.state.finished for one in self.found)


#: told what is searched, and how far it is as far as starts are counted; False stops it and keeps
#: the best so far
OnSearch = Callable[[str, Progress | None], bool]
#: given the state of the search for so many elements, to keep it
KeepState = Callable[[int, SearchState], None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """What a plan's wishes ask to search, and what was searched of it already."""

    plan: Plan
    beam: Beam
    wish: Wish
    prices: tuple[Price, ...]  #: the owner's prices, where the wishes limit the cost (n_prices,)
    seed: int = 0  #: seed of the chance, and starts in each round
    starts: int = USUAL_STARTS
    executor: Executor | None = None  #: takes the climbs; None to climb in this process
    on_progress: OnSearch | None = None
    keep_state: KeepState | None = None
    #: states of an earlier run, by number of elements
    states: Mapping[int, SearchState] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """Names what is searched, so that no search goes on from another's state."""
        frontier = hashlib.sha256(frontier_bytes()).hexdigest()
        return hashlib.sha256(repr((self.beam, self.wish, frontier)).encode()).hexdigest()[:32]


def wished_search(plan: Plan, *, files: ReadFile = no_files) -> Search:
    """Take a search from the wishes of a plan; seed, workers and the rest are put in its fields."""
    prices = wish_prices(plan, files=files)
    beam = wished_beam(plan)
    wish = design_wish(plan, prices=prices)
    wish = replace(wish, targets=with_match(wish.targets, plan, beam))
    return Search(plan=plan, beam=beam, wish=wish, prices=prices)


class _Asked:
    """Asks whether to go on, and remembers that it was told to stop."""

    def __init__(self, on_progress: OnSearch | None) -> None:
        self._on_progress = on_progress
        self.stopped = False

    def go_on(self, doing: str, progress: Progress | None = None) -> bool:
        if self._on_progress is not None and not self._on_progress(doing, progress):
            self.stopped = True
        return not self.stopped


def improve_plan(
    search: Search, *, text: str, compare: bool = False, tolerance: bool = False
) -> ImproveResult:
    """Search the best beam for the wishes of a plan.

    Args:
        compare: whether to search even against free spacing too
        tolerance: whether to say how finely to cut the new beam
    """
    _refuse(search)
    places = search.wish.places or written_grid(text, search.plan, search.beam)
    search = replace(search, wish=replace(search.wish, places=places))
    plan, before, wish = search.plan, search.beam, search.wish
    asked = _Asked(search.on_progress)
    keep = remembering()
    found = _search_counts(search, asked, keep)
    compared = _compare(search, asked) if compare and not asked.stopped else ()
    chosen = max(range(len(found)), key=lambda i: (found[i].kept, _score(found[i]), -i))
    new_beam = _in_place(before, wish, found[chosen])
    settled = _settle(search, text, new_beam, asked)
    if settled is None:
        new_text = put_found_beam(text, plan, before=before, after=new_beam)
        improved = read_plan(new_text)
        after = improved.beams[plan.beams.index(before)]
        measured = measure_beam(plan, before), measure_beam(improved, after)
    else:
        new_text, improved, after = settled.text, settled.plan, settled.beam
        measured = measure_beam(plan, before), settled.measured
    told = _as_written(found[chosen], new_beam, after, wish, keep)
    figures = told.before, told.after if settled is None else settled.figures
    if wish.targets.fed is not None:
        figures = at_the_match(figures[0], measured[0]), at_the_match(figures[1], measured[1])
        told = _as_measured(told, wish, figures[1], measured[1])
    found = (*found[:chosen], told, *found[chosen + 1 :])
    allowed = _tolerance(improved, after, wish, search.seed, asked) if tolerance else None
    return ImproveResult(
        plan=plan, before=before, wish=wish, seed=search.seed, starts=search.starts, found=found,
        chosen=chosen, text=new_text, improved=improved, after=after,
        figures_before=figures[0], figures_after=figures[1],
        measured_before=measured[0], measured_after=measured[1],
        compared=compared, tolerance=allowed,
        notices=(*usual_notices(plan), *found[chosen].notices,
                 *beside_notices(beam=after, prepare=keep),
                 *cost_notices(plan, after, prices=search.prices)),
    )  # fmt: skip


def _settle(search: Search, text: str, beam: Beam, asked: _Asked) -> SettledMatch | None:
    """Solve the match of the beam found, and search again where the field says otherwise.

    Returns:
        None where the wish has no match in place, or keeps the length that a match would change,
        and for wire with corners, whose search sees the field
    """
    if (
        beam.bent
        or search.wish.targets.fed is None
        or beam.driven_index in search.wish.keep_lengths
    ):
        return None
    return settle_match(
        text=text, plan=search.plan, wish=search.wish, before=search.beam, beam=beam,
        go_on=partial(asked.go_on, "match in the field"),
    )  # fmt: skip


def _as_measured(
    one: Improvement, wish: Wish, figures: BandFigures, measured: AsMeasured | NotMeasured
) -> Improvement:
    """The search's result judged by what will be measured."""
    notices = [each for each in one.notices if each.code not in SUPERSEDED]
    if isinstance(measured, NotMeasured):
        notices.append(unmatched_notice(measured))
        return replace(one, kept=False, notices=tuple(notices))
    missed = missed_notices(wish.targets, figures, measured)
    notices += [*missed, *driven_place_notice(measured.beam)]
    return replace(
        one,
        beam=measured.beam,
        after=figures,
        kept=not missed,
        notices=tuple(notices),
    )


def _refuse(search: Search) -> None:
    if not 2 <= search.starts <= MOST_STARTS:
        raise RequestError(
            f"the number of starts cannot be met ({search.starts})",
            remedy=f"ask for 2 to {MOST_STARTS}",
        )
    if search.plan.wish is not None and search.plan.wish.bands:
        raise RequestError(
            "[wish] has further bands",
            remedy="search them with the command improve, or take bands out of [wish]",
        )
    if search.seed < 0:
        raise RequestError(
            f"the seed is below 0 ({search.seed})", remedy="give a whole number from 0"
        )


def _search_counts(search: Search, asked: _Asked, keep: Preparer) -> tuple[Improvement, ...]:
    """Search each number of elements wished, fewest first, until stopped."""
    present = len(search.beam.elements)
    low, high = search.wish.elements or (present, present)
    found: list[Improvement] = []
    for count in range(low, high + 1):
        if asked.stopped:
            break

        def listen(progress: Progress, count: int = count) -> bool:
            if search.keep_state is not None and progress.new_state:
                search.keep_state(count, progress.state)
            return asked.go_on(f"{count} elements", progress)

        try:
            one = improve_beam(
                beam=search.beam,
                wish=replace(search.wish, elements=(count, count)),
                seed=search.seed,
                starts=search.starts,
                state=search.states.get(count),
                frontier=read_frontier(),
                executor=search.executor,
                on_progress=listen,
                prepare=keep,
            )
        except WishError:
            # Stopped before a first design with more elements: those with fewer stand.
            if found and asked.stopped:
                break
            raise
        found.append(one)
        if search.keep_state is not None:
            search.keep_state(count, one.state)
    return tuple(found)


def compare_plan(search: Search) -> tuple[ComparedSpacing, ...]:
    """Search even and free spacing for the wishes of a plan, side by side.

    Returns:
        none when it was stopped
    """
    return _compare(search, _Asked(search.on_progress))


def _compare(search: Search, asked: _Asked) -> tuple[ComparedSpacing, ...]:
    try:
        return compare_spacings(
            beam=search.beam,
            wish=search.wish,
            seed=search.seed,
            starts=search.starts,
            executor=search.executor,
            on_progress=partial(asked.go_on, "even and free spacing"),
        )
    except WishError:
        if asked.stopped:
            return ()
        raise


def tolerate_plan(
    plan: Plan, *, number: int, on_progress: OnSearch | None = None
) -> Tolerance | None:
    """Find out how far a beam of a plan may be off as it stands; None when it was stopped."""
    beam = plan.beams[number]
    wish = Wish(targets=targets_for(plan, beam))
    return _tolerance(plan, beam, wish, 0, _Asked(on_progress))


def targets_for(plan: Plan, beam: Beam) -> Targets:
    """Take the plan's targets when they are about a beam, else the usual ones."""
    own = plan.wish is not None and wished_beam(plan) is beam
    about = plan if own else replace(plan, wish=None)
    return with_match(design_targets(about), about, beam)


def _tolerance(plan: Plan, beam: Beam, wish: Wish, seed: int, asked: _Asked) -> Tolerance | None:
    """How far a beam may be off; None when it was stopped."""
    if asked.stopped:
        return None
    try:
        return tolerance_of(
            beam=beam,
            targets=wish.targets,
            errors=build_errors(plan, beam),
            seed=seed,
            go_on=partial(asked.go_on, "build tolerance"),
        )
    except WishError:
        if asked.stopped:
            return None
        raise


def _score(one: Improvement) -> float:
    best = one.state.best
    return -np.inf if best is None else best.score


def _as_written(
    one: Improvement, new_beam: Beam, after: Beam, wish: Wish, keep: Preparer
) -> Improvement:
    """The search's result judged as the plan says it, whose units may have moved it."""
    if after.elements == new_beam.elements:
        return one
    figures = band_figures(beam=after, targets=wish.targets, prepare=keep)
    notices = tuple(each for each in one.notices if each.code != "design.check-falls-short")
    if not any(each.severity == "limit" for each in notices):
        notices += check_notices(beam=after, figures=figures, targets=wish.targets)
    kept = not any(each.severity == "limit" for each in notices)
    return replace(one, after=figures, kept=kept, notices=notices)


def _in_place(before: Beam, wish: Wish, one: Improvement) -> Beam:
    """Put a found beam where the old one starts: searches that keep no place count from 0."""
    if wish.keep_positions or before.bent:
        return one.beam
    start = min(element.position for element in before.elements)
    moved = (replace(each, position=each.position + start) for each in one.beam.elements)
    return replace(one.beam, elements=tuple(moved))
