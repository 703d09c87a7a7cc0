"""Clamp plates: the holes of the U-bolts that hold two crossing tubes {common-practice-clamps}."""

from __future__ import annotations

import math

from boomwright.base.records import dataclass
from boomwright.parts.part import Hole, Part
from boomwright.parts.solids import Bar, Block, Point, bent

#: a tube thicker than this takes the larger U-bolt [m] {common-practice-clamps}
_LARGE_TUBE = 0.065
#: thread of the U-bolt [m] {common-practice-clamps}
_SMALL_BOLT, _LARGE_BOLT = 0.008, 0.010
#: hole over the thread [m] {common-practice-clamps}
PLATE_PLAY = 0.001
#: centre of a hole from the edge, in hole diameters {common-practice-clamps}
_EDGE = 2.0
#: the least of it in a plate of the owner's: light metal takes 1.5 {common-practice-clamps}, the
#: standard not less than 1.2 {en-1999-1-1, table 8.2} [-]
EDGE_LEAST = 1.5
#: steel or aluminium plate for a boom below and above the large tube [m] {common-practice-clamps}
_THIN, _THICK = 0.006, 0.010
#: straight pieces that a U-bolt's bow is drawn with
_BOW = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampPlate:
    """A plate with two pairs of U-bolts across each other."""

    name: str
    level_tube: str  #: name of the tube that lies level on the pattern
    upright_tube: str  #: name of the tube that stands upright on it
    level_diameter: float  #: diameter of the level tube [mm]
    upright_diameter: float  #: diameter of the upright tube [mm]
    level_bolt: float  #: thread of its U-bolts [mm]
    upright_bolt: float  #: thread of the other pair [mm]
    #: half distances of its four holes along and across that tube [mm] (2,)
    level_holes: tuple[float, float]
    #: half distances of the other four holes, across and along that tube [mm] (2,)
    upright_holes: tuple[float, float]
    width: float  #: width of the plate [mm]
    height: float  #: height of the plate [mm]
    thickness: float  #: thickness, a common one; whoever answers for the structure decides [mm]


def clamp_plate(
    *,
    name: str,
    level: str,
    level_diameter: float,
    upright: str,
    upright_diameter: float,
    thread: float | None = None,
    keep_clear: tuple[float, float] | None = None,
) -> ClampPlate:
    """Lay out a plate for two crossing tubes, to half millimetres {common-practice-clamps}.

    Args:
        level_diameter: [m]
        upright_diameter: [m]
        thread: of all its U-bolts; None takes the usual one of each tube [m]
        keep_clear: from the middle along the level tube, where its U-bolts may not stand [m] (2,)
    """
    level_bolt, upright_bolt = (
        thread or (_SMALL_BOLT if each <= _LARGE_TUBE else _LARGE_BOLT)
        for each in (level_diameter, upright_diameter)
    )
    # A U-bolt closes round its tube, so its legs stand one thread further apart than the tube.
    across_level = _half_mm((level_diameter + level_bolt) / 2.0)
    across_upright = _half_mm((upright_diameter + upright_bolt) / 2.0)
    # The pairs sit outside the other tube's own bolts, with room for a nut and a spanner.
    room = 2.5 * max(level_bolt, upright_bolt) * 1000.0
    along_level = math.ceil(across_upright + room)
    if keep_clear is not None and keep_clear[0] < 1e-3 * along_level < keep_clear[1]:
        along_level = math.ceil(1e3 * keep_clear[1] - 1e-6)
    along_upright = math.ceil(across_level + room)
    edge = _EDGE * (max(level_bolt, upright_bolt) + PLATE_PLAY) * 1000.0
    return ClampPlate(
        name=name,
        level_tube=level,
        upright_tube=upright,
        level_diameter=level_diameter * 1000.0,
        upright_diameter=upright_diameter * 1000.0,
        level_bolt=level_bolt * 1000.0,
        upright_bolt=upright_bolt * 1000.0,
        level_holes=(float(along_level), across_level),
        upright_holes=(across_upright, float(along_upright)),
        width=2.0 * math.ceil(max(along_level, across_upright) + edge),
        height=2.0 * math.ceil(max(along_upright, across_level) + edge),
        thickness=1000.0 * (_THIN if level_diameter <= _LARGE_TUBE else _THICK),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortSide:
    """A side of a plate that leaves too little metal beside its holes."""

    side: int  #: 0 along its level tube, 1 along the upright one
    hole: Hole  #: the holes nearest to its edge
    edge: float  #: from their middle to the edge, negative outside of the plate [m]
    need: float  #: the whole side that they need [m]


def short_sides(part: Part) -> tuple[ShortSide, ...]:
    """Sides of a clamp plate that are too short for its holes (n_sides,)."""
    (plate,) = part.solids
    if not isinstance(plate, Block) or not part.holes:
        return ()
    x, y, z = plate.size
    found = []
    for side, long in enumerate((y, x) if part.role == "element plate" else (x, z)):
        outs = [(abs(hole.across) if side else max(map(abs, hole.at)), hole) for hole in part.holes]
        need, out, hole = max(
            ((2.0 * (out + EDGE_LEAST * hole.diameter), out, hole) for out, hole in outs),
            key=lambda each: each[0],
        )
        if need > long + 1e-6:
            found.append(ShortSide(side=side, hole=hole, edge=0.5 * long - out, need=need))
    return tuple(found)


def _half_mm(length: float) -> float:
    return round(length * 2000.0) / 2.0


def u_bolt(
    *, middle: Point, along: Point, away: Point, reach: float, diameter: float, thread: float
) -> tuple[Bar, ...]:
    """Bend a U-bolt round a tube; its bow touches the tube, its legs go through the plate.

    Args:
        middle: on the tube's axis [m] (3,)
        along: direction of the tube (3,)
        away: direction from the tube to the plate (3,)
        reach: from the tube's axis to the far side of the plate [m]
        diameter: diameter that it is bent for [m]
        thread: [m]
    """
    aside = (
        away[1] * along[2] - away[2] * along[1],
        away[2] * along[0] - away[0] * along[2],
        away[0] * along[1] - away[1] * along[0],
    )
    radius = 0.5 * (diameter + thread)

    def at(out: float, side: float) -> Point:
        x, y, z = (m + out * a + side * s for m, a, s in zip(middle, away, aside, strict=True))
        return (x, y, z)

    # The corners lie outside of the circle, so that the straight pieces touch the tube.
    step = math.pi / _BOW
    corner = radius / math.cos(0.5 * step)
    bow = [
        at(-corner * math.sin((k + 0.5) * step), corner * math.cos((k + 0.5) * step))
        for k in range(_BOW)
    ]
    end = reach + 2.0 * thread
    points = (at(end, radius), at(0.0, radius), *bow, at(0.0, -radius), at(end, -radius))
    return bent(points, diameter=thread)
