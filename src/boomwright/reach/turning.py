"""How exactly the beam must point, and how long it takes to turn there."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass
from boomwright.solver import PatternCut


@dataclass(frozen=True, slots=True, kw_only=True)
class PointingLoss:
    """How far off the heading costs a given loss."""

    loss_db: float  #: loss against the heading [dB]
    left_deg: float  #: counter-clockwise angle at which it is first reached, 180 when never [deg]
    right_deg: float  #: clockwise angle at which it is first reached, 180 when never [deg]


def _first_fall(*, angle_deg: np.ndarray, gain_dbi: np.ndarray, level: float) -> float:
    below = np.flatnonzero(gain_dbi < level)
    if len(below) == 0:
        return 180.0
    i = int(below[0])
    share = (gain_dbi[i - 1] - level) / (gain_dbi[i - 1] - gain_dbi[i])
    return float(angle_deg[i - 1] + share * (angle_deg[i] - angle_deg[i - 1]))


def pointing_losses(cut: PatternCut) -> tuple[PointingLoss, ...]:
    """Find how far off the heading costs 1, 3 and 6 dB.

    Raises:
        BoomwrightError: when the cut is not an azimuth cut
    """
    if cut.plane != "azimuth":
        msg = f"pattern cut: plane {cut.plane!r} does not run round; give the azimuth cut"
        raise BoomwrightError(msg)
    at = np.linspace(0.0, 180.0, 721)
    left = np.interp(at, cut.angle_deg, cut.gain_dbi, period=360.0)
    right = np.interp(-at, cut.angle_deg, cut.gain_dbi, period=360.0)
    ahead = left[0]
    return tuple(
        PointingLoss(
            loss_db=loss,
            left_deg=_first_fall(angle_deg=at, gain_dbi=left, level=ahead - loss),
            right_deg=_first_fall(angle_deg=at, gain_dbi=right, level=ahead - loss),
        )
        for loss in (1.0, 3.0, 6.0)
    )


def turn_time(*, start: float, end: float, seconds_per_turn: float) -> float:
    """Time to turn from one heading to another, the short way.

    Args:
        start: heading now, clockwise from true north [rad]
        end: heading wanted [rad]
        seconds_per_turn: time of a full turn, above 0 [s]

    Returns:
        time, 0 when already there [s]

    Raises:
        BoomwrightError: when the time of a full turn is not above 0
    """
    if seconds_per_turn <= 0.0:
        msg = f"rotator: {seconds_per_turn:g} s a turn; give the time of a full turn, above 0 s"
        raise BoomwrightError(msg)
    turn = (end - start) / math.tau % 1.0
    return min(turn, 1.0 - turn) * seconds_per_turn
