"""Lobes of a horizontal antenna over flat ground, by two-ray geometry and P.527 constants.

The terrain method on a flat profile, and the zoned ground with its zones alike, must
give the plain two-ray result.
"""

from __future__ import annotations

import numpy as np
import pytest
from check_values import reach_check as check

from boomwright.base import SPEED_OF_LIGHT
from boomwright.reach.ground_zones import GroundZone, ZonedGround
from boomwright.reach.terrain import gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.solver import PERFECT_GROUND, Ground
from zoned_factor import ground_factor

FLAT = TerrainProfile(distance=np.array([0.0, 400.0, 5000.0]), height=np.full(3, 12.0))
FREQUENCY = 14e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
GROUNDS = [(70.0, 5.0), (30.0, 0.01), (13.0, 0.005), (3.0, 0.0001)]


def _alike(ground: Ground, border: float) -> ZonedGround:
    return ZonedGround(near=ground, beyond=(GroundZone(ground=ground, begins=border),))


def _two_ray_db(*, ground: Ground, height: float, elevation_deg: np.ndarray) -> np.ndarray:
    factor = ground_factor(
        _alike(ground, 100.0),
        height=height,
        elevation=np.radians(elevation_deg),
        frequency=FREQUENCY,
    )
    return 20.0 * np.log10(np.abs(factor))


@pytest.mark.parametrize("row", range(8))
def test_maxima_and_nulls_over_perfect_ground(row):
    values = check("gnd-lobes")
    height = values["inputs"]["height_wl"][row] * WAVELENGTH
    for printed, sign in (("maxima_deg", 1.0), ("nulls_deg", -1.0)):
        for angle in values["expected"][printed][row]:
            if angle in {0.0, 90.0}:
                continue
            # Within 0.05 degrees of the printed angle lies a maximum (or null) of the pattern.
            at = np.array([angle - 0.05, angle, angle + 0.05])
            gain = gain_over_terrain(
                profile=FLAT,
                height=height,
                frequency=FREQUENCY,
                ground=PERFECT_GROUND,
                elevation_deg=at,
            ).gain_dbi
            field = sign * 10.0 ** (gain / 20.0)
            assert field[1] >= max(field[0], field[2])


@pytest.mark.parametrize("which", range(4))
@pytest.mark.parametrize("column", range(3))
def test_ground_factor_over_real_ground(which, column):
    values = check("gnd-real-factor")
    height = values["inputs"]["height_wl"][column] * WAVELENGTH
    permittivity, conductivity = GROUNDS[which]
    ground = Ground(kind="real", permittivity=permittivity, conductivity=conductivity)
    # The printed angles are steps of 0.05 degrees.
    angles = np.arange(1.0, 90.0, 0.05)
    factor = _two_ray_db(ground=ground, height=height, elevation_deg=angles)
    first = int(np.flatnonzero((np.diff(factor)[1:] < 0) & (np.diff(factor)[:-1] >= 0))[0]) + 1
    assert factor[first] == pytest.approx(values["expected"]["factor_dB"][which][column], abs=0.01)
    assert angles[first] == pytest.approx(
        values["expected"]["elevation_deg"][which][column], abs=0.051
    )


@pytest.mark.parametrize("polarisation", ["horizontal", "vertical"])
@pytest.mark.parametrize("which", range(4))
def test_flat_profile_is_flat_ground(which, polarisation):
    permittivity, conductivity = GROUNDS[which]
    ground = Ground(kind="real", permittivity=permittivity, conductivity=conductivity)
    angles = np.arange(1.0, 90.0, 1.0)
    over_terrain = gain_over_terrain(
        profile=FLAT,
        height=16.0,
        frequency=FREQUENCY,
        ground=ground,
        elevation_deg=angles,
        polarisation=polarisation,
    ).gain_dbi
    factor = ground_factor(
        _alike(ground, 50.0),
        height=16.0,
        elevation=np.radians(angles),
        frequency=FREQUENCY,
        polarisation=polarisation,
    )
    assert 10 ** (over_terrain / 20) == pytest.approx(np.abs(factor), abs=1e-5)
