"""Beams so low, or so wrong, that their main lobe is not ahead."""

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.reach import Known, quick_look, read_beam
from boomwright.solver import GROUND_CLASSES, gain_dbi, solve_beam, working_detail

FREQUENCY = 14.175e6
GROUND = GROUND_CLASSES["medium dry"]


def backwards(height):
    """Three elements whose reflector is the shortest: they fire to the rear."""
    return beam(
        lengths=[9.5, 10.0, 10.6],
        places=[0.0, 3.0, 6.0],
        diameter=0.025,
        driven=1,
        frequency=FREQUENCY,
        height=height,
        material="6061-T6",
    )


@pytest.mark.parametrize("height", [1.5, 2.5, 4.0, 6.0, 12.0])
def test_a_beam_that_fires_to_the_rear_says_where(height):
    readings = read_beam(
        beam=backwards(height), ground=GROUND, frequencies=np.array([14.0e6, 14.35e6])
    )
    over = readings.over_ground
    assert not over.fires_forward
    assert over.main_lobe.gain_dbi > over.peak_gain_dbi
    assert over.main_lobe.way in {"behind", "straight up"}
    codes = {"reach.fires-behind", "reach.fires-elsewhere"}
    told = [each for each in readings.notices if each.code in codes]
    assert [each.severity for each in told] == ["doubt"]
    assert "does not fire forward" in told[0].text


def test_a_beam_that_fires_ahead_says_nothing():
    over = read_beam(
        beam=backwards(12.0), ground=GROUND, frequencies=np.array([14.0e6, 14.35e6])
    ).beam
    turned = tuple(replace(element, position=6.0 - element.position) for element in over.elements)
    readings = read_beam(
        beam=replace(over, elements=turned), ground=GROUND, frequencies=np.array([14.175e6])
    )
    assert readings.over_ground.fires_forward
    assert readings.over_ground.main_lobe.way == "ahead"
    assert not [each for each in readings.notices if each.code.startswith("reach.fires")]


@pytest.mark.parametrize("height", [0.05, 0.1, 0.2])
def test_under_the_hand_the_ground_is_the_exact_one(height):
    wavelength = 299792458.0 / FREQUENCY
    antenna = backwards(height * wavelength)
    look = quick_look(beam=antenna, ground=GROUND, frequency=FREQUENCY)
    known = Known(point=look.point, over_ground=look.over_ground)
    moved = replace(
        antenna,
        elements=(
            antenna.elements[0],
            replace(antenna.elements[1], position=3.1),
            antenna.elements[2],
        ),
    )
    under = quick_look(beam=moved, ground=GROUND, frequency=FREQUENCY, previous=known).over_ground
    exact = solve_beam(
        beam=moved,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=max(moved.band)),
        ground=GROUND,
        method="exact",
    )
    gain = gain_dbi(
        solution=exact,
        azimuth=np.zeros(1),
        elevation=np.radians([under.peak_elevation_deg]),
        ground=GROUND,
        height=moved.height,
    )[0, 0]
    assert under.impedance == pytest.approx(complex(exact.impedance[0]), rel=1e-9)
    assert under.peak_gain_dbi == pytest.approx(gain, abs=under.gain_error_db)
