"""First frequency of a pole, mast or tower with what it carries, on its foot and its guys.

Own Euler-Bernoulli eigenproblem: cubic beam elements with consistent mass, point masses, guys as
springs, a foot and a seat of the mast that may turn, and the weight of all that presses down,
which softens the sway until it buckles.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import inf, sin

import numpy as np
from numpy.linalg import LinAlgError

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.array_types import Floats
from boomwright.base.quantity import phrase
from boomwright.base.records import dataclass
from boomwright.structure.beam.vibration import (
    geometric_matrix,
    lowest_frequencies,
    mass_matrix,
    stiffness_matrix,
)
from boomwright.structure.faults import StructureInputError, require_positive
from boomwright.structure.support.guys import GuyLevel, ring_stiffness


@dataclass(frozen=True, slots=True, kw_only=True)
class SwayPart:
    """One straight length of the structure, standing on the one before."""

    top: float  #: its upper end above the foot [m]
    stiffness: float  #: bending stiffness EI [N m^2]
    mass_per_length: float  #: mass of a metre [kg/m]
    #: stiffness against turning at its lower end, infinite where it is clamped and 0 where it is
    #: hinged [N m]
    seat: float = inf

    def __post_init__(self) -> None:
        require_positive(place="upper end of a part", value=self.top, unit="m")
        require_positive(place="bending stiffness", value=self.stiffness, unit="N m^2")
        require_positive(place="mass of a metre", value=self.mass_per_length, unit="kg/m")


@dataclass(frozen=True, slots=True, kw_only=True)
class SwayMass:
    """Something heavy that the structure carries."""

    height: float  #: height above the foot [m]
    mass: float  #: mass [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class SwayHold:
    """A ring of guys as the sway feels it."""

    height: float  #: height above the foot [m]
    stiffness: float  #: sideways force for a sideways movement, the same in every direction [N/m]
    pull: float = 0.0  #: what all guys of it press down with [N]


def ring_hold(*, level: GuyLevel) -> SwayHold:
    """Stiffness of a ring of guys in still air, n/2 EA/L cos^2 a with its sag {guy-statics}.

    Raises:
        StructureInputError: when its initial tension is not given
    """
    if level.initial_tension is None:
        said = phrase("the initial tension of the {ring} is not given", ring=level.name)
        raise StructureInputError(said)
    tension = level.initial_tension
    # A guy also pulls back as a stretched string where it is pushed sideways.
    across = tension / level.length * (1.0 + sin(level.angle) ** 2)
    return SwayHold(
        height=level.height,
        stiffness=ring_stiffness(level=level) + level.count / 2.0 * across,
        pull=level.count * tension * sin(level.angle),
    )


def first_sway(
    *,
    parts: Sequence[SwayPart],
    masses: Sequence[SwayMass] = (),
    holds: Sequence[SwayHold] = (),
    weightless: bool = False,
) -> float:
    """First frequency of a structure, from its foot upwards; 0 when its weight buckles it [Hz].

    Args:
        parts: lengths from the foot up (n_parts,)
        masses: what it carries (n_masses,)
        holds: rings of guys (n_holds,)
        weightless: whether to leave out that the weight presses down

    Raises:
        StructureInputError: when it has no length, or something hangs above its top
    """
    ends = [0.0, *(part.top for part in parts)]
    if len(ends) < 2 or any(not high - low > 1e-5 * ends[-1] for low, high in pairwise(ends)):
        msg = "the parts of the structure must stand on each other, each with some length"
        raise StructureInputError(msg)
    marks = [each.height for each in masses] + [each.height for each in holds]
    highest = max(marks, default=0.0)
    if highest > ends[-1] * (1.0 + 1e-9):
        msg = f"something hangs at {highest:g} m, above the top at {ends[-1]:g} m"
        raise StructureInputError(msg)
    grid = [_grid(low, high, marks) for low, high in pairwise(ends)]
    stiff, mass = _matrices(parts, grid, masses, holds, weightless)
    try:
        return lowest_frequencies(stiff=stiff, mass=mass, modes=1)[0]
    except LinAlgError:
        # What presses down has used up the stiffness.
        return 0.0


def _grid(low: float, high: float, marks: Sequence[float]) -> Floats:
    """Nodes of one part: a handful between every two places where something happens."""
    places = [low]
    for mark in sorted({min(max(mark, low), high) for mark in (*marks, high)}):
        if mark - places[-1] > 1e-6 * high:
            places.append(mark)
    # The last mark may lie a hair below the end.
    places = [*places[: max(1, len(places) - 1)], high]
    fine = [np.linspace(a, b, 7)[:-1] for a, b in pairwise(places)]
    return np.append(np.concatenate(fine), high)


def _pressing(
    height: float, parts: Sequence[SwayPart], masses: Sequence[SwayMass], holds: Sequence[SwayHold]
) -> float:
    """Force down the structure at a height [N]."""
    total, low = 0.0, 0.0
    for part in parts:
        total += part.mass_per_length * max(0.0, part.top - max(low, height)) * STANDARD_GRAVITY
        low = part.top
    total += sum(each.mass * STANDARD_GRAVITY for each in masses if each.height >= height)
    return total + sum(each.pull for each in holds if each.height >= height)


def _matrices(
    parts: Sequence[SwayPart],
    grid: Sequence[Floats],
    masses: Sequence[SwayMass],
    holds: Sequence[SwayHold],
    weightless: bool,
) -> tuple[Floats, Floats]:
    # The first node of a part moves with the node below; it turns with it where it is clamped.
    seats = sum(bool(np.isfinite(part.seat)) for part in parts)
    size = 2 + seats + sum(2 * (len(nodes) - 1) for nodes in grid)
    stiff, mass = np.zeros((size, size)), np.zeros((size, size))
    moves: list[tuple[float, int]] = [(0.0, 0)]
    here, below, count = 0, 1, 2
    for part, nodes in zip(parts, grid, strict=True):
        turn = below
        if np.isfinite(part.seat):
            turn = count
            count += 1
            pair = np.ix_((below, turn), (below, turn))
            stiff[pair] += part.seat * np.array([[1.0, -1.0], [-1.0, 1.0]])
        for low, high in pairwise(nodes):
            length = float(high - low)
            where = np.ix_((here, turn, count, count + 1), (here, turn, count, count + 1))
            stiff[where] += stiffness_matrix(stiffness=part.stiffness, length=length)
            mass[where] += mass_matrix(mass_per_length=part.mass_per_length, length=length)
            if not weightless:
                down = _pressing(float(low + high) / 2.0, parts, masses, holds)
                stiff[where] -= down * geometric_matrix(length=length)
            here, turn = count, count + 1
            count += 2
            moves.append((float(high), here))
        below = turn
    for weight in masses:
        at = _nearest(moves, weight.height)
        mass[at, at] += weight.mass
    for hold in holds:
        at = _nearest(moves, hold.height)
        stiff[at, at] += hold.stiffness
    # The ground neither moves nor turns.
    return stiff[2:, 2:], mass[2:, 2:]


def _nearest(moves: Sequence[tuple[float, int]], height: float) -> int:
    return min(moves, key=lambda node: abs(node[0] - height))[1]
