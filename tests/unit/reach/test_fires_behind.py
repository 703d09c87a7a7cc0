"""A beam whose main lobe over its ground stands behind it, or straight up."""

from __future__ import annotations

import re

import numpy as np
import pytest

import antennas
from boomwright.reach import read_beam
from boomwright.solver import GROUND_CLASSES

FREQUENCY = 14.175e6


def readings(lengths, height):
    beam = antennas.beam(
        lengths=lengths,
        places=(0.0, 2.6, 5.2)[: len(lengths)],
        diameter=0.022,
        driven=1,
        frequency=FREQUENCY,
        gap=0.04,
        height=height,
    )
    return read_beam(
        beam=beam, ground=GROUND_CLASSES["medium dry"], frequencies=np.array([FREQUENCY])
    )


def behind(found):
    return [notice.text for notice in found.notices if notice.code == "reach.fires-behind"]


@pytest.mark.parametrize("height", [1.0, 2.2, 4.5, 16.0])
def test_a_beam_tuned_the_wrong_way_round_says_where_its_main_lobe_is(height):
    found = readings((9.4, 10.1, 10.9), height)
    over = found.over_ground
    (text,) = behind(found)
    assert "does not fire forward over its ground" in text
    above, strongest = map(float, re.search(r"stands (\d+)°.*? with (-?[\d.]+) dBi", text).groups())
    pattern = over.elevation_pattern
    assert strongest == pytest.approx(pattern.gain_dbi.max(), abs=0.051)
    place = pattern.angle_deg[pattern.gain_dbi.argmax()]
    assert place > 90.0
    assert above == pytest.approx(180.0 - place, abs=0.51)
    assert over.peak_gain_dbi < strongest


def test_without_any_lobe_forward_the_most_there_is_told():
    over = readings((9.4, 10.1, 10.9), 2.2).over_ground
    assert over.lobes == ()
    ahead = over.elevation_pattern.angle_deg <= 90.0
    assert over.peak_gain_dbi == over.elevation_pattern.gain_dbi[ahead].max()
    assert over.peak_elevation_deg == pytest.approx(90.0)


@pytest.mark.parametrize("height", [2.2, 16.0])
def test_a_beam_tuned_rightly_says_nothing(height):
    assert behind(readings((10.9, 10.1, 9.4), height)) == []
