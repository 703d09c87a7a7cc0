"""Hops with the antenna's own pattern, pointing loss, turning."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach.hops import (
    E_LAYER,
    F2_LAYER,
    gain_at_elevation,
    hop_elevation,
    hops_for_path,
    longest_hop,
)
from boomwright.reach.turning import pointing_losses, turn_time
from boomwright.solver import PatternCut

ELEVATION = np.arange(0.0, 181.0)
# A made-up lobe: a parabola in decibels, 12 dBi at 15 degrees.
LOBE = PatternCut(
    plane="elevation",
    at_deg=0.0,
    angle_deg=ELEVATION,
    gain_dbi=np.maximum(12.0 - 0.03 * (ELEVATION - 15.0) ** 2, -60.0),
)
AZIMUTH = np.arange(0.0, 360.0, 1.0)
OFF = np.minimum(AZIMUTH, 360.0 - AZIMUTH)
BEAM = PatternCut(
    plane="azimuth", at_deg=15.0, angle_deg=AZIMUTH, gain_dbi=12.0 - 12.0 * (OFF / 60.0) ** 2
)


def test_fewest_hops_first_and_each_longer_than_the_next():
    found = hops_for_path(distance=9000e3, layer=F2_LAYER, cut=LOBE)
    assert [reading.hops for reading in found] == [3, 4, 5]
    assert all(r.hop_length <= longest_hop(layer_height=F2_LAYER.highest) for r in found)
    assert all(0.0 <= r.lowest_elevation_deg < r.highest_elevation_deg for r in found)


def test_gain_range_holds_the_peak_when_it_lies_inside():
    (reading, *_) = hops_for_path(distance=2000e3, layer=F2_LAYER, cut=LOBE)
    assert reading.lowest_elevation_deg < 15.0 < reading.highest_elevation_deg
    assert reading.highest_gain_dbi == pytest.approx(12.0)
    assert reading.lowest_gain_dbi == pytest.approx(
        min(
            gain_at_elevation(LOBE, elevation_deg=reading.lowest_elevation_deg),
            gain_at_elevation(LOBE, elevation_deg=reading.highest_elevation_deg),
        )
    )


def test_longest_hop_comes_in_at_its_own_elevation():
    for elevation_deg in (0.5, 5.0, 30.0):
        hop = longest_hop(layer_height=110e3, elevation=math.radians(elevation_deg))
        back = hop_elevation(hop_length=hop, layer_height=110e3)
        assert math.degrees(back) == pytest.approx(elevation_deg, abs=1e-9)


def test_stated_heights():
    assert (E_LAYER.lowest, E_LAYER.highest) == (90e3, 130e3)
    assert (F2_LAYER.lowest, F2_LAYER.highest) == (250e3, 400e3)


def test_wrong_cut_and_distance_are_refused():
    with pytest.raises(BoomwrightError, match="give the elevation cut"):
        hops_for_path(distance=1e6, layer=E_LAYER, cut=BEAM)
    with pytest.raises(BoomwrightError, match="distance above 0"):
        hops_for_path(distance=0.0, layer=E_LAYER, cut=LOBE)
    with pytest.raises(BoomwrightError, match="hop above 0"):
        hop_elevation(hop_length=0.0, layer_height=110e3)


def test_pointing_loss_of_a_parabola():
    for reading in pointing_losses(BEAM):
        expected = 60.0 * math.sqrt(reading.loss_db / 12.0)
        assert reading.left_deg == pytest.approx(expected, abs=0.02)
        assert reading.right_deg == pytest.approx(expected, abs=0.02)


def test_round_pattern_never_falls():
    flat = PatternCut(plane="azimuth", at_deg=0.0, angle_deg=AZIMUTH, gain_dbi=0.0 * AZIMUTH)
    assert all(reading.left_deg == 180.0 for reading in pointing_losses(flat))


def test_pointing_loss_refuses_the_wrong_cut():
    with pytest.raises(BoomwrightError, match="give the azimuth cut"):
        pointing_losses(LOBE)


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [(350, 10, 20), (10, 350, 20), (0, 90, 90), (90, 270, 180), (90, 90, 0)],
)
def test_time_to_turn_the_short_way(start, end, expected):
    headings = {"start": math.radians(start), "end": math.radians(end)}
    assert turn_time(**headings, seconds_per_turn=360.0) == pytest.approx(expected, abs=1e-9)
    with pytest.raises(BoomwrightError, match="time of a full turn"):
        turn_time(**headings, seconds_per_turn=0.0)
