"""Turning dimensions until a solved match is as wanted: damped Newton with few solutions."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass

#: a step may cross this share of the range at most
_LONGEST_STEP = 0.3
#: halvings of a step that makes things worse
_HALVINGS = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Iteration(ReadOnlyArrays):
    """Where an iteration ended."""

    values: Floats  #: the dimensions [any unit] (n,)
    residual: Floats  #: what is left of the wanted zero [any unit] (n,)
    converged: bool  #: whether all residuals are within the tolerance
    evaluations: int  #: how often the residual was computed


def iterate(
    *,
    residual: Callable[[Floats], Floats],
    start: Floats,
    step: Floats,
    low: Floats,
    high: Floats,
    tolerance: float,
    most: int = 40,
) -> Iteration:
    """Find a zero within bounds by Newton's method with Broyden's slopes {broyden-1965}.

    Args:
        residual: n values from n dimensions; every call is a field solution
        start: first dimensions [any unit] (n,)
        step: change of each that tells its slope [same unit] (n,)
        low, high: bounds of each [same unit] (n,)
        tolerance: greatest modulus of a residual [unit of the residual]
    """
    low, high, step = (np.asarray(each, dtype=float) for each in (low, high, step))
    here = np.clip(np.asarray(start, dtype=float), low, high)
    value = residual(here)
    used = 1
    slopes = None
    fresh = False
    while np.max(np.abs(value)) > tolerance and used < most:
        if slopes is None:
            slopes = _slopes(residual, here, value, step, high)
            used += len(here)
            fresh = True
        move = _step(slopes, value, here, (low, high))
        better, tried = _search(residual, here, value, move)
        used += tried
        if better is None:
            # Old slopes may mislead; new ones that do not help either are the end.
            if fresh:
                break
            slopes = None
            continue
        there, found = better
        change = there - here
        slopes = slopes + np.outer(found - value - slopes @ change, change) / (change @ change)
        here, value, fresh = there, found, False
    return Iteration(
        values=here,
        residual=value,
        converged=bool(np.max(np.abs(value)) <= tolerance),
        evaluations=used,
    )


def _slopes(
    residual: Callable[[Floats], Floats], here: Floats, value: Floats, step: Floats, high: Floats
) -> Floats:
    columns = []
    for number, length in enumerate(step):
        aside = here.copy()
        aside[number] += length if here[number] + length <= high[number] else -length
        columns.append((residual(aside) - value) / (aside[number] - here[number]))
    return np.stack(columns, axis=1)


def _step(slopes: Floats, value: Floats, here: Floats, bounds: tuple[Floats, Floats]) -> Floats:
    """Newton's step, shortened to stay within bounds and not to leap across them."""
    newton = -np.linalg.lstsq(slopes, value, rcond=None)[0]
    longest = _LONGEST_STEP * (bounds[1] - bounds[0])
    shorter = newton / max(1.0, float(np.max(np.abs(newton) / longest)))
    result: Floats = np.clip(here + shorter, *bounds) - here
    return result


def _search(
    residual: Callable[[Floats], Floats], here: Floats, value: Floats, move: Floats
) -> tuple[tuple[Floats, Floats] | None, int]:
    """Halve the step until the residual shrinks."""
    if not np.any(move):
        return None, 0
    size = float(np.linalg.norm(value))
    for halving in range(_HALVINGS + 1):
        there = here + move / 2.0**halving
        found = residual(there)
        if float(np.linalg.norm(found)) < size:
            return (there, found), halving + 1
    return None, _HALVINGS + 1
