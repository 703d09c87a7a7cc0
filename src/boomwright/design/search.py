"""The search over many starts: any executor, progress, cancel, and resume after a kill.

Rounds: listed and drawn starts first, then, as the global check, hops around the best and fresh
draws, until a round finds nothing better. What is started where depends on the seed and on finished
rounds alone, never on timing or the number of workers, so a search gives the same answer
however it is run or how often it was broken off.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.minimax import LocalBest, climb
from boomwright.design.search_state import ClimbedStart, SearchState, taken_up
from boomwright.design.starts import drawn_starts, hops, listed_starts
from boomwright.design.stopping import GoOn, StoppedError
from boomwright.design.targets import Problem

#: seconds between two looks whether to stop, while workers work
_LOOK = 0.1
#: a later round must be better by this to call for another one [dB]
_BETTER = 0.005
#: rounds at most
_ROUNDS = 4
#: starts fill no more boom than this for each spacing: the best arrays use less [wavelengths]
_WIDEST_WL = 0.42


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a search is."""

    done: int  #: starts finished
    total: int  #: starts planned so far; a round that finds something better adds one
    best: ClimbedStart | None  #: best finished start, None before the first one ends
    state: SearchState  #: what to save to go on from here
    #: True when a start has finished since the last report, so that saving is worth while
    new_state: bool


#: told how far the search is, several times a second; False stops it
OnProgress = Callable[[Progress], bool]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What starts are drawn from."""

    resonances: Floats  #: half length of resonance of each element [m] (n_elements,)
    boom: float  #: longest boom [m]
    wavelength: float  #: wavelength at the design frequency [m]
    given: tuple[Floats, ...] = ()  #: designs to start from besides, as free numbers (k, m)
    #: True starts from the first of them and hops around it, for arrays that no table and no
    #: drawing rule fits
    only_given: bool = False


def search(
    *,
    problem: Problem,
    ground: Ground,
    seed: int = 0,
    starts: int = 12,
    state: SearchState | None = None,
    executor: Executor | None = None,
    on_progress: OnProgress | None = None,
) -> SearchState:
    """Search from many starts until a round finds nothing better.

    Args:
        problem: the problem; it travels to the workers
    """
    now = taken_up(state, seed=seed, starts=starts)
    tell = _Teller(now, starts, on_progress)
    for round_number in range(_ROUNDS):
        before = _best_score(now, round_number - 1)
        if round_number and before <= _best_score(now, round_number - 2) + _BETTER:
            break
        tell.state = now
        try:
            frees = _round_starts(problem, ground, now, round_number, tell.go_on)
        except StoppedError:
            return now
        have = {one.number for one in now.climbed if one.round_number == round_number}
        todo = [(number, free) for number, free in enumerate(frees) if number not in have]
        tell.total = len([one for one in now.climbed if one.round_number < round_number])
        tell.total += len(frees)
        run = _here if executor is None else _spread
        now, whole = run(problem, round_number, todo, now, tell, executor)
        if not whole:
            return now
        tell.state = now
    return replace(now, finished=True)


def _best_score(state: SearchState, up_to: int) -> float:
    """Best score of the rounds up to one."""
    scores = [one.score for one in state.climbed if one.round_number <= up_to]
    return max(scores, default=-math.inf)


def _round_starts(
    problem: Problem, ground: Ground, state: SearchState, round_number: int, go_on: GoOn
) -> list[Floats]:
    """Free numbers that a round starts from: settled by the seed and the rounds before."""
    generator = np.random.default_rng([state.seed, round_number])
    space = problem.space
    listed: list[Floats] = []
    boom = min(ground.boom, _WIDEST_WL * ground.wavelength * (space.count - 1))
    if ground.only_given:
        return _around(problem, ground, state, round_number, generator)
    if round_number == 0:
        listed += list(ground.given)
        found = listed_starts(
            resonances=ground.resonances,
            driven=problem.tables.driven,
            boom=boom,
            wavelength=ground.wavelength,
        )
    else:
        earlier = [one for one in state.climbed if one.round_number < round_number]
        best = max(earlier, key=lambda one: (one.score, -one.number))
        found = hops(
            problem=problem,
            free=np.array(best.free),
            wanted=state.starts // 2,
            generator=generator,
        )
    listed += [
        space.nearest(positions=one.positions, half_lengths=one.half_lengths) for one in found
    ]
    listed = listed[: state.starts]
    drawn = drawn_starts(
        problem=problem,
        resonances=ground.resonances,
        boom=boom,
        wanted=max(state.starts - len(listed), 0),
        generator=generator,
        go_on=go_on,
    )
    return listed + [
        space.nearest(positions=one.positions, half_lengths=one.half_lengths) for one in drawn
    ]


def _around(
    problem: Problem,
    ground: Ground,
    state: SearchState,
    round_number: int,
    generator: np.random.Generator,
) -> list[Floats]:
    """Free numbers around the design given or, later, the best so far."""
    space = problem.space
    middle = ground.given[0]
    if round_number:
        earlier = [one for one in state.climbed if one.round_number < round_number]
        middle = np.array(max(earlier, key=lambda one: (one.score, -one.number)).free)
    listed = list(ground.given) if round_number == 0 else []
    wanted = max(state.starts - len(listed), 0)
    near = hops(problem=problem, free=middle, wanted=wanted, generator=generator)
    return listed + [
        space.nearest(positions=one.positions, half_lengths=one.half_lengths) for one in near
    ]


class _Teller:
    """Reports progress and hears whether to go on."""

    def __init__(self, state: SearchState, total: int, on_progress: OnProgress | None) -> None:
        self.state = state
        self.total = total
        self.on_progress = on_progress
        self.told = len(state.climbed)

    def go_on(self) -> bool:
        if self.on_progress is None:
            return True
        state = self.state
        fresh = len(state.climbed) > self.told
        self.told = len(state.climbed)
        return self.on_progress(
            Progress(
                done=len(state.climbed),
                total=self.total,
                best=state.best,
                state=state,
                new_state=fresh,
            )
        )


def climb_start(problem: Problem, free: Floats) -> LocalBest:
    """Climb from one start; a function of its own, so that it can travel to workers.

    Args:
        free: free numbers to start from (m,)
    """
    return climb(problem=problem, start=free)


def _with(state: SearchState, round_number: int, number: int, local: LocalBest) -> SearchState:
    one = ClimbedStart(
        round_number=round_number,
        number=number,
        free=tuple(local.free.tolist()),
        score=local.score,
        breach=local.breach,
        gain_dbi=local.gain_dbi,
        front_to_rear_db=local.front_to_rear_db,
        reflection_db=local.reflection_db,
        evaluations=local.evaluations,
    )
    climbed = sorted((*state.climbed, one), key=lambda each: (each.round_number, each.number))
    return replace(state, climbed=tuple(climbed))


_Todo = list[tuple[int, Floats]]


def _here(
    problem: Problem,
    round_number: int,
    todo: _Todo,
    state: SearchState,
    tell: _Teller,
    executor: Executor | None,
) -> tuple[SearchState, bool]:
    """Climb one after the other in this process."""
    del executor
    for number, free in todo:
        local = climb(problem=problem, start=free, go_on=tell.go_on)
        if not local.finished:
            return state, False
        state = _with(state, round_number, number, local)
        tell.state = state
        if not tell.go_on():
            return state, False
    return state, True


def _spread(
    problem: Problem,
    round_number: int,
    todo: _Todo,
    state: SearchState,
    tell: _Teller,
    executor: Executor | None,
) -> tuple[SearchState, bool]:
    """Climb on an executor's workers."""
    assert executor is not None  # noqa: S101 - the caller chose this function by it
    numbers: dict[Future[LocalBest], int] = {
        executor.submit(climb_start, problem, free): number for number, free in todo
    }
    left = set(numbers)
    while left:
        done, left = wait(left, timeout=_LOOK, return_when=FIRST_COMPLETED)
        for future in done:
            state = _with(state, round_number, numbers[future], future.result())
        tell.state = state
        if not tell.go_on():
            for future in left:
                future.cancel()
            return state, False
    return state, True
