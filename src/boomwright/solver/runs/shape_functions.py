"""Shape functions of the current on one piece: two hats and integrated-Legendre bubbles.

The hats carry the current at the two ends, the bubbles vanish there; the derivative of the
bubble of degree k is the Legendre polynomial of degree k-1 {szabo-babuska-1991}.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def shape_functions(*, at: Floats, degree: int) -> tuple[Floats, Floats]:
    """Values and derivatives of the shape functions on the unit interval.

    Args:
        at: places on the piece, 0 at its start and 1 at its end (any shape)
        degree: polynomial degree, at least 1
    """
    centred = 2.0 * at - 1.0
    legendre = [np.ones_like(centred), centred]
    for order in range(2, degree + 1):
        legendre.append(
            ((2 * order - 1) * centred * legendre[-1] - (order - 1) * legendre[-2]) / order
        )
    values = [1.0 - at, at]
    slopes = [-np.ones_like(at), np.ones_like(at)]
    for order in range(2, degree + 1):
        values.append((legendre[order] - legendre[order - 2]) / (2 * order - 1))
        slopes.append(2.0 * legendre[order - 1])
    return np.stack(values), np.stack(slopes)
