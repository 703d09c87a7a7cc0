"""Gauss-Legendre rules on the unit interval, computed once for each number of points."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

from boomwright.base import read_only


@cache
def unit_gauss(points: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes and weights on 0..1; a table of constants, so it is remembered [-] (points,)."""
    nodes, weights = leggauss(points)
    return read_only((nodes + 1.0) / 2.0), read_only(weights / 2.0)


def graded_nodes(
    *, scale: NDArray[np.float64], points: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes on the unit interval that crowd towards both ends.

    Args:
        scale: distance from the ends at which crowding stops, one for each row [-] (n,)

    Returns:
        nodes and weights [-] (n, 2 * points)
    """
    nodes, weights = unit_gauss(points)
    reach = np.arcsinh(0.5 / scale)[:, None]
    half = scale[:, None] * np.sinh(nodes * reach)
    weight = scale[:, None] * np.cosh(nodes * reach) * reach * weights
    return (
        np.concatenate([half, 1.0 - half[:, ::-1]], axis=1),
        np.concatenate([weight, weight[:, ::-1]], axis=1),
    )


def one_sided_nodes(
    *, scale: NDArray[np.float64], points: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Nodes on the unit interval that crowd towards its start.

    Args:
        scale: distance from the start at which crowding stops, one for each row [-] (n,)

    Returns:
        nodes and weights [-] (n, points)
    """
    nodes, weights = unit_gauss(points)
    reach = np.arcsinh(1.0 / scale)[:, None]
    step = nodes * reach
    return scale[:, None] * np.sinh(step), scale[:, None] * np.cosh(step) * reach * weights
