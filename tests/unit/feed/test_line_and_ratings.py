"""Lossy line against scikit-rf, ratings by circuit sums, choke, cautions."""

from __future__ import annotations

import math

import numpy as np
import pytest
import skrf

from antennas import resonant_load
from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed import (
    COAX_TYPES,
    DUTY_FACTORS,
    FEED_CAUTIONS,
    CoaxType,
    RodGeometry,
    choke_requirement,
    design_gamma,
    design_l_sections,
    fit_attenuation,
    rate_line,
    rate_match,
    read_line,
)

F0 = 14.15e6


@pytest.mark.parametrize("name", sorted(COAX_TYPES))
@pytest.mark.parametrize("load", [12.0 - 40.0j, 50.0 + 0j, 300.0 + 100.0j])
def test_lossy_line_is_the_distributed_circuit(name, load):
    line = COAX_TYPES[name]
    band = skrf.Frequency.from_f([F0], unit="Hz")
    neper = math.log(10.0) / 20.0
    speed = line.velocity_factor * SPEED_OF_LIGHT
    media = skrf.media.DistributedCircuit(
        frequency=band,
        R=2.0 * line.k1 * math.sqrt(F0) * neper * line.impedance,
        G=2.0 * line.k2 * F0 * neper / line.impedance,
        L=line.impedance / speed,
        C=1.0 / (line.impedance * speed),
        z0_port=50.0,
    )
    ended = media.line(37.0, "m") ** skrf.media.DefinedGammaZ0(
        frequency=band, z0=50.0, gamma=1j
    ).load((load - 50.0) / (load + 50.0))
    reading = read_line(line=line, length=37.0, load=load, frequency=F0)
    assert reading.input_impedance == pytest.approx(complex(ended.z[0, 0, 0]), rel=1e-9)


def test_matched_line_loses_its_matched_loss():
    line = COAX_TYPES["RG-213"]
    reading = read_line(line=line, length=50.0, load=50.0 + 0j, frequency=F0)
    # The characteristic impedance is slightly complex, so the two differ a little.
    assert reading.loss_db == pytest.approx(reading.matched_loss_db, rel=1e-3)
    assert reading.efficiency == pytest.approx(10.0 ** (-reading.loss_db / 10.0), rel=1e-12)
    assert reading.input_swr == pytest.approx(1.0, abs=0.01)
    assert reading.greatest_voltage == pytest.approx(math.sqrt(50.0), rel=0.01)


def test_heat_sums_to_the_loss():
    line = COAX_TYPES["RG-58C"]
    reading = read_line(line=line, length=1.0, load=50.0 + 0j, frequency=F0)
    assert reading.greatest_heat == pytest.approx(1.0 - reading.efficiency, rel=0.01)


def test_long_line_hides_the_mismatch():
    line = COAX_TYPES["RG-58C"]
    short, long = (
        read_line(line=line, length=length, load=150.0 + 0j, frequency=28.5e6)
        for length in (0.0, 60.0)
    )
    assert short.input_swr == pytest.approx(3.0)
    assert long.input_swr < 1.6
    assert long.load_swr == pytest.approx(3.0)
    assert long.mismatch_loss_db < short.mismatch_loss_db == pytest.approx(1.2494, abs=1e-4)


def test_crest_voltage_on_a_line_with_standing_waves():
    # Loss-free textbook case: crest voltage sqrt(P Z0 s) on a line longer than half a wave.
    line = CoaxType(name="ideal", impedance=50.0, velocity_factor=0.66, k1=0.0, k2=0.0)
    reading = read_line(line=line, length=10.0, load=20.0 + 0j, frequency=28.5e6)
    assert reading.greatest_voltage == pytest.approx(math.sqrt(50.0 * 2.5), rel=2e-3)
    assert reading.greatest_current == pytest.approx(math.sqrt(2.5 / 50.0), rel=2e-3)


def test_ratings_of_a_series_capacitor():
    geometry = RodGeometry(element_diameter=25.4e-3, rod_diameter=10e-3, spacing=90e-3)
    load = resonant_load(frequency=F0, impedance=28 - 12j, quality=12.0)
    gamma = design_gamma(load=load, frequency=F0, geometry=geometry)
    capacitor = rate_match(match=gamma.match, impedance=28 - 12j, frequency=F0, power=1000.0)[-1]
    # 1000 W into 50 ohm is 4.472 A through the capacitor.
    current = math.sqrt(1000.0 / 50.0)
    reactance = 1.0 / (2.0 * math.pi * F0 * gamma.capacitance)
    assert capacitor.current == pytest.approx(current, rel=1e-9)
    assert capacitor.peak_voltage == pytest.approx(math.sqrt(2.0) * current * reactance, rel=1e-9)
    assert capacitor.rated_voltage == pytest.approx(2.0 * capacitor.peak_voltage)


def test_ratings_of_a_shunt_component():
    load = resonant_load(frequency=F0, impedance=20.0, quality=12.0)
    match = design_l_sections(load=load, frequency=F0)[0]
    *_, shunt = rate_match(match=match, impedance=20.0, frequency=F0, power=400.0)
    # Across the 50 ohm side: 141.4 V effective, 200 V crest.
    assert shunt.peak_voltage == pytest.approx(200.0, rel=1e-9)
    susceptance = math.sqrt((50.0 - 20.0) / 20.0) / 50.0
    assert shunt.current == pytest.approx(math.sqrt(400.0 * 50.0) * susceptance, rel=1e-9)


def test_line_rating_and_its_limits():
    line = COAX_TYPES["RG-58C"]
    matched = read_line(line=line, length=30.0, load=50.0 + 0j, frequency=28.5e6)
    calm = rate_line(line=line, reading=matched, power=100.0, duty_factor=0.4)
    assert calm.notices == ()
    assert calm.heat == pytest.approx(matched.greatest_heat * 40.0)
    hot = rate_line(line=line, reading=matched, power=1500.0, duty_factor=1.0)
    assert [notice.code for notice in hot.notices] == ["feed.line-heat"]
    bad = read_line(line=line, length=1.0, load=2500.0 + 0j, frequency=3.6e6)
    high = rate_line(line=line, reading=bad, power=1500.0, duty_factor=0.2)
    assert "feed.line-voltage" in {notice.code for notice in high.notices}


def test_duty_factors_lie_between_none_and_all():
    assert all(0.0 < factor <= 1.0 for factor in DUTY_FACTORS.values())
    assert DUTY_FACTORS["carrier"] == 1.0


def test_choke():
    found = choke_requirement(feed_impedance=50.0, power=1000.0, duty_factor=0.5)
    # Half of 223.6 V drives the outside; 30 dB below 4.472 A is 0.1414 A: 790.6 ohm.
    assert found.voltage == pytest.approx(111.8, abs=0.05)
    assert found.impedance == pytest.approx(25.0 * 10**1.5, rel=1e-9)
    assert found.heat == pytest.approx(0.5 * 111.8034 * 0.141421, rel=1e-4)


def test_cautions_name_the_three_dangers():
    assert {notice.code for notice in FEED_CAUTIONS} == {
        "feed.rf-burns",
        "feed.high-voltage",
        "feed.lightning",
    }
    assert all(notice.severity == "caution" for notice in FEED_CAUTIONS)


def test_refusals():
    line = COAX_TYPES["RG-213"]
    with pytest.raises(BoomwrightError, match="resistance is above 0"):
        read_line(line=line, length=10.0, load=50j, frequency=F0)
    reading = read_line(line=line, length=10.0, load=50.0 + 0j, frequency=F0)
    with pytest.raises(BoomwrightError, match=r"duty factor 1\.5"):
        rate_line(line=line, reading=reading, power=100.0, duty_factor=1.5)
    with pytest.raises(BoomwrightError, match="power 0 W"):
        rate_line(line=line, reading=reading, power=0.0, duty_factor=1.0)
    with pytest.raises(BoomwrightError, match="power and a feed resistance"):
        choke_requirement(feed_impedance=50j, power=100.0, duty_factor=1.0)
    with pytest.raises(BoomwrightError, match="two points or more"):
        fit_attenuation(frequency=[1e6], attenuation_db=[0.01])
    assert np.isfinite(reading.loss_db)
