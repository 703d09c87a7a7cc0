"""The line between meter and feed point: taken away by its type, or by sweeps of standards."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.feed import COAX_TYPES
from boomwright.solver import FREE_SPACE
from boomwright.tuning import (
    Installation,
    Sweep,
    at_meter,
    check_calibration,
    corrected,
    error_terms,
    read_open_and_short,
    without_line,
)
from boomwright.tuning.errors import MeasurementError

FREQUENCIES = np.linspace(13.9e6, 14.5e6, 61)
LINE = COAX_TYPES["RG-213"]
LOAD = 30.0 + 1j * np.linspace(-40.0, 40.0, 61)


def through_line(load, length=23.0, line=LINE):
    installation = Installation(beam=None, ground=FREE_SPACE, line=line, line_length=length)
    seen = at_meter(
        installation=installation,
        impedance=np.broadcast_to(load, FREQUENCIES.shape).astype(complex),
        frequencies=FREQUENCIES,
    )
    return Sweep(frequencies=FREQUENCIES, reflection=seen)


@pytest.mark.parametrize("name", ["RG-213", "RG-58C", "RG-59B"])
def test_line_is_taken_away_again(name):
    line = COAX_TYPES[name]
    seen = through_line(LOAD, line=line)
    assert np.abs(seen.impedance - LOAD).max() > 10.0
    found = without_line(sweep=seen, line=line, length=23.0)
    np.testing.assert_allclose(found.impedance, LOAD, rtol=1e-9)


def test_long_line_is_doubted_and_impossible_ones_refused():
    long = without_line(sweep=through_line(LOAD), line=COAX_TYPES["RG-174"], length=80.0)
    assert [n.code for n in long.notices] == ["tuning.line-hides-antenna"]
    with pytest.raises(MeasurementError, match="negative"):
        without_line(sweep=through_line(LOAD), line=LINE, length=-1.0)
    with pytest.raises(MeasurementError, match="SWR alone"):
        without_line(sweep=replace(through_line(LOAD), phase_known=False), line=LINE, length=1.0)


def test_open_short_and_load_give_what_stands_in_their_place():
    standards = {"open_end": 1e9, "short_end": 1e-9, "load_end": 50.0}
    sweeps = {name: through_line(value) for name, value in standards.items()}
    terms = error_terms(**sweeps)
    found = corrected(sweep=through_line(LOAD), terms=terms)
    np.testing.assert_allclose(found.impedance, LOAD, rtol=1e-6)
    assert check_calibration(**sweeps) == ()


def test_mixed_up_standards_are_noticed():
    right = {"open_end": 1e9, "short_end": 1e-9, "load_end": 50.0}
    sweeps = {name: through_line(value) for name, value in right.items()}
    swapped = {**sweeps, "open_end": sweeps["load_end"], "load_end": sweeps["open_end"]}
    assert "tuning.load-reflects" in [n.code for n in check_calibration(**swapped)]
    same = {**sweeps, "short_end": sweeps["open_end"]}
    assert "tuning.open-short-phase" in [n.code for n in check_calibration(**same)]
    with pytest.raises(MeasurementError, match="look alike"):
        error_terms(**same)
    bad = {
        **sweeps,
        "short_end": replace(sweeps["short_end"], reflection=0.7 * sweeps["short_end"].reflection),
    }
    assert "tuning.open-short-loss" in [n.code for n in check_calibration(**bad)]
    hot = {
        **sweeps,
        "open_end": replace(sweeps["open_end"], reflection=1.2 * sweeps["open_end"].reflection),
    }
    assert "tuning.standard-active" in [n.code for n in check_calibration(**hot)]


def test_other_frequencies_are_refused():
    sweeps = {
        name: through_line(v)
        for name, v in {"open_end": 1e9, "short_end": 1e-9, "load_end": 50.0}.items()
    }
    moved = replace(sweeps["open_end"], frequencies=FREQUENCIES + 1.0e3)
    with pytest.raises(MeasurementError, match="share their frequencies"):
        error_terms(**{**sweeps, "open_end": moved})
    with pytest.raises(MeasurementError, match="share their frequencies"):
        corrected(sweep=moved, terms=error_terms(**sweeps))


def test_open_and_short_tell_the_line():
    found = read_open_and_short(open_end=through_line(1e9), short_end=through_line(1e-9))
    np.testing.assert_allclose(found.impedance, 50.0, rtol=1e-3)
    np.testing.assert_allclose(found.electrical_length, 23.0 / LINE.velocity_factor, rtol=2e-3)
    loss = LINE.attenuation_db(frequency=14.2e6) * 23.0
    np.testing.assert_allclose(found.loss_db, loss, rtol=1e-2)


def test_one_sweep_given_for_both_ends_of_the_line_is_refused():
    with pytest.raises(MeasurementError, match="one file may be given for both"):
        read_open_and_short(open_end=through_line(1e9), short_end=through_line(1e9))
