"""Cuts through the pattern of a solved beam."""

from __future__ import annotations

import numpy as np

from boomwright.solver import FREE_SPACE, BeamSolution, Ground, PatternCut, gain_dbi

#: step of pattern cuts [deg]
_CUT_STEP_DEG = 1.0


def azimuth_cut(
    solution: BeamSolution,
    at: int,
    *,
    ground: Ground = FREE_SPACE,
    height: float = 0.0,
    elevation_deg: float = 0.0,
    step: float = _CUT_STEP_DEG,
) -> PatternCut:
    """Cut at one elevation, all the way round.

    Args:
        height: boom above it [m]
        elevation_deg: elevation of the cut [deg]
        step: step of the cut, an even part of 180 [deg]
    """
    both_sides = not solution.symmetric
    last = 360.0 if both_sides else 180.0
    angle = np.arange(0.0, last + step / 2.0, step)
    gain = gain_dbi(
        solution=solution.at_frequency(number=at),
        azimuth=np.radians(angle),
        elevation=np.full(len(angle), np.radians(elevation_deg)),
        ground=ground,
        height=height,
    )
    if both_sides:
        return PatternCut(plane="azimuth", at_deg=elevation_deg, angle_deg=angle, gain_dbi=gain[0])
    return PatternCut(
        plane="azimuth",
        at_deg=elevation_deg,
        angle_deg=np.concatenate([angle, 360.0 - angle[-2::-1]]),
        gain_dbi=np.concatenate([gain[0], gain[0, -2::-1]]),
    )


def elevation_cut(
    solution: BeamSolution,
    at: int,
    *,
    ground: Ground = FREE_SPACE,
    height: float = 0.0,
    step: float = _CUT_STEP_DEG,
    last: float = 360.0,
) -> PatternCut:
    """Cut through the heading, from the horizon over the zenith.

    Args:
        height: boom above it [m]
        step: step of the cut [deg]
        last: angle it ends at; 180 is the horizon behind the beam [deg]
    """
    angle = np.arange(0.0, last + step / 2.0, step)
    radians = np.radians(angle)
    # Past the zenith the cut comes down behind the beam: azimuth turns to the back.
    elevation = np.arcsin(np.sin(radians))
    azimuth = np.where(np.cos(radians) >= -1e-12, 0.0, np.pi)
    gain = gain_dbi(
        solution=solution.at_frequency(number=at),
        azimuth=azimuth,
        elevation=elevation,
        ground=ground,
        height=height,
    )
    return PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=gain[0])
