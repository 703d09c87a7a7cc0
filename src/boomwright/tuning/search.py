"""The search for the most probable errors {tarantola-2005, sec. 3.2}."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.tuning.knowledge import Knowledge, SweepModel, as_changes, readings_of
from boomwright.tuning.sweep import Sweep

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: step of the difference quotients, as a share of the spread
_STEP = 0.25
_ITERATIONS = 10
#: change of the misfit, in squared noise, below which the search ends
_SETTLED = 1e-3
#: on a long line the phase may be off by a whole turn: line lengths within so many spreads are
#: tried first, in steps of so much phase, when they reach beyond a phase [rad]
_SCAN_SPREADS = 2.5
_SCAN_STEP = 0.6
_SCAN_FROM = 1.2
#: most starts followed to their end, and steps aside of the best ones for the later of them
_STARTS = 8
_ASIDE = 2
#: a start is the last one when its errors are this likely, in spreads of their sum of squares, and
#: what it leaves over is this close to noise
_LIKELY = 1.0
_EXPLAINED = 1.5


class Search:
    """Damped Gauss-Newton search in units of the spread.

    Args:
        predictor: predicts sweeps
        before: what is known before the sweep
        sweep: the sweep at the meter
        moves: changes made on purpose since the plan, by key, mixed units [-]
        noise: standard deviation of one part of the reflection [-]
    """

    def __init__(
        self,
        predictor: SweepModel,
        before: Knowledge,
        sweep: Sweep,
        moves: dict[str, float],
        noise: float,
    ) -> None:
        self.predictor, self.before, self.sweep = predictor, before, sweep
        self.moves, self.noise = moves, noise
        self.root = np.linalg.cholesky(before.covariance)
        self.target = readings_of(sweep.reflection, phase_known=sweep.phase_known)
        self.slopes: Floats = np.zeros((len(self.target), len(before.mean)))
        self.reflection: Complexes = sweep.reflection

    def values(self, scaled: Floats) -> Floats:
        """Deviations from those in units of the spread.

        Args:
            scaled: deviations in units of the spread (n,)
        """
        return self.before.mean + self.root @ scaled

    def residual(self, scaled: Floats) -> Floats:
        """What is not explained.

        Args:
            scaled: deviations in units of the spread (n,)
        """
        changes = as_changes(self.before.causes, self.values(scaled))
        for key, amount in self.moves.items():
            changes[key] = changes.get(key, 0.0) + amount
        self.reflection = self.predictor.sweep(changes=changes, frequencies=self.sweep.frequencies)
        readings = readings_of(self.reflection, phase_known=self.sweep.phase_known)
        return (readings - self.target) / self.noise

    def difference_slopes(self, scaled: Floats, residual: Floats) -> Floats:
        """Slopes by difference quotients.

        Args:
            scaled: deviations in units of the spread (n,)
            residual: what is not explained there, in noise (m,)
        """
        # Cause by cause, not along the spread's directions: then those that leave the antenna
        # alone need no new solution of it.
        inverse = np.linalg.inv(self.root)
        columns = []
        for number, spread in enumerate(self.before.spread):
            ahead = scaled + inverse[:, number] * (_STEP * spread)
            columns.append((self.residual(ahead) - residual) / (_STEP * spread))
        slopes: Floats = np.stack(columns, axis=1) @ self.root
        return slopes

    def run(self, slopes: Floats | None) -> Floats:
        """Search from every likely start; leaves slopes and reflection of the best behind.

        Args:
            slopes: first guess of the slopes, readings per cause; None computes them (m, n)
        """
        found = []
        for start in self._starts():
            found.append(self._from(start, slopes))
            if self._believable(*found[-1][:2]):
                break
        at, left, slope = min(found, key=lambda each: each[1] @ each[1] + each[0] @ each[0])
        # The slopes at the result carry the band; one more descent with them removes what
        # stale slopes left behind.
        slope = self.difference_slopes(at, left)
        self.slopes = slope.copy()
        at, left = self._descend(at, left, slope)
        self.left = self.residual(at)
        return at

    def _from(self, at: Floats, slopes: Floats | None) -> tuple[Floats, Floats, Floats]:
        left = self.residual(at)
        slope = (
            self.difference_slopes(at, left)
            if slopes is None or np.any(at != 0.0)
            else slopes @ self.root / self.noise
        )
        at, left = self._descend(at, left, slope)
        return at, left, slope

    def _starts(self) -> list[Floats]:
        """Where to start: on a long line, at every line length whose phase may be the right one."""
        plain = np.zeros(len(self.before.mean))
        keys = [cause.key for cause in self.before.causes]
        line = self.predictor.installation.line
        if line is None or "line.length" not in keys or not self.sweep.phase_known:
            return [plain]
        number = keys.index("line.length")
        spread = float(self.before.spread[number])
        turn = 4.0 * np.pi * self.sweep.frequencies[-1] / (SPEED_OF_LIGHT * line.velocity_factor)
        if turn * _SCAN_SPREADS * spread < _SCAN_FROM:
            return [plain]
        count = 2 * int(np.ceil(_SCAN_SPREADS * spread * turn / _SCAN_STEP)) + 1
        offsets = np.linspace(-_SCAN_SPREADS, _SCAN_SPREADS, count)
        # Moving along the direction in which the line length moves everything it is tied to.
        unit = self.root.T[:, number] / spread
        costs = np.array([self._cost(offset * unit) for offset in offsets])
        inner = np.r_[np.inf, costs, np.inf]
        valleys = [n for n in range(count) if inner[n + 1] <= min(inner[n], inner[n + 2])]
        valleys.sort(key=lambda n: float(costs[n]))
        # Between the valleys too: errors of the antenna can hide the right one.
        hills = [n + side for n in valleys for side in (-_ASIDE, _ASIDE) if 0 <= n + side < count]
        return [offsets[n] * unit for n in (valleys + hills)[:_STARTS]]

    def _believable(self, at: Floats, left: Floats) -> bool:
        """Whether a result explains the sweep with errors that are likely."""
        return bool(
            at @ at < len(at) + _LIKELY * np.sqrt(2.0 * len(at))
            and left @ left < _EXPLAINED * len(left)
        )

    def _cost(self, scaled: Floats) -> float:
        left = self.residual(scaled)
        return float(left @ left + scaled @ scaled)

    def _descend(self, at: Floats, left: Floats, slope: Floats) -> tuple[Floats, Floats]:
        cost = left @ left + at @ at
        damping = 0.0
        for _ in range(_ITERATIONS):
            normal = slope.T @ slope + (1.0 + damping) * np.eye(len(at))
            step = -np.linalg.solve(normal, slope.T @ left + at)
            trial = at + step
            ahead = self.residual(trial)
            new = ahead @ ahead + trial @ trial
            # Broyden's update makes the slopes agree with the step just seen
            # {nocedal-wright-2006, eq. 11.29}.
            slope += np.outer(ahead - left - slope @ step, step) / max(step @ step, 1e-12)
            if new > cost:
                damping = max(1.0, 4.0 * damping)
                continue
            gain, cost, at, left = cost - new, new, trial, ahead
            damping /= 4.0
            if gain < _SETTLED * max(1.0, cost / len(left)):
                break
        return at, left
