"""Interpolation from Chebyshev nodes."""

from __future__ import annotations

from functools import cache

import numpy as np

from boomwright.base import read_only
from boomwright.base.array_types import Floats


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
