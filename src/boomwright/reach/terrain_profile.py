"""The ground profile along a heading, and its significant corners."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.base.records import dataclass

Real = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TerrainProfile:
    """Height of the ground along one heading.

    Before the first point the ground goes on at the slope of the first stretch, beyond the
    last point it goes on level.

    Raises:
        BoomwrightError: when the arrays do not match, are not finite, do not rise, or do not
            span the mast
    """

    #: distance from the mast, strictly rising, from 0 or less to above 0 [m] (n,)
    distance: NDArray[np.float64]
    height: NDArray[np.float64]  #: height of the ground [m] (n,)

    def __post_init__(self) -> None:
        object.__setattr__(self, "distance", read_only(self.distance))
        object.__setattr__(self, "height", read_only(self.height))
        fault = _fault(self.distance, self.height)
        if fault:
            raise BoomwrightError(f"terrain profile: {fault}")

    @property
    def height_at_mast(self) -> float:
        """Height of the ground at the mast [m]."""
        return float(np.interp(0.0, self.distance, self.height))


def _fault(distance: NDArray[np.float64], height: NDArray[np.float64]) -> str:
    if distance.ndim != 1 or distance.shape != height.shape or len(distance) < 2:
        return (
            f"{distance.shape} distances and {height.shape} heights; "
            "give two lists of the same length, at least 2"
        )
    if not (np.all(np.isfinite(distance)) and np.all(np.isfinite(height))):
        return "a value is not a finite number; fill the gaps in the profile first"
    steps = np.diff(distance)
    if np.any(steps <= 0.0):
        at = int(np.argmax(steps <= 0.0)) + 1
        return f"distance {distance[at]:g} m at point {at} does not rise; sort and drop doubles"
    if distance[0] > 0.0 or distance[-1] <= 0.0:
        return (
            f"it runs from {distance[0]:g} m to {distance[-1]:g} m; "
            "start it at the mast (0 m) or behind it and end it in front"
        )
    return ""


def tolerated_error(*, distance: ArrayLike, height: float, wavelength: float) -> Real:
    """Height error of the profile that does no harm, by distance [m] (n,).

    The smaller of two, but nowhere below an eighteenth of a wavelength: the error d that
    turns the phase of the reflection from that distance by 4 pi d sin(a) / wl = 0.24 rad,
    with tan(a) = height / distance; and a tenth of the radius sqrt(wl x / 2) by which
    diffraction at that distance counts.

    Args:
        distance: distance from the mast [m] (n,)
        height: height of the antenna [m]
    """
    x = np.abs(np.asarray(distance, dtype=float))
    floor = wavelength / 18.0
    sine = height / np.hypot(height, x)
    by_phase = floor * math.sin(math.radians(20.0)) / sine
    by_diffraction = 0.1 * np.sqrt(wavelength * x / 2.0)
    return np.asarray(np.maximum(floor, np.minimum(by_phase, by_diffraction)))


def _kept(*, distance: Real, height: Real, tolerance: Real) -> list[int]:
    """Ramer, Douglas and Peucker, held to the height error, which is what the phase sees."""
    keep = {0, len(distance) - 1}
    spans = [(0, len(distance) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        slope = (height[last] - height[first]) / (distance[last] - distance[first])
        inner = slice(first + 1, last)
        line = height[first] + slope * (distance[inner] - distance[first])
        off = np.abs(height[inner] - line) / tolerance[inner]
        worst = int(np.argmax(off))
        if off[worst] > 1.0:
            middle = first + 1 + worst
            keep.add(middle)
            spans += [(first, middle), (middle, last)]
    return sorted(keep)


def with_mast_foot(profile: TerrainProfile) -> TerrainProfile:
    """Give the profile a point at the foot of the mast, from which antenna heights count."""
    if 0.0 in profile.distance:
        return profile
    at = int(np.searchsorted(profile.distance, 0.0))
    return TerrainProfile(
        distance=np.insert(profile.distance, at, 0.0),
        height=np.insert(profile.height, at, profile.height_at_mast),
    )


def significant_profile(
    profile: TerrainProfile, *, tolerance: ArrayLike, most_points: int
) -> tuple[TerrainProfile, float]:
    """Keep the points without which the profile would be off by more than a tolerance.

    When too many points remain the tolerance is widened by a quarter until they fit.

    Args:
        tolerance: greatest height error allowed at each point, above 0 [m] (n,)
        most_points: most points kept, at least 3

    Returns:
        the simpler profile, and the factor by which the tolerance was widened [-]

    Raises:
        BoomwrightError: when tolerance or number of points is too small
    """
    allowed = np.broadcast_to(np.asarray(tolerance, dtype=float), profile.distance.shape)
    if np.any(allowed <= 0.0) or most_points < 3:
        raise BoomwrightError(
            f"terrain profile: tolerance {allowed.min():g} m and {most_points} points; "
            "give a tolerance above 0 m and at least 3 points"
        )
    factor = 1.0
    kept = _kept(distance=profile.distance, height=profile.height, tolerance=allowed)
    while len(kept) > most_points:
        factor *= 1.25
        kept = _kept(distance=profile.distance, height=profile.height, tolerance=factor * allowed)
    simple = TerrainProfile(distance=profile.distance[kept], height=profile.height[kept])
    return simple, factor
