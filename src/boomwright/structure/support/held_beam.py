"""An upright beam on what holds it: moment and shear along its height, with the weight it bears.

Beam pieces with two unknowns an end. The weight on the bent beam enters as the geometric
stiffness of each piece, so moments come out grown, and a beam too soft for its weight is told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from math import ceil

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.structure.beam.vibration import geometric_matrix, stiffness_matrix
from boomwright.structure.faults import BucklesError
from boomwright.structure.support.columns import AMPLIFIED_AT

#: pieces of the longest length between two marks, others in proportion: the largest moment of an
#: even load is met within half a percent
PIECES = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLoad:
    """A horizontal force on an upright beam."""

    height: float  #: height above the base [m]
    force: float  #: force along the wind [N]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SupportCourse(ReadOnlyArrays):
    """What a support carries along its height, each the largest over all wind directions."""

    heights: Floats  #: places above the base, upwards [m] (n_nodes,)
    moment: Floats  #: bending moment [N m] (n_nodes,)
    shear: Floats  #: horizontal shear, the larger of both sides of a place [N] (n_nodes,)
    compression: Floats  #: force down the support just below each place [N] (n_nodes,)

    def most_moment(self, low: float, high: float) -> float:
        """Largest moment from one height to another, both counted [N m].

        Args:
            low, high: heights above the base [m]
        """
        little = 1e-6 * float(self.heights[-1])
        within = (self.heights >= low - little) & (self.heights <= high + little)
        return float(np.max(self.moment[within]))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UprightBeam:
    """A beam cut into pieces, with the wind on it; unknowns are movement and slope of each node."""

    heights: Floats  #: nodes above the base, upwards [m] (n_nodes,)
    pieces: Floats  #: stiffness of each piece [N/m and its moments] (n_nodes - 1, 4, 4)
    fixed: Floats  #: what the wind on each piece brings to its ends [N and N m] (n_nodes - 1, 4)
    load: Floats  #: all of it and the side loads on the nodes [N and N m] (2 n_nodes,)
    bears: bool  #: whether the pieces are softened by what they bear, so that the beam may buckle

    @property
    def middles(self) -> Floats:
        """Middle of every piece above the base [m] (n_nodes - 1,)."""
        return (self.heights[1:] + self.heights[:-1]) / 2.0

    @property
    def stiffness(self) -> Floats:
        """Stiffness of the whole beam in one plane [N/m and its moments] (2 n_nodes, 2 n_nodes)."""
        whole = np.zeros((len(self.load), len(self.load)))
        ends = 2 * np.arange(len(self.pieces))[:, None] + np.arange(4)
        np.add.at(whole, (ends[:, :, None], ends[:, None, :]), self.pieces)
        return whole

    def softened(self, compression: Floats) -> UprightBeam:
        """Take off what a compression takes of the stiffness.

        Args:
            compression: force down every piece [N] (n_nodes - 1,)
        """
        lengths = np.diff(self.heights)
        leaning = np.stack([geometric_matrix(length=float(length)) for length in lengths])
        return replace(self, pieces=self.pieces - compression[:, None, None] * leaning, bears=True)

    def end_forces(self, moved: Floats, *, share: float = 1.0) -> tuple[Floats, Floats]:
        """Moment [N m] and shear [N] at the ends of every piece, in a plane, each (n_nodes - 1, 2).

        Args:
            moved: movement and slope of every node [m and rad] (2 n_nodes,)
            share: part of the wind that blows in this plane [-]
        """
        ends = moved[2 * np.arange(len(self.pieces))[:, None] + np.arange(4)]
        local = np.einsum("nij,nj->ni", self.pieces, ends) - share * self.fixed
        return local[:, [1, 3]] * (-1.0, 1.0), local[:, [0, 2]] * (1.0, -1.0)


def upright_beam(
    *,
    height: float,
    marks: Iterable[float],
    stiffness: float,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
) -> UprightBeam:
    """Cut a beam into pieces and put the wind on it.

    Args:
        height: top of the beam above its base [m]
        marks: heights that must be nodes, such as guy rings [m]
        stiffness: bending stiffness EI [N m^2]
        loads: horizontal forces (n_loads,)
        line_load: wind on a metre as a function of height in m [N/m]
    """
    heights = _nodes(height, marks, loads)
    lengths = np.diff(heights)
    middles = heights[:-1] + lengths / 2.0
    pieces = np.stack([stiffness_matrix(stiffness=stiffness, length=float(a)) for a in lengths])
    fixed = np.stack(
        [
            line_load(float(z)) * a / 2.0 * np.array([1.0, a / 6.0, 1.0, -a / 6.0])
            for z, a in zip(middles, lengths, strict=True)
        ]
    )
    load = np.zeros(2 * len(heights))
    for i, share in enumerate(fixed):
        load[2 * i : 2 * i + 4] += share
    for each in loads:
        node = int(np.argmin(np.abs(heights - each.height)))
        load[2 * node] += each.force
        load[2 * node + 1] += each.force * max(0.0, each.height - heights[-1])
    return UprightBeam(heights=heights, pieces=pieces, fixed=fixed, load=load, bears=False)


def _nodes(height: float, marks: Iterable[float], loads: Sequence[SideLoad]) -> Floats:
    wanted = {0.0, height, *marks} | {min(load.height, height) for load in loads}
    places: list[float] = []
    for mark in sorted(wanted):
        if not places or mark - places[-1] > 1e-4 * height:
            places.append(mark)
    longest = max(b - a for a, b in pairwise(places))
    fine = [
        np.linspace(a, b, max(2, ceil(PIECES * (b - a) / longest)) + 1)[:-1]
        for a, b in pairwise(places)
    ]
    return np.append(np.concatenate(fine), places[-1])


def require_stable(stiffness: Floats) -> None:
    """Refuse a stiffness that what it bears has used up.

    Args:
        stiffness: symmetric, of what is free to move [any] (n, n)

    Raises:
        BucklesError: when it no longer stands up to every movement
    """
    # Movements and slopes differ by the length of the pieces: each is measured by its own.
    own = np.diagonal(stiffness)
    stands = bool(np.all(own > 0.0))
    if stands:
        scale = np.sqrt(own)
        try:
            np.linalg.cholesky(stiffness / np.outer(scale, scale))
        except np.linalg.LinAlgError:
            stands = False
    if not stands:
        raise BucklesError("it buckles under the weight it bears")


def bend_held(
    *, beam: UprightBeam, held: Iterable[float], pinned: bool, loose: bool = False
) -> tuple[Floats, Floats]:
    """Bend a beam whose foot and holding points do not move.

    Args:
        held: heights of the points that hold it, none for a beam free above its foot [m]
        pinned: True for a foot that can tilt
        loose: True for a lower end that nothing holds; it takes two holding points

    Returns:
        bending moment [N m] and shear [N] at both ends of every piece, each (n_nodes - 1, 2)
    """
    nodes = [int(np.argmin(np.abs(beam.heights - height))) for height in held]
    still = {2 * node for node in nodes}
    if not loose:
        still |= {0} if pinned else {0, 1}
    free = np.array([i for i in range(len(beam.load)) if i not in still])
    stiffness = beam.stiffness[np.ix_(free, free)]
    if beam.bears:
        require_stable(stiffness)
    moved = np.zeros(len(beam.load))
    moved[free] = np.linalg.solve(stiffness, beam.load[free])
    return beam.end_forces(moved)


def along(heights: Floats, size: Callable[[float], float]) -> Floats:
    """Take a size at every height [any] (n,).

    Args:
        heights: heights [m] (n,)
        size: of a height in m [any]
    """
    return np.array([size(float(height)) for height in heights])


def held_course(
    *,
    height: float,
    held: Sequence[float],
    stiffness: float,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    bearing: Callable[[float], float],
    pinned: bool,
    grown: bool,
) -> SupportCourse:
    """Cut and bend a beam as ``upright_beam`` and ``bend_held`` do.

    Args:
        held: heights that hold it, none for a beam free above its foot [m]
        stiffness: bending stiffness EI [N m^2]
        bearing: what it bears at a height in m [N]
        grown: whether 1.6 times that grows the moments {aisc-360-22, C2.1}
    """
    beam = upright_beam(
        height=height, marks=held, stiffness=stiffness, loads=loads, line_load=line_load
    )
    if grown:
        beam = beam.softened(AMPLIFIED_AT * along(beam.middles, bearing))
    moments, shears = bend_held(beam=beam, held=held, pinned=pinned)
    return SupportCourse(
        heights=beam.heights,
        moment=at_nodes(moments),
        shear=at_nodes(shears),
        compression=along(beam.heights, bearing),
    )


def at_nodes(ends: Floats) -> Floats:
    """Take the larger of both sides of every node [as given] (n_nodes,).

    Args:
        ends: sizes at both ends of every piece [any] (n_nodes - 1, 2)
    """
    sizes: Floats = np.zeros((len(ends) + 1, 2))
    sizes[:-1, 0], sizes[1:, 1] = np.abs(ends[:, 0]), np.abs(ends[:, 1])
    return np.asarray(sizes.max(axis=1))
