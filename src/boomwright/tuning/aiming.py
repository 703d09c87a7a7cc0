"""Aligning the rotator by things whose bearing is known."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.tuning.errors import MeasurementError

#: how exactly a beam is aimed by eye or by the middle of a noise peak, as a standard deviation
#: {common-practice-aiming} [rad]
USUAL_AIM = math.radians(3.0)
#: aims that differ by more than this many standard deviations do not belong together
_LARGEST_SPREAD = 2.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """One aim at a known bearing."""

    shows: float  #: azimuth that the rotator shows, clockwise from north [rad]
    bearing: float  #: true bearing of what it is aimed at [rad]
    within: float = USUAL_AIM  #: how exactly it was aimed, as a standard deviation [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Alignment:
    """What aims say of the rotator."""

    offset: float  #: what to add to the rotator's azimuth to get the true one, -pi to pi [rad]
    band: float  #: half width of its 95 % band [rad]
    left: tuple[float, ...]  #: what each aim differs from the offset by [rad] (n_aims,)
    notices: tuple[Notice, ...]  #: doubts


def align(aims: tuple[Aim, ...]) -> Alignment:
    """Find the offset of the rotator that fits all aims best.

    Raises:
        MeasurementError: when there is no aim
    """
    if not aims:
        msg = "no aim was given; aim at the sun or at a known bearing and note the rotator"
        raise MeasurementError(msg)
    apart = np.array([each.bearing - each.shows for each in aims])
    weight = np.array([each.within**-2.0 for each in aims])
    mean = float(np.angle(weight @ np.exp(1j * apart)))
    left = np.mod(apart - mean + np.pi, 2.0 * np.pi) - np.pi
    worst = int(np.argmax(np.abs(left)))
    spread = abs(float(left[worst])) / aims[worst].within
    scale = max(1.0, math.sqrt(float(weight @ left**2) / max(1, len(aims) - 1)))
    notices: tuple[Notice, ...] = ()
    if spread > _LARGEST_SPREAD:
        notices = (
            Notice(
                code="tuning.aims-differ",
                severity="doubt",
                text="The aims do not agree on one offset: the mast slips, the rotator's scale is "
                "stretched, or one was written down wrongly. Aim at both again.",
                value=f"aim {worst + 1} off by {math.degrees(left[worst]):+.0f} deg",
                limit=f"{_LARGEST_SPREAD * math.degrees(aims[worst].within):.0f} deg",
            ),
        )
    return Alignment(
        offset=mean,
        band=1.96 * scale / math.sqrt(float(weight.sum())),
        left=tuple(left.tolist()),
        notices=notices,
    )
