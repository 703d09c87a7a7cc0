"""From sweeps to what may be true, from that to advice, and on to the next sweep."""

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.feed import HairpinShape
from boomwright.solver import FREE_SPACE, GROUND_CLASSES
from boomwright.tuning import (
    Bench,
    Installation,
    Reading,
    SideReading,
    Sweep,
    after_changes,
    antenna_surrogate,
    trim,
)
from boomwright.tuning.causes import usual_causes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.identify import identify
from boomwright.tuning.phase import sweep_phase
from boomwright.tuning.readings import METERS
from boomwright.tuning.side_readings import side_slopes
from boomwright.tuning.surrogate import build_surrogate
from boomwright.tuning.tolerance import Tolerance
from tuned_antennas import BAND, FREQUENCIES, gamma_dipole, station, sweep_of, swr_of

TOLERANCE = Tolerance(cutting=0.015, strap=0.015)
ERRORS = {"tip.0": 0.004, "tip.1": -0.03, "tip.2": 0.012, "strap": -0.02, "line.length": 0.12}
STATION = station()


def surrogate_of(installation):
    low, high = installation.beam.band
    return antenna_surrogate(
        installation=installation, lowest_frequency=low, highest_frequency=high,
        tolerance=TOLERANCE,
    )  # fmt: skip


def measured(planned, errors, *, seed=1, at=FREQUENCIES, moves=None):
    """A sweep with the errors of a hand-held meter: directivity, tracking and noise."""
    rng = np.random.default_rng(seed)
    seen = sweep_of(planned, errors, at)
    seen = 0.006 + 0.004j + (1.0 - 0.005j) * seen / (1.0 - 0.006j * seen)
    noise = 0.002 * rng.normal(size=(2, len(at)))
    sweep = Sweep(frequencies=at, reflection=seen + noise[0] + 1j * noise[1])
    return Reading(sweep=sweep, moves=moves or {})


@pytest.fixture(scope="module")
def surrogate():
    return surrogate_of(STATION)


@pytest.fixture(scope="module")
def first():
    return measured(STATION, ERRORS)


@pytest.fixture(scope="module")
def found(surrogate, first):
    return trim(surrogate=surrogate, readings=(first,), tolerance=TOLERANCE)


def left(trimming, key):
    """Spread left of a cause, as it acts, over that before."""
    at = trimming.model.index[key]
    return trimming.acting[:, at].std() / trimming.model.spreads[at]


def test_bands_hold_the_errors_and_are_narrower_than_before(found):
    assert found.explained
    assert found.notices == ()
    assert found.misfit < 1.6
    for cause, mean, spread in zip(found.causes, found.mean, found.spread, strict=True):
        assert abs(mean - ERRORS.get(cause.key, 0.0)) < 3.0 * spread, cause.label
    assert left(found, "tip.1") < 0.5
    assert left(found, "line.length") < 0.5


def test_the_advice_comes_true_on_the_antenna_as_it_was_built(found):
    advice = found.advice
    texts = [write(step.text, system="metric") for step in advice.steps]
    inches = [write(step.text, system="us") for step in advice.steps]
    assert advice.verdict == "move"
    assert any(text.startswith("lengthen each driven tip") for text in texts)
    assert all(" mm" in text and " in" in told for text, told in zip(texts, inches, strict=True))
    changes = dict(ERRORS)
    for key, amount in advice.moves().items():
        changes[key] = changes.get(key, 0.0) + amount
        np.testing.assert_allclose(amount, round(amount * 1e3) * 1e-3, atol=1e-12)
    before, after = swr_of(STATION, ERRORS), swr_of(STATION, changes)
    assert advice.now.low - 0.01 < before < advice.now.high + 0.01
    assert before > 1.2
    assert after < 1.1
    assert advice.after.low - 0.01 < after < advice.after.high + 0.01
    expected = sweep_of(STATION, changes, FREQUENCIES)
    np.testing.assert_allclose(advice.expected, expected, atol=0.06)


def test_second_sweep_is_read_together_with_the_first(surrogate, first, found):
    moves = found.advice.moves()
    built = {key: ERRORS.get(key, 0.0) + moves.get(key, 0.0) for key in (*ERRORS, *moves)}
    second = measured(STATION, built, seed=2, at=FREQUENCIES[::2], moves=moves)
    again = trim(surrogate=surrogate, readings=(first, second), tolerance=TOLERANCE)
    assert again.explained
    assert again.advice.verdict == "leave it"
    assert again.advice.steps == ()
    assert again.advice.now.middle < 1.1
    # Deviations stay those from the plan: what was moved on purpose is none.
    assert abs(again.mean[1] - ERRORS["tip.1"]) < 3.0 * again.spread[1]


def test_an_antenna_cut_as_planned_is_left_alone():
    """The gamma of the plan is matched; no reading of a good meter moves it."""
    planned = gamma_dipole()
    at = np.linspace(*planned.beam.band, 31)
    reading = measured(planned, {}, at=at)
    result = trim(surrogate=surrogate_of(planned), readings=(reading,), tolerance=TOLERANCE)
    assert swr_of(planned, {}) < 1.02
    assert result.advice.verdict == "leave it"
    assert result.advice.steps == ()
    # The pieces named are those that the antenna has.
    labels = {cause.label for cause in result.causes}
    assert {"strap", "capacitor"} < labels
    assert not {"shunt coil", "short of the hairpin", "series coil"} & labels


def test_between_the_solved_frequencies_two_elements_are_as_solved():
    """A reflector close by resonates at the edge of the band, where the impedance turns sharply."""
    two = beam(
        lengths=[10.2, 9.645], places=[0.0, 2.0], diameter=0.025, driven=1,
        frequency=14.175e6, height=10.6, material="6061-T6",
    )  # fmt: skip
    planned = replace(
        STATION,
        beam=replace(two, band=BAND),
        shape=HairpinShape(length=0.6, rod_diameter=0.00635, spacing=0.05, gap=0.022),
        line=None,
        line_length=0.0,
    )
    bench = Bench(planned)
    low, high = BAND
    surrogate = build_surrogate(
        bench=bench, keys=(), spreads=np.zeros(0), lowest_frequency=low, highest_frequency=high
    )
    at_nodes = surrogate.at_nodes(np.zeros((1, 0)))[0]
    found = surrogate.between(at_nodes, surrogate.weights(FREQUENCIES))
    solved = bench.impedance(planned, FREQUENCIES)
    assert np.abs(solved).max() > 4.0 * np.abs(solved).min()
    # Less than the scatter of a hand-held meter.
    off = np.abs((found - 50.0) / (found + 50.0) - (solved - 50.0) / (solved + 50.0))
    assert off.max() < 0.002


def test_other_antenna_is_not_explained_and_gets_no_moves(surrogate):
    other = Sweep(frequencies=FREQUENCIES, reflection=0.8 * np.exp(1j * np.linspace(0, -9, 31)))
    result = trim(surrogate=surrogate, readings=(Reading(sweep=other),))
    assert not result.explained
    assert [n.code for n in result.notices] == ["tuning.not-explained"]
    assert result.advice.verdict == "cannot tell"
    assert result.advice.steps == ()


def test_what_cannot_be_had_is_said(first):
    """Tips alone bring no match to 200 ohm, and 75 ohm of the meter is no target."""
    planned = replace(STATION, target=200.0)
    tips = ("tip.0", "tip.1", "tip.2")
    result = trim(
        surrogate=surrogate_of(planned), readings=(first,), adjustable=tips, tolerance=TOLERANCE
    )
    assert not result.advice.within_reach
    assert set(result.advice.moves()) <= set(tips)
    assert result.advice.resistance < 170.0
    assert result.advice.after.chance < 0.1


def test_other_reference_is_refused(surrogate, first):
    sweep = replace(first.sweep, reference=75.0)
    with pytest.raises(MeasurementError, match="75 ohm"):
        trim(surrogate=surrogate, readings=(Reading(sweep=sweep),))


def test_swr_alone_is_enough_for_bands(surrogate, first, found):
    size = np.abs(first.sweep.reflection)
    plain = Sweep(frequencies=FREQUENCIES, reflection=size, phase_known=False)
    meter = METERS["hand-held"]
    reading, notices = sweep_phase(
        surrogate=surrogate, reading=Reading(sweep=plain), meter=meter, tolerance=TOLERANCE
    )
    assert (reading.phase, notices) == ("none", ())
    result = trim(surrogate=surrogate, readings=(reading,), tolerance=TOLERANCE)
    assert abs(result.mean[1] - ERRORS["tip.1"]) < 3.0 * result.spread[1]
    # Without the phase the line's length stays as unknown as it was.
    assert left(result, "line.length") > 0.8 > left(found, "line.length")


def test_unsigned_reactance_is_tried_both_ways_and_said(surrogate, first):
    impedance = first.sweep.impedance
    folded = impedance.real + 1j * np.abs(impedance.imag)
    sweep = replace(first.sweep, reflection=(folded - 50.0) / (folded + 50.0))
    meter = METERS["hand-held"]
    reading, (notice,) = sweep_phase(
        surrogate=surrogate, reading=Reading(sweep=sweep), meter=meter, tolerance=TOLERANCE
    )
    assert reading.phase == "unsigned"
    assert notice.code == "tuning.unsigned"
    result = trim(surrogate=surrogate, readings=(reading,), tolerance=TOLERANCE)
    assert result.explained
    assert abs(result.mean[1] - ERRORS["tip.1"]) < 3.0 * result.spread[1]


def test_probe_and_front_to_back_sharpen_the_parasitic_tips(surrogate, first, found):
    at = STATION.beam.design_frequency
    asked = (
        SideReading(kind="probe", value=0.0, spread=0.02, element=2, frequency=at),
        SideReading(kind="probe", value=0.0, spread=0.02, element=0, frequency=at),
        SideReading(kind="front to back", value=0.0, spread=1.5, frequency=at),
    )
    slopes = side_slopes(bench=surrogate.bench, readings=asked)
    amounts = np.array([[ERRORS.get(cause.key, 0.0) for cause in found.causes]])
    sides = tuple(
        replace(each.reading, value=float(each.predicted(amounts, found.model.index)[0]))
        for each in slopes
    )
    result = trim(surrogate=surrogate, readings=(first,), sides=sides, tolerance=TOLERANCE)
    assert left(result, "tip.2") < 0.9 * left(found, "tip.2")
    assert abs(result.mean[2] - ERRORS["tip.2"]) < 3.0 * result.spread[2]


def test_reading_at_another_height_sharpens_what_ground_hides():
    beam = station(height=7.0).beam
    alone = replace(beam, elements=beam.elements[1:2])
    grounded = Installation(beam=alone, ground=GROUND_CLASSES["medium dry"])
    surrogate = surrogate_of(grounded)
    low = measured(grounded, {})
    high = replace(measured(grounded, {"height": 2.0}, seed=3), rise=2.0)
    one = trim(surrogate=surrogate, readings=(low,))
    both = trim(surrogate=surrogate, readings=(low, high))
    assert both.explained
    assert left(both, "height") < 0.95 * left(one, "height")
    assert "wire between feed and match" in {cause.label for cause in identify(one).untold}


def test_what_cannot_be_told_apart_is_a_group_with_the_reading_that_would(found):
    told = identify(found)
    assert told.alike
    assert {"driven tips", "line length"} <= {
        cause.label for group in told.alike for cause in group.causes
    }
    names = [write(each.name, system="metric") for each in told.measurements]
    assert "a sweep at the feed point, without the line" in names
    assert names == list(dict.fromkeys(names))
    remaining = [each.remaining for each in told.measurements]
    assert remaining == sorted(remaining)
    assert {n.code for n in told.notices} <= {"tuning.alike", "tuning.untold"}


def test_work_can_be_stopped(surrogate, first):
    def stop(share):
        assert 0.0 <= share <= 1.0
        raise InterruptedError

    low, high = BAND
    with pytest.raises(InterruptedError):
        antenna_surrogate(
            installation=STATION, lowest_frequency=low, highest_frequency=high, progress=stop
        )
    with pytest.raises(InterruptedError):
        trim(surrogate=surrogate, readings=(first,), progress=stop)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"tip.9": 0.01}, "fits nothing"),
        ({"mast": 0.01}, "fits nothing"),
        ({"tip.0": -9.0}, "more than the tip section"),
    ],
)
def test_impossible_changes_are_refused(changes, message):
    with pytest.raises(BoomwrightError, match=message):
        after_changes(installation=STATION, changes=changes)


def test_causes_follow_what_there_is():
    bare = station(line=None)
    keys = {cause.key for cause in usual_causes(installation=bare)}
    assert keys == {"tip.0", "tip.1", "tip.2", "strap", "stray", "lead", "plane"}
    full = station(ground=GROUND_CLASSES["wet"])
    keys = {cause.key for cause in usual_causes(installation=full)}
    assert {"height", "ground", "line.length", "line.loss", "line.impedance"} < keys
    split = Installation(beam=bare.beam, ground=FREE_SPACE)
    assert "strap" not in {cause.key for cause in usual_causes(installation=split)}
