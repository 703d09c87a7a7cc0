"""A small part of the study of synthetic sweeps and faults (docs/tuning_study.md)."""

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
def test_advice_and_bands_on_a_few_sweeps(cases):
    """Two beams, six sweeps: none left above 1.15; one band in five may miss at most."""
    numbers = [n + 6 * k for k in range(3) for n in (2, 3)]
    found = [cases.run_sweep((91, number)) for number in numbers]
    assert max(case.after[-1] for case in found) <= cases.GOOD
    assert np.median([case.before for case in found]) > 1.1
    covered = sum(case.covered for case in found)
    lengths = sum(case.lengths for case in found)
    assert covered >= 0.8 * lengths
