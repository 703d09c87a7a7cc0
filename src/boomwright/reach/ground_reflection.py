"""Reflection off flat ground in front of the antenna: how strongly, and where."""

from __future__ import annotations

import math

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
        frequency: [Hz]

    Returns:
        horizontal and vertical coefficient {itu-p527} [-] (n,)

    Raises:
        BoomwrightError: when the ground is free space
    """
    angle = np.asarray(elevation, dtype=float)
    if ground.kind == "free space":
        msg = "ground reflection: free space reflects nothing; name a ground"
        raise BoomwrightError(msg)
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


def first_fresnel_zone(
    *, height: float, elevation: float, wavelength: float
) -> tuple[float, float]:
    """Near and far end of the ground that makes the reflection towards an elevation.

    Ground within half a wavelength of path difference: the ellipse cut by the vertical plane.

    Args:
        height: height of the antenna above the ground [m]
        elevation: elevation, above 0 [rad]
        wavelength: [m]

    Returns:
        distance of the near end, negative behind the mast, and of the far end, from sqrt(x^2 +
        h^2) - x cos
            a = h sin a + wl/2 [m] (2,)

    Raises:
        BoomwrightError: when the elevation is not above 0
    """
    sine, cosine = math.sin(elevation), math.cos(elevation)
    if sine <= 0.0:
        msg = f"Fresnel zone: elevation {math.degrees(elevation):g} deg; ask above 0 deg"
        raise BoomwrightError(msg)
    path = height * sine + wavelength / 2.0
    half = math.sqrt(path**2 - (height * sine) ** 2)
    return (path * cosine - half) / sine**2, (path * cosine + half) / sine**2
