"""One beam at one height: solved over its ground, its gain over a ground that may change."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base import VACUUM_IMPEDANCE
from boomwright.base.array_types import Complexes, Floats
from boomwright.parts import Beam
from boomwright.reach.ground_zones import ZonedGround, zoned_far_field
from boomwright.solver import (
    FREE_SPACE,
    BeamSolution,
    Ground,
    PatternCut,
    Preparer,
    gain_dbi,
    prepare_run,
    solve_beam,
    working_detail,
)

#: floor of printed gains [dBi]
_FLOOR_DBI = -60.0


def solve_at_height(
    *, beam: Beam, ground: Ground, height: float, prepare: Preparer = prepare_run
) -> BeamSolution:
    """Solve a beam at its design frequency at another height.

    Args:
        height: boom above ground [m]
    """
    return solve_beam(
        beam=replace(beam, height=height),
        frequencies=np.array([beam.design_frequency]),
        # The band's upper edge as everywhere else, so that prepared runs are found again.
        detail=working_detail(frequency=float(max(*beam.band, beam.design_frequency))),
        ground=ground,
        prepare=prepare,
    )


def layered_gain_dbi(
    *,
    solution: BeamSolution,
    azimuth: Floats,
    elevation: Floats,
    ground: Ground,
    height: float,
    far_ground: ZonedGround | None = None,
) -> Floats:
    """Gain over a ground that may change with distance; the currents are those over the near one.

    Args:
        azimuth: counter-clockwise from the heading [rad] (d,)
        elevation: above the horizon [rad] (d,)
        height: boom above it [m]

    Returns:
        gain [dBi] (d,)
    """
    if far_ground is None:
        near: Floats = gain_dbi(
            solution=solution, azimuth=azimuth, elevation=elevation, ground=ground, height=height
        )[0]
        return near
    vertical, horizontal = zoned_far_field(
        solution.source.lifted(height=height),
        azimuth=azimuth,
        elevation=elevation,
        ground=far_ground,
        height=height,
    )
    return level_dbi(vertical[0], horizontal[0], accepted=float(solution.accepted[0]))


def level_dbi(vertical: Complexes, horizontal: Complexes, *, accepted: float) -> Floats:
    """Gain of a far field, total of both polarisations {ieee-145}.

    Args:
        vertical, horizontal: components, times distance [V] (d,)
        accepted: power accepted [W]

    Returns:
        gain, floored [dBi] (d,)
    """
    density = (np.abs(vertical) ** 2 + np.abs(horizontal) ** 2) / (2.0 * VACUUM_IMPEDANCE)
    ratio = 4.0 * np.pi * density / accepted
    return np.asarray(10.0 * np.log10(np.maximum(ratio, 10.0 ** (_FLOOR_DBI / 10.0))))


def free_space_elevation(*, beam: Beam, prepare: Preparer = prepare_run) -> PatternCut:
    """Elevation cut in free space at the design frequency, for terrain to bend."""
    solution = solve_at_height(beam=beam, ground=FREE_SPACE, height=beam.height, prepare=prepare)
    angle = np.arange(0.0, 360.5, 1.0)
    gain = gain_dbi(
        solution=solution,
        azimuth=np.where(np.cos(np.radians(angle)) >= -1e-12, 0.0, np.pi),
        elevation=np.arcsin(np.sin(np.radians(angle))),
    )
    return PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=gain[0])
