"""The room a turning beam has between guys: what it sweeps against straight guys that sag."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, sin

from boomwright.structure.support.guys import INITIAL_SHARE, GuyLevel

#: room kept between anything that turns and a guy (common practice) [m]
GUY_CLEARANCE = 0.5
#: room over the heads of people (common practice) [m]
HEAD_ROOM = 2.5
#: an infinite use cannot be told from an unknown one, so no room at all counts as this much [m]
_NO_ROOM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class SweptPoint:
    """A point of a beam, which sweeps a circle as the beam turns."""

    name: str  #: part of the beam
    reach: float  #: distance from the axis it turns about [m]
    height: float  #: height above ground [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyRoom:
    """Room asked for and room there is, at the point of a beam that comes closest."""

    level: GuyLevel
    point: SweptPoint
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
    """Sag at the middle of a guy, square to it, w cos a L^2 / (8 T) {irvine-cables}.

    Args:
        weight_per_length: weight of a metre, with ice when there is any [N/m]

    Returns:
        sag at the initial tension; where that is not given at the lowest usual one [m]
    """
    lowest = INITIAL_SHARE[0] * level.strand.breaking_strength
    tension = level.initial_tension or lowest
    return weight_per_length * cos(level.angle) * level.length**2 / (8.0 * tension)


def guy_radius(*, level: GuyLevel, height: float, sag: float = 0.0) -> float:
    """Distance from the axis to a guy at some height, g (h - a) / h {guy-turning-radius}.

    Args:
        height: height above ground, below the guys' hold [m]
        sag: sag at the middle, square to the guy; brings it closer [m]

    Returns:
        distance, never below zero [m]
    """
    down = (level.height - height) / (level.height - level.anchor_height)
    share = min(max(down, 0.0), 1.0)
    inwards = 4.0 * sag * share * (1.0 - share) / sin(level.angle)
    return max(0.0, level.anchor_radius * share - inwards)


def guy_room(
    *, level: GuyLevel, boom_height: float, points: Sequence[SweptPoint], sag: float = 0.0
) -> GuyRoom:
    """Find the point of a beam that comes closest to one ring of guys.

    A beam whose boom hangs below the guys' hold turns inside of them and must not reach out to
    them; one above it turns over them and must not hang down to them. The mast is taken to stand
    where the guys start, which brings them closer than they are.

    Args:
        boom_height: boom above ground [m]
        points: what the beam sweeps (n_points,)
        sag: sag of the guys at the middle, square to them [m]
    """
    below = boom_height < level.height
    rooms = []
    for point in points:
        if below:
            needed = point.reach + GUY_CLEARANCE
            given = guy_radius(level=level, height=point.height, sag=sag)
        elif point.reach >= level.anchor_radius:
            continue
        else:
            share = point.reach / level.anchor_radius
            fallen = (level.height - level.anchor_height) * share
            needed = boom_height - point.height + GUY_CLEARANCE
            given = boom_height - level.height + fallen
        rooms.append(
            GuyRoom(
                level=level,
                point=point,
                needed=needed,
                given=max(given, _NO_ROOM),
                below=below,
                sag=sag,
            )
        )
    return max(rooms, key=lambda room: room.use)
