"""Shape functions of the current on one piece: two hats and integrated-Legendre bubbles.

The hats carry the current at the two ends, the bubbles vanish there; the derivative of the
bubble of degree k is the Legendre polynomial of degree k-1 {szabo-babuska-1991}.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from boomwright.base import read_only
from boomwright.base.array_types import Floats


def shape_functions(*, at: Floats, degree: int) -> tuple[Floats, Floats]:
    """Values and derivatives of the shape functions on the unit interval.

    Args:
        at: places on the piece, 0 at its start and 1 at its end (any shape)
        degree: polynomial degree, at least 1
    """
    polynomials = legendre(at=at, degree=degree).reshape(degree + 1, -1)
    values, slopes = (parts @ polynomials for parts in legendre_parts(degree))
    shape = (degree + 1, *at.shape)
    return values.reshape(shape), slopes.reshape(shape)


def legendre(*, at: Floats, degree: int) -> Floats:
    """Legendre polynomials of the unit interval, up to a degree.

    Args:
        at: places on the piece, 0 at its start and 1 at its end (any shape)
        degree: polynomial degree, at least 1
    """
    found = np.empty((degree + 1, *at.shape))
    found[0] = 1.0
    found[1] = 2.0 * at - 1.0
    for order in range(2, degree + 1):
        np.multiply(found[1], found[order - 1], out=found[order])
        found[order] *= 2.0 - 1.0 / order
        found[order] -= (1.0 - 1.0 / order) * found[order - 2]
    return found


@cache
def legendre_parts(degree: int) -> tuple[Floats, Floats]:
    """Shape functions and their derivatives as sums of Legendre polynomials (n, n) each."""
    values, slopes = np.zeros((degree + 1, degree + 1)), np.zeros((degree + 1, degree + 1))
    values[:2, :2] = [[0.5, -0.5], [0.5, 0.5]]
    slopes[:2, 0] = [-1.0, 1.0]
    for order in range(2, degree + 1):
        values[order, order] = 1.0 / (2 * order - 1)
        values[order, order - 2] = -values[order, order]
        slopes[order, order - 1] = 2.0
    return read_only(values), read_only(slopes)
