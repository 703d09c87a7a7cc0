"""Wire with corners: cut to its length along the points it runs through, closed to a loop.

All that is said of one half holds for its mirror image across the boom, the plane y = 0.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from boomwright.parts.solids import Point, between

Corner = Point

#: points nearer than this are one [m]
_SAME = 1e-9


def along(points: Sequence[Corner]) -> float:
    """Length of the way through some points [m]."""
    return sum(math.dist(low, high) for low, high in pairwise(points))


def on_line(place: Corner, start: Corner, end: Corner) -> tuple[Corner, float]:
    """Nearest point of a straight piece [m] (3,), and its share of the way to the end [-]."""
    way = [b - a for a, b in zip(start, end, strict=True)]
    size = sum(step * step for step in way)
    walked = sum((p - a) * step for p, a, step in zip(place, start, way, strict=True))
    share = min(1.0, max(0.0, walked / size)) if size > 0.0 else 0.0
    return between(start, end, share), share


def cut_to(points: Sequence[Corner], length: float) -> tuple[Corner, ...]:
    """Walk through some points until a wire of this length ends.

    Args:
        points: at least two, each apart from the next [m] (n, 3)
        length: of the wire; what reaches beyond the last point goes on straight [m]

    Returns:
        corners passed, then the end of the wire [m] (n, 3)
    """
    walked, left = [points[0]], length
    for number, (low, high) in enumerate(pairwise(points), start=2):
        piece = math.dist(low, high)
        if left <= piece + _SAME or number == len(points):
            walked.append(between(low, high, left / piece))
            break
        walked.append(high)
        left -= piece
    return tuple(walked)


def crossing(points: Sequence[Corner], straight: float) -> tuple[Corner, ...]:
    """Lead a half straight across the boom before its first corner.

    Args:
        points: from the middle, which lies at y = 0 [m] (n, 3)
        straight: length of the straight piece on this side [m]
    """
    (x, _, z), second = points[0], points[1]
    if abs(second[0] - x) < _SAME and abs(second[2] - z) < _SAME and second[1] > 0.0:
        return tuple(points)
    return (points[0], (x, straight, z), *points[1:])


def closed_corners(points: Sequence[Corner], length: float, straight: float) -> tuple[Corner, ...]:
    """Half a loop of a given length, grown or shrunk about the middle of its two crossings.

    Args:
        points: from one crossing of the boom to the other; they give the shape [m] (n, 3)
        length: of the half [m]
        straight: least straight piece at each crossing [m]
    """
    (x1, _, z1), (x2, _, z2) = points[0], points[-1]
    middle = (0.5 * (x1 + x2), 0.0, 0.5 * (z1 + z2))
    scale = length / along(points)
    for _ in range(4):
        grown = [between(middle, point, scale) for point in points]
        found = crossing(crossing(grown, straight)[::-1], straight)[::-1]
        scale *= length / along(found)
    return found
