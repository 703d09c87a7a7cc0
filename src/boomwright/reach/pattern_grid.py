"""Gain in all directions, for the pattern in space."""

from __future__ import annotations

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver import FREE_SPACE, BeamSolution, Ground, gain_dbi

#: steps of the grid; lobes of a high beam are narrow in elevation [deg]
_AZIMUTH_STEP = 5.0
_ELEVATION_STEP = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PatternGrid(ReadOnlyArrays):
    """Gain in all directions, total of both polarisations."""

    azimuth_deg: Floats  #: counter-clockwise from the heading, 0..360, both ends given [deg] (a,)
    #: above the horizon: from 0 over ground, from -90 in free space [deg] (e,)
    elevation_deg: Floats
    gain_dbi: Floats  #: gain, floored at -60 [dBi] (e, a)


def pattern_grid(
    *, solution: BeamSolution, ground: Ground = FREE_SPACE, height: float = 0.0
) -> PatternGrid:
    """Compute the gain on a grid of directions.

    Args:
        height: boom above ground [m]
    """
    lowest = -90.0 if ground.kind == "free space" else 0.0
    azimuth = np.arange(0.0, 360.0 + _AZIMUTH_STEP / 2.0, _AZIMUTH_STEP)
    elevation = np.arange(lowest, 90.0 + _ELEVATION_STEP / 2.0, _ELEVATION_STEP)
    around, up = np.meshgrid(np.radians(azimuth), np.radians(elevation))
    gain = gain_dbi(
        solution=solution,
        azimuth=around.ravel(),
        elevation=up.ravel(),
        ground=ground,
        height=height,
    )
    return PatternGrid(
        azimuth_deg=azimuth, elevation_deg=elevation, gain_dbi=gain[0].reshape(around.shape)
    )
