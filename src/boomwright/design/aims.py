"""How the current of an element radiates towards a direction: weights of its moments."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.records import dataclass
from boomwright.solver.element_response import POLYNOMIALS

#: terms of the ascending series of the spherical Bessel functions of degree 8 and 9: 1e-15 of the
#: first up to arguments of 4
_TERMS = 11


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Directions(ReadOnlyArrays):
    """Directions in which the gain is watched."""

    along_boom: NDArray[np.float64]  #: cosine of the angle to the heading [-] (d,)
    along_elements: NDArray[np.float64]  #: cosine of the angle to the elements [-] (d,)
    upward: NDArray[np.float64]  #: cosine of the angle to the zenith [-] (d,)


def directions(*, azimuth: NDArray[np.float64], elevation: NDArray[np.float64]) -> Directions:
    """Turn angles into direction cosines.

    Args:
        azimuth: counter-clockwise from the heading [rad] (d,)
        elevation: above the horizon [rad] (d,)
    """
    return Directions(
        along_boom=np.cos(azimuth) * np.cos(elevation),
        along_elements=np.sin(azimuth) * np.cos(elevation),
        upward=np.sin(elevation),
    )


def moment_weights(argument: Any, xp: Any = np) -> tuple[Any, Any]:
    """Weights of the current moments P0, P2... towards a direction, with slopes.

    The integral of P2p(t) cos(q t) over 0..1 is (-1)^p j2p(q) {dlmf-10, eq. 10.54.2}; a current
    is the sum of its moments times (4 p + 1) P2p / h.

    Args:
        argument: wavenumber times half length times the cosine to the element, up to 4 (any shape)
    """
    squared = argument * argument
    # With u_n = j_n / q^n the recurrence is u_(n-1) = (2 n + 1) u_n - q^2 u_(n+1), stable downwards
    # {dlmf-10, eq. 10.51.1}; it begins with two of the ascending series.
    top = 2 * POLYNOMIALS - 1
    scaled = [_series(degree, squared, xp) for degree in (top, top - 1)]
    for degree in range(top - 1, 0, -1):
        scaled.append((2 * degree + 1) * scaled[-1] - squared * scaled[-2])
    scaled.reverse()
    weights, slopes = [], []
    power, below = xp.ones_like(argument), xp.zeros_like(argument)
    for order in range(POLYNOMIALS):
        degree = 2 * order
        factor = (-1.0) ** order * (2 * degree + 1)
        weights.append(factor * power * scaled[degree])
        # j_n' = n j_n / q - j_(n+1)
        slopes.append(
            factor * (degree * below * scaled[degree] - power * argument * scaled[degree + 1])
        )
        below, power = power * argument, power * squared
    return xp.stack(weights), xp.stack(slopes)


def _series(degree: int, squared: Any, xp: Any) -> Any:
    """Spherical Bessel function over the power of its degree, by its ascending series."""
    value = xp.zeros_like(squared)
    for term in reversed(range(_TERMS)):
        value = value * squared + _series_factor(degree, term)
    return value


@cache
def _series_factor(degree: int, term: int) -> float:
    """Factor of q^(degree + 2 term) in the spherical Bessel function {dlmf-10, eq. 10.53.1}."""
    odd = math.prod(range(1, 2 * (degree + term) + 2, 2))
    return (-0.5) ** term / (math.factorial(term) * odd)
