"""Reflection off flat ground in front of the antenna: how strongly, and where."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError
from boomwright.solver import Ground
from boomwright.solver.fresnel import fresnel_coefficients


def ground_coefficients(
    *, ground: Ground, elevation: ArrayLike, frequency: float
) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    """Reflection coefficients of a flat ground, perfect or real.

    Args:
        elevation: grazing angle, 0 to pi/2 [rad] (n,)

    Returns:
        horizontal and vertical coefficient {itu-p527} [-] (n,)

    Raises:
        BoomwrightError: when the ground is free space
    """
    angle = np.asarray(elevation, dtype=float)
    if ground.kind == "free space":
        raise BoomwrightError("ground reflection: free space reflects nothing; name a ground")
    if ground.kind == "perfect":
        one = np.ones(angle.shape, dtype=complex)
        return -one, one
    horizontal, vertical = fresnel_coefficients(
        elevation=angle, permittivity=ground.complex_permittivity(frequency=frequency)
    )
    return np.asarray(horizontal, dtype=complex), np.asarray(vertical, dtype=complex)


def reflection_distance(*, height: float, elevation: ArrayLike) -> NDArray[np.float64]:
    """Distance of the point where the ground reflects towards an elevation.

    Args:
        height: height of the antenna above that ground [m]
        elevation: elevation, 0 to pi/2; the distance is infinite at 0 [rad] (n,)

    Returns:
        distance h / tan(elevation), from the image [m] (n,)
    """
    angle = np.asarray(elevation, dtype=float)
    far = np.full(angle.shape, np.inf)
    sine = np.sin(angle)
    distance: NDArray[np.float64] = np.divide(
        height * np.cos(angle), sine, out=far, where=sine > 0.0
    )
    return distance
