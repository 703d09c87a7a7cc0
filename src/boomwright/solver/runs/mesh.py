"""A run: tubes in line on one axis, cut into the pieces that carry the unknown current.

The cut follows the surface from end to end: cylinders, the flat ring at every change of
diameter, and the flat cap at a closed tip. Close to an edge the current does not behave like
a polynomial of the distance d but of d^(1/3) (right-angled edge) or d^(1/2) (the sharp rim of
an open tube) {meixner-1972}; pieces there are parametrised by that root, so that a low degree
is enough.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.records import dataclass, replace

EndKind = Literal["closed tip", "open tip", "joint", "mirror"]

#: root of the distance that the current follows at a right-angled metal edge {meixner-1972}
_RIGHT_ANGLE_ROOT = 3
#: root of the distance that the current follows at a thin open rim {meixner-1972}
_OPEN_RIM_ROOT = 2
#: at an open rim the first piece is this share of what a closed tip gets; tried on thick tubes
_OPEN_RIM_SHARE = 0.5
#: a graded piece may take this share of its section at most; the rest stays one piece
_LARGEST_SHARE = 0.34


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """How finely a run is cut."""

    first: float  #: length of the piece next to a tip or a gap, in local radii [-]
    ratio: float  #: growth from one graded piece to the next [-]
    step: float  #: length of the one graded piece on either side of a step, in local radii [-]
    degree: int  #: degree on the long pieces
    short_degree: int  #: degree on long pieces shorter than ``long_piece``
    long_piece: float  #: length from which a piece counts as long [m]
    edge_degree: int  #: degree on graded pieces and caps at tips and gaps
    step_degree: int  #: degree on graded pieces and rings at steps
    longest: float = float("inf")  #: longest piece allowed [m]


def steady_detail(*, detail: Detail, radius: float, lengths: tuple[float, float]) -> Detail:
    """Cut tips of all lengths in a range alike, so that what follows from them has no jumps.

    Args:
        radius: radius of the tips [m]
        lengths: shortest and longest tip [m]
    """
    shortest, longest = (_LARGEST_SHARE * length for length in lengths)
    count = 0
    while detail.first * radius * detail.ratio**count < shortest:
        count += 1
    ratio = detail.ratio
    if count and detail.first * radius * ratio**count < longest:
        ratio = (1.001 * longest / (detail.first * radius)) ** (1.0 / count)
    return replace(detail, ratio=ratio, long_piece=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RunShape:
    """Shape of a run, without its place in space."""

    #: length and radius of each tube from start to end [m] (n_sections, 2)
    sections: tuple[tuple[float, float], ...]
    #: centre (measured from the start) and width of each feed or load gap [m] (n_gaps, 2)
    gaps: tuple[tuple[float, float], ...] = ()
    start: EndKind = "closed tip"  #: what the run starts with
    end: EndKind = "closed tip"  #: what the run ends with

    @property
    def length(self) -> float:
        """Length of the run [m]."""
        return sum(length for length, _ in self.sections)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RunMesh(ReadOnlyArrays):
    """Pieces of one run and the numbering of its unknowns."""

    z0: NDArray[np.float64]  #: axial place of both ends of each piece [m] (n_pieces,)
    z1: NDArray[np.float64]  #: axial place of both ends of each piece [m] (n_pieces,)
    r0: NDArray[np.float64]  #: radius at both ends of each piece [m] (n_pieces,)
    r1: NDArray[np.float64]  #: radius at both ends of each piece [m] (n_pieces,)
    degree: NDArray[np.int64]  #: degree of each piece [-] (n_pieces,)
    #: root that parametrises each piece; negative when the edge is at its start [-] (n_pieces,)
    root: NDArray[np.int64]
    #: number of each shape function's unknown, -1 where there is none [-] (n_pieces, max degree +
    #: 1)
    unknowns: NDArray[np.int64]
    count: int  #: number of unknowns
    start_unknown: int  #: unknown that is the current at the start, -1 when that current is zero
    end_unknown: int  #: unknown that is the current at the end, -1 when that current is zero

    @property
    def arc_length(self) -> NDArray[np.float64]:
        """Length of each piece along the surface [m] (n_pieces,)."""
        arc: NDArray[np.float64] = np.hypot(self.z1 - self.z0, self.r1 - self.r0)
        return arc


@dataclass(slots=True)
class _Cut:
    """Pieces while they are being collected, start to end."""

    rows: list[tuple[float, float, float, float, int, int]]

    def add(self, z: tuple[float, float], r: tuple[float, float], degree: int, root: int) -> None:
        self.rows.append((*z, *r, degree, root))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Border:
    """What one end of a cylinder meets: how to grade towards it, and the root at it."""

    first: float = 0.0
    ratio: float = float("inf")
    degree: int = 1
    root: int = 1


_PLAIN = _Border()


def mesh_run(*, shape: RunShape, detail: Detail) -> RunMesh:
    """Cut a run into pieces and number its unknowns."""
    cut = _Cut([])
    sections = joined_sections(shape.sections)
    radii = [radius for _, radius in sections]
    places = np.concatenate([[0.0], np.cumsum([length for length, _ in sections])])
    if shape.start == "closed tip":
        cut.add((0.0, 0.0), (0.0, radii[0]), detail.edge_degree, _RIGHT_ANGLE_ROOT)
    for index, radius in enumerate(radii):
        before = radii[index - 1] if index else None
        after = radii[index + 1] if index + 1 < len(radii) else None
        borders = (
            _border(shape.start, before, radius, detail),
            _border(shape.end, after, radius, detail),
        )
        span = (float(places[index]), float(places[index + 1]))
        _cut_section(cut, span, radius, borders, shape.gaps, detail)
        if after is not None:
            root = -_RIGHT_ANGLE_ROOT if radius > after else _RIGHT_ANGLE_ROOT
            cut.add((span[1], span[1]), (radius, after), detail.step_degree, root)
    if shape.end == "closed tip":
        end = float(places[-1])
        cut.add((end, end), (radii[-1], 0.0), detail.edge_degree, -_RIGHT_ANGLE_ROOT)
    return _number(
        cut,
        start_open=shape.start in {"joint", "mirror"},
        end_open=shape.end in {"joint", "mirror"},
    )


def joined_sections(sections: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Join neighbours of equal radius: there is no step between them.

    Args:
        sections: length and radius of one section after the other [m]

    Returns:
        the same tube in as few sections as it has radii [m]
    """
    joined: list[tuple[float, float]] = []
    for length, radius in sections:
        if joined and math.isclose(joined[-1][1], radius, rel_tol=1e-9):
            joined[-1] = (joined[-1][0] + length, radius)
        else:
            joined.append((length, radius))
    return tuple(joined)


def _border(end: EndKind, neighbour: float | None, radius: float, detail: Detail) -> _Border:
    if neighbour is None:
        if end in {"joint", "mirror"}:
            return _PLAIN
        closed = end == "closed tip"
        return _Border(
            first=detail.first * radius * (1.0 if closed else _OPEN_RIM_SHARE),
            ratio=detail.ratio,
            degree=detail.edge_degree,
            root=_RIGHT_ANGLE_ROOT if closed else _OPEN_RIM_ROOT,
        )
    # Only the larger tube has a convex edge; in the corner of the smaller one the charge fades.
    return _Border(
        first=detail.step * radius,
        degree=detail.step_degree,
        root=_RIGHT_ANGLE_ROOT if radius > neighbour else 1,
    )


def _cut_section(
    cut: _Cut,
    span: tuple[float, float],
    radius: float,
    borders: tuple[_Border, _Border],
    gaps: tuple[tuple[float, float], ...],
    detail: Detail,
) -> None:
    """Cut one tube at its gaps, then grade each part towards its borders."""
    low, high = span
    at_gap = _Border(first=detail.first * radius, ratio=detail.ratio, degree=detail.edge_degree)
    at, border = low, borders[0]
    for centre, width in sorted(gaps):
        lower, upper = max(centre - width / 2.0, low), min(centre + width / 2.0, high)
        if upper <= lower:
            continue
        if lower > at:
            _cut_part(cut, (at, lower), radius, (border, at_gap), detail)
        cut.add((lower, upper), (radius, radius), detail.edge_degree, 1)
        at, border = upper, at_gap
    if high > at:
        _cut_part(cut, (at, high), radius, (border, borders[1]), detail)


def _cut_part(
    cut: _Cut,
    span: tuple[float, float],
    radius: float,
    borders: tuple[_Border, _Border],
    detail: Detail,
) -> None:
    low, high = span
    left, right = (_graded(high - low, border) for border in borders)
    middle_low = low + (left[-1] if left else 0.0)
    middle_high = high - (right[-1] if right else 0.0)
    parts = max(1, int(np.ceil((middle_high - middle_low) / detail.longest - 1e-9)))
    middle = np.linspace(middle_low, middle_high, parts + 1).tolist()
    points = sorted({low, high, *middle, *(low + x for x in left), *(high - x for x in right)})
    for index, (z0, z1) in enumerate(pairwise(points)):
        degree = detail.degree if z1 - z0 > detail.long_piece else detail.short_degree
        if z1 <= middle_low:
            degree = borders[0].degree
        elif z0 >= middle_high:
            degree = borders[1].degree
        root = 1
        if index == 0 and borders[0].root > 1:
            root = -borders[0].root
        elif index == len(points) - 2 and borders[1].root > 1:
            root = borders[1].root
        cut.add((z0, z1), (radius, radius), degree, root)


def _graded(length: float, border: _Border) -> list[float]:
    """Distances from a border at which to cut, growing geometrically."""
    distances = []
    distance = border.first
    while 0.0 < distance < _LARGEST_SHARE * length:
        distances.append(distance)
        distance *= border.ratio
    return distances


def _number(cut: _Cut, *, start_open: bool, end_open: bool) -> RunMesh:
    columns = [np.array(column) for column in zip(*cut.rows, strict=True)]
    degree = columns[4]
    pieces = len(degree)
    unknowns = np.full((pieces, int(degree.max()) + 1), -1)
    nodes = np.full(pieces + 1, -1)
    first = 0 if start_open else 1
    last = pieces + 1 if end_open else pieces
    nodes[first:last] = np.arange(last - first)
    count = last - first
    for piece in range(pieces):
        unknowns[piece, 0], unknowns[piece, 1] = nodes[piece], nodes[piece + 1]
        bubbles = degree[piece] - 1
        unknowns[piece, 2 : 2 + bubbles] = count + np.arange(bubbles)
        count += int(bubbles)
    return RunMesh(
        z0=columns[0],
        z1=columns[1],
        r0=columns[2],
        r1=columns[3],
        degree=degree,
        root=columns[5],
        unknowns=unknowns,
        count=count,
        start_unknown=int(nodes[0]),
        end_unknown=int(nodes[-1]),
    )
