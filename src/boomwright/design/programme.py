"""Sequential quadratic programming for a linear aim under many curved demands {kraft-1988}.

The search asks for nothing else, and the package that has it takes longer to load than most
searches take.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats

Indices = NDArray[np.int64]

#: a demand that a step misses by less than this, next to its own size, is met
_MET = 1e-11
#: times that the curvature is forgotten before it is given up
_RESETS = 5
#: halvings of a step, and the least share of it that is tried next
_HALVINGS, _LEAST_SHARE = 10, 0.1
#: of what demands were missed by, so much is left after a step that brought nothing
_STANDS = 0.9
#: share of the promised descent that a step must bring
_DESCENT = 0.1
#: curvature along a step is taken as at least this share of what was thought
_LEAST_CURVATURE = 0.2


class _UnsolvableError(Exception):
    """A quadratic programme without a solution."""


def minimise(
    *,
    price: Floats,
    start: Floats,
    bounds: tuple[Floats, Floats],
    demands: Callable[[Floats], Floats],
    slopes: Callable[[Floats], Floats],
    iterations: int,
    tolerance: float,
) -> Floats:
    """Make a price as low as it gets where no demand is below 0.

    Args:
        price: of each unknown [any unit] (n,)
        start: first unknowns (n,)
        bounds: least and greatest unknowns, may be infinite (2,) of (n,)
        demands: values that must not be negative (m,)
        slopes: their slopes in the unknowns (m, n); asked for where demands were asked last
        tolerance: of the price and of what all demands are missed by [unit of both]

    Returns:
        unknowns (n,)
    """
    here = np.clip(start, *bounds)
    value, steep = demands(here), slopes(here)
    dear = np.zeros(len(value))
    curvature, resets, active = np.eye(len(here)), 0, np.zeros(0, dtype=np.int64)
    for _ in range(iterations):
        missed = np.maximum(-value, 0.0)
        descent = 0.0
        try:
            step, prices, active = _step(curvature, price, steep, value, here, bounds, active)
        except (_UnsolvableError, np.linalg.LinAlgError):
            active = active[:0]
        else:
            ahead = float(price @ step)
            if abs(ahead) + prices @ np.abs(value) < tolerance and missed.sum() < tolerance:
                break
            dear = np.maximum(prices, 0.5 * (dear + prices))
            descent = ahead - float(dear @ missed)
        if not descent < 0.0:
            if resets == _RESETS:
                break
            curvature, resets = np.eye(len(here)), resets + 1
            continue
        for _ in range(_HALVINGS + 1):
            there = np.clip(here + step, *bounds)
            found = demands(there)
            worse = float(price @ (there - here) + dear @ (np.maximum(-found, 0.0) - missed))
            if worse <= _DESCENT * descent:
                break
            share = max(descent / (2.0 * (descent - worse)), _LEAST_SHARE)
            step, descent = share * step, share * descent
        still = float(np.maximum(-found, 0.0).sum())
        length = float(np.linalg.norm(step))
        little = min(abs(float(price @ (there - here))), length)
        here, value = there, found
        if little < tolerance and still < tolerance:
            break
        if length < tolerance and still > _STANDS * missed.sum():
            # Demands are no smoother than that: steps grow ever shorter and bring nothing.
            break
        before, steep = steep, slopes(here)
        curvature = _bent(curvature, step, (before - steep).T @ prices)
    return here


def _bent(curvature: Floats, step: Floats, turned: Floats) -> Floats:
    """Curvature after a step along which a gradient turned: positive whatever it did."""
    thought = curvature @ step
    along, expected = float(step @ turned), float(step @ thought)
    if along < _LEAST_CURVATURE * expected:
        share = (1.0 - _LEAST_CURVATURE) * expected / (expected - along)
        turned = share * turned + (1.0 - share) * thought
        along = _LEAST_CURVATURE * expected
    found: Floats = (
        curvature + np.outer(turned, turned) / along - np.outer(thought, thought) / expected
    )
    return found


def _step(
    curvature: Floats,
    price: Floats,
    steep: Floats,
    value: Floats,
    here: Floats,
    bounds: tuple[Floats, Floats],
    active: Indices,
) -> tuple[Floats, Floats, Indices]:
    """The step that the quadratic programme takes, prices of the demands, and what holds it.

    Seen through the root of the curvature it is the shortest vector that meets linear demands.
    """
    lower, upper = (np.flatnonzero(np.isfinite(each)) for each in bounds)
    eye = np.eye(len(here))
    rows = np.concatenate([steep, eye[lower], -eye[upper]])
    room = np.concatenate([value, (here - bounds[0])[lower], (bounds[1] - here)[upper]])
    inverse = np.linalg.inv(np.linalg.cholesky(curvature))
    downhill = inverse @ price
    normals = rows @ inverse.T
    found, active = _nearest(normals, normals @ downhill - room, active)
    step = inverse.T @ (normals[active].T @ found - downhill)
    prices = np.zeros(len(rows))
    prices[active] = found
    return step, prices[: len(value)], active


def _nearest(normals: Floats, least: Floats, active: Indices) -> tuple[Floats, Indices]:
    """Multipliers of the shortest y with normals y >= least, and which demands hold it.

    The dual is a least-squares problem in numbers that must not be negative {kraft-1988}: those
    above 0 are found one by one, from a guess that is mostly right.

    Args:
        normals: slopes of the demands (m, n)
        active: numbers of the demands that are thought to hold it

    Raises:
        _UnsolvableError: when no y meets all demands
    """
    columns = np.column_stack([normals, least])
    target = np.zeros(columns.shape[1])
    target[-1] = 1.0

    def solved(some: Indices) -> Floats:
        return np.asarray(np.linalg.lstsq(columns[some].T, target, rcond=None)[0], dtype=float)

    weight = solved(active)
    while len(active) and weight.min() <= 0.0:
        active = active[weight > 0.0]
        weight = solved(active)
    allowed = np.ones(len(columns), dtype=bool)
    for _ in range(3 * len(columns)):
        left = target - weight @ columns[active]
        if left[-1] < 1e-14:
            raise _UnsolvableError
        short = np.where(allowed, columns @ left / left[-1], 0.0)
        short[active] = 0.0
        worst = int(np.argmax(short))
        if short[worst] <= _MET * (1.0 + abs(least[worst])):
            return weight / left[-1], active
        tried, before = np.append(active, worst), np.append(weight, 0.0)
        now = solved(tried)
        if now[-1] <= 0.0:
            # As good as made up of the others: rounding.
            allowed[worst] = False
            continue
        allowed[:] = True
        while now.min() <= 0.0:
            falls = now <= 0.0
            shares = np.full(len(now), np.inf)
            shares[falls] = before[falls] / (before[falls] - now[falls])
            before = before + shares.min() * (now - before)
            stays = np.arange(len(now)) != int(np.argmin(shares))
            tried, before = tried[stays], before[stays]
            now = solved(tried)
        active, weight = tried, now
    raise _UnsolvableError
