"""Static matrices of runs: what does not depend on frequency, and is singular.

e^(-jkR)/R = 1/R - k^2 R/2 + (a part without a kink at R = 0). The first two terms are
integrated here, once for a shape, with the exact ring average of 1/R; the third is left to
:mod:`boomwright.solver.impedance`, at each frequency, on a few nodes.

All runs are integrated together, pairs of pieces that are alike in several runs only once:
elements of one beam often differ in nothing but their tips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import IntEnum
from functools import cache

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays, read_only
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.gauss import graded_nodes, one_sided_nodes, unit_gauss
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.piece_map import Pieces, joined_pieces
from boomwright.solver.runs.ring_kernel import ring_potential, ring_radial
from boomwright.solver.runs.shape_functions import legendre, legendre_parts

Indices = NDArray[np.int64]

#: pieces closer than this many lengths of the longer one need the graded quadrature
_NEAR = 0.6
#: points on each piece of a pair that is far apart: both short next to the gap, and others
_FAR_POINTS = (5, 8)
#: a piece is short when its length is at most this share of the gap
_SHORT = 0.25
#: pairs of pieces that are integrated together
_PAIRS_AT_ONCE = 4000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RunStatics(ReadOnlyArrays):
    """Frequency-independent matrices over unknowns."""

    current: Floats  #: double integrals of 1/R over currents [m] and charges [1/m] (n, n)
    charge: Floats  #: double integrals of 1/R over currents [m] and charges [1/m] (n, n)
    current_far: Floats  #: double integrals of R over currents [m^3] and charges [m] (n, n)
    charge_far: Floats  #: double integrals of R over currents [m^3] and charges [m] (n, n)


class _Kind(IntEnum):
    """How two pieces lie to each other."""

    FAR = 0
    SELF = 1  #: the same piece
    FACING = 2  #: in line one after the other, or in the mirror: nearest at one end of each
    ACROSS = 3  #: rings with radii in common: nearest anywhere


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Pairs:
    """Pairs of pieces of one run, first <= second along it."""

    first: Indices  #: number of the tested piece among those of all runs (n,)
    second: Indices  #: number of the source (n,)
    image: NDArray[np.bool_]  #: whether the source is its mirror image (n,)

    def some(self, which: Indices) -> _Pairs:
        return _Pairs(first=self.first[which], second=self.second[which], image=self.image[which])


def run_statics(*, runs: Sequence[tuple[RunMesh, bool]]) -> tuple[RunStatics, ...]:
    """Integrate the static kernel over runs, and over their mirror images at z = 0.

    Args:
        runs: each with whether the plane z = 0 is a mirror (perfectly conducting)
    """
    meshes = [mesh for mesh, _ in runs]
    pieces = joined_pieces(meshes)
    pairs = _all_pairs(runs)
    alone, alike = _alike(pieces, pairs)
    degree = max(int(mesh.degree.max()) for mesh in meshes)
    blocks = np.empty((len(alone.first), 4, degree + 1, degree + 1))
    for kind, orders, which in _grouped(pieces, alone):
        # A long run has very many pairs: their points are held for some of them at a time.
        for start in range(0, len(which), _PAIRS_AT_ONCE):
            some = which[start : start + _PAIRS_AT_ONCE]
            blocks[some] = _pair_blocks(pieces, alone.some(some), kind, orders, degree)
    found, begin = [], 0
    for mesh, mirrored in runs:
        count = len(_upper(len(mesh.z0))[0]) * (1 + mirrored)
        found.append(_gathered(mesh, mirrored, blocks[alike[begin : begin + count]]))
        begin += count
    return tuple(found)


@cache
def _upper(count: int) -> tuple[Indices, Indices]:
    """Numbers of all pairs first <= second."""
    first, second = np.triu_indices(count)
    return read_only(first, int), read_only(second, int)


def _all_pairs(runs: Sequence[tuple[RunMesh, bool]]) -> _Pairs:
    """Pairs of every run, images behind, in the order of the runs."""
    first, second, image = [], [], []
    begin = 0
    for mesh, mirrored in runs:
        one, two = _upper(len(mesh.z0))
        for reflected in (False, True)[: 1 + mirrored]:
            first.append(one + begin)
            second.append(two + begin)
            image.append(np.full(len(one), reflected))
        begin += len(mesh.z0)
    return _Pairs(
        first=np.concatenate(first), second=np.concatenate(second), image=np.concatenate(image)
    )


def _alike(pieces: Pieces, pairs: _Pairs) -> tuple[_Pairs, Indices]:
    """Pairs that are different from each other, and which of them each pair is."""
    numbers: dict[tuple[float, ...], int] = {}
    columns = (pieces.z0, pieces.r0, pieces.arc, pieces.direction, pieces.radial, pieces.root)
    rows = zip(*(column.tolist() for column in columns), strict=True)
    shape = np.array([numbers.setdefault(row, len(numbers)) for row in rows])
    code = (shape[pairs.first] * len(numbers) + shape[pairs.second]) * 2 + pairs.image
    _, where, alike = np.unique(code, return_index=True, return_inverse=True)
    return pairs.some(where), alike


def _grouped(pieces: Pieces, pairs: _Pairs) -> Iterator[tuple[_Kind, tuple[int, int], Indices]]:
    """Sort pairs by the quadrature they need: its kind, points on both, and which pairs."""
    ends = pieces.z0, pieces.z0 + pieces.direction * pieces.arc
    low, high = np.minimum(*ends), np.maximum(*ends)
    scale = pieces.smallest_radius / pieces.arc
    first, second = pairs.first, pairs.second
    apart = np.where(
        pairs.image, low[first] + low[second], np.maximum(low[second] - high[first], 0.0)
    )
    longer = np.maximum(pieces.arc[first], pieces.arc[second])
    near = apart < _NEAR * longer
    kind = np.full(len(first), int(_Kind.FAR))
    kind[near] = _Kind.FACING
    kind[near & _across(pieces, first, second)] = _Kind.ACROSS
    kind[(first == second) & ~pairs.image] = _Kind.SELF
    points = _points(kind, scale[first], scale[second])
    far = np.where(longer <= _SHORT * apart, *_FAR_POINTS)
    points = [np.where(near, each, far) for each in points]
    code = (kind * 64 + points[0]) * 64 + points[1]
    order = np.argsort(code, kind="stable")
    starts = np.flatnonzero(np.diff(code[order], prepend=-1))
    for which in np.split(order, starts[1:]):
        at = int(which[0])
        yield _Kind(int(kind[at])), (int(points[0][at]), int(points[1][at])), which


def _across(pieces: Pieces, first: Indices, second: Indices) -> NDArray[np.bool_]:
    """Whether one of two pieces is a ring or cap whose inside the other one faces."""
    ends = pieces.r0, pieces.r0 + pieces.radial * pieces.arc
    low, high = np.minimum(*ends), np.maximum(*ends)
    common = np.minimum(high[first], high[second]) - np.maximum(low[first], low[second])
    flat = pieces.direction == 0.0
    within = (low[first] > low[second]) & (high[first] < high[second])
    without = (low[first] < low[second]) & (high[first] > high[second])
    met: NDArray[np.bool_] = (flat[first] | flat[second]) & ((common > 0.0) | within | without)
    return met


def _points(kind: Indices, first: Floats, second: Floats) -> list[Indices]:
    """Points on both pieces of near pairs from their radii over their lengths."""
    lone = (kind == _Kind.SELF) | (kind == _Kind.ACROSS)
    reach_out = np.arcsinh(np.where(lone, 0.5, 1.0) / np.minimum(0.5 * first, 1.0))
    reach_in = np.arcsinh(1.0 / np.minimum(0.3 * second, 1.0))
    outer = 8 * np.ceil(np.maximum(7.0 + 1.3 * reach_out, 16.0) / 8.0)
    inner = 8 * np.ceil((10.0 + 1.6 * reach_in) / 8.0)
    return [outer.astype(int), inner.astype(int)]


def _pair_blocks(
    pieces: Pieces, pairs: _Pairs, kind: _Kind, points: tuple[int, int], degree: int
) -> Floats:
    """Blocks (n_pairs, 4, shape, shape) of the four static integrals."""
    tested = pieces.some(pairs.first)
    source = pieces.some(pairs.second, mirrored=pairs.image)
    # In a mirror the axial current keeps its direction and the charge changes sign.
    sign = np.where(pairs.image, -1.0, 1.0)
    outer, inner = _quadrature(tested, source, sign, kind, points)
    blocks = _integrate((tested, source), outer, inner, sign, degree)
    if kind is _Kind.SELF:
        # The other half of the square, where the source lies ahead.
        blocks = blocks + blocks.transpose(0, 1, 3, 2)
    return blocks


_Nodes = tuple[Floats, Floats]


def _quadrature(
    tested: Pieces, source: Pieces, sign: Floats, kind: _Kind, points: tuple[int, int]
) -> tuple[_Nodes, _Nodes]:
    """Nodes and weights on the tested pieces (n, o) and, for each, on the sources (n, o, i)."""
    if kind is _Kind.FAR:
        (outer, weight), (inner, inner_weight) = (unit_gauss(each) for each in points)
        return (outer[None], weight[None]), (inner[None, None], inner_weight[None, None])
    scale = np.minimum(0.5 * tested.smallest_radius / tested.arc, 1.0)
    width = np.minimum(0.3 * source.smallest_radius / source.arc, 1.0)
    if kind is _Kind.FACING:
        # A source ahead is met at the tested piece's end, an image at its start.
        outer, weight = one_sided_nodes(scale=scale, points=points[0])
        ahead = (sign > 0.0)[:, None]
        outer = np.where(ahead, 1.0 - outer, outer)
        sides = [_side(np.zeros((len(outer), 1)), width, points[1], ahead=True)]
    else:
        outer, weight = graded_nodes(scale=scale, points=points[0])
        if kind is _Kind.SELF:
            sides = [_side(outer, width, points[1], ahead=False)]
        else:
            nearest = _nearest_parameter(tested, source, outer)
            sides = [_side(nearest, width, points[1], ahead=way) for way in (False, True)]
    inner, inner_weight = (np.concatenate(each, axis=2) for each in zip(*sides, strict=True))
    return (outer, weight), (inner, inner_weight)


def _nearest_parameter(tested: Pieces, source: Pieces, outer: Floats) -> Floats:
    """Parameter of the source point nearest to each tested point (n_pairs, n_outer)."""
    arc, _ = tested.arc_at(outer)
    place, radius = tested.position_at(arc)
    along = (place - source.z0[:, None]) * source.direction[:, None]
    across = (radius - source.r0[:, None]) * source.radial[:, None]
    return source.parameter_at(along + across)


def _side(nearest: Floats, scale: Floats, points: int, *, ahead: bool) -> _Nodes:
    """Nodes on one side of the nearest point; the cube dissolves the logarithm there."""
    unit, weights = unit_gauss(points)
    width = scale[:, None, None]
    reach = np.arcsinh((1.0 - nearest if ahead else nearest)[..., None] / width)
    step = width * np.sinh(reach * unit**3)
    weight = np.sqrt(width**2 + step**2) * (reach * (3.0 * unit**2 * weights))
    inner = nearest[..., None] + step if ahead else nearest[..., None] - step
    return np.clip(inner, 0.0, 1.0), weight


def _integrate(
    pieces: tuple[Pieces, Pieces], outer: _Nodes, inner: _Nodes, sign: Floats, degree: int
) -> Floats:
    tested, source = pieces
    arc_out, slope_out = tested.arc_at(outer[0])
    arc_in, slope_in = source.arc_at(inner[0])
    z_out, r_out = tested.position_at(arc_out)
    z_in, r_in = source.position_at(arc_in)
    axial, ring = z_out[:, :, None] - z_in, r_out[:, :, None]
    near, far = ring_potential(axial=axial, radius=ring, source_radius=r_in)
    axial_product = sign * tested.direction * source.direction
    radial_product = sign * tested.radial * source.radial
    along_in = slope_in * inner[1]
    # The four kernels, weighed for the inner sum.
    kernels = np.empty((4, *axial.shape))
    np.multiply(near, along_in, out=kernels[0])
    np.multiply(near, inner[1], out=kernels[1])
    np.multiply(far, along_in, out=kernels[2])
    np.multiply(far, inner[1], out=kernels[3])
    factor = np.array([axial_product, sign, axial_product, sign])
    flat = np.abs(radial_product) > 0.0
    if flat.any():
        kernels[0, flat] *= axial_product[flat, None, None]
        kernels[0, flat] += (
            radial_product[flat, None, None]
            * along_in[flat]
            * ring_radial(axial=axial[flat], radius=ring[flat], source_radius=r_in[flat])
        )
        factor[0, flat] = 1.0
    polynomials = legendre(at=inner[0], degree=degree).transpose(1, 2, 3, 0)
    potential = np.matmul(kernels.transpose(1, 2, 0, 3), polynomials)
    potential[:, :, 0::2] *= (slope_out * outer[1])[..., None, None]
    potential[:, :, 1::2] *= outer[1][..., None, None]
    polynomials = legendre(at=outer[0], degree=degree).transpose(1, 0, 2)
    moments = np.matmul(polynomials, potential.reshape(*axial.shape[:2], -1))
    blocks = moments.reshape(len(sign), degree + 1, 4, degree + 1).transpose(0, 2, 1, 3)
    values, slopes = legendre_parts(degree)
    found: Floats = np.empty(blocks.shape)
    found[:, 0::2] = values @ blocks[:, 0::2] @ values.T
    found[:, 1::2] = slopes @ blocks[:, 1::2] @ slopes.T
    found *= factor.T[:, :, None, None]
    return found


def _gathered(mesh: RunMesh, mirrored: bool, blocks: Floats) -> RunStatics:
    """Add the blocks of a run's pairs, and their transposes for pairs of two different pieces.

    Numbers of -1 fall into a last row and column that is dropped.
    """
    first, second = _upper(len(mesh.z0))
    first, second = (np.tile(each, 1 + mirrored) for each in (first, second))
    shapes = mesh.unknowns.shape[1]
    rows = mesh.unknowns[first][:, :, None]
    columns = mesh.unknowns[second][:, None, :]
    two = first != second
    size = mesh.count + 1
    places = np.concatenate([(rows * size + columns).ravel(), (columns * size + rows)[two].ravel()])
    places %= size * size
    mine = blocks[:, :, :shapes, :shapes]
    found = np.empty((4, size, size))
    for number in range(4):
        values = np.concatenate([mine[:, number].ravel(), mine[two, number].ravel()])
        sums = np.bincount(places, weights=values, minlength=size * size)
        found[number] = sums.reshape(size, size)
    found = found[:, :-1, :-1]
    return RunStatics(current=found[0], charge=found[1], current_far=found[2], charge_far=found[3])
