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


_State = tuple[float, float, float, float]


def _inward_rates(state: _State, load: float, stiffness: float) -> _State:
    # Along the tube from tip to root; slope, moment, shear across and pull along the tube.
    slope, moment, shear, pull = state
    bend = moment / stiffness
    square = cos(slope)
    return (-bend, shear, load * square * square + pull * bend, -shear * bend)


def _march(
    segments: Sequence[Segment], loads: Sequence[float], tip_slope: float, steps: int
) -> tuple[float, list[float]]:
    state: _State = (tip_slope, 0.0, 0.0, 0.0)
    moments: list[float] = []
    for segment, load in zip(reversed(segments), reversed(loads), strict=True):
        h = segment.length / steps
        stiffness = segment.stiffness
        for _ in range(steps):
            k1 = _inward_rates(state, load, stiffness)
            k2 = _inward_rates(_ahead(state, k1, h / 2), load, stiffness)
            k3 = _inward_rates(_ahead(state, k2, h / 2), load, stiffness)
            k4 = _inward_rates(_ahead(state, k3, h), load, stiffness)
            mean = tuple(
                (a + 2 * b + 2 * c + d) / 6 for a, b, c, d in zip(k1, k2, k3, k4, strict=True)
            )
            state = _ahead(state, (mean[0], mean[1], mean[2], mean[3]), h)
        moments.append(state[1])
    moments.reverse()
    return state[0], moments


def _ahead(state: _State, rate: _State, h: float) -> _State:
    return (
        state[0] + h * rate[0],
        state[1] + h * rate[1],
        state[2] + h * rate[2],
        state[3] + h * rate[3],
    )


@lru_cache(maxsize=256)
def elastica(*, segments: tuple[Segment, ...], pressure: float) -> ElasticaState:
    """Bend a stepped tube by wind with large deflections.

    Args:
        pressure: velocity pressure [Pa]

    Raises:
        StructureInputError: when no bent shape is found
    """
    from scipy.optimize import brentq

    loads = wind_loads(segments=segments, pressure=pressure, drag=ROUND_DRAG)
    linear = cantilever(segments=segments, loads=loads).root_moments[0]
    try:
        tip_slope = float(
            brentq(lambda angle: _march(segments, loads, angle, 60)[0], 0.0, pi / 2, xtol=1e-9)
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
