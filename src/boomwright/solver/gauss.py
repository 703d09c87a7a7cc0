"""Gauss-Legendre rules on the unit interval, computed once for each number of points."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

from boomwright.base import read_only


@cache
def unit_gauss(points: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes and weights on 0..1; a table of constants, so it is remembered.

    Parameters
    ----------
    points
        number of points [-]

    Returns
    -------
    tuple of NDArray
        nodes and weights [-] (points,)
    """
    nodes, weights = leggauss(points)
    return read_only((nodes + 1.0) / 2.0), read_only(weights / 2.0)
