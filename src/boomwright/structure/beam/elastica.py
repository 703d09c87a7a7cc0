"""Large-deflection wind bending of a stepped tube (elastica), the expert's second figure.

A tube that bends over sheds wind twice: only the wind square to it presses, f = q Cd d cos^2,
and the lever arm shrinks. The tip is free, so the march starts there with an unknown slope
and shoots for no slope at the clamp. Own weight is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import cos, pi

from boomwright.base.roots import find_root
from boomwright.structure.beam.stepped import Segment, cantilever, wind_loads
from boomwright.structure.faults import StructureInputError


def _march(
    segments: Sequence[Segment], loads: Sequence[float], tip_slope: float, steps: int
) -> tuple[float, float]:
    """Go from tip to root by Runge and Kutta's fourth order: slope and moment there."""
    # Slope, moment, shear across and pull along the tube; written out, for it is gone through a
    # thousand times for every element.
    slope, moment, shear, pull = tip_slope, 0.0, 0.0, 0.0
    for segment, load in zip(reversed(segments), reversed(loads), strict=True):
        h, stiffness = segment.length / steps, segment.stiffness
        half, sixth = h / 2.0, h / 6.0
        for _ in range(steps):
            bend1, square = moment / stiffness, cos(slope)
            across1, along1 = load * square * square + pull * bend1, shear * bend1
            shear2 = shear + half * across1
            bend2, square = (moment + half * shear) / stiffness, cos(slope - half * bend1)
            across2 = load * square * square + (pull - half * along1) * bend2
            along2 = shear2 * bend2
            shear3 = shear + half * across2
            bend3, square = (moment + half * shear2) / stiffness, cos(slope - half * bend2)
            across3 = load * square * square + (pull - half * along2) * bend3
            along3 = shear3 * bend3
            shear4 = shear + h * across3
            bend4, square = (moment + h * shear3) / stiffness, cos(slope - h * bend3)
            across4 = load * square * square + (pull - h * along3) * bend4
            slope -= sixth * (bend1 + 2.0 * (bend2 + bend3) + bend4)
            moment += sixth * (shear + 2.0 * (shear2 + shear3) + shear4)
            shear += sixth * (across1 + 2.0 * (across2 + across3) + across4)
            pull -= sixth * (along1 + 2.0 * (along2 + along3) + shear4 * bend4)
    return slope, moment


@lru_cache(maxsize=256)
def elastica(*, segments: tuple[Segment, ...], pressure: float) -> float:
    """Moment at the clamp of a tube bent far by the wind, over the small-deflection one [-].

    Raises:
        StructureInputError: when no bent shape is found
    """
    loads = wind_loads(segments=segments, pressure=pressure)
    linear = cantilever(segments=segments, loads=loads).root_moments[0]
    try:
        tip_slope = find_root(
            lambda angle: _march(segments, loads, angle, 60)[0], 0.0, pi / 2, within=1e-9
        )
    except (ValueError, OverflowError) as error:
        msg = f"no bent shape found at {pressure:.0f} Pa: the tube is too limp for that wind"
        raise StructureInputError(msg) from error
    return _march(segments, loads, tip_slope, 60)[1] / linear
