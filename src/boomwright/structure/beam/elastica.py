"""Large-deflection wind bending of a stepped tube (elastica), the expert's second figure.

A tube that bends over sheds wind twice: only the wind square to it presses, f = q Cd d cos^2,
and the lever arm shrinks. The tip is free, so the march starts there with an unknown slope
and shoots for no slope at the clamp. Own weight is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import cos, pi

from boomwright.base.roots import find_root
from boomwright.structure.beam.stepped import Segment, cantilever, wind_loads
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.drag import ROUND_DRAG


@dataclass(frozen=True, slots=True, kw_only=True)
class ElasticaState:
    """A stepped tube bent far by the wind."""

    root_moment: float  #: bending moment at the clamp [N m]
    ratio: float  #: that moment over the small-deflection one [-]
    #: bending moment at the inner end of each segment [N m] (n_segments,)
    moments: tuple[float, ...]
    stresses: tuple[float, ...]  #: bending stress there [Pa] (n_segments,)
    tip_slope: float  #: slope of the tip against the unbent tube [rad]


def _march(
    segments: Sequence[Segment], loads: Sequence[float], tip_slope: float, steps: int
) -> tuple[float, list[float]]:
    """Go from tip to root by Runge and Kutta's fourth order: slope there, moments inwards."""
    # Slope, moment, shear across and pull along the tube; written out, for it is gone through a
    # thousand times for every element.
    slope, moment, shear, pull = tip_slope, 0.0, 0.0, 0.0
    moments: list[float] = []
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
        moments.append(moment)
    moments.reverse()
    return slope, moments


@lru_cache(maxsize=256)
def elastica(*, segments: tuple[Segment, ...], pressure: float) -> ElasticaState:
    """Bend a stepped tube by wind with large deflections.

    Args:
        pressure: velocity pressure [Pa]

    Raises:
        StructureInputError: when no bent shape is found
    """
    loads = wind_loads(segments=segments, pressure=pressure, drag=ROUND_DRAG)
    linear = cantilever(segments=segments, loads=loads).root_moments[0]
    try:
        tip_slope = find_root(
            lambda angle: _march(segments, loads, angle, 60)[0], 0.0, pi / 2, within=1e-9
        )
    except (ValueError, OverflowError) as error:
        msg = f"no bent shape found at {pressure:.0f} Pa: the tube is too limp for that wind"
        raise StructureInputError(msg) from error
    _, moments = _march(segments, loads, tip_slope, 60)
    return ElasticaState(
        root_moment=moments[0],
        ratio=moments[0] / linear,
        moments=tuple(moments),
        stresses=tuple(m / s.shape.modulus for m, s in zip(moments, segments, strict=True)),
        tip_slope=tip_slope,
    )
