"""Wind on a whole beam from every direction.

The normal-component rule: on a straight cylinder only the wind square to it presses, and
the force is square to it too. The older rule adds projected areas; ratings still use it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays, read_only
from boomwright.base.records import dataclass
from boomwright.parts import Bar
from boomwright.structure.weather.drag import ROUND_DRAG, AreaConventions, area_conventions
from boomwright.structure.weather.ice import IceCoat, seen_diameter

#: directions the wind is scanned over, from the boom's heading [deg]
SCAN_DEG = read_only(np.arange(0.0, 360.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamWind(ReadOnlyArrays):
    """Areas of a whole beam against the wind from every direction."""

    #: direction the wind comes along, from the boom's heading [deg] (n_angles,)
    angles_deg: NDArray[np.float64]
    #: force over velocity pressure, normal-component rule [m^2] (n_angles,)
    drag_area: NDArray[np.float64]
    older_drag_area: NDArray[np.float64]  #: the same by adding projected areas [m^2] (n_angles,)
    elements: AreaConventions  #: elements alone, wind along the boom [m^2]
    boom: AreaConventions  #: boom alone, wind across it [m^2]
    worst: AreaConventions  #: largest area by the normal-component rule [m^2]
    worst_angle_deg: float  #: direction of that [deg]
    older_worst: AreaConventions  #: largest area by the older rule [m^2]
    older_worst_angle_deg: float  #: direction of that, in the first quarter [deg]


def older_worst_area(*, element_area: float, boom_area: float) -> tuple[float, float]:
    """Peak of the older sum Ae cos + Ab sin [m^2], and its angle {older-area-rule} [rad] (2,).

    Args:
        element_area: area of the elements, wind along the boom [m^2]
        boom_area: area of the boom, wind across it [m^2]
    """
    return float(np.hypot(element_area, boom_area)), atan2(boom_area, element_area)


def _scan(
    pieces: Sequence[Bar], angles: NDArray[np.float64], ice: IceCoat | None
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    # Force over (q Cd) as vectors, and the older plain projected area, per direction.
    wind = np.stack([np.cos(angles), np.sin(angles), np.zeros_like(angles)], axis=1)
    force = np.zeros_like(wind)
    projected = np.zeros(len(angles))
    for piece in pieces:
        length = piece.length
        if length == 0.0:
            continue
        axis = (np.array(piece.end) - np.array(piece.start)) / length
        normal = wind - (wind @ axis)[:, None] * axis
        size = np.linalg.norm(normal, axis=1)
        area = seen_diameter(piece.diameter, ice) * length
        force += area * size[:, None] * normal
        projected += area * size
    return force, projected


def beam_wind(
    *,
    pieces: Sequence[Bar],
    boom_diameter: float = 0.0,
    boom_length: float = 0.0,
    extra_drag_area: float = 0.0,
    ice: IceCoat | None = None,
) -> BeamWind:
    """Wind areas of elements, wires, boom and fittings for every direction [m^2].

    No piece shelters another. Boxes, brackets and traps count fully in every direction.

    Args:
        pieces: what shows of elements, wires and spreaders (n_pieces,)
        boom_diameter: outer diameter of the boom, 0 when unknown [m]
        boom_length: length of the boom, 0 when unknown [m]
        extra_drag_area: drag area of balun box, brackets, coils and the like [m^2]
    """
    boom = Bar(start=(0.0, 0.0, 0.0), end=(boom_length, 0.0, 0.0), diameter=boom_diameter)
    angles = np.radians(SCAN_DEG)
    force, projected = _scan((*pieces, boom), angles, ice)
    along = ROUND_DRAG * force[:, 0] + extra_drag_area * np.cos(angles)
    across = ROUND_DRAG * force[:, 1] + extra_drag_area * np.sin(angles)
    total = np.hypot(along, across)
    older = ROUND_DRAG * projected + extra_drag_area
    worst = int(np.argmax(total))
    element_area = float(projected[0])
    boom_area = seen_diameter(boom_diameter, ice) * boom_length
    older_peak, older_angle = older_worst_area(
        element_area=element_area, boom_area=float(projected[90])
    )
    return BeamWind(
        angles_deg=SCAN_DEG,
        drag_area=total,
        older_drag_area=older,
        elements=area_conventions(projected=element_area),
        boom=area_conventions(projected=boom_area),
        worst=area_conventions(projected=float(total[worst]) / ROUND_DRAG),
        worst_angle_deg=float(SCAN_DEG[worst]),
        older_worst=area_conventions(projected=older_peak + extra_drag_area / ROUND_DRAG),
        older_worst_angle_deg=degrees(older_angle),
    )
