"""Readings on the air: offset of the rotator, front-to-back, beam width, S-meter."""

import numpy as np
import pytest

from boomwright.tuning import compare_headings
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.on_air import heading_run, level_of_s_meter


def pattern(angle):
    """Gain of a made-up beam: 20 dB front-to-back."""
    shape = np.maximum(np.cos(0.5 * np.asarray(angle)), 0.0) ** 4
    return 7.0 + 20.0 * np.log10(np.maximum(shape, 0.1))


def turned(offset_deg, bearing_deg=40.0, step_deg=15.0, noise_db=0.0, seed=1):
    shown = np.radians(np.arange(0.0, 360.0, step_deg))
    seen = np.mod(np.radians(bearing_deg) - shown - np.radians(offset_deg) + np.pi, 2 * np.pi)
    noise = noise_db * np.random.default_rng(seed).normal(size=len(shown))
    return heading_run(azimuth=shown, level_db=pattern(seen - np.pi) - 80.0 + noise)


@pytest.mark.parametrize("offset", [-25.0, 0.0, 13.0])
def test_offset_front_to_back_and_width(offset):
    found = compare_headings(run=turned(offset), bearing=np.radians(40.0), gain_dbi=pattern)
    np.testing.assert_allclose(np.degrees(found.offset), offset, atol=0.3)
    np.testing.assert_allclose(found.computed_front_to_back_db, 20.0, rtol=1e-6)
    np.testing.assert_allclose(found.front_to_back_db, 20.0, atol=0.7)
    # cos^4(w/2) = 10^(-3/20): half width by hand 2 acos(10^(-3/80)).
    width = 4.0 * np.degrees(np.arccos(10.0 ** (-3.0 / 80.0)))
    np.testing.assert_allclose(np.degrees(found.computed_beam_width), width, atol=0.5)
    np.testing.assert_allclose(np.degrees(found.beam_width), width, atol=6.0)
    assert found.notices == ()


def test_band_covers_the_offset_in_noise():
    inside = 0
    for seed in range(100):
        run = turned(8.0, noise_db=2.0, seed=seed)
        found = compare_headings(run=run, bearing=np.radians(40.0), gain_dbi=pattern)
        inside += abs(found.offset - np.radians(8.0)) <= found.offset_band
    assert 90 <= inside <= 100


def test_doubts():
    other = heading_run(
        azimuth=np.radians(np.arange(0, 360, 20.0)), level_db=10.0 * (np.arange(18) % 3)
    )
    found = compare_headings(run=other, bearing=0.0, gain_dbi=pattern)
    assert "tuning.pattern-differs" in [n.code for n in found.notices]
    part = heading_run(azimuth=np.radians([0, 20, 40, 60, 80, 100]), level_db=np.zeros(6))
    found = compare_headings(run=part, bearing=0.0, gain_dbi=pattern)
    assert "tuning.headings-missing" in [n.code for n in found.notices]
    far = compare_headings(run=turned(75.0), bearing=np.radians(40.0), gain_dbi=pattern)
    assert "tuning.rotator-far-off" in [n.code for n in far.notices]


def test_s_meter():
    """IARU Region 1 R.1: 6 dB an S-unit {iaru-r1-r1}."""
    np.testing.assert_allclose(level_of_s_meter(s_units=9.0, over_db=20.0), 20.0, rtol=1e-12)
    np.testing.assert_allclose(level_of_s_meter(s_units=5.0), -24.0, rtol=1e-12)
    with pytest.raises(MeasurementError, match="no S-meter reading"):
        level_of_s_meter(s_units=5.0, over_db=10.0)


def test_too_few_readings():
    with pytest.raises(MeasurementError, match="six readings"):
        heading_run(azimuth=[0.0, 1.0], level_db=[0.0, 1.0])
    with pytest.raises(MeasurementError, match="not a number"):
        heading_run(azimuth=np.arange(6.0), level_db=[0.0, 1.0, 2.0, np.nan, 4.0, 5.0])
