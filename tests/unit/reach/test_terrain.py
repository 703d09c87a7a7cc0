"""Terrain: simplification, limits, speed and refusals."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.reach.terrain import (
    MOST_CORNERS,
    field_over_facets,
    gain_over_terrain,
    terrain_reflection,
)
from boomwright.reach.terrain_facets import facets_of
from boomwright.reach.terrain_profile import (
    TerrainProfile,
    significant_profile,
    tolerated_error,
    with_mast_foot,
)
from boomwright.reach.terrain_rays import Scene
from boomwright.solver import GROUND_CLASSES, PERFECT_GROUND, PatternCut

MEDIUM = GROUND_CLASSES["medium dry"]
ANGLES = np.arange(1.0, 60.0, 0.5)


def _profile(*points: tuple[float, float]) -> TerrainProfile:
    x, z = np.array(points).T
    return TerrainProfile(distance=x, height=z)


def _field(profile: TerrainProfile, **changes) -> np.ndarray:
    given = {"height": 18.0, "frequency": 14.1e6, "ground": MEDIUM, "elevation_deg": ANGLES}
    pattern = gain_over_terrain(profile=profile, **{**given, **changes})
    return 10.0 ** (pattern.gain_dbi / 20.0)


def test_simplified_profile_stays_within_the_tolerance():
    rng = np.random.default_rng(7)
    x = np.linspace(0.0, 4000.0, 2000)
    z = 40.0 * np.sin(x / 500.0) + rng.normal(0.0, 0.4, x.size)
    profile = TerrainProfile(distance=x, height=z)
    allowed = tolerated_error(distance=x, height=18.0, wavelength=21.0)
    simple, factor = significant_profile(profile, tolerance=allowed, most_points=200)
    off = np.abs(np.interp(x, simple.distance, simple.height) - z)
    assert factor == 1.0
    assert np.all(off <= allowed)
    assert len(simple.distance) < 100


def test_tolerance_is_widened_when_points_are_few():
    x = np.linspace(0.0, 4000.0, 400)
    profile = TerrainProfile(distance=x, height=50.0 * np.sin(x / 60.0))
    simple, factor = significant_profile(profile, tolerance=0.5, most_points=20)
    assert factor > 1.0
    assert len(simple.distance) <= 20
    pattern = gain_over_terrain(
        profile=profile, height=18.0, frequency=50e6, ground=MEDIUM, elevation_deg=ANGLES
    )
    assert len(pattern.profile.distance) <= MOST_CORNERS + 1
    assert "reach.terrain-coarse" in {notice.code for notice in pattern.notices}


def test_mast_foot_is_a_point():
    footed = with_mast_foot(_profile((-100.0, 0.0), (100.0, 20.0)))
    assert footed.distance[1] == 0.0
    assert footed.height[1] == pytest.approx(10.0)


@pytest.mark.parametrize("polarisation", ["horizontal", "vertical"])
def test_a_step_that_fades_away_leaves_flat_ground(polarisation):
    def field(rise: float) -> np.ndarray:
        reflection = terrain_reflection(ground=MEDIUM, frequency=14.1e6, polarisation=polarisation)
        scene = Scene(
            facets=facets_of(
                distance=np.array([0.0, 300.0, 600.0, 3000.0]),
                height=np.array([0.0, 0.0, rise, rise]),
            ),
            source=np.array([0.0, 18.0]),
            elevation=np.radians(ANGLES),
            wavenumber=2.0 * np.pi * 14.1e6 / SPEED_OF_LIGHT,
            reflection=reflection,
            amplitude=lambda direction: np.ones(np.shape(direction)),
        )
        return field_over_facets(scene)

    off = [float(np.abs(field(rise) - field(0.0)).max()) for rise in (1.0, 0.1, 0.01)]
    assert off[0] > 5.0 * off[1] > 25.0 * off[2]
    assert off[2] < 3e-4


def test_uniform_slope_tilts_the_pattern():
    # Ground falling by 5 degrees turns the two-ray pattern down by 5 degrees.
    fall = np.tan(np.radians(5.0))
    far = 1e6
    slope = _profile((-far, far * fall), (far, -far * fall))
    # Above 5 degrees: below them the level ground beyond the foot of the slope reflects too.
    angles = np.arange(6.0, 50.0)
    tilted = _field(slope, ground=PERFECT_GROUND, elevation_deg=angles)
    k = 2.0 * np.pi * 14.1e6 / 299792458.0
    normal_height = 18.0 * np.cos(np.radians(5.0))
    above_slope = np.radians(angles + 5.0)
    expected = 2.0 * np.abs(np.sin(k * normal_height * np.sin(above_slope)))
    np.testing.assert_allclose(tilted, expected, rtol=0.0, atol=0.02)


def test_high_hill_shadows_low_angles():
    hill = _profile((0.0, 0.0), (400.0, 0.0), (800.0, 200.0), (1200.0, 0.0))
    flat = _profile((0.0, 0.0), (1200.0, 0.0))
    shadow = ANGLES < 10.0  # the top stands at 12.8 degrees
    assert np.all(_field(hill)[shadow] < 0.5)
    assert _field(flat)[shadow].max() > 0.5


@pytest.mark.parametrize("polarisation", ["horizontal", "vertical"])
def test_pattern_is_nearly_continuous(polarisation):
    hill = _profile((0.0, 0.0), (300.0, 0.0), (500.0, 40.0), (700.0, 0.0), (2000.0, 0.0))
    fine = np.arange(0.5, 60.0, 0.02)
    field = _field(hill, elevation_deg=fine, polarisation=polarisation)
    # Rays of third order are left out: what jumps at their boundaries must stay small.
    assert np.abs(np.diff(field)).max() < 0.01


def test_free_space_pattern_weighs_each_ray():
    angle = np.arange(0.0, 360.0)
    cut = PatternCut(
        plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=np.where(angle < 180, 6.0, -60.0)
    )
    # No power downwards: no reflection, only the direct ray 6 dB up.
    field = _field(_profile((0.0, 0.0), (3000.0, 0.0)), free_space=cut)
    np.testing.assert_allclose(field, 10 ** (6 / 20), rtol=2e-3)


@pytest.mark.parametrize("seed", range(12))
def test_no_rough_profile_makes_the_field_run_away(seed):
    # Seed 11 once did: an observer within 0.001 degrees of two boundaries at a time.
    rng = np.random.default_rng(seed)
    x = np.linspace(0.0, 10e3, 2000)
    walk = np.cumsum(rng.normal(0.0, rng.uniform(2.0, 30.0), 120))
    profile = TerrainProfile(distance=x, height=np.interp(x, np.linspace(0.0, 10e3, 120), walk))
    field = _field(profile, frequency=50.1e6, elevation_deg=np.arange(0.5, 60.0, 0.25))
    assert np.all(np.isfinite(field))
    assert field.max() < 5.0


def test_two_thousand_points_give_a_gain_at_every_angle():
    rng = np.random.default_rng(3)
    x = np.linspace(0.0, 10e3, 2000)
    coarse = np.cumsum(rng.normal(0.0, 15.0, 60))
    z = np.interp(x, np.linspace(0.0, 10e3, 60), coarse) + rng.normal(0.0, 0.5, x.size)
    found = gain_over_terrain(
        profile=TerrainProfile(distance=x, height=z),
        height=20.0,
        frequency=28.5e6,
        ground=MEDIUM,
        elevation_deg=np.arange(0.5, 60.0, 1.0),
    )
    assert len(found.gain_dbi) == len(found.elevation_deg)
    assert np.all(np.isfinite(found.gain_dbi))
    assert len(found.profile.distance) <= MOST_CORNERS


@pytest.mark.parametrize(
    ("distance", "height", "words"),
    [
        ([0.0, 1.0], [0.0], "same length"),
        ([0.0, 10.0, 10.0], [0.0, 1.0, 2.0], "at point 2 does not rise"),
        ([5.0, 10.0], [0.0, 1.0], "start it at the mast"),
        ([0.0, np.nan], [0.0, 1.0], "fill the gaps"),
    ],
)
def test_bad_profiles_are_refused(distance, height, words):
    with pytest.raises(BoomwrightError, match=words):
        TerrainProfile(distance=np.array(distance), height=np.array(height))


def test_bad_questions_are_refused():
    flat = _profile((0.0, 0.0), (3000.0, 0.0))
    with pytest.raises(BoomwrightError, match="within 0 to 90"):
        _field(flat, elevation_deg=[95.0])
    with pytest.raises(BoomwrightError, match="both above 0"):
        _field(flat, height=0.0)
    azimuth = PatternCut(plane="azimuth", at_deg=0.0, angle_deg=ANGLES, gain_dbi=ANGLES)
    with pytest.raises(BoomwrightError, match="elevation cut"):
        _field(flat, free_space=azimuth)
    with pytest.raises(BoomwrightError, match="at least 3 points"):
        significant_profile(flat, tolerance=1.0, most_points=2)
