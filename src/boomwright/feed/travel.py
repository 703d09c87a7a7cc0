"""The way an impedance travels through a match, piece by piece."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.records import dataclass, replace
from boomwright.feed.stages import (
    ElementTrim,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    Stage,
    Transformer,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Leg(ReadOnlyArrays):
    """What one piece does to the impedance."""

    stage: Stage  #: the piece
    #: from before it to behind it, as it grows to its full size [ohm] (n,)
    impedance: NDArray[np.complex128]


def impedance_travel(
    *, stages: Sequence[Stage], impedance: complex, frequency: float
) -> tuple[Leg, ...]:
    """Follow an impedance from the antenna to the line.

    Args:
        impedance: at the antenna [ohm]
    """
    legs = []
    here = complex(impedance)
    for stage in stages:
        seen = np.array(
            [
                _seen(_part(stage, share, frequency), here, frequency)
                for share in np.linspace(0.0, 1.0, 33)
            ]
        )
        legs.append(Leg(stage=stage, impedance=seen))
        here = complex(seen[-1])
    return tuple(legs)


def _seen(stage: Stage | None, impedance: complex, frequency: float) -> complex:
    if stage is None:
        return impedance
    m = stage.chain(frequency)
    return complex((m[0, 0] * impedance + m[0, 1]) / (m[1, 0] * impedance + m[1, 1]))


def _part(stage: Stage, share: float, frequency: float) -> Stage | None:
    """A share of a piece; None for nothing of it."""
    if share <= 0.0:
        return None
    match stage:
        case SeriesInductor():
            return replace(stage, inductance=stage.inductance * share)
        case SeriesCapacitor():
            return replace(stage, capacitance=stage.capacitance / share)
        case ShuntCapacitor():
            return replace(stage, capacitance=stage.capacitance * share)
        case ShuntInductor():
            return replace(stage, inductance=stage.inductance / share)
        case ElementTrim():
            return replace(stage, reactance=stage.reactance * share)
        case LineSection():
            return replace(stage, length=stage.length * share)
        case Transformer():
            return replace(stage, ratio=stage.ratio**share)
        case ShuntStub():
            susceptance = complex(stage.chain(frequency)[1, 0]).imag * share
            angular = 2.0 * math.pi * frequency
            if susceptance > 0.0:
                return ShuntCapacitor(capacitance=susceptance / angular)
            return ShuntInductor(inductance=-1.0 / (susceptance * angular))
