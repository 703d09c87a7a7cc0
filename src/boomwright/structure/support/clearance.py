"""The room a turning beam has between guys: what it sweeps against straight guys that sag."""

from __future__ import annotations

from math import cos, sin

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.structure.support.guys import INITIAL_SHARE, GuyLevel

#: room kept between anything that turns and a guy (common practice) [m]
GUY_CLEARANCE = 0.5
#: room over the heads of people (common practice) [m]
HEAD_ROOM = 2.5
#: an infinite use cannot be told from an unknown one, so no room at all counts as this much [m]
_NO_ROOM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SweptPoints:
    """Points of a beam, each of which sweeps a circle as the beam turns."""

    names: tuple[str, ...]  #: part of the beam that each belongs to (n_points,)
    reach: Floats  #: distance from the axis it turns about [m] (n_points,)
    height: Floats  #: height above ground [m] (n_points,)


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyRoom:
    """Room asked for and room there is, at the point of a beam that comes closest."""

    level: GuyLevel
    name: str  #: part of the beam that the point belongs to
    reach: float  #: distance of the point from the axis the beam turns about [m]
    height: float  #: height of the point above ground [m]
    #: reach of a beam below the guys' hold, or drop of one above it, with what is kept free [m]
    needed: float
    #: distance from the axis to the guy at that height, or from the boom down to it [m]
    given: float
    below: bool  #: whether the beam turns below the guys' hold, inside of them
    sag: float  #: sag counted at the middle of the guys [m]

    @property
    def use(self) -> float:
        """Needed over given [-]."""
        return self.needed / self.given


def guy_sag(*, level: GuyLevel, weight_per_length: float) -> float:
    """Sag at the middle of a guy, square to it, w cos a L^2 / (8 T) {irvine-cables} [m].

    At the initial tension, or at the lowest usual one where that is not given.

    Args:
        weight_per_length: weight of a metre, with ice when there is any [N/m]
    """
    lowest = INITIAL_SHARE[0] * level.strand.breaking_strength
    tension = level.initial_tension or lowest
    return weight_per_length * cos(level.angle) * level.length**2 / (8.0 * tension)


def guy_radius(*, level: GuyLevel, height: Floats, sag: float = 0.0) -> Floats:
    """Distance from the axis to a guy, g (h - a) / h or 0 {guy-turning-radius} [m] (n_points,).

    Args:
        height: heights above ground, below the guys' hold [m] (n_points,)
        sag: sag at the middle, square to the guy; brings it closer [m]
    """
    down = (level.height - height) / (level.height - level.anchor_height)
    share = np.clip(down, 0.0, 1.0)
    inwards = 4.0 * sag * share * (1.0 - share) / sin(level.angle)
    return np.maximum(0.0, level.anchor_radius * share - inwards)


def guy_room(
    *, level: GuyLevel, boom_height: float, swept: SweptPoints, sag: float = 0.0
) -> GuyRoom:
    """Find the point of a beam that comes closest to one ring of guys.

    A beam whose boom hangs below the guys' hold turns inside of them and must not reach out to
    them; one above it turns over them and must not hang down to them. The mast is taken to stand
    where the guys start, which brings them closer than they are.

    Args:
        boom_height: boom above ground [m]
        swept: what the beam sweeps, at least one point inside of the anchors
        sag: sag of the guys at the middle, square to them [m]
    """
    below = boom_height < level.height
    if below:
        needed = swept.reach + GUY_CLEARANCE
        given = guy_radius(level=level, height=swept.height, sag=sag)
    else:
        fallen = (level.height - level.anchor_height) * swept.reach / level.anchor_radius
        needed = boom_height - swept.height + GUY_CLEARANCE
        given = boom_height - level.height + fallen
    given = np.maximum(given, _NO_ROOM)
    counted = below | (swept.reach < level.anchor_radius)
    closest = int(np.argmax(np.where(counted, needed / given, -np.inf)))
    return GuyRoom(
        level=level,
        name=swept.names[closest],
        reach=float(swept.reach[closest]),
        height=float(swept.height[closest]),
        needed=float(needed[closest]),
        given=float(given[closest]),
        below=below,
        sag=sag,
    )
