"""The gamma at the antenna: the picture's data, and following its advice ends at the match."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from field_scenarios import THREE_FOR_20

from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.feed.field_adjustment import (
    adjust_by_impedance,
    adjust_by_swr,
    gamma_adjustment,
)
from boomwright.feed.field_hairpin import solve_hairpin
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.feed.field_rods import solve_gamma
from boomwright.feed.reflection import standing_wave_ratio

SETTING = FieldSetting()


@pytest.fixture(scope="module")
def match():
    return solve_gamma(beam=THREE_FOR_20, rod_diameter=0.0127, spacing=0.11, setting=SETTING)


@pytest.fixture(scope="module")
def picture(match):
    return gamma_adjustment(match=match, setting=SETTING)


def seen_with(match, rod_length, capacitance):
    shape = replace(match.shape, rod_length=rod_length)
    solution = solve_wires(
        beam=match.beam,
        system=shape.wires(beam=match.beam, setting=SETTING),
        frequencies=np.array([match.frequency]),
        setting=SETTING,
    )
    reactance = 1.0 / (2.0 * np.pi * match.frequency * capacitance)
    return complex(solution.impedance[0]) - 1j * reactance


def test_lowest_place_of_the_picture_is_the_match(match, picture):
    place = np.unravel_index(np.argmin(picture.swr), picture.swr.shape)
    assert picture.rod_length[place[0]] == pytest.approx(match.shape.rod_length, rel=0.02)
    assert picture.capacitance[place[1]] == pytest.approx(match.shape.capacitance, rel=0.04)
    assert picture.swr.min() < 1.05
    assert picture.swr.max() > 3.0


@pytest.mark.parametrize(("row", "column"), [(3, 5), (17, 30), (38, 12)])
def test_picture_is_what_the_field_says(match, picture, row, column):
    seen = seen_with(match, picture.rod_length[row], picture.capacitance[column])
    ratio = float(standing_wave_ratio(seen, reference=50.0))
    assert picture.swr[row, column] == pytest.approx(ratio, rel=0.03)


@pytest.mark.parametrize(("rod", "capacitor"), [(0.93, 1.0), (1.06, 1.2), (1.0, 0.8), (0.95, 0.7)])
def test_following_the_advice_leads_to_the_match(match, picture, rod, capacitor):
    length = rod * match.shape.rod_length
    farads = capacitor * match.shape.capacitance
    for _ in range(3):
        measured = seen_with(match, length, farads)
        for step in adjust_by_impedance(adjustment=picture, measured=measured, capacitance=farads):
            if step.part == "strap":
                length += step.change
            else:
                farads += step.change
    final = seen_with(match, length, farads)
    assert float(standing_wave_ratio(final, reference=50.0)) <= 1.1


def test_capacitor_alone_when_the_resistance_is_right(picture):
    (step,) = adjust_by_impedance(adjustment=picture, measured=49.0 + 30.0j)
    assert step.part == "capacitor"
    # 30 ohm inductive: the capacitor must take out more, so it gets smaller.
    assert step.change < 0.0
    assert step.swr_after < 1.1
    assert adjust_by_impedance(adjustment=picture, measured=51.0 + 1.0j) == ()


def test_strap_first_when_the_resistance_is_off(picture):
    strap, capacitor = adjust_by_impedance(adjustment=picture, measured=30.0 + 0.0j)
    assert (strap.part, capacitor.part) == ("strap", "capacitor")
    assert strap.change > 0.0
    assert "out" in write(strap.text, system="us")


def test_reading_of_the_ratio_alone_gives_both_ways(picture):
    ways = adjust_by_swr(adjustment=picture, lowest=1.4)
    assert {np.sign(step.change) for step in ways} == {-1.0, 1.0}
    assert adjust_by_swr(adjustment=picture, lowest=1.05) == ()
    with pytest.raises(BoomwrightError, match="lowest reading"):
        adjust_by_swr(adjustment=picture, lowest=0.9)


def test_only_a_gamma_has_this_picture(match):
    hairpin = solve_hairpin(beam=THREE_FOR_20, rod_diameter=0.006, spacing=0.08)
    with pytest.raises(BoomwrightError, match="give a gamma"):
        gamma_adjustment(match=hairpin)
    with pytest.raises(BoomwrightError, match="keep both above 0"):
        gamma_adjustment(match=match, rod_lengths=[0.5, 6.0])
    with pytest.raises(BoomwrightError, match="check the bridge"):
        adjust_by_impedance(
            adjustment=gamma_adjustment(match=match, setting=SETTING), measured=-3.0 + 0j
        )
