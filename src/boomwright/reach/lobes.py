"""Lobes and nulls of an elevation pattern."""

from __future__ import annotations

import numpy as np

from boomwright.base.array_types import Floats

#: a minimum counts as a null when it lies this far below the weaker neighbouring lobe [dB]
_NULL_DEPTH_DB = 3.0


def turning_points(*, angle: Floats, level: Floats) -> tuple[list[tuple[float, float]], ...]:
    """Maxima and minima of a sampled curve, sharpened by a parabola through three samples.

    Args:
        angle: equally spaced angles [deg] (n,)
        level: level at each angle [dB] (n,)

    Returns:
        maxima and minima, each a list of angle [deg] and level [dB]
    """
    maxima: list[tuple[float, float]] = []
    minima: list[tuple[float, float]] = []
    # A stretch of equal samples (a null below the floor, say) turns at its middle.
    changes = np.flatnonzero(np.diff(level))
    firsts, lasts = changes[:-1] + 1, changes[1:]
    before, after = level[firsts] - level[firsts - 1], level[lasts + 1] - level[lasts]
    for turn in np.flatnonzero(before * after <= 0.0):
        first, last = firsts[turn], lasts[turn]
        if first == last:
            place, height = _vertex(angle, level, int(first))
        else:
            place, height = 0.5 * float(angle[first] + angle[last]), float(level[first])
        (maxima if before[turn] > 0.0 else minima).append((place, height))
    return maxima, minima


def _vertex(angle: Floats, level: Floats, index: int) -> tuple[float, float]:
    """Vertex of the parabola through three samples."""
    before, after = level[index] - level[index - 1], level[index + 1] - level[index]
    bend = after - before
    place = angle[index] + (0.5 - after / bend) * (angle[index + 1] - angle[index])
    return float(place), float(level[index] - 0.125 * (after + before) ** 2 / bend)


def forward_lobes(
    *, elevation_deg: Floats, gain_dbi: Floats, least_depth_db: float = 0.0
) -> tuple[list[tuple[float, float]], list[float]]:
    """Lobes and nulls towards the heading, from the horizon to the zenith.

    Args:
        elevation_deg: elevations from 0 through 180 [deg] (n,)
        gain_dbi: [dBi] (n,)
        least_depth_db: maxima parted by a shallower minimum than this are one lobe: the
            stronger [dB]

    Returns:
        lobes as (elevation [deg], gain [dBi]) and nulls as elevation [deg], lowest first
    """
    maxima, minima = turning_points(angle=elevation_deg, level=gain_dbi)
    maxima = _parted(maxima, minima, least_depth_db)
    lobes = [(place, level) for place, level in maxima if place <= 90.0 + 1e-6]
    nulls = []
    for place, level in minima:
        if place > 90.0 + 1e-6:
            continue
        below = [height for at, height in maxima if at < place]
        above = [height for at, height in maxima if at > place]
        if below and above and min(below[-1], above[0]) - level >= _NULL_DEPTH_DB:
            nulls.append(place)
    return lobes, nulls


def _parted(
    maxima: list[tuple[float, float]], minima: list[tuple[float, float]], depth: float
) -> list[tuple[float, float]]:
    """Maxima with a minimum deep enough between each and the next; of two ripples the stronger."""
    kept: list[tuple[float, float]] = []
    for peak in maxima:
        while kept:
            between = [low for at, low in minima if kept[-1][0] < at < peak[0]]
            if not between or min(kept[-1][1], peak[1]) - min(between) >= depth:
                break
            if kept[-1][1] >= peak[1]:
                peak = kept[-1]
            kept.pop()
        kept.append(peak)
    return kept
