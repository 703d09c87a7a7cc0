"""Sweeps as comma-separated text, and what a sweep shows by itself."""

import numpy as np
import pytest

from boomwright.tuning import (
    MeasurementError,
    Sweep,
    check_sweep,
    make_sweep,
    read_sweep_table,
    reading_noise,
)


@pytest.mark.parametrize(
    "text",
    [
        "frequency (MHz),R,X\n14.0,25,-10\n14.1,26,-5\n",
        "Freq [kHz],Rs,Xs\n14000,25,-10\n14100,26,-5\n",
        "f/Hz;R/ohm;X/ohm\n14000000;25,0;-10,0\n14100000;26;-5\n",
        "R\tX\tFrequency MHz\n25\t-10\t14,0\n26\t-5\t14,1\n",
        "# remark\nfrequency (MHz),SWR,R,X\n14.0,2.1,25,-10\n14.1,2.0,26,-5\n",
        "14.0,25,-10\n14.1,26,-5\n",
    ],
)
def test_tables_of_resistance_and_reactance(text):
    sweep = read_sweep_table(text=text, name="t.csv")
    np.testing.assert_allclose(sweep.frequencies, [14.0e6, 14.1e6], rtol=1e-12)
    np.testing.assert_allclose(sweep.impedance, [25 - 10j, 26 - 5j], rtol=1e-9)


def test_swr_alone_has_no_phase():
    sweep = read_sweep_table(text="frequency (MHz),SWR\n14.0,1.5\n14.1,2.0\n", name="t.csv")
    assert not sweep.phase_known
    np.testing.assert_allclose(sweep.swr, [1.5, 2.0], rtol=1e-12)
    with pytest.raises(MeasurementError, match="SWR alone"):
        _ = sweep.impedance


def test_guessed_unit_is_doubted_and_given_unit_is_not():
    assert read_sweep_table(text="14.0,1.5\n", name="t").notices[0].code == "tuning.frequency-unit"
    sure = read_sweep_table(text="14000,1.5\n", name="t", frequency_unit="kHz")
    np.testing.assert_allclose(sure.frequencies, [14e6], rtol=1e-12)
    assert sure.notices == ()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is empty"),
        ("frequency,R,X\n", "no readings"),
        ("frequency,R\n14,25\n", "no frequency with R and X"),
        ("frequency (MHz),R,X\n14.0,25\n", "line 2: 2 cells"),
        ("frequency (MHz),R,X\n14.0,25,abc\n", "reading 1 is not a number"),
        ("frequency (MHz),SWR\n14.0,0.5\n", "below one"),
        ("1,2,3,4\n", "4 columns without a header"),
    ],
)
def test_damaged_tables_are_refused(text, message):
    with pytest.raises(MeasurementError, match=message):
        read_sweep_table(text=text, name="t.csv")


def test_noise_is_read_off_the_scatter():
    rng = np.random.default_rng(3)
    frequencies = np.linspace(14e6, 14.35e6, 401)
    smooth = 0.4 * np.exp(2j * np.linspace(0.0, 2.0, 401))
    noise = 0.01 * (rng.normal(size=401) + 1j * rng.normal(size=401))
    found = reading_noise(sweep=Sweep(frequencies=frequencies, reflection=smooth + noise))
    np.testing.assert_allclose(found, 0.01, rtol=0.15)


def codes(reflection, band=(14.0e6, 14.35e6)):
    frequencies = np.linspace(14.0e6, 14.35e6, len(reflection))
    sweep = make_sweep(frequencies=frequencies, reflection=reflection)
    return [notice.code for notice in check_sweep(sweep=sweep, band=band)]


def test_doubts_about_a_sweep():
    fine = 0.3 * np.exp(1j * np.linspace(0.0, 1.0, 21))
    assert codes(fine) == []
    assert codes(0.7 * np.exp(1j * np.linspace(0.0, 3.0, 21)) + 0.4) == ["tuning.active-reflection"]
    assert codes(np.exp(1j * np.linspace(0.0, 1.0, 21))) == ["tuning.nothing-connected"]
    assert codes(fine, band=(13.9e6, 14.35e6)) == ["tuning.band-not-covered"]
    assert codes(0.3 * np.exp(2j * np.arange(21))) == ["tuning.coarse-sweep"]


def test_thinning_keeps_smooth_values_and_lowers_noise():
    frequencies = np.linspace(14e6, 14.35e6, 120)
    reflection = 0.2 + 0.1j * np.linspace(-1.0, 1.0, 120)
    thin = Sweep(frequencies=frequencies, reflection=reflection).thinned(points=40)
    assert len(thin.frequencies) == 40
    expected = np.interp(thin.frequencies, frequencies, reflection.imag)
    np.testing.assert_allclose(thin.reflection.imag, expected, rtol=1e-9)


def test_part_of_a_sweep():
    sweep = make_sweep(frequencies=[14e6, 14.1e6, 14.2e6], reflection=[0.1, 0.2, 0.3])
    part = sweep.between(lowest=14.05e6, highest=14.3e6)
    np.testing.assert_allclose(part.reflection, [0.2, 0.3], rtol=1e-12)
    with pytest.raises(MeasurementError, match="no measured frequency"):
        sweep.between(lowest=20e6, highest=21e6)
