"""Lobes and nulls of an elevation pattern."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: a minimum counts as a null when it lies this far below the weaker neighbouring lobe [dB]
_NULL_DEPTH_DB = 3.0


def turning_points(*, angle: Floats, level: Floats) -> tuple[list[tuple[float, float]], ...]:
    """Maxima and minima of a sampled curve, sharpened by a parabola through three samples.

    Parameters
    ----------
    angle
        equally spaced angles [deg] (n,)
    level
        level at each angle [dB] (n,)

    Returns
    -------
    tuple of list
        maxima and minima, each a list of angle [deg] and level [dB]
    """
    rising = np.diff(level)
    maxima: list[tuple[float, float]] = []
    minima: list[tuple[float, float]] = []
    for index in range(1, len(level) - 1):
        before, after = rising[index - 1], rising[index]
        if before > 0.0 >= after or before < 0.0 <= after:
            bend = after - before
            shift = 0.5 - after / bend if bend else 0.0
            step = angle[index + 1] - angle[index]
            place = float(angle[index] + shift * step)
            height = (
                float(level[index] - 0.125 * (after + before) ** 2 / bend)
                if bend
                else float(level[index])
            )
            (maxima if before > 0.0 else minima).append((place, height))
    return maxima, minima


def forward_lobes(
    *, elevation_deg: Floats, gain_dbi: Floats
) -> tuple[list[tuple[float, float]], list[float]]:
    """Lobes and nulls towards the heading, from the horizon to the zenith.

    Parameters
    ----------
    elevation_deg
        elevations from 0 through 180 [deg] (n,)
    gain_dbi
        gain [dBi] (n,)

    Returns
    -------
    tuple
        lobes as (elevation [deg], gain [dBi]) and nulls as elevation [deg], lowest first
    """
    maxima, minima = turning_points(angle=elevation_deg, level=gain_dbi)
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
