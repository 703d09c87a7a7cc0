"""What the readings leave possible: draws from the posterior.

The most probable unknowns are searched by Gauss-Newton steps from every line length whose phase
may be the right one {tarantola-2005, sec. 3.2}. A mixture of wide t distributions about them is
drawn from, the draws are weighed {robert-casella-2004, sec. 3.3} and then moved by Metropolis
steps, some of them anew from the mixture, most about the mean and covariance of other draws
{cotter-2013}, so that the result does not rest on the mixture. Held by simulation-based
calibration {talts-2018}.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.tuning.sweep_model import HYPER, Linear, SweepModel

Progress = Callable[[float], None]

#: draws that are kept
DRAWS = 400
#: steps of the walk, each so many a draw anew from the mixture. Held against walks of 700 and 2000
#: steps: means and spreads differ by no more than 400 draws scatter, 0.05 standard deviations
_STEPS, _ANEW = 64, 4
#: share of a step that is drawn anew about the other half, that half's freedom and least spread
_NEW, _NEAR_FREEDOM, _LEAST_SPREAD = (0.5, 1.0), 10.0, 1e-3
#: sets of unknowns that are weighed at once
_AT_ONCE = 200
_ITERATIONS = 12
_DIFFERENCE = 1e-3
_FREEDOM = 15.0
_WIDER = 1.08
#: the line length is scanned within so many spreads in steps of so much phase [rad]
_SCAN_SPREADS, _SCAN_STEP, _SCAN_MOST = 2.5, 0.8, 41
#: starts followed to the end, modes kept within this of the best, in log density
_STARTS, _MODES, _NEAR = 6, 4, 8.0
#: sizes that the mixture is spread over, and by how many standard deviations
_SPREAD_OVER, _SPREAD_BY = ("care", "residual", "computed"), 1.2
#: two modes closer than this are one, in standard deviations
_SAME = 0.7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mode:
    """One place that explains the readings, and how wide it is."""

    place: Floats  #: unknowns there, in standard deviations (d,)
    root: Floats  #: root of their covariance about it (d, d)
    log_evidence: float  #: log of the integral about it [-]
    #: sum of squares of what is left and of the unknowns, with a degree of freedom a reading; a
    #: size below its usual one strains nothing: the sweep is quieter than expected [-]
    strain: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """Draws of what may be true."""

    unknowns: Floats  #: in standard deviations (n, d)
    linear: Floats  #: linear terms, in standard deviations (n, t)
    modes: tuple[Mode, ...]  #: most probable places, best first
    effective: float  #: share of the draws that the mixture alone was worth [-]


def log_density(model: SweepModel, unknowns: Floats) -> Floats:
    """Log of prior times likelihood, but for a constant (n,).

    Args:
        unknowns: in standard deviations (n, d)
    """
    found = np.empty(len(unknowns))
    for first in range(0, len(unknowns), _AT_ONCE):
        part = unknowns[first : first + _AT_ONCE]
        with np.errstate(all="ignore"):
            given = model.linear(part)
        found[first : first + _AT_ONCE] = _marginal(given) - 0.5 * np.sum(part**2, axis=1)
    return np.where(np.isfinite(found), found, -np.inf)


def _marginal(given: Linear) -> Floats:
    """Log likelihood with the linear terms integrated out (n,)."""
    inner = given.rows @ np.swapaxes(given.rows, 1, 2)
    inner /= given.noise[:, None, None] ** 2
    bad = ~np.isfinite(inner).all(axis=(1, 2))
    inner[bad] = 0.0
    diagonal = np.arange(inner.shape[1])
    inner[:, diagonal, diagonal] += 1.0
    # The last row of the root is what the linear terms explain of what is left.
    root = np.linalg.cholesky(inner)
    logs = np.log(np.diagonal(root, axis1=1, axis2=2)[:, :-1]).sum(axis=1)
    quadratic = inner[:, -1, -1] - 1.0 - np.sum(root[:, -1, :-1] ** 2, axis=1)
    found: Floats = -0.5 * quadratic - logs - given.left.shape[1] * np.log(given.noise)
    found[bad] = -np.inf
    return found


def find_modes(
    model: SweepModel, *, start: Floats | None = None, followed: int = _STARTS
) -> tuple[Mode, ...]:
    """Search the places that explain the readings, best first.

    Args:
        start: unknowns to start from too, of an earlier search (d,)
        followed: starts that are followed to the end
    """
    starts = _starts(model)
    if start is not None:
        starts.insert(0, start)
    quick = [(_descend(model, each, 4), number) for number, each in enumerate(starts)]
    quick.sort(key=lambda each: -each[0][1])
    found: list[Mode] = []
    for (place, _), _ in quick[:followed]:
        place, _ = _descend(model, place, _ITERATIONS)
        if any(np.linalg.norm(place - mode.place) < _SAME for mode in found):
            continue
        found.append(_mode(model, place))
    found.sort(key=lambda mode: -mode.log_evidence)
    best = found[0].log_evidence
    return tuple(mode for mode in found if mode.log_evidence > best - _NEAR)[:_MODES]


def _starts(model: SweepModel) -> list[Floats]:
    plain = np.zeros(model.size)
    line, number = model.installation.line, model.index.get("line.length")
    known = any(each.phase != "none" for each in model.readings)
    if line is None or number is None or not known:
        return [plain]
    spread = float(model.spreads[number])
    highest = model.surrogate.nodes[-1]
    turn = 4.0 * np.pi * highest / (SPEED_OF_LIGHT * line.velocity_factor) * spread
    count = min(_SCAN_MOST, 2 * int(np.ceil(_SCAN_SPREADS * turn / _SCAN_STEP)) + 1)
    found = []
    for offset in np.linspace(-_SCAN_SPREADS, _SCAN_SPREADS, count):
        place = plain.copy()
        place[number] = offset if count > 1 else 0.0
        found.append(place)
    return found


def _whitened(model: SweepModel, place: Floats) -> tuple[Floats, Floats]:
    """Readings left over and their slopes, in units of what noise and linear terms scatter."""
    steps = np.concatenate([np.zeros((1, model.size)), _DIFFERENCE * np.eye(model.size)])
    given = model.linear(place + steps)
    slopes = (given.left[1:] - given.left[0]) / _DIFFERENCE
    slopes[-len(HYPER) :] = 0.0
    noise, basis = float(given.noise[0]), given.basis[0]
    covariance = basis.T @ basis + noise**2 * np.eye(basis.shape[1])
    root = np.linalg.cholesky(covariance)
    both = np.linalg.solve(root, np.column_stack([given.left[0], slopes.T]))
    return both[:, 0], both[:, 1:]


def _descend(model: SweepModel, place: Floats, iterations: int) -> tuple[Floats, float]:
    """Damped Gauss-Newton steps for the unknowns, Newton steps for the sizes."""
    value = float(log_density(model, place[None])[0])
    damping = 0.0
    for _ in range(iterations):
        left, slopes = _whitened(model, place)
        normal = slopes.T @ slopes + (1.0 + damping) * np.eye(model.size)
        step = -np.linalg.solve(normal, slopes.T @ left + place)
        step[-len(HYPER) :] = _size_step(model, place)
        trials = place + np.array([1.0, 0.4, 0.12])[:, None] * step
        values = log_density(model, trials)
        best = int(np.argmax(values))
        if values[best] <= value:
            if damping > 100.0:
                break
            damping = max(2.0, 4.0 * damping)
            continue
        gain, value, place = values[best] - value, float(values[best]), trials[best]
        damping = 0.0 if best == 0 else damping
        if gain < 0.02:
            break
    return place, value


def _size_step(model: SweepModel, place: Floats) -> Floats:
    """Newton step of each unknown size by itself."""
    count, width = len(HYPER), 0.2
    unit = np.eye(model.size)[-count:] * width
    values = log_density(model, np.concatenate([place[None], place + unit, place - unit]))
    ahead, behind = values[1 : 1 + count], values[1 + count :]
    slope = (ahead - behind) / (2.0 * width)
    bend = np.minimum((ahead + behind - 2.0 * values[0]) / width**2, -0.5)
    step: Floats = np.clip(-slope / bend, -1.0, 1.0)
    return step


def _mode(model: SweepModel, place: Floats) -> Mode:
    left, slopes = _whitened(model, place)
    normal = slopes.T @ slopes + np.eye(model.size)
    count, width = len(HYPER), 0.3
    unit = np.eye(model.size)[-count:] * width
    values = log_density(model, np.concatenate([place[None], place + unit, place - unit]))
    bend = (values[1 : 1 + count] + values[1 + count :] - 2.0 * values[0]) / width**2
    sizes = np.arange(model.size)[-count:]
    normal[sizes, sizes] = np.clip(-bend, 0.5, None)
    covariance = np.linalg.inv(normal)
    root: Floats = np.linalg.cholesky(0.5 * (covariance + covariance.T)).astype(float)
    density = float(values[0])
    strained = place.copy()
    strained[sizes] = np.maximum(strained[sizes], 0.0)
    return Mode(
        place=place,
        root=root,
        log_evidence=density + float(np.log(np.diag(root)).sum()),
        strain=float(left @ left + strained @ strained),
    )


def draw_posterior(
    model: SweepModel,
    *,
    modes: tuple[Mode, ...],
    rng: np.random.Generator,
    progress: Progress | None = None,
) -> Posterior:
    """Draw what may be true."""
    mixture = _Mixture(tuple(each for mode in modes for each in (mode, *_around(model, mode))))
    first = mixture.draw(rng, 4 * DRAWS)
    density = log_density(model, first)
    ratio = density - mixture.log_density(first)
    weight = np.exp(ratio - ratio.max())
    weight /= weight.sum()
    effective = float(1.0 / np.sum(weight**2)) / len(first)
    picked = rng.choice(len(first), size=DRAWS, p=weight)
    # Half of them as they came: a few heavy draws would otherwise stand for all.
    picked[::2] = rng.permutation(np.flatnonzero(np.isfinite(density)))[: len(picked[::2])]
    walk = _Walk(model, mixture, rng, first[picked].copy(), density[picked].copy())
    for step in range(_STEPS):
        walk.step()
        if progress is not None:
            progress(step / _STEPS)
    return Posterior(
        unknowns=walk.place,
        linear=_draw_linear(model, walk.place, rng),
        modes=modes,
        effective=effective,
    )


def _around(model: SweepModel, mode: Mode) -> list[Mode]:
    """The same mode with one of the unknown sizes held smaller or larger."""
    found = []
    for name in _SPREAD_OVER:
        place = model.size - len(HYPER) + list(HYPER).index(name)
        width = float(np.linalg.norm(mode.root[place]))
        for way in (-1.0, 1.0):
            at = mode.place.copy()
            at[place] += way * _SPREAD_BY * width
            for _ in range(2):
                left, slopes = _whitened(model, at)
                normal = slopes.T @ slopes + np.eye(model.size)
                step = -np.linalg.solve(normal, slopes.T @ left + at)
                step[-len(HYPER) :] = 0.0
                trials = at + np.array([1.0, 0.4, 0.0])[:, None] * step
                at = trials[int(np.argmax(log_density(model, trials)))]
            found.append(_mode(model, at))
    return found


class _Mixture:
    """Wide t distributions about the modes."""

    def __init__(self, modes: tuple[Mode, ...]) -> None:
        self.modes = modes
        logs = np.array([mode.log_evidence for mode in modes])
        share = np.exp(logs - logs.max())
        self.share = 0.9 * share / share.sum() + 0.1 / len(modes)
        self.roots = [_WIDER * mode.root for mode in modes]
        self.inverse = [np.linalg.inv(root) for root in self.roots]

    def draw(self, rng: np.random.Generator, count: int) -> Floats:
        size = len(self.modes[0].place)
        which = rng.choice(len(self.modes), size=count, p=self.share)
        normal = rng.normal(size=(count, size))
        wide = np.sqrt(_FREEDOM / rng.chisquare(_FREEDOM, size=count))[:, None]
        found: Floats = np.empty((count, size))
        for number, mode in enumerate(self.modes):
            mine = which == number
            found[mine] = mode.place + (wide[mine] * normal[mine]) @ self.roots[number].T
        return found

    def log_density(self, places: Floats) -> Floats:
        size = places.shape[1]
        parts = []
        for number, mode in enumerate(self.modes):
            away = (places - mode.place) @ self.inverse[number].T
            distance = np.sum(away**2, axis=1)
            log = -0.5 * (_FREEDOM + size) * np.log1p(distance / _FREEDOM)
            log -= np.log(np.diag(self.roots[number])).sum()
            parts.append(np.log(self.share[number]) + log)
        found: Floats = np.logaddexp.reduce(np.array(parts), axis=0)
        return found


class _Walk:
    """Metropolis steps of many draws at once."""

    def __init__(
        self,
        model: SweepModel,
        mixture: _Mixture,
        rng: np.random.Generator,
        place: Floats,
        density: Floats,
    ) -> None:
        self.model, self.mixture, self.rng = model, mixture, rng
        self.place, self.density = place, density
        half = len(place) // 2
        self.halves = (slice(0, half), slice(half, None))
        self.turn = 0

    def step(self) -> None:
        self.turn += 1
        self._rescale()
        if self.turn % _ANEW == 0:
            trial = self.mixture.draw(self.rng, len(self.place))
            back = self.mixture.log_density(self.place) - self.mixture.log_density(trial)
            self._accept(trial, back, slice(None))
            return
        self._step_about(*self.halves)
        self._step_about(*reversed(self.halves))

    def _step_about(self, mine: slice, others: slice) -> None:
        """Keep a part of where each draw is and draw the rest anew, about the other half.

        The step keeps the t distribution with the other half's mean and covariance: its scale
        is drawn given the place, then the normal distribution of that scale is kept.
        """
        there, size = self.place[others], self.model.size
        middle = there.mean(axis=0)
        root = np.linalg.cholesky(np.cov(there.T) + _LEAST_SPREAD**2 * np.eye(size))
        here = np.linalg.solve(root, (self.place[mine] - middle).T).T
        distance = np.sum(here**2, axis=1)
        count = len(here)
        scale = (_NEAR_FREEDOM + distance) / self.rng.chisquare(_NEAR_FREEDOM + size, size=count)
        new = self.rng.uniform(*_NEW, size=(count, 1))
        drawn = np.sqrt(scale)[:, None] * self.rng.normal(size=here.shape)
        trial = np.sqrt(1.0 - new**2) * here + new * drawn
        back = (
            0.5
            * (_NEAR_FREEDOM + size)
            * np.log((_NEAR_FREEDOM + np.sum(trial**2, axis=1)) / (_NEAR_FREEDOM + distance))
        )
        self._accept(middle + trial @ root.T, back, mine)

    def _rescale(self) -> None:
        """Change the builder's care and all cutting errors so that the antenna stays as it is."""
        model, cut = self.model, np.flatnonzero(self.model.cut)
        care = model.size - len(HYPER) + list(HYPER).index("care")
        step = self.rng.normal(size=len(self.place))
        trial = self.place.copy()
        trial[:, care] += step
        trial[:, cut] *= np.exp(-HYPER["care"] * step)[:, None]
        prior = 0.5 * (np.sum(self.place**2, axis=1) - np.sum(trial**2, axis=1))
        ratio = prior - HYPER["care"] * step * len(cut)
        taken = np.log(self.rng.uniform(size=len(step))) < ratio
        self.place[taken] = trial[taken]
        self.density[taken] += prior[taken]

    def _accept(self, trial: Floats, back: Floats, mine: slice) -> None:
        density = log_density(self.model, trial)
        ratio = density - self.density[mine] + back
        taken = np.log(self.rng.uniform(size=len(trial))) < ratio
        self.place[mine] = np.where(taken[:, None], trial, self.place[mine])
        self.density[mine] = np.where(taken, density, self.density[mine])


def _draw_linear(model: SweepModel, places: Floats, rng: np.random.Generator) -> Floats:
    """Draw the linear terms that go with each set of unknowns (n, t)."""
    found = []
    for first in range(0, len(places), 100):
        given = model.linear(places[first : first + 100])
        scaled = given.basis / given.noise[:, None, None]
        left = given.left / given.noise[:, None]
        inner = scaled @ np.swapaxes(scaled, 1, 2) + np.eye(scaled.shape[1])
        root = np.linalg.cholesky(inner)
        mean = np.linalg.solve(inner, scaled @ left[:, :, None])
        scatter = np.linalg.solve(
            np.swapaxes(root, 1, 2), rng.normal(size=(len(left), scaled.shape[1], 1))
        )
        found.append((mean + scatter)[:, :, 0])
    return np.concatenate(found)
