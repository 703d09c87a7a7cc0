"""One beam at one height: solved over its ground, its gain over a ground that may change."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from boomwright.parts import Beam
from boomwright.reach.ground_reflection import TwoZoneGround, reflection_distance
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

Floats = NDArray[np.float64]


def solve_at_height(
    *, beam: Beam, ground: Ground, height: float, prepare: Preparer = prepare_run
) -> BeamSolution:
    """Solve a beam at its design frequency at another height.

    Parameters
    ----------
    beam
        the beam [-]
    ground
        ground below it [-]
    height
        boom above ground [m]
    prepare
        prepares one run of wire [-]

    Returns
    -------
    BeamSolution
        the solution [-]
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
    far_ground: TwoZoneGround | None = None,
) -> Floats:
    """Gain over a ground that may change once with distance.

    The zone of the reflection point decides which coefficients count, as in
    :func:`~boomwright.reach.ground_reflection.reflection_by_elevation`; the currents are those
    over the near ground.

    Parameters
    ----------
    solution
        a beam solved over the near ground at one frequency [-]
    azimuth
        counter-clockwise from the heading [rad] (d,)
    elevation
        above the horizon [rad] (d,)
    ground
        ground below the antenna [-]
    height
        boom above it [m]
    far_ground
        the two zones; None when all is alike [-]

    Returns
    -------
    NDArray
        gain [dBi] (d,)
    """
    near: Floats = gain_dbi(
        solution=solution, azimuth=azimuth, elevation=elevation, ground=ground, height=height
    )[0]
    if far_ground is None:
        return near
    beyond: Floats = gain_dbi(
        solution=solution,
        azimuth=azimuth,
        elevation=elevation,
        ground=far_ground.far,
        height=height + far_ground.drop,
    )[0]
    from_far = reflection_distance(height=height, elevation=elevation) > far_ground.boundary
    return np.where(from_far, beyond, near)


def free_space_elevation(*, beam: Beam, prepare: Preparer = prepare_run) -> PatternCut:
    """Elevation cut in free space at the design frequency, for terrain to bend.

    Parameters
    ----------
    beam
        the beam [-]
    prepare
        prepares one run of wire [-]

    Returns
    -------
    PatternCut
        elevation cut, 0 to 360 degrees [-]
    """
    solution = solve_at_height(beam=beam, ground=FREE_SPACE, height=beam.height, prepare=prepare)
    angle = np.arange(0.0, 360.5, 1.0)
    gain = gain_dbi(
        solution=solution,
        azimuth=np.where(np.cos(np.radians(angle)) >= -1e-12, 0.0, np.pi),
        elevation=np.arcsin(np.sin(np.radians(angle))),
    )
    return PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=gain[0])


def image_lobe_deg(*, number: int, height: float, wavelength: float) -> float | None:
    """Elevation of a lobe of a horizontal wire over perfect ground, by its image.

    Parameters
    ----------
    number
        number of the lobe, 1 the lowest; 1, 2, 3 ... [-]
    height
        height of the wire [m]
    wavelength
        wavelength [m]

    Returns
    -------
    float or None
        sin a = (2 number - 1) wl / (4 h) {stutzman-thiele-1998}; None when it is not yet there
        [deg]
    """
    sine = (2 * number - 1) * wavelength / (4.0 * height)
    return math.degrees(math.asin(sine)) if sine <= 1.0 else None
