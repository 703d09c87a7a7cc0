"""From a sweep to lengths, from lengths to advice, and on to the next trial."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.solver import FREE_SPACE, GROUND_CLASSES
from boomwright.tuning import (
    MeasurementError,
    MovingCare,
    Sweep,
    Tolerance,
    adjustable_keys,
    advise,
    after_changes,
    after_moving,
    as_changes,
    first_knowledge,
    fit_sweep,
    identify,
    make_predictor,
    next_trial,
    swr_at_design,
    usual_causes,
)
from tuned_antennas import BAND, FREQUENCIES, station
from written import metric

TOLERANCE = Tolerance(cutting=0.015, strap=0.015)


def predictor_of(installation):
    return make_predictor(
        installation=installation, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )


def measured(predictor, errors, *, noise, seed=1, frequencies=FREQUENCIES):
    rng = np.random.default_rng(seed)
    clean = predictor.sweep(changes=errors, frequencies=frequencies)
    parts = noise * rng.normal(size=(2, len(frequencies)))
    return Sweep(frequencies=frequencies, reflection=clean + parts[0] + 1j * parts[1])


ERRORS = {"tip.0": 0.004, "tip.1": -0.022, "tip.2": 0.012, "stage.0": -0.02, "line.length": 0.12}


@pytest.fixture(scope="module")
def predictor():
    return predictor_of(station())


@pytest.fixture(scope="module")
def start(predictor):
    return first_knowledge(usual_causes(installation=predictor.installation, tolerance=TOLERANCE))


def test_quiet_sweep_gives_the_true_lengths(predictor, start):
    sweep = measured(predictor, ERRORS, noise=1e-6)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep, noise=1e-5)
    values = found.after.changes()
    for key, value in ERRORS.items():
        np.testing.assert_allclose(values[key], value, atol=5e-4, err_msg=key)


def test_noisy_sweep_gives_bands_that_hold(predictor, start):
    sweep = measured(predictor, ERRORS, noise=0.01)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep)
    assert 0.5 < found.misfit < 1.6
    assert found.notices == ()
    values = found.after.changes()
    for cause, spread in zip(found.after.causes, found.after.spread, strict=True):
        assert abs(values[cause.key] - ERRORS.get(cause.key, 0.0)) < 3.0 * spread, cause.label
    driven = [c.key for c in found.after.causes].index("tip.1")
    assert found.after.spread[driven] < 0.2 * start.spread[driven]


def test_other_antenna_is_not_explained(predictor, start):
    other = Sweep(frequencies=FREQUENCIES, reflection=0.8 * np.exp(1j * np.linspace(0, -9, 31)))
    found = fit_sweep(predictor=predictor, before=start, sweep=other)
    assert [n.code for n in found.notices] == ["tuning.not-explained", "tuning.strained"]


def test_other_reference_is_refused(predictor, start):
    sweep = replace(measured(predictor, {}, noise=0.01), reference=75.0)
    with pytest.raises(MeasurementError, match="75 ohm"):
        fit_sweep(predictor=predictor, before=start, sweep=sweep)


def test_swr_alone_can_be_fitted(predictor, start):
    sweep = measured(predictor, ERRORS, noise=1e-6)
    plain = Sweep(frequencies=FREQUENCIES, reflection=np.abs(sweep.reflection), phase_known=False)
    found = fit_sweep(predictor=predictor, before=start, sweep=plain, noise=0.005)
    np.testing.assert_allclose(np.abs(found.predicted), plain.reflection, atol=0.01)
    more = identify(predictor=predictor, fit=found)
    assert "a sweep of R and X instead of SWR alone" in [m.name for m in more.measurements]


def test_advice_says_what_to_move_and_comes_true(predictor, start):
    sweep = measured(predictor, ERRORS, noise=0.003)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep)
    before = swr_at_design(predictor=predictor, changes=ERRORS)
    advice = advise(predictor=predictor, knowledge=found.after, frequencies=FREQUENCIES)
    texts = [write(step.text, system="metric") for step in advice.steps]
    inches = [write(step.text, system="us") for step in advice.steps]
    assert any(text.startswith("lengthen each driven tip") for text in texts)
    assert all(" mm" in text and " in" in told for text, told in zip(texts, inches, strict=True))
    assert any(text.startswith("move strap") and text.endswith("wards") for text in texts)
    changes = dict(ERRORS)
    for key, amount in advice.moves().items():
        changes[key] = changes.get(key, 0.0) + amount
        if key.startswith(("tip.", "stage.")):
            np.testing.assert_allclose(amount, round(amount * 1e3) * 1e-3, atol=1e-12)
    after = swr_at_design(predictor=predictor, changes=changes)
    assert before > 1.18
    assert after < 1.06
    assert advice.expected_swr_limit < 1.15
    expected = predictor.sweep(changes=changes, frequencies=FREQUENCIES)
    np.testing.assert_allclose(advice.expected, expected, atol=0.02)


def test_nothing_to_do_means_no_steps(predictor, start):
    """Near the plan the advice is to leave it, at most by a millimetre or two of play."""
    sweep = measured(predictor, {}, noise=1e-6)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep, noise=1e-4)
    advice = advise(predictor=predictor, knowledge=found.after, frequencies=FREQUENCIES)
    assert all(abs(step.amount) < 0.01 for step in advice.steps)


def test_only_what_may_be_moved_is_moved(predictor, start):
    sweep = measured(predictor, ERRORS, noise=0.003)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep)
    keys = ("tip.1",)
    advice = advise(
        predictor=predictor, knowledge=found.after, frequencies=FREQUENCIES, adjustable=keys
    )
    assert {step.key for step in advice.steps} <= set(keys)
    assert adjustable_keys(installation=predictor.installation) == (
        "tip.0", "tip.1", "tip.2", "stage.0",
    )  # fmt: skip


def test_trials_build_on_each_other(predictor, start):
    first = next_trial(
        predictor=predictor, sweep=measured(predictor, ERRORS, noise=0.01), start=start,
        day="2026-05-01", note="on the stand",
    )  # fmt: skip
    assert (first.number, first.day, first.moves) == (1, "2026-05-01", {})
    assert not first.done
    real = dict(ERRORS)
    for key, amount in first.advice.moves().items():
        real[key] = real.get(key, 0.0) + amount
    sweep = measured(predictor, real, noise=0.01, seed=2)
    second = next_trial(predictor=predictor, sweep=sweep, start=start, past=(first,))
    assert second.number == 2
    assert second.moves == first.advice.moves()
    assert second.done
    assert second.swr < 1.1
    tips = [c.key for c in second.fit.after.causes].index("tip.2")
    assert second.fit.after.spread[tips] < 1.05 * first.fit.after.spread[tips]


def test_moving_widens_only_what_was_moved(start):
    wide = after_moving(
        knowledge=start, moves={"tip.1": 0.01, "stage.0": 0.0}, care=MovingCare(length=0.003)
    )
    keys = [c.key for c in start.causes]
    grown = wide.spread**2 - start.spread**2
    np.testing.assert_allclose(grown[keys.index("tip.1")], 0.003**2, rtol=1e-9)
    assert np.count_nonzero(grown) == 1


def test_what_cannot_be_told_is_said():
    """Over one narrow sweep height and ground hide; the strap and a tip act alike."""
    grounded = predictor_of(station(ground=GROUND_CLASSES["medium dry"]))
    known = first_knowledge(usual_causes(installation=grounded.installation, tolerance=TOLERANCE))
    sweep = measured(grounded, ERRORS, noise=0.01)
    narrow = sweep.between(lowest=14.1e6, highest=14.2e6)
    found = fit_sweep(predictor=grounded, before=known, sweep=narrow)
    told = identify(predictor=grounded, fit=found)
    assert {"ground conductivity", "height"} <= {cause.label for cause in told.untold}
    assert told.alike
    assert told.measurements
    names = [m.name for m in told.measurements]
    assert any("front-to-back" in name for name in names)
    remaining = [m.remaining for m in told.measurements]
    assert remaining == sorted(remaining)
    assert {n.code for n in told.notices} == {"tuning.alike", "tuning.untold"}


def test_recommended_measurement_does_tell(predictor, start):
    """The promise of the wider sweep is kept when it is made."""
    sweep = measured(predictor, ERRORS, noise=0.01).between(lowest=14.1e6, highest=14.25e6)
    found = fit_sweep(predictor=predictor, before=start, sweep=sweep, noise=0.01)
    told = identify(predictor=predictor, fit=found)
    wider = np.linspace(14.025e6, 14.325e6, len(sweep.frequencies))
    more = fit_sweep(
        predictor=predictor, before=found.after, noise=0.01,
        sweep=measured(predictor, ERRORS, noise=0.01, seed=5, frequencies=wider),
    )  # fmt: skip
    asked = {c.key for pair in told.alike for c in (pair.first, pair.second)}
    asked |= {c.key for c in told.untold if c.key.startswith(("tip.", "stage."))}
    promised = next(m.remaining for m in told.measurements if "beyond" in metric(m.name))
    left = more.after.spread / found.after.spread
    keys = [c.key for c in start.causes]
    kept = min(left[keys.index(key)] for key in asked)
    np.testing.assert_allclose(kept, promised, rtol=0.25)


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
        after_changes(installation=station(), changes=changes)


def test_causes_follow_what_there_is():
    bare = station(line=None)
    assert {c.key for c in usual_causes(installation=bare)} == {
        "tip.0", "tip.1", "tip.2", "stage.0",
    }  # fmt: skip
    full = replace(station(ground=GROUND_CLASSES["wet"]))
    keys = {c.key for c in usual_causes(installation=full)}
    assert {"height", "permittivity", "conductivity", "line.length", "line.loss"} < keys
    assert as_changes((), np.zeros(0)) == {}
    assert bare.ground is FREE_SPACE
