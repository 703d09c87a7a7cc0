"""Round bars and blocks: the solids that every part of the station is made of.

A bent part (a U-bolt, a wire) is several of them. Places are in the frame of what carries the
part: x along the boom or to the north, y to the left of that, z up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

Point = tuple[float, float, float]


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
