"""Reflection, standing wave ratio and the losses that follow from them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError


def reflection_coefficient(
    impedance: ArrayLike, *, reference: complex = 50.0
) -> NDArray[np.complex128]:
    """Voltage reflection coefficient of an impedance.

    Args:
        impedance: [ohm] (any shape)
        reference: impedance of the line or the radio [ohm]

    Returns:
        (Z - Z0) / (Z + Z0) {pozar-2012, eq. 2.35} [-] (same shape)
    """
    z = np.asarray(impedance, dtype=complex)
    return np.asarray((z - reference) / (z + reference))


def standing_wave_ratio(impedance: ArrayLike, *, reference: float = 50.0) -> NDArray[np.float64]:
    """Standing wave ratio of an impedance, infinite for a pure reactance.

    Args:
        impedance: [ohm] (any shape)

    Returns:
        standing wave ratio {pozar-2012, eq. 2.41} [-] (same shape)
    """
    size = np.minimum(np.abs(reflection_coefficient(impedance, reference=reference)), 1.0)
    return np.asarray(
        np.divide(1.0 + size, 1.0 - size, out=np.full(size.shape, np.inf), where=size < 1.0)
    )


def mismatch_loss_db(swr: float) -> float:
    """Power that does not enter a load because it is reflected.

    Args:
        swr: standing wave ratio, at least 1 [-]

    Returns:
        -10 log10(1 - r^2) {pozar-2012, section 2.3} [dB]
    """
    size = reflection_of_swr(swr)
    return -10.0 * math.log10(1.0 - size**2)


def reflection_of_swr(swr: float) -> float:
    """Modulus of the reflection coefficient that gives a standing wave ratio [-].

    Args:
        swr: standing wave ratio, at least 1 [-]

    Raises:
        BoomwrightError: when the ratio is below 1
    """
    if not 1.0 <= swr < math.inf:
        raise BoomwrightError(f"standing wave ratio {swr:g}: give a finite ratio of 1 or more")
    return (swr - 1.0) / (swr + 1.0)
