"""Interpolation from Chebyshev nodes."""

from __future__ import annotations

import numpy as np
from numpy.polynomial.chebyshev import chebvander
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def chebyshev_nodes(count: int) -> Floats:
    """Chebyshev nodes of the first kind."""
    nodes: Floats = np.cos(np.pi * (np.arange(count) + 0.5) / count)
    return nodes


def chebyshev_weights(count: int, at: Floats | float) -> Floats:
    """Weights that interpolate from the nodes.

    Parameters
    ----------
    at
        places between -1 and 1; those outside count as the nearer end [-] (n,)
    """
    scale = np.full(count, 2.0 / count)
    scale[0] = 1.0 / count
    there = chebvander(np.clip(at, -1.0, 1.0), count - 1).reshape(*np.shape(at), count)
    here = chebvander(chebyshev_nodes(count), count - 1)
    weights: Floats = (there * scale) @ here.T
    return weights
