"""Worked examples of D. M. Pozar, Microwave Engineering, 4th ed., Wiley 2012.

Examples 2.2 and 2.5 as printed; 5.1 and 5.2 from memory: their values are read off a chart in
the book, so the last printed digit is loose.
"""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from check_values import feed_check as check

from antennas import resonant_load
from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import (
    CoaxType,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    design_hairpin,
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    read_line,
    reflection_coefficient,
    standing_wave_ratio,
    through_stages,
)
from boomwright.feed.line_matches import quarter_wave_impedance


def test_example_2_2_reflection_and_input_impedance():
    values = check("line-pozar-2-2")
    given, printed = values["inputs"], values["expected"]
    load, reference = complex(*given["Z_load_ohm"]), given["Z0_ohm"]
    gamma = complex(reflection_coefficient(load, reference=reference))
    assert abs(gamma) == pytest.approx(printed["gamma_mag"], abs=0.005)
    assert math.degrees(cmath.phase(gamma)) == pytest.approx(printed["gamma_deg"], abs=0.5)
    assert standing_wave_ratio(load, reference=reference) == pytest.approx(
        printed["SWR"], abs=0.005
    )
    frequency = 1e8
    length = given["length_wl"] * SPEED_OF_LIGHT / frequency
    seen = through_stages(
        [LineSection(impedance=reference, length=length)], impedance=load, frequency=frequency
    )
    assert complex(seen) == pytest.approx(complex(*printed["Zin_ohm"]), abs=0.06)
    # The full solution of a line without loss is the same line.
    ideal = CoaxType(name="ideal", impedance=reference, velocity_factor=1.0, k1=0.0, k2=0.0)
    reading = read_line(line=ideal, length=length, load=load, frequency=frequency)
    assert reading.input_impedance == pytest.approx(complex(seen), abs=1e-9)
    assert reading.loss_db == pytest.approx(0.0, abs=1e-12)


def test_example_2_5_quarter_wave():
    values = check("qwt-pozar-2-5")
    given = values["inputs"]
    assert quarter_wave_impedance(
        load=given["R_load_ohm"], reference=given["Z0_ohm"]
    ) == pytest.approx(values["expected"], abs=0.005)
    load = resonant_load(frequency=50e6, impedance=100.0, quality=5.0)
    match = design_quarter_wave(load=load, frequency=50e6, velocity_factor=0.66)
    assert complex(match.transform(impedance=100.0, frequency=50e6)) == pytest.approx(50.0)


def test_example_5_1_l_section():
    # ZL = 200 - j100, Z0 = 100 ohm, 500 MHz: C 0.92 pF with L 38.8 nH, or L 46.1 nH with
    # C 2.61 pF (from memory, off a chart: 1 %).
    load = resonant_load(frequency=500e6, impedance=200 - 100j, quality=5.0)
    matches = design_l_sections(load=load, frequency=500e6, reference=100.0)
    assert len(matches) == 2
    (shunt_c, series_l), (shunt_l, series_c) = (match.stages for match in matches)
    assert isinstance(shunt_c, ShuntCapacitor)
    assert shunt_c.capacitance == pytest.approx(0.92e-12, rel=0.01)
    assert isinstance(series_l, SeriesInductor)
    assert series_l.inductance == pytest.approx(38.8e-9, rel=0.01)
    assert isinstance(shunt_l, ShuntInductor)
    assert shunt_l.inductance == pytest.approx(46.1e-9, rel=0.01)
    assert isinstance(series_c, SeriesCapacitor)
    assert series_c.capacitance == pytest.approx(2.61e-12, rel=0.01)


def test_example_5_2_single_shunt_stub():
    # ZL = 60 - j80, Z0 = 50 ohm, shorted stubs: d 0.110 and 0.260, l 0.095 and 0.405
    # wavelengths (from memory, off a chart: 0.001).
    load = resonant_load(frequency=2e9, impedance=60 - 80j, quality=5.0)
    wavelength = SPEED_OF_LIGHT / 2e9
    near, far = design_single_stub(load=load, frequency=2e9, end="short")
    printed = [(0.110, 0.095), (0.260, 0.405)]
    for match, (place, length) in zip((near, far), printed, strict=True):
        line, stub = match.stages
        assert line.length / wavelength == pytest.approx(place, abs=1e-3)
        assert stub.length / wavelength == pytest.approx(length, abs=1e-3)


@pytest.mark.parametrize("which", range(6))
def test_hairpin_points(which):
    # Derived from the L-network identity of section 5.1.
    values = check("hairpin-points")
    resistance = values["inputs"]["Ra_ohm"][which]
    load = resonant_load(frequency=14.1e6, impedance=resistance, quality=10.0)
    found = design_hairpin(load=load, frequency=14.1e6, spacing=0.1, diameter=6e-3)
    printed = values["expected"]
    assert found.quality == pytest.approx(printed["Q"][which], rel=1e-4)
    assert found.element_reactance == pytest.approx(-printed["Xc_ohm"][which], rel=1e-4)
    assert found.shunt_reactance == pytest.approx(printed["XL_ohm"][which], rel=1e-4)
    seen = complex(found.match.transform(impedance=resistance, frequency=14.1e6))
    assert seen == pytest.approx(50.0, abs=1e-9)


def test_swept_line_is_the_same_as_point_by_point():
    frequency = np.linspace(10e6, 20e6, 11)
    line = [LineSection(impedance=75.0, length=4.0, velocity_factor=0.66)]
    swept = through_stages(line, impedance=np.full(11, 30 + 20j), frequency=frequency)
    single = [complex(through_stages(line, impedance=30 + 20j, frequency=f)) for f in frequency]
    np.testing.assert_allclose(swept, single, rtol=1e-12)
