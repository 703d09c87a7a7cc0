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

from boomwright.base import Notice
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.knowledge import Knowledge, SweepModel
from boomwright.tuning.search import Search
from boomwright.tuning.sweep import Sweep, reading_noise

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: noise assumed at least, as a share of full reflection {common-practice-meter-accuracy}
LEAST_NOISE = 5e-3
#: most points used; more are averaged
MOST_POINTS = 41
#: standard normal quantile of a 95 % band
BAND = 1.96
#: misfit per reading beyond which the causes do not explain the sweep
_LARGEST_MISFIT = 2.0
#: strain beyond which the errors found are not believed
_LARGEST_STRAIN = 5.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """What a sweep taught."""

    before: Knowledge  #: what was known before and is known after
    after: Knowledge
    sweep: Sweep  #: the sweep that was used, thinned
    noise: float  #: standard deviation of one part of the reflection [-]
    predicted: Complexes  #: reflection that the found errors explain (f,)
    slopes: Floats  #: change of the readings for each cause, readings as fitted (m, n)
    #: mean square of what is left over, in noise and per degree of freedom; near 1 when explained
    #: [-]
    misfit: float
    #: how unlikely the found errors were beforehand: their sum of squares in spreads, less the
    #: number of directions the sweep told, over the spread of that sum; beyond 4 they are hardly
    #: believed [-]
    strain: float
    #: logarithm of how probable the sweep was before it was measured, but for a constant of the
    #: noise {tarantola-2005, sec. 3.2} [-]
    log_evidence: float
    notices: tuple[Notice, ...]  #: doubts


def fit_sweep(
    *,
    predictor: SweepModel,
    before: Knowledge,
    sweep: Sweep,
    moves: Mapping[str, float] | None = None,
    noise: float | None = None,
    slopes: Floats | None = None,
) -> Fit:
    """Find the deviations from the plan that explain a sweep best.

    Args:
        moves: changes made on purpose since the plan, by key, mixed units [-]
        noise: standard deviation of one part of the reflection; None takes it from the scatter
            of the sweep
            [-]
        slopes: first guess of the slopes, of a like fit; None computes them (m, n)

    Raises:
        MeasurementError: when the sweep is held against another reference resistance than the
            installation
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
    search = Search(predictor.fresh(), before, used, dict(moves or {}), noise / np.sqrt(thinned))
    found = search.run(slopes)
    return _fit(search, found)


def _fit(search: Search, scaled: Floats) -> Fit:
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
    strain = (float(scaled @ scaled) - told) / float(np.sqrt(2.0 * max(told, 1.0)))
    notices = _doubts(misfit, strain)
    return Fit(
        before=before,
        after=after,
        sweep=search.sweep,
        noise=search.noise,
        predicted=search.reflection,
        slopes=slope @ np.linalg.inv(root) * search.noise,
        misfit=misfit,
        strain=strain,
        log_evidence=-0.5 * float(search.left @ search.left + scaled @ scaled)
        + 0.5 * float(np.linalg.slogdet(inside)[1]),
        notices=notices,
    )


def _doubts(misfit: float, strain: float) -> tuple[Notice, ...]:
    found = []
    if misfit > _LARGEST_MISFIT:
        found.append(
            Notice(
                code="tuning.not-explained",
                severity="doubt",
                text="No likely error of lengths, match, height, ground and line explains this "
                "sweep: look for a fault, or check that the plan is that of this antenna.",
                value=f"{misfit:.1f}",
                limit=f"{_LARGEST_MISFIT:g}",
            )
        )
    if strain > _LARGEST_STRAIN:
        found.append(
            Notice(
                code="tuning.strained",
                severity="doubt",
                text="The sweep is only explained by errors far beyond the stated tolerance. Do "
                "not move anything yet: measure the line, or look for a fault.",
                value=f"{strain:.1f}",
                limit=f"{_LARGEST_STRAIN:g}",
            )
        )
    return tuple(found)
