"""Which real lengths explain the sweep: the most probable ones and their band.

Errors are taken as normal before measuring, noise as normal on each part of the reflection;
the most probable errors follow from damped Gauss-Newton steps, their covariance from the
model made linear there {tarantola-2005, sec. 3.2}.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice, read_only
from boomwright.tuning.causes import Cause
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.predicting import Predictor
from boomwright.tuning.sweep import Sweep, reading_noise

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: noise assumed at least, as a share of full reflection {common-practice-meter-accuracy}
LEAST_NOISE = 5e-3
#: most points used; more are averaged
MOST_POINTS = 41
#: step of the difference quotients, as a share of the spread
_STEP = 0.25
_ITERATIONS = 10
#: change of the misfit, in squared noise, below which the search ends
_SETTLED = 1e-3
#: standard normal quantile of a 95 % band
BAND = 1.96
#: misfit per reading beyond which the causes do not explain the sweep
_LARGEST_MISFIT = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Knowledge:
    """What is known of the causes: normal, with a mean and a covariance.

    Parameters
    ----------
    causes
        the causes [-] (n,)
    mean
        most probable deviation from the plan, mixed units [-] (n,)
    covariance
        covariance, mixed units [-] (n, n)
    """

    causes: tuple[Cause, ...]
    mean: Floats
    covariance: Floats

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", read_only(self.mean))
        object.__setattr__(self, "covariance", read_only(self.covariance))

    @property
    def spread(self) -> Floats:
        """Standard deviation of each cause, mixed units [-] (n,)."""
        return np.sqrt(np.diag(self.covariance))

    def changes(self) -> dict[str, float]:
        """The mean as changes of the installation by key, mixed units [-]."""
        return as_changes(self.causes, self.mean)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """What a sweep taught.

    Parameters
    ----------
    before, after
        what was known before and is known after [-]
    sweep
        the sweep that was used, thinned [-]
    noise
        standard deviation of one part of the reflection [-]
    predicted
        reflection that the found errors explain [-] (f,)
    slopes
        change of the readings for each cause, readings as fitted [-] (m, n)
    misfit
        mean square of what is left over, in noise and per degree of freedom; near 1 when
        explained [-]
    notices
        doubts [-]
    """

    before: Knowledge
    after: Knowledge
    sweep: Sweep
    noise: float
    predicted: Complexes
    slopes: Floats
    misfit: float
    notices: tuple[Notice, ...]


def as_changes(causes: tuple[Cause, ...], values: Floats) -> dict[str, float]:
    """Turn a vector of deviations into changes by key.

    Parameters
    ----------
    causes
        the causes [-] (n,)
    values
        deviations, mixed units [-] (n,)

    Returns
    -------
    dict
        amounts by key, mixed units [-]
    """
    return {cause.key: float(value) for cause, value in zip(causes, values, strict=True)}


def first_knowledge(causes: tuple[Cause, ...]) -> Knowledge:
    """What is known before any sweep: no deviation, with the usual spread.

    Parameters
    ----------
    causes
        the causes [-] (n,)

    Returns
    -------
    Knowledge
        independent normal deviations [-]
    """
    spreads = np.array([cause.spread for cause in causes])
    return Knowledge(causes=causes, mean=np.zeros(len(causes)), covariance=np.diag(spreads**2))


def readings_of(reflection: Complexes, *, phase_known: bool) -> Floats:
    """Turn reflections into the real readings that are fitted.

    Parameters
    ----------
    reflection
        reflection coefficients [-] (f,)
    phase_known
        whether their phase was measured [-]

    Returns
    -------
    NDArray
        real and imaginary parts, or moduli [-] (2 f,) or (f,)
    """
    if not phase_known:
        return np.abs(reflection)
    return np.concatenate([reflection.real, reflection.imag])


def fit_sweep(
    *,
    predictor: Predictor,
    before: Knowledge,
    sweep: Sweep,
    moves: Mapping[str, float] | None = None,
    noise: float | None = None,
    slopes: Floats | None = None,
) -> Fit:
    """Find the deviations from the plan that explain a sweep best.

    Parameters
    ----------
    predictor
        predicts sweeps of the planned installation [-]
    before
        what is known before this sweep [-]
    sweep
        the sweep at the meter, within the frequencies of the predictor [-]
    moves
        changes made on purpose since the plan, by key, mixed units [-]
    noise
        standard deviation of one part of the reflection; None takes it from the scatter of
        the sweep [-]
    slopes
        first guess of the slopes, of a like fit; None computes them [-] (m, n)

    Returns
    -------
    Fit
        the fit [-]

    Raises
    ------
    MeasurementError
        when the sweep is held against another reference resistance than the installation
    """
    reference = predictor.installation.reference
    if abs(sweep.reference - reference) > 1e-6 * reference:
        msg = (
            f"the sweep is held against {sweep.reference:g} ohm, the installation against "
            f"{reference:g} ohm; read the sweep with that reference"
        )
        raise MeasurementError(msg)
    if noise is None:
        noise = max(LEAST_NOISE, reading_noise(sweep=sweep))
    used = sweep.thinned(points=MOST_POINTS)
    thinned = -(-len(sweep.frequencies) // MOST_POINTS)
    search = _Search(predictor.fresh(), before, used, dict(moves or {}), noise / np.sqrt(thinned))
    found = search.run(slopes)
    return _fit(search, found)


class _Search:
    """Damped Gauss-Newton search in units of the spread."""

    def __init__(
        self,
        predictor: Predictor,
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
        """Deviations from those in units of the spread."""
        return self.before.mean + self.root @ scaled

    def residual(self, scaled: Floats) -> Floats:
        """What is not explained, in noise."""
        changes = as_changes(self.before.causes, self.values(scaled))
        for key, amount in self.moves.items():
            changes[key] = changes.get(key, 0.0) + amount
        self.reflection = self.predictor.sweep(changes=changes, frequencies=self.sweep.frequencies)
        readings = readings_of(self.reflection, phase_known=self.sweep.phase_known)
        return (readings - self.target) / self.noise

    def difference_slopes(self, scaled: Floats, residual: Floats) -> Floats:
        """Slopes in noise per spread, by difference quotients."""
        columns = []
        for number in range(len(scaled)):
            ahead = scaled.copy()
            ahead[number] += _STEP
            columns.append((self.residual(ahead) - residual) / _STEP)
        return np.stack(columns, axis=1)

    def run(self, slopes: Floats | None) -> Floats:
        """Search; leaves slopes and reflection of the result behind."""
        at = np.zeros(len(self.before.mean))
        left = self.residual(at)
        slope = (
            self.difference_slopes(at, left) if slopes is None else slopes @ self.root / self.noise
        )
        at, left = self._descend(at, left, slope)
        # The slopes at the result carry the band; one more descent with them removes what
        # stale slopes left behind.
        slope = self.difference_slopes(at, left)
        at, left = self._descend(at, left, slope)
        self.slopes = slope
        self.left = self.residual(at)
        return at

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


def _fit(search: _Search, scaled: Floats) -> Fit:
    before, slope = search.before, search.slopes
    inside = np.linalg.inv(slope.T @ slope + np.eye(len(scaled)))
    root = search.root
    # Each direction the sweep tells uses up one reading.
    told = float(len(scaled) - np.trace(inside))
    freedom = max(1.0, len(search.target) - told)
    misfit = float(search.left @ search.left) / freedom
    after = Knowledge(
        causes=before.causes,
        mean=search.values(scaled),
        covariance=root @ inside @ root.T,
    )
    notices: tuple[Notice, ...] = ()
    if misfit > _LARGEST_MISFIT:
        notices = (
            Notice(
                code="tuning.not-explained",
                severity="doubt",
                text="No likely error of lengths, match, height, ground and line explains this "
                "sweep: look for a fault, or check that the plan is that of this antenna.",
                value=f"{misfit:.1f}",
                limit=f"{_LARGEST_MISFIT:g}",
            ),
        )
    return Fit(
        before=before,
        after=after,
        sweep=search.sweep,
        noise=search.noise,
        predicted=search.reflection,
        slopes=slope @ np.linalg.inv(root) * search.noise,
        misfit=misfit,
        notices=notices,
    )
