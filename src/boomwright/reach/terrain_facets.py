"""A profile as straight facets: images, points of reflection, and what sees what."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.base.records import dataclass

Real = NDArray[np.float64]

#: a ray that grazes a corner to within this counts as passing [m]
CLEARANCE = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facets:
    """A profile as corners and the straight facets between them."""

    corner: Real  #: corners, x along the heading and z up [m] (n, 2)
    #: slope angle of each facet, the first reaching back and the last ahead without end [rad] (n +
    #: 1,)
    slope: Real

    def __post_init__(self) -> None:
        object.__setattr__(self, "corner", read_only(self.corner))
        object.__setattr__(self, "slope", read_only(self.slope))

    @property
    def count(self) -> int:
        """Number of corners."""
        return len(self.corner)

    def open_angle(self, c: int) -> float:
        """Open angle of a corner, the air side.

        Returns:
            angle, above pi over a hill and below it in a valley [rad]
        """
        return float(math.pi + self.slope[c] - self.slope[c + 1])

    def angle_from_left(self, c: int, direction: Real | float) -> Real:
        """Angle of a direction at a corner, counted from its left facet through the air.

        Args:
            direction: direction, counter-clockwise from the heading [rad] (n,)

        Returns:
            angle, 0 along the left facet [rad] (n,)
        """
        turned = math.pi + self.slope[c] - np.asarray(direction, dtype=float)
        # Along a facet rounding may fall on either side of 0, so the wrap is put below ground.
        return np.asarray(np.remainder(turned + 0.25, 2.0 * math.pi) - 0.25)


def facets_of(*, distance: Real, height: Real) -> Facets:
    """Make facets of a simplified profile.

    Args:
        distance: distances, rising [m] (n,)
        height: [m] (n,)
    """
    slopes = np.append(np.arctan2(np.diff(height), np.diff(distance)), 0.0)
    points = np.column_stack((distance, height))[1:]
    turns = np.abs(np.diff(slopes)) > 1e-6
    if not np.any(turns):
        # One plane: its corner with itself gives the facets a base point and diffracts nothing.
        return Facets(corner=points[-1:], slope=np.array([slopes[0], slopes[0]]))
    return Facets(corner=points[turns], slope=np.append(slopes[:-1][turns], slopes[-1]))


def sees_far(facets: Facets, *, place: Real, direction: Real) -> NDArray[np.bool_]:
    """Whether the ground leaves the way free to the far field ahead.

    Args:
        place: starts, x and z [m] (n, 2)
        direction: elevations, up to pi/2 [rad] (n,)

    Returns:
        true where the way is free [-] (n,)
    """
    ahead = facets.corner[:, 0] - place[..., 0, None]
    higher = facets.corner[:, 1] - place[..., 1, None]
    cosine, sine = np.cos(direction)[..., None], np.sin(direction)[..., None]
    blocked = (ahead > 1e-9) & (ahead * sine - higher * cosine < -CLEARANCE)
    return np.asarray(~np.any(blocked, axis=-1))


def sees(facets: Facets, *, start: Real, end: Real) -> NDArray[np.bool_]:
    """Whether straight lines between places on or above the ground stay above it.

    Args:
        start: one end of each line, x and z [m] (n, 2)
        end: the other end [m] (n, 2)

    Returns:
        true where the way is free [-] (n,)
    """
    start, end = np.broadcast_arrays(start, end)
    forward = (start[..., 0] <= end[..., 0])[..., None]
    low, high = np.where(forward, start, end), np.where(forward, end, start)
    span = np.maximum(high[..., 0] - low[..., 0], 1e-12)
    share = (facets.corner[:, 0] - low[..., 0, None]) / span[..., None]
    line = low[..., 1, None] + share * (high[..., 1] - low[..., 1])[..., None]
    between = (share > 1e-9) & (share < 1.0 - 1e-9)
    return np.asarray(~np.any(between & (line < facets.corner[:, 1] - CLEARANCE), axis=-1))


def _base(facets: Facets, i: int) -> Real:
    return np.asarray(facets.corner[min(i, facets.count - 1)])


def _normal(facets: Facets, i: int) -> Real:
    return np.array([-math.sin(facets.slope[i]), math.cos(facets.slope[i])])


def above(facets: Facets, i: int, place: Real) -> float:
    """Distance of a place from the line of a facet.

    Args:
        place: x and z [m] (2,)

    Returns:
        distance, positive on the air side [m]
    """
    return float((place - _base(facets, i)) @ _normal(facets, i))


def mirrored(facets: Facets, i: int, place: Real) -> Real:
    """Image of a place in the line of a facet.

    Args:
        place: x and z [m] (2,)

    Returns:
        x and z of the image [m] (2,)
    """
    return np.asarray(place - 2.0 * above(facets, i, place) * _normal(facets, i))


def _on_facet(facets: Facets, i: int, point: Real) -> NDArray[np.bool_]:
    x = point[..., 0]
    inside = np.ones(x.shape, dtype=bool)
    if i > 0:
        inside &= x >= facets.corner[i - 1, 0]
    if i < facets.count:
        inside &= x < facets.corner[i, 0]
    return inside


def hit(facets: Facets, i: int, *, image: Real, direction: Real) -> tuple[Real, NDArray[np.bool_]]:
    """Find where rays that seem to come from an image below a facet come up through it.

    Args:
        image: x and z of the image [m] (2,)
        direction: directions of the rays [rad] (n,)

    Returns:
        points x and z [m] (n, 2) and whether each lies on the facet [-] (n,)
    """
    normal = _normal(facets, i)
    cosine, sine = np.cos(direction), np.sin(direction)
    rise = cosine * normal[0] + sine * normal[1]
    up = rise > 1e-9
    depth = -above(facets, i, image)
    length = np.divide(depth, rise, out=np.zeros_like(rise), where=up)
    point = image + length[..., None] * np.stack((cosine, sine), axis=-1)
    return point, up & _on_facet(facets, i, point)


def turned_down(facets: Facets, i: int, direction: Real) -> Real:
    """Direction of travel before the reflection that sends a ray into a direction [rad] (n,).

    Args:
        direction: direction after the reflection [rad] (n,)
    """
    return np.asarray(2.0 * facets.slope[i] - direction)


def bends(facets: Facets, c: int) -> bool:
    """Whether a corner is one at all.

    Returns:
        false when its two facets are in line
    """
    return bool(abs(facets.slope[c] - facets.slope[c + 1]) > 1e-9)
