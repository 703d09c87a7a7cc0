"""Elevation patterns against height, held to the image of a horizontal wire."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.reach import ZonedGround, forward_lobes, plain_antennas, scan_heights
from boomwright.reach.comparison import half_wave_dipole
from boomwright.reach.ground_zones import GroundZone
from boomwright.reach.height_scan import usual_heights
from boomwright.solver import FREE_SPACE, GROUND_CLASSES, PERFECT_GROUND
from fakes.readings import fake_beam

FREQUENCY = 14.175e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
DIPOLE = half_wave_dipole(frequency=FREQUENCY, height=10.0)
MEDIUM = GROUND_CLASSES["medium dry"]


def test_minima_over_perfect_ground_follow_the_image():
    """Sin a = n wl / (2 h)."""
    height = 1.3 * WAVELENGTH
    scan = scan_heights(beam=DIPOLE, ground=PERFECT_GROUND, heights=[height])
    wanted = np.degrees(np.arcsin(np.array([1, 2]) * WAVELENGTH / (2.0 * height)))
    assert scan.nulls_deg[0] == pytest.approx(wanted, abs=0.2)


def test_a_lobe_splits_off_at_every_half_wavelength_over_perfect_ground():
    """A minimum reaches down from the zenith when 2 h is a whole number of wavelengths."""
    scan = scan_heights(
        beam=DIPOLE,
        ground=PERFECT_GROUND,
        heights=np.linspace(0.2, 1.7, 16) * WAVELENGTH,
    )
    assert [split.lobes for split in scan.splits] == [2, 3, 4]
    found = np.array([split.height for split in scan.splits]) / WAVELENGTH
    # A minimum exactly at the zenith is none between two lobes, and 3 dB must show first.
    assert (found >= np.array([0.5, 1.0, 1.5]) - 0.01).all()
    assert (found <= np.array([0.5, 1.0, 1.5]) + 0.06).all()


def test_a_far_ground_like_the_near_one_changes_nothing():
    alike = ZonedGround(near=MEDIUM, beyond=(GroundZone(ground=MEDIUM, begins=60.0),))
    one = scan_heights(beam=DIPOLE, ground=MEDIUM, heights=[8.0, 16.0])
    two = scan_heights(beam=DIPOLE, ground=MEDIUM, heights=[8.0, 16.0], far_ground=alike)
    assert two.gain_dbi == pytest.approx(one.gain_dbi, abs=1e-12)


def test_the_sea_beyond_helps_below_its_elevation_and_ripples_above():
    sea = ZonedGround(
        near=MEDIUM, beyond=(GroundZone(ground=GROUND_CLASSES["sea water"], begins=80.0),)
    )
    plain = scan_heights(beam=DIPOLE, ground=MEDIUM, heights=[16.0])
    coast = scan_heights(beam=DIPOLE, ground=MEDIUM, heights=[16.0], far_ground=sea)
    border = np.degrees(np.arctan(16.0 / 80.0))
    low, high = plain.elevation_deg < border - 1.0, plain.elevation_deg > border + 1.0
    assert coast.gain_dbi[0][high] == pytest.approx(plain.gain_dbi[0][high], abs=1.2)
    gained = coast.gain_dbi[0][low][2:] - plain.gain_dbi[0][low][2:]
    assert (gained > -0.1).all()
    assert gained[2:].mean() > 0.05
    assert gained.max() < 6.0


def test_ripples_are_no_lobes():
    angle = np.arange(0.0, 100.5, 0.5)
    level = 10.0 * np.sin(np.radians(2.0 * angle)) + 0.4 * np.sin(np.radians(60.0 * angle))
    many, _ = forward_lobes(elevation_deg=angle, gain_dbi=level)
    one, _ = forward_lobes(elevation_deg=angle, gain_dbi=level, least_depth_db=1.0)
    assert len(many) > 3
    assert len(one) == 1
    assert one[0] == max(many, key=lambda lobe: lobe[1])
    deep = 3.0 * np.sin(np.radians(8.0 * angle))
    assert forward_lobes(elevation_deg=angle, gain_dbi=deep) == forward_lobes(
        elevation_deg=angle, gain_dbi=deep, least_depth_db=1.0
    )


def test_impossible_requests_are_refused_with_a_remedy():
    with pytest.raises(BoomwrightError, match="name a ground"):
        scan_heights(beam=DIPOLE, ground=FREE_SPACE)
    with pytest.raises(BoomwrightError, match="rising heights"):
        scan_heights(beam=DIPOLE, ground=MEDIUM, heights=[10.0, 9.0])


def test_the_usual_heights_hold_the_height_of_the_plan():
    for height in (3.2, 16.0, 70.0):
        heights = usual_heights(beam=half_wave_dipole(frequency=FREQUENCY, height=height))
        assert heights[0] <= height <= heights[-1]


def test_a_dipole_over_perfect_ground_has_the_textbook_gain():
    """2.15 dBi and close to 6 dB of ground gain {stutzman-thiele-1998}, height 2 wavelengths."""
    plain = plain_antennas(
        frequency=FREQUENCY,
        height=2.0 * WAVELENGTH,
        ground=PERFECT_GROUND,
        elevation_deg=np.arange(0.0, 90.5, 0.25),
    )
    dipole, _, vertical = plain
    assert dipole.cut.gain_dbi.max() == pytest.approx(2.15 + 6.02, abs=0.2)
    # A quarter-wave vertical on a perfect plane: 5.15 dBi along the plane.
    assert vertical.cut.gain_dbi.max() == pytest.approx(5.15, abs=0.05)
    assert vertical.cut.angle_deg[vertical.cut.gain_dbi.argmax()] == 0.0


def test_a_scan_takes_sixty_heights_unless_told_otherwise():
    assert len(scan_heights(beam=fake_beam(), ground=MEDIUM).heights) == 60
