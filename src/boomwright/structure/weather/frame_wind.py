"""Wind on wire and spreaders of a frame: what its boom, its mast and its support feel of it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import hypot

import numpy as np

from boomwright.parts import Beam
from boomwright.structure.beam.frame import WindPiece, radial_pieces, spreader_pieces
from boomwright.structure.beam.torque import GUST_IMBALANCE, WindTorque
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePress:
    """What wind of one pascal does at one place of a boom, by the wires and spreaders there."""

    place: float  #: on the beam's x axis [m]
    across: float  #: force for wind across the boom, drag area [m^2]
    couple: float  #: wind along the boom times its height above it [m^3]
    twist: float  #: wind across the boom times its height above it [m^3]


def seen_diameter(diameter: float, ice: IceCoat | None) -> float:
    """Diameter that the wind sees [m].

    Args:
        diameter: of the bare metal [m]
        ice: ice on it, or None
    """
    return diameter if ice is None else ice.iced_diameter(diameter=diameter)


def frame_pieces(beam: Beam) -> list[WindPiece]:
    """Wires, wire elements, elevated radials and spreaders as straight pieces [m] (n,)."""
    ways = [(wire.points, wire.diameter) for wire in beam.wires]
    ways += [(np.array(e.outline), e.half[0].diameter) for e in beam.elements if e.bent]
    wires = [(low, high, diameter) for points, diameter in ways for low, high in pairwise(points)]
    return [*wires, *radial_pieces(beam), *spreader_pieces(beam)]


def frame_presses(*, beam: Beam, ice: IceCoat | None = None) -> tuple[FramePress, ...]:
    """Wind of one pascal on a frame, gathered where its parts hold on to the boom.

    Each piece hands half of its load to either end, and an end to the boom straight beside it; a
    hub takes all.

    Args:
        ice: ice on everything, or None
    """
    frame, sums = beam.frame, dict[float, list[float]]()
    hub = None if frame is None else frame.hub
    for low, high, diameter in frame_pieces(beam):
        x, y, z = (float(step) for step in high - low)
        half = 0.5 * ROUND_DRAG * seen_diameter(diameter, ice)
        along, across = half * hypot(y, z), half * hypot(x, z)
        for end in (low, high):
            place = round(float(end[0]) if hub is None else hub, 6)
            found = sums.setdefault(place, [0.0, 0.0, 0.0])
            for index, part in enumerate((across, along * float(end[2]), across * float(end[2]))):
                found[index] += part
    return tuple(
        FramePress(place=place, across=across, couple=couple, twist=twist)
        for place, (across, couple, twist) in sorted(sums.items())
    )


def wind_middle(*, beam: Beam) -> float:
    """How far the middle of a frame's wind area lies above its boom or hub, never below [m].

    Ropes hold the ends of what they carry, and the support takes its share at the height of the
    beam; all of it counts there.
    """
    if beam.frame is None or beam.frame.spreader is None:
        return 0.0
    pieces = frame_pieces(beam)
    areas = [float(np.linalg.norm(high - low)) * diameter for low, high, diameter in pieces]
    middles = [0.5 * float(low[2] + high[2]) for low, high, _ in pieces]
    if not sum(areas) > 0.0:
        return 0.0
    return max(0.0, float(np.average(middles, weights=areas)))


def frame_top(*, beam: Beam) -> float:
    """Highest point of a beam's frame above ground, never below its boom or hub [m]."""
    ends = [float(end[2]) for low, high, _ in frame_pieces(beam) for end in (low, high)]
    return beam.height + max(0.0, *ends) if ends else beam.height


def frame_torque(
    *, beam: Beam, pressure: float, ice: IceCoat | None = None, axis: float | None = None
) -> WindTorque:
    """Torque of the wind about the mast on wires and spreaders of a frame.

    Across the boom the sides in front of the mast and behind it do not quite cancel; an uneven
    gust works on either half, every piece taken square to it at its distance.

    Args:
        pressure: velocity pressure [Pa]
        ice: ice on everything, or None
        axis: mast on the beam's x axis; None for where the frame is held [m]
    """
    force = pressure * ROUND_DRAG
    mast = np.array([beam.boom_middle if axis is None else axis, 0.0, 0.0])
    uneven = lever = 0.0
    for low, high, diameter in frame_pieces(beam):
        seen, middle = seen_diameter(diameter, ice), 0.5 * (low + high) - mast
        uneven += seen * hypot(*(high - low)[[0, 2]]) * float(middle[0])
        lever += seen * float(np.linalg.norm(high - low)) * hypot(*middle[:2])
    boom, gust = force * abs(uneven), 0.5 * GUST_IMBALANCE * force * lever
    return WindTorque(
        boom=boom,
        offset=0.0,
        gust_elements=gust,
        gust_boom=gust,
        worst=boom + gust,
        worst_angle_deg=90.0,
    )
