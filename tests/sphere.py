"""Great circles on a sphere: the independent formulas that the ellipsoid is held against."""

from __future__ import annotations

import math

from boomwright.reach.geodesy import EARTH_RADIUS, Place


def sphere_distance(*, station: Place, target: Place, radius: float = EARTH_RADIUS) -> float:
    """Length of the short great circle on a sphere, by the haversine formula.

    Args:
        radius: radius of the sphere [m]

    Returns:
        distance {williams-formulary} [m]
    """
    half_lat = 0.5 * (target.latitude - station.latitude)
    half_lon = 0.5 * (target.longitude - station.longitude)
    chord = (
        math.sin(half_lat) ** 2
        + math.cos(station.latitude) * math.cos(target.latitude) * math.sin(half_lon) ** 2
    )
    return 2.0 * radius * math.asin(min(1.0, math.sqrt(chord)))


def sphere_bearing(*, station: Place, target: Place) -> float:
    """Initial bearing of the short great circle on a sphere.

    Returns:
        direction at the start, clockwise from true north, 0 to 2 pi {williams-formulary} [rad]
    """
    east = target.longitude - station.longitude
    return math.atan2(
        math.sin(east) * math.cos(target.latitude),
        math.cos(station.latitude) * math.sin(target.latitude)
        - math.sin(station.latitude) * math.cos(target.latitude) * math.cos(east),
    ) % (2.0 * math.pi)
