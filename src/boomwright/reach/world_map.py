"""The map with the station in the middle: every straight line from it is a bearing.

Azimuthal equidistant projection of the sphere {snyder-1395, eq. 22-4}: distance and
direction from the centre are true. Drawn on the sphere; against the ellipsoid a bearing on
the map is off by up to 0.2 degrees and a distance by up to 0.6 %, below the width of a line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import read_only
from boomwright.reach.geodesy import EARTH_RADIUS, Place


def project(
    *, longitude: ArrayLike, latitude: ArrayLike, centre: Place
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Put places on the map.

    Args:
        longitude: longitudes, east positive [rad] (n,)
        latitude: latitudes, north positive [rad] (n,)

    Returns:
        distance to the right (east) and up (north) of the centre {snyder-1395, eq. 22-4} for
        each place [m]
            (n,)
    """
    lon = np.asarray(longitude, dtype=float) - centre.longitude
    lat = np.asarray(latitude, dtype=float)
    east = np.cos(lat) * np.sin(lon)
    north = math.cos(centre.latitude) * np.sin(lat) - math.sin(centre.latitude) * np.cos(
        lat
    ) * np.cos(lon)
    up = math.sin(centre.latitude) * np.sin(lat) + math.cos(centre.latitude) * np.cos(lat) * np.cos(
        lon
    )
    across = np.hypot(east, north)
    angle = np.arctan2(across, up)
    # At the centre the direction is undefined and the scale is one.
    scale = EARTH_RADIUS * np.divide(angle, across, out=np.ones_like(angle), where=across > 1e-15)
    return scale * east, scale * north


def project_polylines(
    polylines: Iterable[NDArray[np.float64]],
    *,
    centre: Place,
    radius: float = math.pi * EARTH_RADIUS,
) -> tuple[NDArray[np.float64], ...]:
    """Put coastlines, borders or paths on the map, cut at its rim.

    A line that crosses the far side of the earth would be drawn right across the map; it is
    cut there instead. Points beyond ``radius`` are left out.

    Args:
        polylines: longitude and latitude of each point of each line [rad] (n_points, 2)
        radius: greatest distance shown [m]

    Returns:
        lines on the map, right and up of the centre, each of two points or more [m] (n_points, 2)
    """
    pieces: list[NDArray[np.float64]] = []
    for line in polylines:
        x, y = project(longitude=line[:, 0], latitude=line[:, 1], centre=centre)
        inside = np.hypot(x, y) <= radius
        # Two neighbours further apart on the map than half its radius straddle the antipode:
        # no coastline step is that long.
        jump = np.hypot(np.diff(x), np.diff(y)) > 0.5 * math.pi * EARTH_RADIUS
        breaks = np.flatnonzero(jump | (np.diff(inside.astype(int)) != 0)) + 1
        pieces += [
            read_only(np.column_stack((x[part], y[part])))
            for part in np.split(np.arange(len(x)), breaks)
            if len(part) >= 2 and inside[part[0]]
        ]
    return tuple(pieces)
