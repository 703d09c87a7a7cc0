"""Interpolation from Chebyshev nodes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cache

import numpy as np

from boomwright.base import read_only
from boomwright.base.array_types import Complexes, Floats

#: interpolated entries over a band may differ from solved ones by this share of the largest
_BAND_TOLERANCE = 1e-9
#: fewest frequencies that a band is interpolated from
_FEWEST = 5


def chebyshev_nodes(count: int) -> Floats:
    """Chebyshev nodes of the first kind."""
    nodes: Floats = np.cos(np.pi * (np.arange(count) + 0.5) / count)
    return nodes


def chebyshev_weights(count: int, at: Floats | float) -> Floats:
    """Weights that interpolate from the nodes.

    Args:
        at: places between -1 and 1; those outside count as the nearer end [-] (n,)
    """
    place = np.clip(at, -1.0, 1.0)
    # The polynomials at the places, each from the two before it.
    there = np.empty((count, *np.shape(place)))
    there[0] = 1.0
    if count > 1:
        there[1] = place
    for order in range(2, count):
        there[order] = 2.0 * place * there[order - 1] - there[order - 2]
    weights: Floats = np.tensordot(there, _from_nodes(count), axes=(0, 0))
    return weights


@cache
def _from_nodes(count: int) -> Floats:
    """Coefficients of the polynomials from values at the nodes (count, count)."""
    orders = np.arange(count)
    scale = np.full(count, 2.0 / count)
    scale[0] = 1.0 / count
    at_nodes = np.cos(np.multiply.outer(np.arccos(chebyshev_nodes(count)), orders))
    return read_only((at_nodes * scale).T)


def over_band(
    solved: Callable[[Floats], Sequence[Sequence[Complexes]]],
    *,
    at: Floats,
    turn: float,
) -> list[list[Complexes]]:
    """Matrices at all frequencies of a band, interpolated from a few when there are many.

    Chebyshev nodes for the turn of phases over the band are tried against one more solution in
    between, and doubled until they agree.

    Args:
        solved: groups of matrices, each of one unit, at any frequencies of the band
        at: all frequencies, or wavenumbers (f,)
        turn: how far the phase of the longest way turns over half the band [rad]

    Returns:
        the groups over the band
    """
    low, high = float(at.min()), float(at.max())
    count = _FEWEST
    # The next term of a wave, a Bessel function, is what so many nodes leave of it.
    while 2.0 * (turn / 2.0) ** count > _BAND_TOLERANCE * math.factorial(count):
        count += 1
    while count < len(at) // 2:
        nodes = 0.5 * (low + high) + 0.5 * (high - low) * chebyshev_nodes(count)
        between = 0.5 * (nodes[count // 2] + nodes[count // 2 - 1])
        sampled = solved(np.append(nodes, between))
        weights = chebyshev_weights(count, (2.0 * between - low - high) / (high - low))
        if all(_agrees(group, weights) for group in sampled):
            spreading = chebyshev_weights(count, (2.0 * at - low - high) / (high - low))
            return [[_spread(each, spreading) for each in group] for group in sampled]
        count *= 2
    return [list(group) for group in solved(at)]


def _agrees(parts: Sequence[Complexes], weights: Floats) -> bool:
    """Whether all but the last frequency give the last, next to the largest of all parts."""
    off = max(
        float(np.abs(np.tensordot(weights, each[:-1], axes=(0, 0)) - each[-1]).max())
        for each in parts
    )
    return off < _BAND_TOLERANCE * max(float(np.abs(each[-1]).max()) for each in parts)


def _spread(part: Complexes, weights: Floats) -> Complexes:
    """Interpolate all but the last frequency of a part."""
    flat = part[:-1].reshape(len(part) - 1, -1).view(float)
    spread: Complexes = (weights @ flat).view(complex).reshape(-1, *part.shape[1:])
    return spread
