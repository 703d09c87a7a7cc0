"""Where a function crosses zero: held against Brent's method in SciPy."""

from __future__ import annotations

from math import cos, exp, pi, sin

import pytest
from scipy.optimize import brentq

from boomwright.base.roots import find_root

CASES = [
    (lambda x: x**3 - 2.0, 0.0, 2.0),
    (lambda x: cos(x) - x, 0.0, 1.0),
    (lambda x: exp(12.0 * x) - 5.0, -1.0, 1.0),
    (lambda x: x * sin(x) - 3.0 * cos(x), 0.0, pi / 2.0),
]


@pytest.mark.parametrize(("function", "low", "high"), CASES)
def test_root_is_that_of_the_library(function, low, high):
    expected = brentq(function, low, high, xtol=1e-14)
    assert find_root(function, low, high, within=1e-12) == pytest.approx(expected, abs=1e-11)


def test_ends_on_zero_and_on_one_side():
    assert find_root(lambda x: x, 0.0, 1.0, within=1e-9) == 0.0
    assert find_root(lambda x: x - 1.0, 0.0, 1.0, within=1e-9) == 1.0
    with pytest.raises(ValueError, match="no change of sign"):
        find_root(lambda x: x + 1.0, 0.0, 1.0, within=1e-9)
