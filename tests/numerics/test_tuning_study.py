"""A small part of the study of bands, advice and faults (docs/tuning_study.md)."""

import os
from pathlib import Path

import numpy as np
import pytest


@pytest.fixture(scope="module")
def cases():
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(Path(__file__).parents[2] / "benchmarks")
        import tuning_cases

        yield tuning_cases


@pytest.mark.slow
def test_bands_of_a_dipole_hold_what_was_drawn(cases):
    """Six antennas and meters drawn from what the fit is told: one band in six may miss."""
    found = [cases.run_sbc((91, 4 * number)) for number in range(6)]
    covered = [held for case in found for held in case["covered"].values()]
    assert np.mean(covered) > 0.84
    assert sum(case["explained"] for case in found) >= 5
    # A posterior like the prior would cover as well.
    assert np.mean([case["narrowed"]["line.length"] for case in found]) < 0.7
    assert np.mean([case["narrowed"]["tip.0"] for case in found]) < 0.85


@pytest.mark.slow
@pytest.mark.skipif("BOOMWRIGHT_PLANS" not in os.environ, reason="set BOOMWRIGHT_PLANS")
def test_advice_betters_a_dipole_and_a_load_is_refused(cases):
    found = [cases.run_trim((92, 4 * number)) for number in (0, 1)]
    for case in found:
        assert case["end"] <= max(cases.GOOD_SWR, case["best"] + 0.1)
        assert case["end"] <= case["before"] + 0.01
    # Another antenna gets no moves.
    other = cases.run_other((93, 12))
    assert other["kind"] == "random resonances"
    assert other["verdict"] == "cannot tell"
