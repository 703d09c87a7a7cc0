"""Checks with signals on the air: readings against heading, beam width, alignment."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.constants import DECIBELS_PER_S_UNIT
from boomwright.base.records import dataclass
from boomwright.tuning.errors import MeasurementError

#: scatter of a reading on the air beside its own {common-practice-fading}
_USUAL_SCATTER_DB = 2.0
#: offset of a rotator looked for, and its step
_LARGEST_OFFSET = math.radians(60.0)
_OFFSET_STEPS = 481


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeadingRun(ReadOnlyArrays):
    """Readings of one steady signal while the beam turns."""

    azimuth: Floats  #: azimuth of the beam as the rotator shows it, clockwise from north [rad] (n,)
    level_db: Floats  #: levels on any decibel scale [dB] (n,)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingReading:
    """What a run over the headings shows, and what was computed."""

    offset: float  #: what to add to the rotator's azimuth to get the true one, -pi to pi [rad]
    offset_band: float  #: half width of its 95 % band [rad]
    front_to_back_db: float  #: level towards the signal over that with the back to it [dB]
    beam_width: float  #: width 3 dB below the greatest level, 0 when the readings do not tell [rad]
    computed_front_to_back_db: float  #: the same of the computed pattern [dB]
    computed_beam_width: float  #: the same of the computed pattern [rad]
    scatter_db: float  #: standard deviation of the readings about the computed pattern [dB]
    notices: tuple[Notice, ...]  #: doubts


def level_of_s_meter(*, s_units: float, over_db: float = 0.0) -> float:
    """Turn an S-meter reading into decibels below or above S9.

    Args:
        s_units: [-]
        over_db: decibels over S9, only with nine S-units [dB]

    Returns:
        level against S9 {iaru-r1-r1} [dB]

    Raises:
        MeasurementError: for more than nine S-units, less than none, or decibels over less than S9
    """
    if not 0.0 <= s_units <= 9.0 or over_db < 0.0 or (over_db > 0.0 and s_units < 9.0):
        msg = f"S{s_units:g} +{over_db:g} dB is no S-meter reading; write S0 to S9, or S9 +20 dB"
        raise MeasurementError(msg)
    return (s_units - 9.0) * DECIBELS_PER_S_UNIT + over_db


def heading_run(*, azimuth: ArrayLike, level_db: ArrayLike) -> HeadingRun:
    """Put readings in order of azimuth.

    Args:
        azimuth: azimuth of the beam as the rotator shows it, clockwise from north [rad] (n,)
        level_db: [dB] (n,)

    Raises:
        MeasurementError: for fewer than six readings, or readings that are not numbers
    """
    turn = np.asarray(azimuth, dtype=float)
    level = np.asarray(level_db, dtype=float)
    if turn.shape != level.shape or turn.ndim != 1 or len(turn) < 6:
        msg = f"{turn.size} azimuths and {level.size} levels: give six readings or more, in pairs"
        raise MeasurementError(msg)
    if not (np.isfinite(turn).all() and np.isfinite(level).all()):
        raise MeasurementError("a reading over the headings is not a number; leave it out")
    turn = np.mod(turn, 2.0 * np.pi)
    order = np.argsort(turn, kind="stable")
    return HeadingRun(azimuth=turn[order], level_db=level[order])


def compare_headings(
    *, run: HeadingRun, bearing: float, gain_dbi: Callable[[Floats], Floats]
) -> HeadingReading:
    """Hold readings against the computed pattern.

    Args:
        bearing: true bearing of the signal, clockwise from north [rad]
        gain_dbi: computed gain at angles clockwise from the heading, at the elevation of the
            signal [dBi]
    """
    offsets = np.linspace(-_LARGEST_OFFSET, _LARGEST_OFFSET, _OFFSET_STEPS)
    # Seen from the beam, the signal stands at its bearing less the true heading.
    seen = np.mod(bearing - run.azimuth - offsets[:, None] + np.pi, 2.0 * np.pi) - np.pi
    apart = run.level_db - gain_dbi(seen.ravel()).reshape(seen.shape)
    left = ((apart - apart.mean(axis=1, keepdims=True)) ** 2).sum(axis=1)
    best = int(np.argmin(left))
    freedom = max(1, len(run.azimuth) - 2)
    scatter = math.sqrt(float(left[best]) / freedom)
    offset, curvature = _lowest(offsets, left, best)
    variance = max(scatter**2, (0.25 * _USUAL_SCATTER_DB) ** 2)
    band = 1.96 * math.sqrt(2.0 * variance / curvature) if curvature > 0.0 else _LARGEST_OFFSET
    true = np.mod(run.azimuth + offset, 2.0 * np.pi)
    ahead, back = (
        _level_at(true, run.level_db, bearing),
        _level_at(true, run.level_db, bearing + np.pi),
    )
    fine = np.linspace(-np.pi, np.pi, 721)
    computed = gain_dbi(fine)
    return HeadingReading(
        offset=offset,
        offset_band=band,
        front_to_back_db=ahead - back,
        beam_width=_width(run.azimuth, run.level_db),
        computed_front_to_back_db=float(gain_dbi(np.zeros(1))[0] - gain_dbi(np.array([np.pi]))[0]),
        computed_beam_width=_width(np.mod(fine[:-1], 2 * np.pi), computed[:-1]),
        scatter_db=scatter,
        notices=_doubts(run, scatter, best in (0, len(offsets) - 1)),
    )


def _lowest(offsets: Floats, left: Floats, best: int) -> tuple[float, float]:
    """Lowest point of the parabola through the three lowest, and its second derivative."""
    at = min(max(best, 1), len(offsets) - 2)
    step = float(offsets[1] - offsets[0])
    below, here, above = (float(value) for value in left[at - 1 : at + 2])
    curvature = (above - 2.0 * here + below) / step**2
    if curvature <= 0.0:
        return float(offsets[best]), 0.0
    shift = -0.5 * (above - below) / step / curvature
    return float(offsets[at] + np.clip(shift, -step, step)), curvature


def _level_at(azimuth: Floats, level_db: Floats, where: float) -> float:
    return float(np.interp(np.mod(where, 2 * np.pi), azimuth, level_db, period=2.0 * np.pi))


def _width(azimuth: Floats, level_db: Floats) -> float:
    """Width 3 dB below the greatest level; 0 when the levels do not fall that far."""
    peak = int(np.argmax(level_db))
    turned = np.mod(azimuth - azimuth[peak] + np.pi, 2.0 * np.pi) - np.pi
    order = np.argsort(turned)
    turned, level = turned[order], level_db[order] - level_db[peak]
    middle = int(np.flatnonzero(turned == 0.0)[0])
    right = _crossing(turned[middle:], level[middle:])
    left = _crossing(-turned[middle::-1], level[middle::-1])
    return right + left if right > 0.0 and left > 0.0 else 0.0


def _crossing(away: Floats, level: Floats) -> float:
    below = np.flatnonzero(level <= -3.0)
    if len(below) == 0:
        return 0.0
    number = int(below[0])
    share = (-3.0 - level[number - 1]) / (level[number] - level[number - 1])
    return float(away[number - 1] + share * (away[number] - away[number - 1]))


def _doubts(run: HeadingRun, scatter: float, at_limit: bool) -> tuple[Notice, ...]:
    found = []
    gaps = np.diff(np.r_[run.azimuth, run.azimuth[0] + 2.0 * np.pi])
    if gaps.max() > math.radians(60.0):
        found.append(
            Notice(
                code="tuning.headings-missing",
                severity="doubt",
                text="Part of the turn was not measured; read every 30 degrees or closer.",
                value=f"{math.degrees(float(gaps.max())):.0f} deg",
                limit="60 deg",
            )
        )
    if scatter > 2.0 * _USUAL_SCATTER_DB:
        found.append(
            Notice(
                code="tuning.pattern-differs",
                severity="doubt",
                text="The readings do not follow the computed pattern. Was the signal steady and "
                "far away, and is no other antenna near?",
                value=f"{scatter:.1f} dB",
                limit=f"{2.0 * _USUAL_SCATTER_DB:g} dB",
            )
        )
    if at_limit:
        found.append(
            Notice(
                code="tuning.rotator-far-off",
                severity="doubt",
                text="The rotator seems to be off by 60 degrees or more: turn the beam on its mast "
                "roughly right first.",
            )
        )
    return tuple(found)
