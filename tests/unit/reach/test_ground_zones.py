"""Ground that changes with distance."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach import layered_gain_dbi, solve_at_height
from boomwright.reach.comparison import half_wave_dipole
from boomwright.reach.ground_reflection import (
    ground_coefficients,
    reflection_distance,
)
from boomwright.reach.ground_zones import (
    GroundZone,
    ZonedGround,
    beyond_border,
    zone_weights,
)
from boomwright.solver import FREE_SPACE, GROUND_CLASSES
from zoned_factor import ground_factor

LAND, SEA = GROUND_CLASSES["medium dry"], GROUND_CLASSES["sea water"]
MARSH = GROUND_CLASSES["wet"]
ANGLES = np.radians(np.arange(1.0, 90.0))
WAVELENGTH = 21.15


def _zones(*beyond):
    return ZonedGround(
        near=LAND,
        beyond=tuple(
            GroundZone(ground=ground, begins=begins, drop=drop) for ground, begins, drop in beyond
        ),
    )


COAST = _zones((MARSH, 80.0, 0.0), (SEA, 400.0, 2.0))


def test_weights_sum_to_one_and_each_zone_has_its_angles():
    weights = zone_weights(COAST, height=20.0, elevation=ANGLES, wavelength=WAVELENGTH)
    assert weights.sum(axis=0) == pytest.approx(np.ones(len(ANGLES)), abs=1e-14)
    # High up most comes from the ground below, between the borders most from the marsh.
    size = np.abs(weights)
    assert size[0, 59:] == pytest.approx(np.ones(30), abs=0.15)
    assert size[1:, 79:].max() < 0.15
    assert list(size.argmax(axis=0)[[0, 7, 40]]) == [2, 1, 0]


def test_half_of_the_wave_comes_from_beyond_the_border_at_its_own_angle():
    angle = math.atan(20.0 / 80.0)
    half = beyond_border(border=80.0, height=20.0, elevation=angle, wavelength=WAVELENGTH)
    assert half[0] == pytest.approx(0.5, abs=1e-6)


def test_the_weight_is_that_of_the_integral_over_the_ground():
    """Kirchhoff's integral of a line source over the ground, summed point by point.

    The aperture integral with the mean of both obliquity factors {sommerfeld-1896}, its far end
    damped; a short wave keeps the end of the sum from counting.
    """
    height, border, wavelength = 20.0, 60.0, 4.0
    k = 2.0 * math.pi / wavelength
    x = np.linspace(border, 3.0e3, 400_001)
    r = np.hypot(x, height)
    fade = 0.5 * (1.0 + np.cos(np.pi * np.clip((x - 1.0e3) / 2.0e3, 0.0, 1.0)))
    for elevation in np.radians([12.0, 16.0, 18.4, 22.0, 30.0]):
        slant = 0.5 * (height / r + math.sin(elevation))
        extra = r - x * math.cos(elevation) - height * math.sin(elevation)
        wave = slant * np.exp(-1j * k * extra) / np.sqrt(r) * fade
        whole = np.sqrt(k / (2.0 * math.pi)) * np.exp(1j * math.pi / 4.0) * np.trapezoid(wave, x)
        found = beyond_border(
            border=border, height=height, elevation=elevation, wavelength=wavelength
        )
        assert found[0] == pytest.approx(whole, abs=0.005)


def test_ripples_far_from_a_border_are_small():
    """High up, all but the ground below must count for little: no border is ruler-straight."""
    high = np.radians(np.arange(45.0, 90.0, 1.0))
    weights = zone_weights(COAST, height=20.0, elevation=high, wavelength=WAVELENGTH)
    straight = 1.0 - beyond_border(border=80.0, height=20.0, elevation=high, wavelength=WAVELENGTH)
    left, sharp = np.abs(weights[0] - 1.0), np.abs(straight - 1.0)
    assert (left < sharp).all()
    assert (left[30:] < 0.5 * sharp[30:]).all()


def test_zones_alike_are_one_ground():
    alike = _zones((LAND, 50.0, 0.0), (LAND, 200.0, 0.0))
    found = ground_factor(alike, height=20.0, elevation=ANGLES, frequency=14e6)
    both = ground_coefficients(ground=LAND, elevation=ANGLES, frequency=14e6)
    k = 2.0 * math.pi * 14e6 / 299792458.0
    wanted = 1.0 + both[0] * np.exp(-2j * k * 20.0 * np.sin(ANGLES))
    assert found == pytest.approx(wanted, abs=1e-12)


def test_a_pattern_over_zones_is_direct_plus_weighted_reflections():
    """A level dipole across the heading: the full field must follow the plain factor."""
    dipole = half_wave_dipole(frequency=14.175e6, height=20.0)
    solution = solve_at_height(beam=dipole, ground=LAND, height=20.0)
    ahead = np.zeros(len(ANGLES))
    zoned = layered_gain_dbi(
        solution=solution, azimuth=ahead, elevation=ANGLES, ground=LAND, height=20.0,
        far_ground=COAST,
    )  # fmt: skip
    plain = layered_gain_dbi(
        solution=solution, azimuth=ahead, elevation=ANGLES, ground=LAND, height=20.0
    )
    one = _zones((LAND, 80.0, 0.0))
    factors = [
        20.0
        * np.log10(np.abs(ground_factor(each, height=20.0, elevation=ANGLES, frequency=14.175e6)))
        for each in (COAST, one)
    ]
    deep = np.minimum(*factors) > -15.0
    assert (zoned - plain)[deep] == pytest.approx((factors[0] - factors[1])[deep], abs=1e-6)


def test_the_pattern_runs_smoothly_over_a_border():
    """Between the two grounds lies several decibels; nowhere does a tenth of a degree jump."""
    fine = np.radians(np.arange(1.0, 40.0, 0.1))
    sea = ZonedGround(near=SEA, beyond=(GroundZone(ground=SEA, begins=60.0),))
    shore, land, water = (
        20.0
        * np.log10(
            np.abs(
                ground_factor(
                    each, height=10.0, elevation=fine, frequency=14e6, polarisation="vertical"
                )
            )
        )
        for each in (_zones((SEA, 60.0, 0.0)), _zones((LAND, 60.0, 0.0)), sea)
    )
    border = int(np.searchsorted(fine, math.atan(10.0 / 60.0)))
    assert water[border] - land[border] > 3.0
    assert land[border] < shore[border] < water[border]
    # No steeper than the ground that changes fastest, but for a twentieth of a decibel.
    steepest = max(np.abs(np.diff(each)).max() for each in (land, water))
    assert np.abs(np.diff(shore)).max() < steepest + 0.05


def test_reflection_point():
    assert reflection_distance(height=20.0, elevation=math.radians(45.0)) == pytest.approx(20.0)
    assert reflection_distance(height=20.0, elevation=0.0) == np.inf


def test_refusals():
    with pytest.raises(BoomwrightError, match="name a ground for every"):
        _zones((FREE_SPACE, 10.0, 0.0))
    with pytest.raises(BoomwrightError, match="from 0 m up"):
        _zones((SEA, -1.0, 0.0))
    with pytest.raises(BoomwrightError, match="nearest first"):
        _zones((SEA, 100.0, 0.0), (LAND, 50.0, 0.0))
    with pytest.raises(BoomwrightError, match="0 or more"):
        _zones((SEA, 10.0, -1.0))
    with pytest.raises(BoomwrightError, match="name a ground"):
        ground_coefficients(ground=FREE_SPACE, elevation=0.3, frequency=14e6)
    with pytest.raises(BoomwrightError, match="height above 0"):
        zone_weights(COAST, height=0.0, elevation=ANGLES, wavelength=WAVELENGTH)
