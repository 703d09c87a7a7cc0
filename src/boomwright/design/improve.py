"""Improve a beam: search, check with the full solver, say how sure the result is."""

from __future__ import annotations

from concurrent.futures import Executor

import numpy as np

from boomwright.base import Notice
from boomwright.base.records import dataclass, replace
from boomwright.design.bent_search import bent_problem, on_bent_grid, search_bent
from boomwright.design.figures_of import SAID_DB, BandFigures, band_figures, missed_notices
from boomwright.design.frontier import FrontierTable, start_from
from boomwright.design.minimax import KEPT, climb
from boomwright.design.search import Ground, OnProgress, search
from boomwright.design.search_state import ClimbedStart, SearchState
from boomwright.design.setting_up import Setting, set_up
from boomwright.design.shop_grid import (
    Solved,
    cut_to_grid,
    missed_by_rounding,
    on_grid,
    shop_grid,
)
from boomwright.design.space import WishError
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish
from boomwright.parts import Beam
from boomwright.solver import Preparer, remembering

#: starts that end this near to the best count as the same [dB]
_SAME = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Improvement:
    """The best beam found for a wish."""

    beam: Beam  #: the beam, dimensions rounded
    before: BandFigures  #: figures of the beam given and of the beam found, by the full solver
    after: BandFigures
    kept: bool  #: whether all limits are kept
    starts: int  #: starts climbed
    agreeing: int  #: starts that ended within 0.02 dB of the best
    evaluations: int  #: designs computed
    state: SearchState  #: the search, to go on from or to keep
    notices: tuple[Notice, ...]  #: what is doubtful


def improve_beam(
    *,
    beam: Beam,
    wish: Wish,
    seed: int = 0,
    starts: int = 12,
    state: SearchState | None = None,
    frontier: FrontierTable | None = None,
    executor: Executor | None = None,
    on_progress: OnProgress | None = None,
    prepare: Preparer | None = None,
) -> Improvement:
    """Find the best beam for a wish with the tubing of a given one.

    Args:
        frontier: frontier to take a start from; give the same when resuming
        prepare: prepares one run of wire for the final check; None for one that remembers
    """
    count = len(beam.elements)
    if wish.elements is not None and wish.elements[0] == wish.elements[1]:
        count = wish.elements[0]
    keep = remembering() if prepare is None else prepare
    if beam.bent:
        return _improve_bent(beam, wish, seed, starts, state, executor, on_progress, keep)
    setting = set_up(beam=beam, wish=wish, count=count)
    # First, so that whoever cancels has not to wait for it at the end.
    before = band_figures(beam=beam, targets=wish.targets, prepare=keep)
    found = search(
        problem=setting.problem,
        ground=_with_frontier(setting, wish, frontier),
        seed=seed,
        starts=starts,
        state=state,
        executor=executor,
        on_progress=on_progress,
    )
    best = _best(
        found,
        "no start came within the limits on tubes, wind area, mass or cost",
        remedy="relax one of them, or take thinner tubes or fewer elements",
    )
    places = wish.places or shop_grid(wavelength=beam.wavelength)

    def solved(one: Beam) -> Solved:
        return ((one, band_figures(beam=one, targets=wish.targets, prepare=keep)),)

    cut = cut_to_grid(setting=setting, free=np.array(best.free), places=places, solve=solved)
    ((better, after),) = cut.solved
    rounded = best.breach <= KEPT and cut.breach > SAID_DB
    missed = (missed_by_rounding(places=places, breach=cut.breach),) if rounded else ()
    return _improvement(found, best, better, before, after, wish.targets, missed)


def refit_beam(*, beam: Beam, wish: Wish) -> tuple[Beam, float]:
    """Climb once more from a beam, with targets that have learnt from the field.

    Args:
        beam: where to climb from, in place on its boom

    Returns:
        the beam on the shop's grid, and how far it breaks the limits [dB]
    """
    setting = set_up(beam=beam, wish=wish, count=len(beam.elements))
    best = climb(problem=setting.problem, start=setting.ground.given[0])
    places = wish.places or shop_grid(wavelength=beam.wavelength)
    return on_grid(setting=setting, free=best.free, places=places)


def _improve_bent(
    beam: Beam,
    wish: Wish,
    seed: int,
    starts: int,
    state: SearchState | None,
    executor: Executor | None,
    on_progress: OnProgress | None,
    keep: Preparer,
) -> Improvement:
    """The best beam of wire with corners."""
    problem = bent_problem(beam=beam, wish=wish)
    before = band_figures(beam=beam, targets=wish.targets, prepare=keep)
    found = search_bent(
        problem=problem, seed=seed, starts=starts, state=state, executor=executor,
        on_progress=on_progress, prepare=keep,
    )  # fmt: skip
    best = _best(
        found,
        "no start could be built on this frame",
        remedy="give longer spreaders, or points further out",
    )
    places = wish.places or shop_grid(wavelength=beam.wavelength)
    better, after = on_bent_grid(
        problem=problem, free=np.array(best.free), places=places, prepare=keep
    )
    return _improvement(found, best, better, before, after, wish.targets)


def _best(found: SearchState, unbuildable: str, *, remedy: str) -> ClimbedStart:
    """The best design found; ``unbuildable`` says why there may be none."""
    best = found.best_found
    if not best.free:
        raise WishError(unbuildable, remedy=remedy)
    return best


def _improvement(
    found: SearchState,
    best: ClimbedStart,
    beam: Beam,
    before: BandFigures,
    after: BandFigures,
    targets: Targets,
    further: tuple[Notice, ...] = (),
) -> Improvement:
    """Put together what was found, the beam on the shop's grid."""
    agreeing = sum(one.score > best.score - _SAME for one in found.climbed)
    notices = (*_notices(found, best.breach, agreeing, beam, after, targets), *further)
    return Improvement(
        beam=beam,
        before=before,
        after=after,
        kept=not any(each.severity == "limit" for each in notices),
        starts=len(found.climbed),
        agreeing=agreeing,
        evaluations=sum(one.evaluations for one in found.climbed),
        state=found,
        notices=notices,
    )


def _with_frontier(setting: Setting, wish: Wish, frontier: FrontierTable | None) -> Ground:
    """Add a start from the frontier, when there is one."""
    beam, ground = setting.beam, setting.ground
    if frontier is None or wish.keep_positions:
        return ground
    diameters = [section.diameter for element in beam.elements for section in element.half]
    taken = start_from(
        table=frontier,
        resonances=ground.resonances,
        boom_wl=ground.boom / beam.wavelength,
        diameter_wl=sum(diameters) / len(diameters) / beam.wavelength,
        band=(beam.band[1] - beam.band[0]) / beam.design_frequency,
    )
    if taken is None:
        return ground
    free = setting.problem.space.nearest(
        positions=taken[0] * beam.wavelength, half_lengths=taken[1]
    )
    return replace(ground, given=(*ground.given, free))


def _notices(
    state: SearchState,
    breach: float,
    agreeing: int,
    beam: Beam,
    after: BandFigures,
    targets: Targets,
) -> tuple[Notice, ...]:
    notices = []
    if not state.finished:
        notices.append(
            Notice(
                code="design.stopped",
                text="The search was stopped early: this is the best design up to then. "
                "Resume it to let it finish.",
            )
        )
    if breach > KEPT:
        notices.append(
            Notice(
                code="design.limits-not-met",
                text="No design found keeps all limits at once; this one breaks them least. "
                "Allow a longer boom, more elements or a narrower band, or relax a limit.",
                severity="limit",
                value=f"{breach:.2f} dB short",
            )
        )
    if agreeing == 1 and state.finished:
        notices.append(
            Notice(
                code="design.single-best",
                text="Only one start reached this design, so a better one may have been missed. "
                "Search again with more starts.",
                severity="doubt",
                value=f"1 of {len(state.climbed)} starts",
            )
        )
    if breach <= KEPT:
        notices += missed_notices(beam=beam, figures=after, targets=targets)
    return tuple(notices)
