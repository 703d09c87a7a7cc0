"""Reflection off the ground in front of the antenna, alike everywhere or changing once.

The far field at a low elevation is made by ground far out, at a high one by ground near by;
so a sea or a marsh beyond some distance matters only below an angle that this file finds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.solver import Ground
from boomwright.solver.fresnel import fresnel_coefficients


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoZoneGround:
    """Ground that changes once with the distance from the mast.

    Parameters
    ----------
    near
        ground from the mast to the boundary [-]
    far
        ground beyond it, e.g. the sea [-]
    boundary
        distance of the boundary from the mast, towards the heading [m]
    drop
        how much lower the far ground lies than the near ground, at least 0 [m]

    Raises
    ------
    BoomwrightError
        when a zone is free space, or boundary or drop is below 0
    """

    near: Ground
    far: Ground
    boundary: float
    drop: float = 0.0

    def __post_init__(self) -> None:
        if "free space" in {self.near.kind, self.far.kind}:
            msg = "two-zone ground: a zone is free space; name a ground for both zones"
            raise BoomwrightError(msg)
        if not (self.boundary >= 0.0 and self.drop >= 0.0):
            msg = (
                f"two-zone ground: boundary {self.boundary:g} m, drop {self.drop:g} m; "
                "give both as 0 or more"
            )
            raise BoomwrightError(msg)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReflectionByElevation:
    """Which ground reflects at each elevation, and how.

    Parameters
    ----------
    elevation
        elevation of the far field [rad] (n,)
    horizontal
        coefficient of horizontal polarisation, -1 for a perfect conductor [-] (n,)
    vertical
        coefficient of vertical polarisation, +1 for a perfect conductor [-] (n,)
    distance
        distance of the reflection point from the mast [m] (n,)
    from_far
        true where the far zone reflects [-] (n,)
    phase_height
        height of the antenna above the reflecting surface [m] (n,)
    """

    elevation: NDArray[np.float64]
    horizontal: NDArray[np.complex128]
    vertical: NDArray[np.complex128]
    distance: NDArray[np.float64]
    from_far: NDArray[np.bool_]
    phase_height: NDArray[np.float64]

    def __post_init__(self) -> None:
        for name in ("elevation", "distance", "phase_height"):
            object.__setattr__(self, name, read_only(getattr(self, name)))
        for name in ("horizontal", "vertical"):
            object.__setattr__(self, name, read_only(getattr(self, name), complex))
        object.__setattr__(self, "from_far", read_only(self.from_far, bool))


def ground_coefficients(
    *, ground: Ground, elevation: ArrayLike, frequency: float
) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    """Reflection coefficients of a flat ground, perfect or real.

    Parameters
    ----------
    ground
        the ground [-]
    elevation
        grazing angle, 0 to pi/2 [rad] (n,)
    frequency
        frequency [Hz]

    Returns
    -------
    tuple
        horizontal and vertical coefficient {itu-p527} [-] (n,)

    Raises
    ------
    BoomwrightError
        when the ground is free space
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

    Parameters
    ----------
    height
        height of the antenna above that ground [m]
    elevation
        elevation, 0 to pi/2; the distance is infinite at 0 [rad] (n,)

    Returns
    -------
    NDArray
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

    Parameters
    ----------
    height
        height of the antenna above the ground [m]
    elevation
        elevation, above 0 [rad]
    wavelength
        wavelength [m]

    Returns
    -------
    tuple
        distance of the near end, negative behind the mast, and of the far end, from
        sqrt(x^2 + h^2) - x cos a = h sin a + wl/2 [m] (2,)

    Raises
    ------
    BoomwrightError
        when the elevation is not above 0
    """
    sine, cosine = math.sin(elevation), math.cos(elevation)
    if sine <= 0.0:
        msg = f"Fresnel zone: elevation {math.degrees(elevation):g} deg; ask above 0 deg"
        raise BoomwrightError(msg)
    path = height * sine + wavelength / 2.0
    half = math.sqrt(path**2 - (height * sine) ** 2)
    return (path * cosine - half) / sine**2, (path * cosine + half) / sine**2


def reflection_by_elevation(
    *, ground: TwoZoneGround, height: float, elevation: ArrayLike, frequency: float
) -> ReflectionByElevation:
    """Pick the ground that reflects at each elevation, and its Fresnel coefficients.

    The zone is that of the reflection point; the change at the boundary, in truth spread
    over the first Fresnel zone, is taken as sharp.

    Parameters
    ----------
    ground
        the two zones [-]
    height
        height of the antenna above the near ground, above 0 [m]
    elevation
        elevation, 0 to pi/2 [rad] (n,)
    frequency
        frequency [Hz]

    Returns
    -------
    ReflectionByElevation
        coefficients and reflection points [-]

    Raises
    ------
    BoomwrightError
        when the height is not above 0
    """
    if height <= 0.0:
        msg = f"two-zone ground: antenna height {height:g} m; give a height above 0 m"
        raise BoomwrightError(msg)
    angle = np.atleast_1d(np.asarray(elevation, dtype=float))
    near_point = reflection_distance(height=height, elevation=angle)
    far_point = reflection_distance(height=height + ground.drop, elevation=angle)
    # Over a drop both points can lie in their own zone: the near one, less far out, stays.
    from_far = near_point > ground.boundary
    near = ground_coefficients(ground=ground.near, elevation=angle, frequency=frequency)
    far = ground_coefficients(ground=ground.far, elevation=angle, frequency=frequency)
    return ReflectionByElevation(
        elevation=angle,
        horizontal=np.where(from_far, far[0], near[0]),
        vertical=np.where(from_far, far[1], near[1]),
        distance=np.where(from_far, far_point, near_point),
        from_far=from_far,
        phase_height=np.where(from_far, height + ground.drop, height),
    )


def ground_factor(
    *, reflection: ReflectionByElevation, wavelength: float, polarisation: str = "horizontal"
) -> NDArray[np.complex128]:
    """Field over the ground relative to the same antenna's field in free space.

    Parameters
    ----------
    reflection
        coefficients by elevation [-]
    wavelength
        wavelength [m]
    polarisation
        ``horizontal`` or ``vertical`` [-]

    Returns
    -------
    NDArray
        1 + R exp(-j 2 k h sin a), the same strength up and down taken [-] (n,)
    """
    k = 2.0 * math.pi / wavelength
    chosen = reflection.horizontal if polarisation == "horizontal" else reflection.vertical
    phase = np.exp(-2j * k * reflection.phase_height * np.sin(reflection.elevation))
    return np.asarray(1.0 + chosen * phase)
