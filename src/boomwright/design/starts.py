"""Where the search starts: the trade's first guess, published tables, and drawn designs.

Lengths are told in half lengths of resonance of each element's own tubing, so that a table for
one diameter serves stepped tubing as well.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.design.array_slopes import at_one_frequency
from boomwright.design.ensemble import soft_scores
from boomwright.design.minimax import least_levels
from boomwright.design.stopping import GoOn, always, until_stopped
from boomwright.design.targets import Problem
from boomwright.solver.element_response import ElementFamily

#: reflector and directors against the driven element {common-practice-first-guess}
_GUESS_REFLECTOR, _GUESS_DIRECTOR, _GUESS_SPACING = 1.05, 0.95, 0.15
#: Table 1 of the note, boom 0.4, 0.8 and 2.2 wavelengths, spacing 0.2 throughout: reflector and
#: directors in wavelengths {nbs-tn-688, table 1}
_TABLES = (
    (0.482, (0.424,)),
    (0.482, (0.428, 0.424, 0.428)),
    (0.482, (0.432, 0.415, 0.407, 0.398, 0.390, 0.390, 0.390, 0.390, 0.398, 0.407)),
)
#: full length of resonance of the note's tubes, 0.0085 wavelengths thick: own computation
_TABLE_RESONANCE = 0.4629
#: designs drawn for each one that is climbed from
_DRAWN_PER_START = 30
#: designs scored in one batch, few enough to stay in the cache
_AT_ONCE = 32
#: designs whose free numbers all differ by less are one start [-]
_APART = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Start(ReadOnlyArrays):
    """A design to start from."""

    origin: str  #: where it comes from, such as ``first guess``
    positions: Floats  #: places along the boom [m] (n_elements,)
    half_lengths: Floats  #: half lengths [m] (n_elements,)


def resonant_half_length(*, family: ElementFamily, at: int) -> float:
    """Half length at which an element alone is in resonance.

    Returns:
        half length, or the end of the table nearest to resonance [m]
    """
    lengths = np.linspace(family.shortest, family.longest, 61)
    place = 2.0 * (lengths - family.shortest) / (family.longest - family.shortest) - 1.0
    basis = np.polynomial.chebyshev.chebvander(place, family.series.shape[1] - 1)
    condensed = np.einsum("nt,tab->nab", basis, family.series[at])
    reactance = (0.5 / np.linalg.inv(condensed)[:, -1, -1]).imag
    return float(np.interp(0.0, reactance, lengths))


def listed_starts(
    *, resonances: Floats, driven: int, boom: float, wavelength: float
) -> tuple[Start, ...]:
    """Set up the trade's first guess and the published tables for a boom.

    Args:
        resonances: half length of resonance of each element [m] (n_elements,)
        boom: boom to fill [m]
        wavelength: wavelength at the design frequency [m]
    """
    count = len(resonances)
    number = np.arange(count, dtype=np.float64)
    factor = np.where(
        number < driven, _GUESS_REFLECTOR, np.where(number == driven, 1.0, _GUESS_DIRECTOR)
    )
    spacing = min(_GUESS_SPACING * wavelength, boom / max(count - 1, 1))
    starts = [
        Start(
            origin="first guess",
            positions=spacing * number,
            half_lengths=factor * resonances,
        ),
        Start(
            origin="first guess on the whole boom",
            positions=boom * number / max(count - 1, 1),
            half_lengths=factor * resonances,
        ),
    ]
    for reflector, directors in _TABLES:
        along = np.linspace(0.0, 1.0, max(count - driven - 1, 1))
        table = np.interp(along, np.linspace(0.0, 1.0, len(directors)), directors)
        lengths = np.ones(count)
        lengths[:driven] = reflector / _TABLE_RESONANCE
        lengths[driven + 1 :] = table[: count - driven - 1] / _TABLE_RESONANCE
        starts.append(
            Start(
                origin="published table",
                positions=boom * number / max(count - 1, 1),
                half_lengths=lengths * resonances,
            )
        )
    return tuple(starts)


def drawn_starts(
    *,
    problem: Problem,
    resonances: Floats,
    boom: float,
    wanted: int,
    generator: np.random.Generator,
    go_on: GoOn = always,
) -> tuple[Start, ...]:
    """Draw many designs and keep the best that differ from each other.

    Args:
        resonances: half length of resonance of each element [m] (n_elements,)
        boom: longest boom [m]
    """
    count = len(resonances)
    driven = problem.tables.driven
    drawn = _DRAWN_PER_START * wanted
    share = generator.uniform(0.3, 1.0, (drawn, count - 1))
    # A driven element close to the reflector is common among the best.
    share[:, :1] *= generator.uniform(0.2, 1.0, (drawn, 1))
    filled = boom * generator.uniform(0.75, 1.0, (drawn, 1))
    places = np.cumsum(share / share.sum(axis=1, keepdims=True), axis=1) * filled
    positions = np.hstack([np.zeros((drawn, 1)), places])
    factor = np.empty((drawn, count))
    factor[:, :driven] = generator.uniform(1.0, 1.06, (drawn, driven))
    factor[:, driven] = generator.uniform(0.97, 1.03, drawn)
    middle = generator.uniform(0.88, 0.98, (drawn, 1))
    spread = generator.uniform(-0.025, 0.025, (drawn, count - driven - 1))
    factor[:, driven + 1 :] = middle + spread
    return _best_and_different(problem, positions, factor * resonances, wanted, go_on)


def hops(
    *,
    problem: Problem,
    free: Floats,
    wanted: int,
    generator: np.random.Generator,
) -> tuple[Start, ...]:
    """Draw designs around a good one, to see whether a better one is near.

    Args:
        free: free numbers of the good design (m,)
    """
    space = problem.space
    starts = []
    for _ in range(wanted):
        size = generator.uniform(0.5, 3.0)
        moved = np.clip(free + size * generator.normal(size=len(free)), space.lower, space.upper)
        positions, half_lengths = space.dimensions(moved)
        starts.append(Start(origin="hop", positions=positions, half_lengths=half_lengths))
    return tuple(starts)


def _best_and_different(
    problem: Problem, positions: Floats, half_lengths: Floats, wanted: int, go_on: GoOn
) -> tuple[Start, ...]:
    """Rank designs by their score and skip those close to a better one."""
    if not len(positions):
        return ()
    frees = problem.space.nearest(positions=positions, half_lengths=half_lengths)
    scores = _scores(problem, frees, go_on)
    ranked = np.argsort(-scores, kind="stable")
    kept: list[int] = []
    for begin in until_stopped(range(0, len(ranked), _AT_ONCE), go_on):
        for number in ranked[begin : begin + _AT_ONCE].tolist():
            apart = np.abs(frees[kept] - frees[number]).max(axis=1, initial=0.0)
            if len(kept) < wanted and (not kept or apart.min() > _APART):
                kept.append(number)
        if len(kept) == wanted:
            break
    return tuple(
        Start(origin="drawn", positions=positions[number], half_lengths=half_lengths[number])
        for number in kept
    )


def _scores(problem: Problem, frees: Floats, go_on: GoOn) -> Floats:
    """Score each of many designs at the design frequency alone."""
    both = problem.space.origin + frees @ problem.space.basis.T
    count = problem.space.count
    least = np.tile(least_levels(problem.targets), (len(frees), 1))
    tables = at_one_frequency(tables=problem.tables, number=problem.design_number)
    towards = problem.targets.directions(rear_angles=3)
    scores = []
    for begin in until_stopped(range(0, len(frees), _AT_ONCE), go_on):
        rows = slice(begin, begin + _AT_ONCE)
        score, _ = soft_scores(
            tables=tables,
            positions=both[rows, :count],
            half_lengths=both[rows, count:],
            targets=problem.targets,
            least=least[rows],
            towards=towards,
            design=0,
            temperature=0.0,
        )
        scores.append(score)
    return np.concatenate(scores)
