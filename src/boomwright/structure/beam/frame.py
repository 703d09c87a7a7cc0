"""Wire on a frame: spreaders in bending with the pull of the wires, wires under wind and ice.

A spreader is a stepped tube clamped at the hub {beam-theory}: its own weight, ice and wind as line
loads, and at its tip half of each piece of wire that ends there, with what the wires pull square
to it. Wires of other beams further in count at the tip with the same moment about the hub: exact
there, too much further out. As it gives, that pull stays the one in still air; what pushes along it
grows its bending like that of any column {aisc-360-22, eq. A-8-3}. Wire between two corners is a
flat parabola; what it is stretched by holds it back {irvine-cables}. There the corners are taken as
fixed, which overstates the pull of the wires.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Element, Frame, FramePoint, Spreader, on_line
from boomwright.structure.beam.stepped import Segment, cantilever, weight_loads, wind_loads
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.support.columns import amplification
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat, coat_mass, seen_diameter

Vector = NDArray[np.float64]
#: both ends of a straight piece of wire [m] (3,) and its diameter [m]
_Piece = tuple[Vector, Vector, float]

#: points nearer than this are one [m]
_SAME = 1e-6
#: points of another frame that lie on a spreader are this near to it [m]
_ON_SPREADER = 0.06
#: cosine between what leaves a point, from which on it is one line [-]
_ONE_LINE = 0.9999
#: wire that ends this close to the root of a spreader goes on pointing at it as the pole gives [m]
_NEAR_ROOT = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreaderBending:
    """One spreader under one load."""

    name: str  #: point that it holds
    droop: float  #: of its tip, square to it [m]
    stresses: tuple[float, ...]  #: bending and push together, inner end of each section [Pa]

    @property
    def stress(self) -> float:
        """Largest [Pa]."""
        return max(self.stresses)


@dataclass(frozen=True, slots=True, kw_only=True)
class WirePull:
    """The most strained straight piece of wire under one load."""

    span: float  #: its length [m]
    tension: float  #: pull in it [N]
    sag: float  #: in its middle [m]
    diameter: float  #: of its metal [m]


def wire_weight(*, diameter: float, density: float, ice: IceCoat | None = None) -> float:
    """Weight of a metre of wire, with ice when there is any [N/m].

    Args:
        diameter: of its metal [m]
        density: [kg/m^3]
    """
    metal = math.pi / 4.0 * diameter**2 * density
    return (metal + coat_mass(diameter, ice)) * STANDARD_GRAVITY


def wire_tension(*, span: float, still: float, weight: float, load: float, stretch: float) -> float:
    """Pull in a wire between two fixed points under more load than its weight {irvine-cables}.

    The length of a flat parabola, L (1 + w^2 L^2 / (24 T^2)), grows by what the pull stretches.

    Args:
        span: between its ends [m]
        still: pull without wind and ice [N]
        weight: of a metre then [N/m]
        load: on a metre now, weight included [N/m]
        stretch: stiffness EA [N]

    Returns:
        root T of T^2 (T - still + EA w^2 L^2 / (24 still^2)) = EA load^2 L^2 / 24 [N]
    """
    slack = stretch * (weight * span / still) ** 2 / 24.0
    roots = np.roots([1.0, slack - still, 0.0, -stretch * (load * span) ** 2 / 24.0])
    return float(max(root.real for root in roots if abs(root.imag) < 1e-6 * max(abs(root), 1.0)))


def spreader_points(frame: Frame) -> tuple[FramePoint, ...]:
    """Points that spreaders hold, of one side (n,)."""
    held = () if frame.spreader is None else frame.spreader.to
    return tuple(point for point in frame.points if point.name in held)


def segments_of(spreader: Spreader) -> tuple[Segment, ...]:
    """Tubes of a spreader from the hub outwards (n_sections,)."""
    return tuple(
        Segment(
            shape=TubeShape(diameter=tube.diameter, wall=tube.wall or 0.5 * tube.diameter),
            length=tube.length,
            elastic_modulus=spreader.elastic_modulus,
            density=spreader.density,
        )
        for tube in spreader.sections
    )


def _pieces(element: Element) -> Iterator[tuple[Vector, Vector]]:
    """Straight pieces of a whole element, the short one across the boom left out."""
    corners = [np.array(corner) for corner in element.outline]
    for low, high in pairwise(corners):
        if abs(low[1] + high[1]) > _SAME or np.linalg.norm(high - low) > 2.5 * element.middle:
            yield low, high


@dataclass(frozen=True, slots=True, kw_only=True)
class _Leaving:
    """Wire, or the cord at its end, that leaves a point of the frame."""

    way: Vector  #: from the point [-] (3,)
    far: Vector  #: the point that it leads to [m] (3,)
    length: float  #: of wire on this piece; a cord has none [m]
    element: Element


def _meeting(beam: Beam, point: FramePoint) -> Iterator[_Leaving]:
    """Everything that leaves a point, by the way its elements run through it.

    Wires run as the frame is drawn: those of the shape that hangs would hold it up once more. A
    loop is cut to its length, and a cord leads from an open end to the last point, or to the end of
    the other wire that comes from there: both are one line with one pull.
    """
    mirror = np.array([1.0, -1.0, 1.0])
    drawn = {} if beam.frame is None else {each.name: each for each in beam.frame.points}
    for element in beam.elements:
        places = [np.array(drawn.get(each.name, each).place) for each in element.path]
        walked = 0.0
        for number, (low, high) in enumerate(pairwise(places)):
            piece = float(np.linalg.norm(high - low))
            left = piece if element.closed else min(max(element.half_length - walked, 0.0), piece)
            walked += piece
            for here, far in ((number, high), (number + 1, low)):
                if not point.name or element.path[here].name != point.name:
                    continue
                way = (far - places[here]) / piece
                yield _Leaving(way=way, far=far, length=left, element=element)
                if places[here][1] == 0.0 and not element.upright:
                    yield _Leaving(way=way * mirror, far=far * mirror, length=left, element=element)


def _carried(
    beam: Beam, frame: Frame, point: FramePoint
) -> Iterator[tuple[Beam, FramePoint, float]]:
    """Points of other beams on the spreader to a point, and how far out each lies as a share."""
    root = frame.root(point)
    for other in beam.carried:
        for each in () if other.frame is None else other.frame.points:
            place, share = on_line(each.place, root, point.place)
            if each.place[1] > 0.0 and math.dist(each.place, place) < _ON_SPREADER:
                yield other, each, share


def spreader_bending(
    *,
    beam: Beam,
    frame: Frame,
    spreader: Spreader,
    point: FramePoint,
    pressure: float = 0.0,
    ice: IceCoat | None = None,
) -> SpreaderBending:
    """Bend one spreader by weight, ice, wind and the pull of the wires at its tip.

    Args:
        pressure: velocity pressure, 0 for still air [Pa]
    """
    place = np.array(point.place)
    root = np.array(frame.root(point))
    along = (place - root) / np.linalg.norm(place - root)
    pull, limping, weight, wind = np.zeros(3), 0.0, 0.0, 0.0
    for wires, here, share in ((beam, point, 1.0), *_carried(beam, frame, point)):
        own = frame if wires is beam else wires.frame
        still = 0.0 if own is None else share * (own.pull or 0.0)
        ways: list[Vector] = []
        for leaving in _meeting(wires, here):
            diameter = leaving.element.half[0].diameter
            each = wire_weight(diameter=diameter, density=wires.material.density, ice=ice)
            weight += share * 0.5 * leaving.length * each
            seen = seen_diameter(diameter, ice)
            wind += share * 0.5 * leaving.length * pressure * ROUND_DRAG * seen
            if any(float(way @ leaving.way) > _ONE_LINE for way in ways):
                continue
            ways.append(leaving.way)
            each_pull = still * leaving.way
            pull = pull + each_pull
            # A pull that goes on pointing at the root bends a pole four times less readily.
            to_root = np.linalg.norm(leaving.far - root) < _NEAR_ROOT
            limping -= (0.25 if to_root else 1.0) * float(each_pull @ along)
    # What pulls along the spreader pushes it, what pulls across bends it.
    across = pull - (pull @ along) * along
    level = math.hypot(along[0], along[1])
    sideways = float(np.hypot(across[0], across[1]))
    segments = segments_of(spreader)
    dead = cantilever(
        segments=segments,
        loads=[load * level for load in weight_loads(segments=segments, ice=ice)],
        tip=weight * level - float(across[2]),
    )
    blown = cantilever(
        segments=segments,
        loads=wind_loads(segments=segments, pressure=pressure, ice=ice),
        tip=wind + sideways,
    )
    push = abs(float(pull @ along))
    # A pole alike from end to end buckles at pi^2 / 12 of its tip's stiffness times its length.
    limp = cantilever(segments=segments, loads=[0.0] * len(segments), tip=1.0).tip_deflection
    long = sum(segment.length for segment in segments)
    growth = amplification(axial=max(0.0, limping), critical=math.pi**2 / 12.0 * long / limp)
    return SpreaderBending(
        name=point.name,
        droop=dead.tip_deflection,
        stresses=tuple(
            growth * math.hypot(down, side) + push / segment.shape.area
            for down, side, segment in zip(dead.stresses, blown.stresses, segments, strict=True)
        ),
    )


def hardest_pull(
    *, beam: Beam, still: float, pressure: float = 0.0, ice: IceCoat | None = None
) -> WirePull:
    """Find the straight piece of wire that is strained most.

    Args:
        still: pull in every wire without wind and ice [N]
        pressure: velocity pressure, 0 for still air [Pa]
    """
    strung = [
        (low, high, element.half[0].diameter)
        for element in beam.elements
        for low, high in _pieces(element)
    ]
    found = []
    for low, high, diameter in (*strung, *_radial_pieces(beam)):
        weigh = partial(wire_weight, diameter=diameter, density=beam.material.density)
        load = math.hypot(weigh(ice=ice), pressure * ROUND_DRAG * seen_diameter(diameter, ice))
        stretch = beam.material.elastic_modulus * math.pi / 4.0 * diameter**2
        span = float(np.linalg.norm(high - low))
        tension = wire_tension(span=span, still=still, weight=weigh(), load=load, stretch=stretch)
        found.append(
            WirePull(
                span=span, tension=tension, sag=load * span**2 / (8.0 * tension), diameter=diameter
            )
        )
    return max(found, key=lambda each: each.tension / each.diameter**2)


def still_droops(*, beam: Beam, ice: IceCoat | None = None) -> dict[str, float]:
    """How far the points of a frame hang down in still air, by their names [m].

    Points on the spreaders of another beam hang as a load at the tip bends those: by
    s^2 (3 - s) / 2 of the tip's droop at the share s of their length {beam-theory}.

    Args:
        beam: with what stands beside it
    """
    host = beam.carrier
    if host is not None:
        beside = [other for other in beam.neighbours if other.name != host.name]
        host = replace(host, neighbours=(beam.alone, *beside))
    holder = host or beam
    frame = holder.frame
    if frame is None or frame.spreader is None or not frame.spreader.known:
        return {}
    tips = {
        point.name: spreader_bending(
            beam=holder, frame=frame, spreader=frame.spreader, point=point, ice=ice
        ).droop
        for point in spreader_points(frame)
    }
    if host is None:
        return tips
    return {
        held.name: tips[point.name] * share**2 * (3.0 - share) / 2.0
        for point in spreader_points(frame)
        for other, held, share in _carried(host, frame, point)
        if other.name == beam.name
    }


def _radial_pieces(beam: Beam) -> tuple[_Piece, ...]:
    """Elevated radials from every foot: their ends and their diameter [m] (n, 3)."""
    radials = beam.radials
    if radials is None or radials.laid == "buried":
        return ()
    reach = [radials.length * np.array(way) for way in radials.ways]
    feet = [np.array(element.corners[0]) for element in beam.elements]
    return tuple((foot, foot + out, radials.diameter) for foot in feet for out in reach)


def rope_pull(*, beam: Beam, frame: Frame, hard: float) -> float:
    """Hardest pull of the wires on one of the ropes that hold them [N].

    Args:
        hard: pull in the hardest strained wire [N]
    """
    at_points = [
        sum((leaving.way for leaving in _meeting(beam, point)), np.zeros(3))
        for point in frame.points
    ]
    return hard * max(1.0, *(float(np.linalg.norm(pull)) for pull in at_points))


def support_pull(*, beam: Beam, still: float, hard: float) -> tuple[float, float]:
    """What wires between a support and ropes pull on the support: sideways and down [N] (2,).

    A gust does not strain all of them alike: whichever pull one way have the hardest pull at once,
    the others that of still air, and one of them none, because its rope may break in that gust.
    Loops hang in ropes alone, and upright wire pulls upwards.

    Args:
        still: pull in every wire without wind and ice [N]
        hard: pull in the hardest strained wire [N]
    """
    legs = [(high - low) / np.linalg.norm(high - low) for low, high, _ in _radial_pieces(beam)]
    for element in beam.elements:
        if not element.bent or element.upright or element.closed:
            continue
        first, then = (np.array(point.place) for point in element.path[:2])
        way = (then - first) / np.linalg.norm(then - first)
        legs += [way, way * np.array([1.0, -1.0, 1.0])]
    if not legs:
        return 0.0, 0.0
    ways = np.array(legs)
    turns = np.radians(np.arange(0.0, 360.0, 5.0))
    winds = np.stack([np.cos(turns), np.sin(turns)])
    pulls = np.where(ways[:, :2] @ winds > 0.0, hard, still)
    # Whole, and each rope broken in turn.
    left = np.vstack([np.ones(len(ways)), 1.0 - np.eye(len(ways))])
    sideways = np.einsum("kn,nw,nc->ckw", left, pulls, ways[:, :2])
    return float(np.max(np.hypot(*sideways))), hard * float(np.sum(np.maximum(0.0, -ways[:, 2])))
