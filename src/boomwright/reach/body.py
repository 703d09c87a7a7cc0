"""A standing body in the field: the points looked at, and the average over them."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.reach.exposure_grid import FieldPoints

#: points of a standing body below its head, down to the feet of a tall person [m]
BODY_STEPS = tuple(0.2 * step for step in range(10))


def body_points(*, distance: float, head: float, azimuth: float = 0.0) -> Floats:
    """Points of a standing body, from the head down.

    Args:
        distance: horizontal distance from the mast [m]
        head: height of the head above ground [m]
        azimuth: direction, counter-clockwise from the heading [rad]

    Returns:
        points above ground, the head first [m] (n, 3)
    """
    x, y = distance * math.cos(azimuth), distance * math.sin(azimuth)
    kept = [step for step in BODY_STEPS if head - step >= -1e-9]
    return np.array([(x, y, max(head - step, 0.0)) for step in kept])


def body_average(body: FieldPoints) -> tuple[float, float]:
    """Fields averaged over a body: roots of the mean squares from head to feet.

    Whole-body limits are averaged so over the space a standing person fills
    {oet-65, section 2} {icnirp-2020}.

    Args:
        body: fields at points of one body, in order down it

    Returns:
        electric field [V/m] and magnetic field [A/m]
    """
    depth = body.points[0, 2] - body.points[:, 2]
    span = float(depth[-1])
    if span <= 0.0:
        return float(body.electric[0]), float(body.magnetic[0])
    electric, magnetic = (
        math.sqrt(float(np.trapezoid(field**2, depth)) / span)
        for field in (body.electric, body.magnetic)
    )
    return electric, magnetic
