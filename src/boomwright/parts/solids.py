"""Round bars and blocks: the solids that every part of the station is made of.

A bent part (a U-bolt, a wire) is several of them. Places are in the frame of what carries the
part: x along the boom or to the north, y to the left of that, z up.
"""

from __future__ import annotations

import math
from itertools import pairwise

from boomwright.base.records import dataclass

Point = tuple[float, float, float]


def between(one: Point, other: Point, share: float) -> Point:
    """Place at a share of the straight way from one place to another [m] (3,).

    Args:
        share: 0 for the first, 1 for the other [-]
    """
    x, y, z = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return (x, y, z)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A straight round bar or tube with flat ends."""

    start: Point  #: middle of one end [m] (3,)
    end: Point  #: middle of the other [m] (3,)
    diameter: float  #: outer diameter [m]
    bore: float = 0.0  #: inner diameter, 0 for a solid bar [m]

    @property
    def length(self) -> float:
        """Length between the ends [m]."""
        return math.dist(self.start, self.end)

    @property
    def volume(self) -> float:
        """Volume of the metal [m^3]."""
        return math.pi * (self.diameter**2 - self.bore**2) / 4.0 * self.length

    @property
    def middle(self) -> Point:
        """Middle of the bar [m]."""
        (a, b, c), (d, e, f) = self.start, self.end
        return (0.5 * (a + d), 0.5 * (b + e), 0.5 * (c + f))


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A box that stands upright, turned about the vertical."""

    middle: Point  #: middle of the box [m] (3,)
    size: Point  #: along its own x, its own y, and z [m] (3,)
    turn: float = 0.0  #: turned to the left about z [rad]

    @property
    def volume(self) -> float:
        """Volume of the box [m^3]."""
        return math.prod(self.size)


Solid = Bar | Block


def bent(points: tuple[Point, ...], *, diameter: float) -> tuple[Bar, ...]:
    """Lay straight bars along a line of points.

    Args:
        points: corners of the line [m] (n_points, 3)
        diameter: diameter of the bars [m]
    """
    return tuple(Bar(start=a, end=b, diameter=diameter) for a, b in pairwise(points) if a != b)


def edges_of(solid: Solid) -> tuple[tuple[Point, Point], ...]:
    """Straight lines along the outside of a solid, from one end to the other [m] (4, 2, 3).

    A bar has them at both sides, on top and below, a block at its upright edges.
    """
    if isinstance(solid, Block):
        (x, y, z), (wide, deep, high) = solid.middle, solid.size
        c, s = math.cos(solid.turn), math.sin(solid.turn)
        corners = [(0.5 * a * wide, 0.5 * b * deep) for a in (-1, 1) for b in (-1, 1)]
        placed = [(x + c * u - s * v, y + s * u + c * v) for u, v in corners]
        return tuple(((u, v, z - 0.5 * high), (u, v, z + 0.5 * high)) for u, v in placed)
    (ax, ay, az), (bx, by, bz) = solid.start, solid.end
    level, radius = math.hypot(bx - ax, by - ay), 0.5 * solid.diameter
    u, v = ((bx - ax) / level, (by - ay) / level) if level > 0.0 else (1.0, 0.0)
    flat = _level(solid)
    # Seen from above its flat end is an ellipse; its four tips are taken.
    tilt = math.copysign(math.sqrt(max(0.0, 1.0 - flat * flat)), bz - az)
    tips = ((-v, u, 0.0), (v, -u, 0.0), (u * tilt, v * tilt, -flat), (-u * tilt, -v * tilt, flat))
    return tuple(
        (
            (ax + radius * dx, ay + radius * dy, az + radius * dz),
            (bx + radius * dx, by + radius * dy, bz + radius * dz),
        )
        for dx, dy, dz in tips
    )


def from_above(solid: Solid) -> tuple[tuple[float, float], ...]:
    """Four corners of a solid seen from above, round which its outline runs [m] (4, 2)."""
    if isinstance(solid, Block):
        a, b, c, d = ((x, y) for (x, y, _), _ in edges_of(solid))
        return (a, b, d, c)
    (ax, ay, _), (bx, by, _) = solid.start, solid.end
    level, radius = math.hypot(bx - ax, by - ay), 0.5 * solid.diameter
    u, v = ((bx - ax) / level, (by - ay) / level) if level > 1e-9 else (1.0, 0.0)
    out = 0.0 if level > 1e-9 else radius  # an upright bar is seen on its end
    return tuple(
        (x + side * out * u - radius * turn * v, y + side * out * v + radius * turn * u)
        for x, y, side, turn in ((ax, ay, -1, -1), (bx, by, 1, -1), (bx, by, 1, 1),
                                 (ax, ay, -1, 1))
    )  # fmt: skip


def reach_of(solid: Solid, about: tuple[float, float]) -> float:
    """Measure how far the outside of a solid reaches from a vertical [m].

    Args:
        about: where the vertical stands [m] (2,)
    """
    return max(
        math.hypot(x - about[0], y - about[1]) for edge in edges_of(solid) for x, y, _ in edge
    )


def top_of(solid: Solid) -> float:
    """Highest place of a solid, in the frame it stands in [m]."""
    return max(z for edge in edges_of(solid) for _, _, z in edge)


def _level(bar: Bar) -> float:
    """Share of a bar's length that lies level; 1 for one without length."""
    (ax, ay, _), (bx, by, _) = bar.start, bar.end
    return math.hypot(bx - ax, by - ay) / bar.length if bar.length else 1.0


def lowest_beyond(solid: Solid, distance: float) -> float | None:
    """Lowest height of a solid further out than a circle round x = y = 0, if it does [m].

    Args:
        distance: radius of that circle [m]
    """
    if reach_of(solid, (0.0, 0.0)) < distance:
        return None
    if isinstance(solid, Block):
        return solid.middle[2] - 0.5 * solid.size[2]
    (ax, ay, az), (bx, by, bz) = solid.start, solid.end
    radius = 0.5 * solid.diameter
    dx, dy, out = bx - ax, by - ay, max(0.0, distance - radius)
    square, half, rest = dx * dx + dy * dy, ax * dx + ay * dy, ax * ax + ay * ay - out * out
    shares = [0.0, 1.0]
    root = half * half - square * rest
    if square > 0.0 and root >= 0.0:
        shares += [(-half + sign * math.sqrt(root)) / square for sign in (-1.0, 1.0)]
    inside = [
        share
        for share in shares
        if 0.0 <= share <= 1.0 and math.hypot(ax + share * dx, ay + share * dy) >= out - 1e-9
    ]
    lowest = min((az + share * (bz - az) for share in inside), default=az)
    return lowest - radius * _level(solid)
