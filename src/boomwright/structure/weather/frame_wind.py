"""Wind on wire and spreaders of a frame: what its boom, its mast and its support feel of it."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

import numpy as np

from boomwright.parts import Bar, Beam
from boomwright.structure.beam.boom import BoomPress
from boomwright.structure.beam.torque import GUST_IMBALANCE, WindTorque
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat, seen_diameter


def frame_presses(
    *, strung: Sequence[Bar], hub: float | None = None, ice: IceCoat | None = None
) -> tuple[BoomPress, ...]:
    """Wind of one pascal on a frame, gathered where its parts hold on to the boom.

    Each piece hands half of its load to either end, and an end to the boom straight beside it; a
    hub takes all.

    Args:
        strung: wires, radials in the air and spreaders (n_strung,)
        hub: where spreaders meet; None where each starts from the boom [m]
    """
    sums = dict[float, list[float]]()
    for piece in strung:
        x, y, z = (b - a for a, b in zip(piece.start, piece.end, strict=True))
        half = 0.5 * ROUND_DRAG * seen_diameter(piece.diameter, ice)
        along, across = half * hypot(y, z), half * hypot(x, z)
        for end in (piece.start, piece.end):
            place = round(end[0] if hub is None else hub, 6)
            found = sums.setdefault(place, [0.0, 0.0, 0.0])
            for index, part in enumerate((across, along * end[2], across * end[2])):
                found[index] += part
    return tuple(
        BoomPress(place=place, across=across, couple=couple, twist=twist)
        for place, (across, couple, twist) in sorted(sums.items())
    )


def wind_middle(*, beam: Beam, strung: Sequence[Bar]) -> float:
    """How far the middle of a frame's wind area lies above its boom or hub, never below [m].

    Ropes hold the ends of what they carry, and the support takes its share at the height of the
    beam; all of it counts there.

    Args:
        strung: wires, radials in the air and spreaders (n_strung,)
    """
    if beam.frame is None or beam.frame.spreader is None:
        return 0.0
    areas = [piece.length * piece.diameter for piece in strung]
    if not sum(areas) > 0.0:
        return 0.0
    return max(0.0, float(np.average([piece.middle[2] for piece in strung], weights=areas)))


def frame_rise(strung: Sequence[Bar]) -> float:
    """Highest point of a beam's frame over its boom or hub, never below [m]."""
    return max(0.0, *(end[2] for piece in strung for end in (piece.start, piece.end)), 0.0)


def frame_torque(
    *, strung: Sequence[Bar], pressure: float, axis: float, ice: IceCoat | None = None
) -> WindTorque:
    """Torque of the wind about the mast on wires and spreaders of a frame.

    Across the boom the sides in front of the mast and behind it do not quite cancel; an uneven
    gust works on either half, every piece taken square to it at its distance.

    Args:
        strung: wires, radials in the air and spreaders (n_strung,)
        axis: mast on the beam's x axis [m]
    """
    force = pressure * ROUND_DRAG
    uneven = lever = 0.0
    for piece in strung:
        seen, (x, y, _) = seen_diameter(piece.diameter, ice), piece.middle
        steps = [b - a for a, b in zip(piece.start, piece.end, strict=True)]
        uneven += seen * hypot(steps[0], steps[2]) * (x - axis)
        lever += seen * piece.length * hypot(x - axis, y)
    boom, gust = force * abs(uneven), 0.5 * GUST_IMBALANCE * force * lever
    return WindTorque(
        boom=boom,
        offset=0.0,
        gust_elements=gust,
        gust_boom=gust,
        worst=boom + gust,
        worst_angle_deg=90.0,
    )
