"""What a reader takes off a pattern cut: peak, half-power width, front-to-back ratio."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass
from boomwright.solver import PatternCut

_HALF_POWER_DB = 10.0 * float(np.log10(2.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternSummary:
    """The figures of one cut."""

    peak_gain_dbi: float  #: greatest gain in the cut [dBi]
    peak_angle_deg: float  #: angle of the cut where it stands [deg]
    #: angles either side of the peak where the gain has fallen to half, the first below the peak
    #: angle and possibly negative; None when it does not fall so far on both sides [deg] (2,)
    half_power_deg: tuple[float, float] | None
    front_deg: float  #: angle the front-to-back ratio is taken at [deg]
    front_to_back_db: float  #: gain at ``front_deg`` over the gain exactly backwards of it [dB]

    @property
    def half_power_width_deg(self) -> float | None:
        """Angle between the half-power points, or None [deg]."""
        if self.half_power_deg is None:
            return None
        return self.half_power_deg[1] - self.half_power_deg[0]


def is_closed(cut: PatternCut) -> bool:
    """Tell whether a cut goes all the way round.

    Returns:
        True for 0..360 degrees, whether the last sample repeats the first or not
    """
    angle = cut.angle_deg
    if len(angle) < 3:
        return False
    return bool(angle[-1] - angle[0] + 1.5 * (angle[1] - angle[0]) >= 360.0)


def check_cut(cut: PatternCut) -> None:
    """Refuse a cut that cannot be drawn.

    Raises:
        ValueError: fewer than two samples, unequal lengths, falling angles, or a gain that is
            not finite
    """
    angle, gain = cut.angle_deg, cut.gain_dbi
    if len(angle) < 2 or len(angle) != len(gain):
        raise ValueError(
            f"the {cut.plane} cut has {len(angle)} angles and {len(gain)} gains; "
            "give two or more of each, as many gains as angles"
        )
    if not (np.isfinite(angle).all() and np.isfinite(gain).all() and (np.diff(angle) > 0).all()):
        msg = f"the {cut.plane} cut needs finite gains at rising angles; check the readings"
        raise ValueError(msg)


def _crossing(
    angle: NDArray[np.float64], gain: NDArray[np.float64], *, start: int, step: int, level: float
) -> float | None:
    """First angle from ``start`` in the direction of ``step`` where the gain meets the level."""
    run = slice(start, None) if step > 0 else slice(start, None, -1)
    there, values = angle[run], gain[run]
    below = np.flatnonzero(values < level)
    if len(below) == 0:
        return None
    i = int(below[0])
    share = (values[i - 1] - level) / (values[i - 1] - values[i])
    return float(there[i - 1] + share * (there[i] - there[i - 1]))


# A picture, its key and its marks each ask for the figures of the same few cuts.
@lru_cache(maxsize=8)
def pattern_summary(cut: PatternCut) -> PatternSummary:
    """Read the figures off a cut.

    The front-to-back ratio of an azimuth cut and of a whole circle of elevation is that of
    angle 0 over angle 180, as in the sweep; over ground, where nothing leaves along the
    horizon, it is taken at the elevation of the peak on the heading's side.
    """
    check_cut(cut)
    angle, gain = cut.angle_deg, cut.gain_dbi
    closed = is_closed(cut)
    peak = int(np.argmax(gain))
    if closed:
        count = len(angle) - int(angle[-1] - angle[0] >= 360.0 - 1e-9)
        around = (np.arange(2 * count + 1) - count + peak) % count
        turns = np.floor_divide(np.arange(2 * count + 1) - count + peak, count)
        angle_run, gain_run, start = angle[around] + 360.0 * turns, gain[around], count
    else:
        angle_run, gain_run, start = angle, gain, peak
    level = float(gain[peak]) - _HALF_POWER_DB
    low = _crossing(angle_run, gain_run, start=start, step=-1, level=level)
    high = _crossing(angle_run, gain_run, start=start, step=1, level=level)
    if closed:
        front, period = 0.0, 360.0
    else:
        ahead = np.flatnonzero(angle <= 90.0)
        front = float(angle[ahead[np.argmax(gain[ahead])]]) if len(ahead) else float(angle[0])
        period = None
    ends = np.interp([front, 180.0 - front], angle, gain, period=period)
    return PatternSummary(
        peak_gain_dbi=float(gain[peak]),
        peak_angle_deg=float(angle[peak]),
        half_power_deg=None if low is None or high is None else (low, high),
        front_deg=front,
        front_to_back_db=float(ends[0] - ends[1]),
    )
