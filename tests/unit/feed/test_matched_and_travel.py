"""What the line sees over the band, the way through a match, planned feeds, stack lines."""

from __future__ import annotations

import math

import numpy as np
import pytest
from field_scenarios import THREE_FOR_20

from antennas import resonant_load
from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed import (
    FieldSetting,
    GammaShape,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    SplitShape,
    TeeShape,
    Transformer,
    design_l_sections,
    design_quarter_wave,
    design_stack_lines,
    impedance_travel,
    matched_sweep,
    solve_gamma,
    solve_planned,
    split_load,
    standing_wave_ratio,
    through_stages,
)

F0 = 14.175e6
LOAD = resonant_load(frequency=F0, impedance=25.0 - 8j, quality=15.0)


def test_a_matched_sweep_is_one_at_the_design_frequency_and_its_band_grows_with_the_error():
    match = design_l_sections(load=LOAD, frequency=F0)[0]
    at = np.linspace(14.0e6, 14.35e6, 9)
    seen = matched_sweep(
        stages=match.stages, frequency=at, impedance=LOAD.at(at), impedance_error=0.5
    )
    assert np.interp(F0, at, seen.swr) == pytest.approx(1.0, abs=0.01)
    assert np.all(seen.swr_error > 0.0)
    double = matched_sweep(
        stages=match.stages, frequency=at, impedance=LOAD.at(at), impedance_error=1.0
    )
    assert np.all(double.swr_error > seen.swr_error)
    assert np.interp(F0, at, seen.swr_error) == pytest.approx(
        0.5 / 25.0, rel=0.15, abs=0.0
    )  # half an ohm of 25 moves the ratio by about a fiftieth


def test_without_pieces_the_sweep_is_the_bare_ratio():
    at = np.array([14.0e6, 14.2e6])
    seen = matched_sweep(stages=(), frequency=at, impedance=[30.0, 60.0 + 10j])
    assert np.allclose(
        seen.swr, standing_wave_ratio(np.array([30.0, 60.0 + 10j])), rtol=1e-12, atol=0.0
    )
    assert np.all(seen.swr_error == 0.0)


@pytest.mark.parametrize(
    "stage",
    [
        SeriesInductor(inductance=0.4e-6),
        SeriesCapacitor(capacitance=200e-12),
        ShuntInductor(inductance=0.5e-6),
        ShuntCapacitor(capacitance=150e-12),
        LineSection(impedance=75.0, length=2.0, velocity_factor=0.66),
        ShuntStub(impedance=50.0, length=1.0, end="short"),
        ShuntStub(impedance=50.0, length=1.0, end="open"),
        Transformer(ratio=4.0, label="balun"),
    ],
)
def test_the_way_through_a_piece_goes_from_before_it_to_behind_it(stage):
    start = 30.0 + 20j
    (leg,) = impedance_travel(stages=(stage,), impedance=start, frequency=F0)
    assert leg.impedance[0] == start
    assert leg.impedance[-1] == pytest.approx(
        complex(through_stages((stage,), impedance=start, frequency=F0)), rel=1e-9, abs=0.0
    )


def test_reactances_keep_the_resistance_and_lossless_line_the_ratio_on_the_way():
    (leg,) = impedance_travel(
        stages=(SeriesInductor(inductance=1e-6),), impedance=30.0 - 50j, frequency=F0
    )
    assert np.allclose(leg.impedance.real, 30.0, rtol=1e-12, atol=0.0)
    (leg,) = impedance_travel(
        stages=(ShuntCapacitor(capacitance=300e-12),), impedance=30.0 - 50j, frequency=F0
    )
    conductance = (1.0 / leg.impedance).real
    assert np.allclose(conductance, conductance[0], rtol=1e-9, atol=0.0)
    (leg,) = impedance_travel(
        stages=(LineSection(impedance=50.0, length=3.0),), impedance=20.0 + 10j, frequency=F0
    )
    ratio = standing_wave_ratio(leg.impedance)
    assert np.allclose(ratio, ratio[0], rtol=1e-9, atol=0.0)


def test_a_quarter_wave_section_travels_to_the_reference():
    match = design_quarter_wave(load=LOAD, frequency=F0, velocity_factor=0.66)
    legs = impedance_travel(stages=match.stages, impedance=25.0 - 8j, frequency=F0)
    assert legs[-1].impedance[-1] == pytest.approx(50.0, rel=1e-9, abs=1e-9)


def test_two_fifty_ohm_beams_through_seventy_five_ohm_lines():
    # Common practice: two 50 ohm loads through odd quarter waves of 75 ohm line make 56 ohm.
    lines = design_stack_lines(beams=2, reach=6.0, frequency=F0)
    assert lines.junction == pytest.approx(56.25, rel=1e-12, abs=0.0)
    assert lines.swr == pytest.approx(1.125, rel=1e-12, abs=0.0)
    quarter = 0.66 * SPEED_OF_LIGHT / (4.0 * F0)
    assert lines.quarter_waves == 3
    assert lines.length == pytest.approx(3 * quarter, rel=1e-12, abs=0.0)
    stage = LineSection(impedance=75.0, length=lines.length, velocity_factor=0.66)
    seen = complex(through_stages((stage,), impedance=50.0, frequency=F0))
    assert seen / 2.0 == pytest.approx(lines.junction, rel=1e-9, abs=1e-6)


def test_one_beam_is_no_stack():
    with pytest.raises(BoomwrightError, match="two beams or more"):
        design_stack_lines(beams=1, reach=3.0, frequency=F0)


def test_a_feed_drawn_as_solved_is_matched_and_one_off_is_not():
    setting = FieldSetting()
    found = solve_gamma(beam=THREE_FOR_20, rod_diameter=0.0127, spacing=0.11, setting=setting)
    assert isinstance(found.shape, GammaShape)
    again = solve_planned(beam=found.beam, shape=found.shape, setting=setting)
    assert again.swr == pytest.approx(found.swr, rel=0.005, abs=0.0)
    assert again.error.proximity == pytest.approx(found.error.proximity, rel=1e-6, abs=0.0)
    short = GammaShape(
        rod_diameter=0.0127, spacing=0.11, rod_length=0.7 * found.shape.rod_length,
        capacitance=found.shape.capacitance,
    )  # fmt: skip
    assert solve_planned(beam=found.beam, shape=short, setting=setting).swr > 1.5


def test_pieces_behind_a_split_are_taken_as_they_are():
    setting = FieldSetting()
    balun = (Transformer(ratio=0.25, label="balun"),)
    found = solve_planned(
        beam=THREE_FOR_20, shape=SplitShape(gap=0.02), behind=balun, setting=setting
    )
    bare = complex(split_load(beam=THREE_FOR_20, setting=setting).at(found.frequency))
    assert found.impedance == pytest.approx(bare / 4.0, rel=1e-6, abs=0.0)
    assert math.isnan(found.swr_of_start)


def test_a_rod_longer_than_the_element_is_refused():
    shape = TeeShape(
        rod_diameter=0.0127, spacing=0.11, rod_length=9.0, capacitance=50e-12, gap=0.04
    )
    with pytest.raises(BoomwrightError, match="shorten the rod"):
        solve_planned(beam=THREE_FOR_20, shape=shape)
