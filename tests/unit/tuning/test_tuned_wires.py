"""Sweeps of wire antennas: their own model explains them; length and loss are found."""

import numpy as np
import pytest

from bent_plans import hexagon, loop, upright, vee
from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.plan.resolve.tuning import tuning_installation
from boomwright.tuning import Reading, Sweep, antenna_surrogate, trim
from boomwright.tuning.installation import after_changes
from tuned_antennas import sweep_of, swr_of

AT = np.linspace(14.0e6, 14.35e6, 15)


def installed(text):
    return tuning_installation(read_plan(text))


def trimmed(planned, reflection):
    low, high = planned.beam.band
    surrogate = antenna_surrogate(
        installation=planned, lowest_frequency=low, highest_frequency=high
    )
    sweep = Sweep(frequencies=AT, reflection=reflection)
    return trim(surrogate=surrogate, readings=(Reading(sweep=sweep),))


@pytest.mark.parametrize(
    "text",
    [vee(), loop(), hexagon(), upright()],
    ids=["vee", "loop", "hexagon", "vertical"],
)
def test_an_exact_sweep_of_its_own_model_is_explained(text):
    """Without any scatter: a sweep quieter than a meter is no sign of another antenna."""
    planned = installed(text)
    found = trimmed(planned, sweep_of(planned, {}, AT))
    assert found.explained
    assert found.strain < 1.0
    for cause, mean, spread in zip(found.causes, found.mean, found.spread, strict=True):
        assert abs(mean - cause.mean) < 1.5 * spread, cause.label


@pytest.fixture(scope="module")
def vertical():
    return installed(upright())


ERRORS = {"tip.0": 0.012, "foot": 0.5, "radials": -0.1}


@pytest.fixture(scope="module")
def found(vertical):
    rng = np.random.default_rng(3)
    seen = sweep_of(vertical, ERRORS, AT)
    seen = 0.005 + 0.003j + seen / (1.0 - 0.004j * seen)
    noise = 0.002 * rng.normal(size=(2, len(AT)))
    return trimmed(vertical, seen + noise[0] + 1j * noise[1])


def test_length_and_ground_loss_of_a_vertical_are_unknowns(found):
    assert found.explained
    keys = [cause.key for cause in found.causes]
    assert "height" not in keys
    for key in ("tip.0", "radials", "foot", "ground"):
        at = keys.index(key)
        assert abs(found.mean[at] - ERRORS.get(key, 0.0)) < 3.0 * found.spread[at], key
    # What of the loss the soil has and what the radials' screen is not told apart.
    at = [keys.index(key) for key in ("foot", "ground")]
    assert np.corrcoef(found.acting[:, at].T)[0, 1] > 0.6


def test_the_loss_itself_is_told(vertical, found):
    """Both ways to lose are one resistance at the foot, which the sweep shows."""
    frequency = np.array([14.175e6])
    bench = found.model.surrogate.bench

    def loss(changes):
        beam = after_changes(installation=vertical, changes=changes)
        return float(bench.impedance(beam, frequency).real[0])

    keys = [cause.key for cause in found.causes]
    mean = found.acting.mean(axis=0)
    acting = {key: mean[keys.index(key)] for key in ("tip.0", "radials", "foot", "ground")}
    # A loss that was measured goes back into the plan.
    said = upright().replace('laid = "buried"', 'laid = "buried"\n  loss_factor = 1.5')
    assert installed(said).beam.radials.loss_factor == 1.5
    built, planned = loss(ERRORS), loss({})
    assert built - planned > 1.5
    assert abs(loss(acting) - built) < 0.4 * (built - planned)


def test_advice_for_a_vertical_is_its_top():
    long = installed(upright().replace('"5.1 m"', '"5.22 m"'))
    found = trimmed(long, sweep_of(long, {}, AT))
    texts = [write(step.text, system="metric") for step in found.advice.steps]
    assert len(texts) == 1
    assert texts[0].startswith("shorten the driven element at its top ")
    assert swr_of(long, found.advice.moves()) < swr_of(long, {}) - 0.1


def test_another_antenna_is_still_not_explained(vertical):
    """The sweep of a vee is none of a vertical."""
    other = sweep_of(installed(vee(ground="medium dry")), {}, AT)
    found = trimmed(vertical, other)
    assert not found.explained
    assert found.advice.verdict == "cannot tell"
