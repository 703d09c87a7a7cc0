"""Matches: every design hits its mark, bandwidth, and the library scikit-rf as a second opinion."""

from __future__ import annotations

import math

import numpy as np
import pytest
import skrf
from hypothesis import given, settings
from hypothesis import strategies as st

from antennas import resonant_load
from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed import (
    FeedLoad,
    LineSection,
    RodGeometry,
    ShuntCapacitor,
    ShuntStub,
    design_gamma,
    design_hairpin,
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    design_split_with_balun,
    phasing_line_length,
    standing_wave_ratio,
    swr_over_band,
    through_stages,
)

F0 = 14.15e6
RESISTANCES = st.floats(2.0, 800.0)
REACTANCES = st.floats(-600.0, 600.0)


def _load(impedance: complex, quality: float = 10.0) -> FeedLoad:
    return resonant_load(frequency=F0, impedance=impedance, quality=quality)


def _seen(match, impedance: complex) -> complex:
    return complex(match.transform(impedance=impedance, frequency=F0))


@settings(max_examples=60, deadline=None)
@given(resistance=RESISTANCES, reactance=REACTANCES)
def test_l_sections_and_stubs_match_any_load(resistance, reactance):
    z = complex(resistance, reactance)
    if abs(z - 50.0) < 0.5:
        return
    sections = design_l_sections(load=_load(z), frequency=F0)
    assert len(sections) in {2, 4}
    stubs = [
        *design_single_stub(load=_load(z), frequency=F0, end="open"),
        *design_single_stub(load=_load(z), frequency=F0, end="short", velocity_factor=0.66),
    ]
    for match in (*sections, *stubs):
        assert _seen(match, z) == pytest.approx(50.0, abs=1e-3)
        assert match.bandwidth is not None
        assert match.bandwidth.low < F0 < match.bandwidth.high


def test_load_of_the_right_resistance_needs_one_component():
    for match in design_l_sections(load=_load(50.0 + 30j), frequency=F0):
        assert _seen(match, 50.0 + 30j) == pytest.approx(50.0, abs=1e-9)
    with pytest.raises(BoomwrightError, match="leave the section out"):
        design_l_sections(load=_load(50.0), frequency=F0)
    with pytest.raises(BoomwrightError, match="leave the stub out"):
        design_single_stub(load=_load(50.0), frequency=F0, end="open")


def test_bandwidth_ends_where_the_ratio_is_two():
    load = _load(28.0)
    match = design_hairpin(load=load, frequency=F0, spacing=0.1, diameter=5e-3).match
    edges = [match.bandwidth.low, match.bandwidth.high]
    ratios = swr_over_band(stages=match.stages, load=load, frequency=edges, reference=50.0)
    np.testing.assert_allclose(ratios, 2.0, atol=1e-3)
    assert match.bandwidth.complete


def test_higher_quality_narrows_the_band():
    widths = []
    for quality in (8.0, 16.0, 32.0):
        match = design_quarter_wave(load=_load(25.0, quality), frequency=F0, velocity_factor=0.66)
        widths.append(match.bandwidth.high - match.bandwidth.low)
    assert widths[0] > 1.7 * widths[1] > 2.5 * widths[2]


def test_band_of_a_matched_series_circuit():
    # R = Z0: the ratio is 2 where |X| = R / sqrt(2), X = 2 Q R (f - f0) / f0: closed form.
    match = design_split_with_balun(load=_load(50.0, quality=20.0), frequency=F0)
    half = F0 / (2.0 * math.sqrt(2.0) * 20.0)
    assert match.bandwidth.high - F0 == pytest.approx(half, rel=1e-3)
    assert F0 - match.bandwidth.low == pytest.approx(half, rel=1e-3)


def test_mismatched_from_the_start_has_no_band():
    assert design_split_with_balun(load=_load(12.0), frequency=F0).bandwidth is None
    wide = design_split_with_balun(load=_load(50.0, quality=1.0), frequency=F0).bandwidth
    assert not wide.complete


def test_scikit_rf_sees_the_same():
    band = skrf.Frequency.from_f(np.linspace(13e6, 15e6, 21), unit="Hz")
    speed = 0.66 * SPEED_OF_LIGHT
    media = skrf.media.DefinedGammaZ0(frequency=band, z0=50.0, gamma=2j * np.pi * band.f / speed)
    load = 30.0 - 40.0j
    gamma = (load - 50.0) / (load + 50.0)
    chain = (
        media.shunt_capacitor(200e-12)
        ** media.shunt_delay_short(1.3, "m")
        ** media.line(2.7, "m")
        ** media.load(gamma)
    )
    stages = (
        LineSection(impedance=50.0, length=2.7, velocity_factor=0.66),
        ShuntStub(impedance=50.0, length=1.3, end="short", velocity_factor=0.66),
        ShuntCapacitor(capacitance=200e-12),
    )
    seen = through_stages(stages, impedance=np.full(21, load), frequency=band.f)
    np.testing.assert_allclose(chain.z[:, 0, 0], seen, rtol=1e-9)


def test_phasing_line():
    length = phasing_line_length(delay=math.pi / 2, frequency=F0, velocity_factor=0.66)
    assert length == pytest.approx(0.66 * SPEED_OF_LIGHT / F0 / 4.0)
    lead = phasing_line_length(delay=-math.pi / 2, frequency=F0, velocity_factor=0.66)
    assert lead == pytest.approx(3.0 * length)
    with pytest.raises(BoomwrightError, match="velocity factor"):
        phasing_line_length(delay=1.0, frequency=F0, velocity_factor=1.2)


def test_standing_wave_ratio_limits():
    assert standing_wave_ratio(100.0) == pytest.approx(2.0)
    assert standing_wave_ratio(0.0) == np.inf
    assert standing_wave_ratio(50j) > 1e12


def test_refusals_name_the_remedy():
    with pytest.raises(BoomwrightError, match="only steps up"):
        design_hairpin(load=_load(60.0), frequency=F0, spacing=0.1, diameter=5e-3)
    with pytest.raises(BoomwrightError, match="more than a diameter apart"):
        design_hairpin(load=_load(20.0), frequency=F0, spacing=0.004, diameter=5e-3)
    with pytest.raises(BoomwrightError, match="axes more than"):
        RodGeometry(element_diameter=0.025, rod_diameter=0.01, spacing=0.01)
    geometry = RodGeometry(element_diameter=0.025, rod_diameter=0.01, spacing=0.1)
    with pytest.raises(BoomwrightError, match="thinner rod"):
        design_gamma(load=_load(8.0), frequency=F0, geometry=geometry)
    with pytest.raises(BoomwrightError, match="shorten the element"):
        design_gamma(load=_load(12.0 + 60j), frequency=F0, geometry=geometry)
    with pytest.raises(BoomwrightError, match="widen the sweep"):
        _load(25.0).at(21e6)
    with pytest.raises(BoomwrightError, match="must rise"):
        FeedLoad(frequency=np.array([2.0, 1.0]), impedance=np.array([50.0, 50.0]))
    with pytest.raises(BoomwrightError, match="same length"):
        FeedLoad(frequency=np.array([1.0, 2.0]), impedance=np.array([50.0]))
