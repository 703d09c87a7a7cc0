"""The record of trials: measure, move, measure again, each time knowing more."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.tuning.advice import Advice, advise, swr_at_design
from boomwright.tuning.fit import MOST_POINTS, Fit, fit_sweep
from boomwright.tuning.knowledge import Knowledge
from boomwright.tuning.predicting import Predictor
from boomwright.tuning.sweep import Sweep

Floats = NDArray[np.float64]

#: standing wave ratio at the design frequency that needs no further trial
GOOD_SWR = 1.1


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingCare:
    """How exactly moves are made, as standard deviations {common-practice-tolerances}."""

    length: float = 1e-3  #: place of a tip or a strap [m]
    share: float = 0.02  #: setting of a capacitor or coil, as a share [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trial:
    """One measurement with what followed from it."""

    number: int  #: 1 for the first sweep
    day: str  #: day of the measurement as the owner gave it
    #: all moves since the plan when it was taken, by key, mixed units [-]
    moves: Mapping[str, float]
    fit: Fit  #: what the sweep taught
    advice: Advice  #: what to do next
    #: standing wave ratio at the start of the line at the design frequency, as fitted [-]
    swr: float
    note: str = ""  #: owner's remark

    @property
    def done(self) -> bool:
        """Whether nothing is left to do at the design frequency."""
        return self.swr <= GOOD_SWR or not self.advice.steps


def next_trial(
    *,
    predictor: Predictor,
    sweep: Sweep,
    start: Knowledge,
    past: tuple[Trial, ...] = (),
    made: Mapping[str, float] | None = None,
    care: MovingCare | None = None,
    noise: float | None = None,
    adjustable: tuple[str, ...] | None = None,
    slopes: Floats | None = None,
    day: str = "",
    note: str = "",
) -> Trial:
    """Fit a sweep with all that earlier trials taught, and advise.

    Args:
        start: what was known before the first trial
        past: earlier trials, first to last
        made: moves made since the last trial, by key, mixed units; None for those advised [-]
        care: how exactly they were made; None for the usual care
        noise: standard deviation of one part of the reflection; None takes it from the sweep [-]
        adjustable: keys of what may be moved; None for everything that can be
        slopes: first guess of the slopes of the fit (m, n)
    """
    knowledge, moves = start, dict[str, float]()
    if past:
        last = past[-1]
        new = dict(last.advice.moves() if made is None else made)
        knowledge = after_moving(knowledge=last.fit.after, moves=new, care=care or MovingCare())
        moves = dict(last.moves)
        for key, amount in new.items():
            moves[key] = moves.get(key, 0.0) + amount
        slopes = last.fit.slopes if slopes is None else slopes
        if slopes.shape[0] != _reading_count(sweep):
            slopes = None
    fit = fit_sweep(
        predictor=predictor, before=knowledge, sweep=sweep, moves=moves, noise=noise, slopes=slopes
    )
    advice = advise(
        predictor=predictor,
        knowledge=fit.after,
        frequencies=fit.sweep.frequencies,
        moves=moves,
        adjustable=adjustable,
    )
    changes = fit.after.changes()
    for key, amount in moves.items():
        changes[key] = changes.get(key, 0.0) + amount
    return Trial(
        number=len(past) + 1,
        day=day,
        moves=moves,
        fit=fit,
        advice=advice,
        swr=swr_at_design(predictor=predictor, changes=changes),
        note=note,
    )


def after_moving(
    *, knowledge: Knowledge, moves: Mapping[str, float], care: MovingCare
) -> Knowledge:
    """Widen what is known by how exactly things were moved.

    Args:
        moves: the moves, by key, mixed units [-]
    """
    added = np.zeros(len(knowledge.causes))
    for number, cause in enumerate(knowledge.causes):
        if moves.get(cause.key, 0.0) != 0.0:
            added[number] = care.length if cause.unit == "m" else care.share
    return replace(knowledge, covariance=knowledge.covariance + np.diag(added**2))


def _reading_count(sweep: Sweep) -> int:
    points = sweep.thinned(points=MOST_POINTS).frequencies
    return len(points) * (2 if sweep.phase_known else 1)
