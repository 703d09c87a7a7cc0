"""The iteration itself, on functions whose zeros are known."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.feed.iterate import iterate


def _turn(function, start, low, high, *, tolerance=1e-9, most=60):
    start = np.asarray(start, dtype=float)
    return iterate(
        residual=function,
        start=start,
        step=np.full(len(start), 1e-4),
        low=np.asarray(low, dtype=float),
        high=np.asarray(high, dtype=float),
        tolerance=tolerance,
        most=most,
    )


def test_cube_root():
    found = _turn(lambda x: x**3 - 2.0, [1.0], [0.0], [3.0])
    assert found.converged
    assert found.values[0] == pytest.approx(2.0 ** (1.0 / 3.0), rel=1e-9)


def test_two_unknowns():
    found = _turn(
        lambda x: np.array([x[0] ** 2 + x[1] ** 2 - 4.0, x[0] - x[1]]),
        [1.8, 0.3],
        [0.0, 0.0],
        [3.0, 3.0],
    )
    assert found.converged
    assert found.values == pytest.approx([np.sqrt(2.0), np.sqrt(2.0)], rel=1e-9)


def test_no_zero_is_said_and_bounds_are_kept():
    seen = []

    def never(x):
        seen.append(float(x[0]))
        return x**2 + 1.0

    found = _turn(never, [2.0], [0.5], [3.0])
    assert not found.converged
    assert min(seen) >= 0.5
    assert max(seen) <= 3.0
    assert found.evaluations == len(seen)


def test_evaluations_are_limited():
    found = _turn(lambda x: np.arctan(x - 1.0), [2.9], [-3.0], [3.0], tolerance=1e-300, most=7)
    assert found.evaluations <= 7 + 6


def test_newton_needs_few_solutions_for_a_smooth_function():
    found = _turn(lambda x: np.tan(x) - 0.7, [0.5], [0.1], [1.2], tolerance=1e-6)
    assert found.converged
    assert found.evaluations <= 7
