"""Polarisation of the far field {ieee-145}."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


def axial_ratio(*, vertical: Complexes, horizontal: Complexes) -> Floats:
    """Ratio of the axes of the polarisation ellipse {balanis-2005, eq. 2-65}.

    Positive for right-hand polarisation in the sense of IEEE Std 145 (the field turns clockwise
    seen along the way of the wave), negative for left-hand; infinite for linear.

    Args:
        vertical: component along rising elevation [V] (any shape)
        horizontal: component along rising azimuth [V] (same shape)
    """
    # Seen along the wave, clockwise from up is right, the opposite of rising azimuth: the
    # right-hand wave's horizontal component is j times its vertical one.
    right = np.abs(vertical - 1j * horizontal)
    left = np.abs(vertical + 1j * horizontal)
    small = np.abs(right - left)
    linear = small <= 1e-12 * (right + left)
    ratio: Floats = np.where(linear, np.inf, (right + left) / np.where(linear, 1.0, right - left))
    return ratio
