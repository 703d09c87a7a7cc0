"""Sequential quadratic programming against the implementation in scipy, of the same report."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import minimize

from boomwright.design.programme import minimise

TOLERANCE = 1e-9


class Bowls:
    """The highest level below many bowls turned over, as a search raises its worst figure."""

    def __init__(self, *, seed: int, count: int, size: int) -> None:
        draw = np.random.default_rng(seed)
        self.middles = draw.normal(size=(count, size))
        self.tops = draw.normal(size=count)
        self.steep = draw.uniform(0.5, 3.0, size=(count, size))
        self.price = np.append(np.zeros(size), -1.0)
        self.start = np.append(draw.normal(size=size), 0.0)
        self.bounds = (
            np.append(np.full(size, -0.5), -np.inf),
            np.append(np.full(size, 0.7), np.inf),
        )

    def demands(self, unknowns):
        off = unknowns[:-1] - self.middles
        return self.tops - (self.steep * off**2).sum(axis=1) - unknowns[-1]

    def slopes(self, unknowns):
        off = unknowns[:-1] - self.middles
        return np.column_stack([-2.0 * self.steep * off, np.full(len(off), -1.0)])

    def ours(self):
        return minimise(
            price=self.price,
            start=self.start,
            bounds=self.bounds,
            demands=self.demands,
            slopes=self.slopes,
            iterations=200,
            tolerance=TOLERANCE,
        )

    def theirs(self):
        return minimize(
            lambda unknowns: (float(self.price @ unknowns), self.price),
            self.start,
            jac=True,
            method="SLSQP",
            bounds=np.stack(self.bounds, axis=1),
            constraints=[{"type": "ineq", "fun": self.demands, "jac": self.slopes}],
            options={"maxiter": 200, "ftol": TOLERANCE},
        ).x


@pytest.mark.parametrize(("count", "size"), [(1, 1), (3, 2), (40, 6), (250, 14), (12, 20)])
@pytest.mark.parametrize("seed", range(4))
def test_same_answer_as_the_library(seed, count, size):
    bowls = Bowls(seed=seed, count=count, size=size)
    ours, theirs = bowls.ours(), bowls.theirs()
    assert ours == pytest.approx(theirs, abs=1e-5)
    assert ours[-1] == pytest.approx(theirs[-1], abs=1e-8)
    assert bowls.demands(ours).min() > -1e-8


def test_demands_that_say_the_same_twice():
    bowls = Bowls(seed=1, count=20, size=4)
    once = bowls.ours()
    for each in ("middles", "tops", "steep"):
        setattr(bowls, each, np.concatenate([getattr(bowls, each)] * 2))
    assert bowls.ours() == pytest.approx(once, abs=1e-6)


def test_demands_that_cannot_be_met_end_within_bounds():
    low, high = np.zeros(2), np.ones(2)
    found = minimise(
        price=np.array([1.0, 0.0]),
        start=np.array([0.5, 0.5]),
        bounds=(low, high),
        demands=lambda at: np.array([at.sum() - 5.0]),
        slopes=lambda at: np.ones((1, 2)),
        iterations=50,
        tolerance=1e-8,
    )
    assert (found >= low).all()
    assert (found <= high).all()


@pytest.mark.parametrize("seed", range(6))
def test_demands_that_are_rough_are_not_gone_over_for_ever(seed):
    bowls, asked = Bowls(seed=seed, count=30, size=6), 0

    def rough(unknowns):
        nonlocal asked
        asked += 1
        # Each its own roughness, wider than what is asked for.
        value = bowls.demands(unknowns)
        return value + 4e-6 * np.sin(1e9 * value) - 4e-6

    found = minimise(
        price=bowls.price,
        start=bowls.start,
        bounds=bowls.bounds,
        demands=rough,
        slopes=bowls.slopes,
        iterations=200,
        tolerance=1e-6,
    )
    assert found[-1] == pytest.approx(bowls.theirs()[-1], abs=1e-4)
    assert asked < 150
