"""Sweeps as comma-separated text, and what a sweep shows by itself."""

import numpy as np
import pytest

from boomwright.tuning import Sweep, check_sweep, read_sweep_table
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.sweep import make_sweep, reading_noise


@pytest.mark.parametrize(
    "text",
    [
        "frequency (MHz),R,X\n14.0,25,-10\n14.1,26,-5\n",
        "Freq [kHz],Rs,Xs\n14000,25,-10\n14100,26,-5\n",
        "f/Hz;R/ohm;X/ohm\n14000000;25,0;-10,0\n14100000;26;-5\n",
        "R\tX\tFrequency MHz\n25\t-10\t14,0\n26\t-5\t14,1\n",
        "# remark\nfrequency (MHz),SWR,R,X\n14.0,2.1,25,-10\n14.1,2.0,26,-5\n",
        "14.0,25,-10\n14.1,26,-5\n",
        "14.0  25 -10\n14.1 26\t-5\n",
        "14000 25,0 -10,0\n14100 26,0 -5,0\n",
        "kHz;R;X\n14000;25,0;-10,0\n14100;26;-5\n",
        "frequency (MHz) R X\n14.0 25 -10\n14.1 26 -5\n",
        "Freq (MHz),R (Ω),X [Ω]\n14.0,25,-10\n14.1,26,-5\n",
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


@pytest.mark.parametrize("head", ["Return Loss (dB)", "return loss", "RL [dB]", "S11 (dB)"])
@pytest.mark.parametrize("sign", ["", "-"])
def test_return_loss_alone_has_no_phase(head, sign):
    # 20 dB: a tenth is reflected, SWR 1.1 / 0.9; 0 dB: all of it.
    rows = f"14.0,{sign}20\n14.1,{sign}0\n" + "".join(f"14.{n},{sign}9\n" for n in range(2, 9))
    sweep = read_sweep_table(text=f"frequency (MHz),{head}\n{rows}", name="t.csv")
    assert not sweep.phase_known
    np.testing.assert_allclose(np.abs(sweep.reflection[:2]), [0.1, 1.0], rtol=1e-9)
    np.testing.assert_allclose(sweep.swr[0], 1.1 / 0.9, rtol=1e-9)


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
        ("frequency,R\n14,25\n", "no columns for frequency with R and X"),
        ("frequency,S11\n14,0.1\n", "no columns for frequency with R and X"),
        ("frequency (MHz),R,X\n14.0,25\n", "line 2: 2 cells"),
        ("frequency (MHz),R,X\n14.0,25,abc\n", "line 2: is not a number"),
        ("frequency (MHz),SWR\n14.0,0.5\n", "line 2 .14 MHz, SWR 0.5.*which column holds the SWR"),
        ("1,2,3,4\n", "4 columns without a header"),
        ("frequency (GHz),R,X\n1e308,25,-10\n", "line 2: is not a number"),
        ("frequency (MHz),R,X\n14,1e308,1e308\n", "line 2: is not a number"),
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


def with_one(value, *, count=21, noise=0.0):
    """A sweep of one antenna with one reading replaced, that of 14.1 MHz, in line 8."""
    reflection = np.full(count, 0.3 + 0.1j)
    reflection[5] = value
    frequencies = np.linspace(14.0e6, 14.0e6 + 2e4 * (count - 1), count)
    return make_sweep(
        frequencies=frequencies,
        reflection=reflection,
        place="meter.csv",
        lines=range(3, 3 + count),
        noise=noise,
    )


@pytest.mark.parametrize("value", [7.5, -1.2, 1.04j, 1e9])
def test_a_reading_that_no_antenna_gives_is_named_and_set_aside(value):
    # A passive one-port sends back no more than it was sent: |reflection| <= 1 (common practice).
    sweep = with_one(value)
    assert len(sweep.frequencies) == 20
    assert np.abs(sweep.reflection).max() < 1.0
    (notice,) = sweep.notices
    assert (notice.code, notice.severity) == ("tuning.impossible-readings", "doubt")
    assert "meter.csv: 1 of 21 readings" in notice.text
    assert "line 8 (14.1 MHz, reflection" in notice.text


def test_what_the_noise_of_the_meter_explains_is_kept():
    assert with_one(1.02).notices == ()
    assert with_one(1.05).notices != ()
    assert with_one(1.05, noise=0.02).notices == ()


def test_a_sweep_with_many_impossible_readings_is_refused():
    frequencies, reflection = np.linspace(14.0e6, 14.35e6, 21), np.full(21, 0.5)
    reflection[3:6] = 1.3
    with pytest.raises(MeasurementError, match=r"3 of 21 .*reading 4 .*Calibrate the meter"):
        make_sweep(frequencies=frequencies, reflection=reflection)
    with pytest.raises(MeasurementError, match="1 of 4 readings"):
        make_sweep(frequencies=frequencies[2:6], reflection=reflection[2:6] * [1, 1, 0.1, 0.1])


def test_an_swr_below_one_is_set_aside_when_there_are_few():
    lines = [f"14.{n:02d},1.{n:02d}" for n in range(20)]
    lines[7] = "14.07,0.4"
    sweep = read_sweep_table(text="frequency (MHz),SWR\n" + "\n".join(lines), name="t.csv")
    assert len(sweep.frequencies) == 19
    assert "line 9 (14.07 MHz, SWR 0.4)" in sweep.notices[0].text


def test_messages_repeat_nothing_of_a_file_that_is_no_sweep():
    for text in ("root:x:0:0:root\n", "secret;hush\n", "1,2\nsecret,hush\n", "secret,1\nhush,2\n"):
        with pytest.raises(MeasurementError) as caught:
            read_sweep_table(text=text, name="t.csv")
        assert not {"root", "secret", "hush"} & {*str(caught.value).replace(",", " ").split()}
        assert "secret" not in str(caught.value)
