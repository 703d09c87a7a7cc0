"""The bands hold the truth: a seed-fixed share of ``benchmarks/error_calibration.py``.

Truth is a solution with pieces and degrees far beyond the working ones. The whole study, 400
beams a table, is in ``docs/benchmarks/error_calibration.md``.
"""

from pathlib import Path

import numpy as np
import pytest

#: of 25 beams 24 are to be inside their band
BEAMS, LEAST = 25, 24 / 25
SEED = 3


@pytest.fixture(scope="module")
def found():
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(Path(__file__).parents[2] / "benchmarks")
        import error_calibration

        yield error_calibration, error_calibration.study(BEAMS, SEED)


@pytest.mark.parametrize(
    "title",
    [
        "Between solved frequencies",
        "Abrupt steps of diameter",
        "Over ground",
        "Under the hand, free space",
        "Under the hand, over ground",
    ],
)
def test_bands_hold_the_finest_solution(found, title):
    calibration, tables = found
    cases, names = tables[title]
    shares = calibration.covered(cases, names)
    assert min(shares.values()) >= LEAST, shares


def test_bands_over_ground_are_no_wider_than_they_need_be(found):
    _, tables = found
    cases, names = tables["Over ground"]
    for number, name in enumerate(names):
        band = np.array([case.band[number] for case in cases])
        difference = np.array([case.difference[number] for case in cases])
        # Half the difference of two ways to treat the ground, as it was, made this over 50.
        assert np.median(band) < 3.0 * np.median(difference), name
