"""One start of the search: the worst figure in the band made as good as it gets.

The usual epigraph form: levels t stand for the worst gain, front-to-rear ratio and match, every
figure must reach its level, and the weighed levels are made large by sequential quadratic
programming {kraft-1988}. One slack, dear enough never to pay, lets a start break its limits.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.aims import Directions
from boomwright.design.array_slopes import at_one_frequency
from boomwright.design.programme import minimise
from boomwright.design.stopping import GoOn, StoppedError, always
from boomwright.design.targets import (
    Margins,
    Problem,
    Targets,
    margins,
    reflected,
    reflection_loss_db,
    slopes_of,
)

#: lengths that are tried
_LENGTHS = 33
#: further demands on the space may be missed by this
_WITHIN = 1e-9


def driven_to_match(*, problem: Problem, free: Floats) -> Floats:
    """Choose the driven length that leaves least reflected at the design frequency.

    All else stays; without a match in place, or when the length is kept, nothing changes.

    Args:
        free: free numbers (m,)

    Returns:
        free numbers with that length (m,)
    """
    fed, space = problem.targets.fed, problem.space
    row = space.basis[space.count + problem.tables.driven]
    number = int(np.argmax(np.abs(row)))
    if fed is None or row[number] == 0.0:
        return free
    tried = np.tile(free, (_LENGTHS, 1))
    tried[:, number] = np.linspace(space.lower[number], space.upper[number], _LENGTHS)
    inside = (tried @ space.rows.T - space.least >= -_WITHIN).all(axis=1)
    if not inside.any():
        return free
    tried = tried[inside]
    at = problem.design_number
    idle = problem.idle
    if idle is not None:
        idle = replace(idle, tables=at_one_frequency(tables=idle.tables, number=at))
    alone = replace(
        problem, tables=at_one_frequency(tables=problem.tables, number=at), idle=idle, further=()
    )
    targets = replace(problem.targets, rear_weight=0.0, least_front_to_rear_db=-np.inf)
    found = slopes_of(
        problem=alone,
        both=space.origin + tried @ space.basis.T,
        towards=targets.directions(rear_angles=1),
    )
    if fed.correction is not None:
        targets = replace(targets, fed=replace(fed, correction=fed.correction[at : at + 1]))
    loss, _ = reflected(found=found, targets=targets, design=0, ratio=np.ones(1))
    return np.array(tried[int(np.argmin(loss[:, 0]))])


#: what a decibel of broken limit costs, in decibels of what is wanted
PRICE = 30.0
#: breach below which limits count as kept [dB]
KEPT = 1e-3
#: a tiny wish for what is only limited: decides between designs that are equal otherwise
TINY = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LocalBest:
    """Where one start ended."""

    free: Floats  #: free numbers (m,)
    score: float  #: weighed worst figures less the price of broken limits [dB]
    breach: float  #: how far limits are broken, 0 when kept [dB]
    gain_dbi: float  #: worst gain in the band [dBi]
    front_to_rear_db: float  #: worst front-to-rear ratio among the watched directions [dB]
    reflection_db: float  #: largest loss by reflection [dB]
    evaluations: int  #: designs computed on the way
    finished: bool = True  #: False when it was stopped on the way


class _Figures:
    """Remembers the last design, as values and slopes are asked for one after the other."""

    def __init__(self, problem: Problem, go_on: GoOn) -> None:
        self.problem = problem
        self.towards: Directions = problem.targets.directions()
        self.go_on = go_on
        self.count = 0
        self._at: Floats = np.zeros(0)
        self._found: Margins | None = None

    def at(self, free: Floats) -> Margins:
        if self._found is None or not np.array_equal(free, self._at):
            if not self.go_on():
                raise StoppedError
            self._found = margins(problem=self.problem, towards=self.towards, free=free)
            self._at = free.copy()
            self.count += 1
        return self._found


def judged(*, problem: Problem, found: Margins) -> tuple[float, float, Floats]:
    """Weigh the worst figures of a design.

    Returns:
        score [dB], breach of the limits [dB], worst gain, front-to-rear and match [dB] (3,)
    """
    levels = np.array([found.gain.min(), found.rear.min(), found.match.min()])
    breach = max(
        0.0,
        found.overstrained,
        *(least_levels(problem.targets) - levels),
        *(-_window(problem, found)[0]),
    )
    return float(level_weights(problem.targets) @ levels - PRICE * breach), breach, levels


def level_weights(targets: Targets) -> Floats:
    """Weigh the worst gain, front-to-rear ratio and match.

    Returns:
        weights; zero for what is not watched (3,)
    """
    return np.array(
        [
            targets.gain_weight or TINY,
            (targets.rear_weight or TINY) if targets.watches_rear else 0.0,
            (targets.match_weight or TINY) if targets.watches_match else 0.0,
        ]
    )


def least_levels(targets: Targets) -> Floats:
    """Levels that the limits ask for: gain, front-to-rear ratio, loss with its sign turned.

    Returns:
        levels [dB] (3,)
    """
    return np.array(
        [
            targets.least_gain_dbi,
            targets.least_front_to_rear_db,
            -reflection_loss_db(swr=targets.most_swr),
        ]
    )


def _window(problem: Problem, found: Margins) -> tuple[Floats, Floats]:
    """Room of the feed-point impedance within its limits, with slopes."""
    low, high = problem.targets.resistance
    values, slopes = [found.reactance], [found.reactance_slopes]
    if low > 0.0:
        values.append(found.resistance - 10.0 * np.log10(low))
        slopes.append(found.resistance_slopes)
    if high < np.inf:
        values.append(10.0 * np.log10(high) - found.resistance)
        slopes.append(-found.resistance_slopes)
    return np.concatenate(values), np.concatenate(slopes)


def climb(
    *,
    problem: Problem,
    start: Floats,
    iterations: int = 150,
    tolerance: float = 1e-6,
    go_on: GoOn = always,
) -> LocalBest:
    """Improve one start until nothing improves it further.

    Args:
        start: free numbers to start from (m,)
        tolerance: gain of a step below which it stops [dB]
    """
    figures = _Figures(problem, go_on)
    best = _Best(problem)
    try:
        _programme(problem, figures, best, start, iterations, tolerance)
    except StoppedError:
        return best.local(figures.count, finished=False)
    return best.local(figures.count, finished=True)


def _programme(
    problem: Problem,
    figures: _Figures,
    best: _Best,
    start: Floats,
    iterations: int,
    tolerance: float,
) -> None:
    """Run the quadratic programmes; ``best`` remembers the best design seen."""
    space = problem.space
    size = len(space.lower)
    weights, least = level_weights(problem.targets), least_levels(problem.targets)
    begin = driven_to_match(problem=problem, free=np.clip(start, space.lower, space.upper))
    first = figures.at(begin)
    _, breach, levels = judged(problem=problem, found=first)
    best.look(begin, first)
    unknowns = np.concatenate([begin, levels, [breach]])
    low = np.concatenate([space.lower, np.full(3, -np.inf), [0.0]])
    high = np.concatenate([space.upper, np.full(3, np.inf), [np.inf]])
    price = -np.concatenate([np.zeros(size), weights, [-PRICE]])
    demands = _Demands(problem, figures, best, weights > 0.0, least)
    found = minimise(
        price=price,
        start=unknowns,
        bounds=(low, high),
        demands=demands.values,
        slopes=demands.slopes,
        iterations=iterations,
        tolerance=tolerance,
    )
    last = np.clip(found[:size], space.lower, space.upper)
    if np.isfinite(last).all():
        best.look(last, figures.at(last))


class _Best:
    """The best design met; the last one of a broken-off climb need not be it."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.score = -np.inf
        self.free: Floats = np.zeros(0)
        self.breach = np.inf
        self.levels: Floats = np.zeros(3)

    def look(self, free: Floats, found: Margins) -> None:
        score, breach, levels = judged(problem=self.problem, found=found)
        space = self.problem.space
        outside = float((space.least - space.rows @ free).max(initial=0.0))
        inside = (free >= space.lower - 1e-9).all() and (free <= space.upper + 1e-9).all()
        if score > self.score and outside < 1e-6 and inside:
            self.score, self.breach, self.levels, self.free = score, breach, levels, free.copy()

    def local(self, evaluations: int, *, finished: bool) -> LocalBest:
        return LocalBest(
            free=self.free,
            score=float(self.score),
            breach=float(self.breach),
            gain_dbi=float(self.levels[0]),
            front_to_rear_db=float(self.levels[1]),
            reflection_db=-float(self.levels[2]),
            evaluations=evaluations,
            finished=finished,
        )


class _Demands:
    """All demands of the epigraph form as one vector that must not be negative."""

    def __init__(
        self,
        problem: Problem,
        figures: _Figures,
        best: _Best,
        watched: NDArray[np.bool_],
        least: Floats,
    ) -> None:
        self.problem = problem
        self.figures = figures
        self.best = best
        self.watched = watched
        self.least = least
        self.size = len(problem.space.lower)

    def values(self, unknowns: Floats) -> Floats:
        free, levels, slack = self._split(unknowns)
        found = self.figures.at(free)
        self.best.look(free, found)
        parts = [
            values - level
            for values, level, on in zip(
                (found.gain, found.rear, found.match), levels, self.watched, strict=True
            )
            if on
        ]
        limited = np.isfinite(self.least)
        parts.append((levels + slack - self.least)[limited])
        parts.append(_window(self.problem, found)[0] + slack)
        parts.append(self.problem.space.rows @ free - self.problem.space.least)
        return np.concatenate(parts)

    def slopes(self, unknowns: Floats) -> Floats:
        free, _, _ = self._split(unknowns)
        found = self.figures.at(free)
        blocks = []
        for number, slopes in enumerate((found.gain_slopes, found.rear_slopes, found.match_slopes)):
            if self.watched[number]:
                tail = np.zeros((len(slopes), 4))
                tail[:, number] = -1.0
                blocks.append(np.hstack([slopes, tail]))
        limited = np.flatnonzero(np.isfinite(self.least))
        rows = np.zeros((len(limited), self.size + 4))
        rows[np.arange(len(limited)), self.size + limited] = 1.0
        rows[:, -1] = 1.0
        blocks.append(rows)
        window = _window(self.problem, found)[1]
        tail = np.zeros((len(window), 4))
        tail[:, -1] = 1.0
        blocks.append(np.hstack([window, tail]))
        linear = self.problem.space.rows
        blocks.append(np.hstack([linear, np.zeros((len(linear), 4))]))
        return np.concatenate(blocks)

    def _split(self, unknowns: Floats) -> tuple[Floats, Floats, float]:
        size = self.size
        space = self.problem.space
        free = np.clip(unknowns[:size], space.lower, space.upper)
        return free, unknowns[size : size + 3], float(unknowns[-1])
