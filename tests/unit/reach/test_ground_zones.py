"""Ground that changes with distance."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach.ground_reflection import (
    TwoZoneGround,
    first_fresnel_zone,
    ground_coefficients,
    reflection_by_elevation,
    reflection_distance,
)
from boomwright.solver import FREE_SPACE, GROUND_CLASSES

LAND, SEA = GROUND_CLASSES["medium dry"], GROUND_CLASSES["sea water"]
ANGLES = np.radians(np.arange(1.0, 90.0))


def test_sea_reflects_below_the_angle_of_the_shore():
    shore = TwoZoneGround(near=LAND, far=SEA, boundary=200.0)
    found = reflection_by_elevation(ground=shore, height=20.0, elevation=ANGLES, frequency=14e6)
    critical = math.atan(20.0 / 200.0)
    assert np.array_equal(found.from_far, critical > ANGLES)
    sea = ground_coefficients(ground=SEA, elevation=ANGLES, frequency=14e6)
    land = ground_coefficients(ground=LAND, elevation=ANGLES, frequency=14e6)
    for index, name in enumerate(("horizontal", "vertical")):
        expected = np.where(found.from_far, sea[index], land[index])
        np.testing.assert_allclose(getattr(found, name), expected, rtol=1e-14)


def test_a_drop_adds_to_the_height_over_the_sea():
    cliff = TwoZoneGround(near=LAND, far=SEA, boundary=50.0, drop=30.0)
    found = reflection_by_elevation(ground=cliff, height=20.0, elevation=ANGLES, frequency=14e6)
    assert set(found.phase_height[found.from_far]) == {50.0}
    assert set(found.phase_height[~found.from_far]) == {20.0}


def test_reflection_point():
    assert reflection_distance(height=20.0, elevation=math.radians(45.0)) == pytest.approx(20.0)
    assert reflection_distance(height=20.0, elevation=0.0) == np.inf


@pytest.mark.parametrize("elevation_deg", [2.0, 10.0, 45.0, 80.0])
def test_fresnel_zone_ends_are_half_a_wavelength_off(elevation_deg):
    a, h, wavelength = math.radians(elevation_deg), 20.0, 21.2
    near, far = first_fresnel_zone(height=h, elevation=a, wavelength=wavelength)
    assert near < reflection_distance(height=h, elevation=a) < far
    for x in (near, far):
        extra = math.hypot(x, h) - x * math.cos(a) - h * math.sin(a)
        assert extra == pytest.approx(wavelength / 2.0, rel=1e-9)


def test_refusals():
    with pytest.raises(BoomwrightError, match="name a ground for both"):
        TwoZoneGround(near=FREE_SPACE, far=SEA, boundary=10.0)
    with pytest.raises(BoomwrightError, match="0 or more"):
        TwoZoneGround(near=LAND, far=SEA, boundary=-1.0)
    with pytest.raises(BoomwrightError, match="name a ground"):
        ground_coefficients(ground=FREE_SPACE, elevation=0.3, frequency=14e6)
    shore = TwoZoneGround(near=LAND, far=SEA, boundary=10.0)
    with pytest.raises(BoomwrightError, match="height above 0"):
        reflection_by_elevation(ground=shore, height=0.0, elevation=ANGLES, frequency=14e6)
    with pytest.raises(BoomwrightError, match="above 0 deg"):
        first_fresnel_zone(height=10.0, elevation=0.0, wavelength=20.0)
