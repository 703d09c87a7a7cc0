"""Static matrices of a run: what does not depend on frequency, and is singular.

e^(-jkR)/R = 1/R - k^2 R/2 + (a part without a kink at R = 0). The first two terms are
integrated here, once for a shape, with the exact ring average of 1/R; the third is left to
:mod:`boomwright.solver.impedance`, at each frequency, on a few nodes.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.solver.gauss import graded_nodes, unit_gauss
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.piece_map import Pieces, pieces_of
from boomwright.solver.runs.ring_kernel import ring_potential, ring_radial
from boomwright.solver.runs.shape_functions import legendre, legendre_parts

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]

#: pieces closer than this many lengths of the longer one need the graded quadrature
_NEAR = 0.6
#: points on each piece of a pair that is far apart
_FAR_POINTS = 10
#: pairs of pieces that are integrated together
_PAIRS_AT_ONCE = 4000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RunStatics:
    """Frequency-independent matrices over unknowns."""

    current: Floats  #: double integrals of 1/R over currents [m] and charges [1/m] (n, n)
    charge: Floats  #: double integrals of 1/R over currents [m] and charges [1/m] (n, n)
    current_far: Floats  #: double integrals of R over currents [m^3] and charges [m] (n, n)
    charge_far: Floats  #: double integrals of R over currents [m^3] and charges [m] (n, n)

    def __post_init__(self) -> None:
        for name in ("current", "charge", "current_far", "charge_far"):
            object.__setattr__(self, name, read_only(getattr(self, name)))


def run_statics(*, mesh: RunMesh, mirrored: bool) -> RunStatics:
    """Integrate the static kernel over a run, and over its mirror image at z = 0.

    Args:
        mirrored: whether the plane z = 0 is a mirror (perfectly conducting)
    """
    total = np.zeros((4, mesh.count + 1, mesh.count + 1))
    for key, found in _grouped_pairs(mesh, mirrored=mirrored).items():
        # A long run has very many pairs: their points are held for some of them at a time.
        for start in range(0, len(found), _PAIRS_AT_ONCE):
            pairs = np.array(found[start : start + _PAIRS_AT_ONCE])
            _scatter(total, mesh, pairs, _pair_blocks(mesh, pairs, key))
    total = total[:, :-1, :-1]
    return RunStatics(current=total[0], charge=total[1], current_far=total[2], charge_far=total[3])


def _grouped_pairs(
    mesh: RunMesh, *, mirrored: bool
) -> dict[tuple[int, int], list[tuple[int, int, int]]]:
    """Sort pairs (first <= second, 1 for an image) by their quadrature; (0, 0) is far apart."""
    low, high = np.minimum(mesh.z0, mesh.z1), np.maximum(mesh.z0, mesh.z1)
    arc = mesh.arc_length
    scale = _smallest_radius(mesh) / arc
    reach_out = np.arcsinh(0.5 / np.minimum(0.5 * scale, 1.0))
    reach_in = np.arcsinh(1.0 / np.minimum(0.3 * scale, 1.0))
    outer = 4 * np.ceil((5.0 + 1.3 * reach_out) / 4.0).astype(int)
    inner = 8 * np.ceil((10.0 + 1.6 * reach_in) / 8.0).astype(int)
    longer = np.maximum(arc[:, None], arc[None, :])
    direct = np.maximum(low[None, :] - high[:, None], low[:, None] - high[None, :])
    groups: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
    for image, apart in enumerate([direct, low[:, None] + low[None, :]][: 1 + mirrored]):
        near = apart < _NEAR * longer
        for first, second in zip(*np.triu_indices(len(arc)), strict=True):
            key = (int(outer[first]), int(inner[second])) if near[first, second] else (0, 0)
            groups[key].append((int(first), int(second), image))
    return groups


def _smallest_radius(mesh: RunMesh) -> Floats:
    """Smaller non-zero radius of each piece [m]; a cap counts with its rim."""
    first = np.where(mesh.r0 > 0.0, mesh.r0, np.inf)
    second = np.where(mesh.r1 > 0.0, mesh.r1, np.inf)
    smallest: Floats = np.minimum(first, second)
    return smallest


def _pair_blocks(mesh: RunMesh, pairs: Indices, key: tuple[int, int]) -> Floats:
    """Blocks (4, n_pairs, shape, shape) of the four static integrals."""
    tested = pieces_of(mesh, pairs[:, 0])
    source = pieces_of(mesh, pairs[:, 1], mirrored=pairs[:, 2] == 1)
    radius = _smallest_radius(mesh)
    if key == (0, 0):
        nodes, weights = unit_gauss(_FAR_POINTS)
        outer, outer_weight = nodes[None], weights[None]
        inner, inner_weight = nodes[None, None], weights[None, None]
    else:
        outer, outer_weight = graded_nodes(
            scale=np.minimum(0.5 * radius[pairs[:, 0]] / tested.arc, 1.0), points=key[0]
        )
        nearest = _nearest_parameter(tested, source, outer)
        inner, inner_weight = _inner_nodes(
            nearest, np.minimum(0.3 * radius[pairs[:, 1]] / source.arc, 1.0), key[1]
        )
    # In a mirror the axial current keeps its direction and the charge changes sign.
    sign = np.where(pairs[:, 2] == 1, -1.0, 1.0)
    return _integrate(mesh, (tested, source), (outer, outer_weight), (inner, inner_weight), sign)


def _nearest_parameter(tested: Pieces, source: Pieces, outer: Floats) -> Floats:
    """Parameter of the source point nearest to each tested point (n_pairs, n_outer)."""
    arc, _ = tested.arc_at(outer)
    place, radius = tested.position_at(arc)
    along = (place - source.z0[:, None]) * source.direction[:, None]
    across = (radius - source.r0[:, None]) * source.radial[:, None]
    return source.parameter_at(along + across)


def _inner_nodes(nearest: Floats, scale: Floats, points: int) -> tuple[Floats, Floats]:
    """Nodes on both sides of the nearest point; the cube dissolves the logarithm there."""
    unit, weights = unit_gauss(points)
    width = scale[:, None, None]
    sides, side_weights = [], []
    for length, sign in ((nearest, -1.0), (1.0 - nearest, 1.0)):
        reach = np.arcsinh(length[..., None] / width)
        step = reach * unit**3
        sides.append(nearest[..., None] + sign * width * np.sinh(step))
        side_weights.append(width * np.cosh(step) * reach * 3.0 * unit**2 * weights)
    inner = np.clip(np.concatenate(sides, axis=2), 0.0, 1.0)
    return inner, np.concatenate(side_weights, axis=2)


def _integrate(
    mesh: RunMesh,
    pieces: tuple[Pieces, Pieces],
    outer: tuple[Floats, Floats],
    inner: tuple[Floats, Floats],
    sign: Floats,
) -> Floats:
    tested, source = pieces
    degree = int(mesh.degree.max())
    arc_out, slope_out = tested.arc_at(outer[0])
    arc_in, slope_in = source.arc_at(inner[0])
    z_out, r_out = tested.position_at(arc_out)
    z_in, r_in = source.position_at(arc_in)
    axial, ring = z_out[:, :, None] - z_in, r_out[:, :, None]
    near = ring_potential(axial=axial, radius=ring, source_radius=r_in)
    far = np.sqrt(axial**2 + ring**2 + r_in**2)
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
        kernels[0, flat] += radial_product[flat, None, None] * along_in[flat] * ring_radial(
            axial=axial[flat], radius=ring[flat], source_radius=r_in[flat]
        )
        factor[0, flat] = 1.0
    polynomials = legendre(at=inner[0], degree=degree).transpose(1, 2, 3, 0)
    potential = np.matmul(kernels.transpose(1, 2, 0, 3), polynomials)
    potential[:, :, 0::2] *= (slope_out * outer[1])[..., None, None]
    potential[:, :, 1::2] *= outer[1][..., None, None]
    polynomials = legendre(at=outer[0], degree=degree).transpose(1, 0, 2)
    moments = np.matmul(polynomials, potential.reshape(*axial.shape[:2], -1))
    blocks = moments.reshape(len(sign), degree + 1, 4, degree + 1).transpose(2, 0, 1, 3)
    values, slopes = legendre_parts(degree)
    found: Floats = np.empty(blocks.shape)
    found[0::2] = values @ blocks[0::2] @ values.T
    found[1::2] = slopes @ blocks[1::2] @ slopes.T
    found *= factor[:, :, None, None]
    return found


def _scatter(total: Floats, mesh: RunMesh, pairs: Indices, blocks: Floats) -> None:
    """Add the blocks, and their transposes for pairs of two different pieces.

    Numbers of -1 fall into a last row and column that the caller drops.
    """
    rows = mesh.unknowns[pairs[:, 0]][:, :, None]
    columns = mesh.unknowns[pairs[:, 1]][:, None, :]
    two = pairs[:, 0] != pairs[:, 1]
    size = total.shape[1]
    places = np.concatenate([(rows * size + columns).ravel(), (columns * size + rows)[two].ravel()])
    places %= size * size
    for matrix, block in zip(total, blocks, strict=True):
        values = np.concatenate([block.ravel(), block[two].ravel()])
        matrix += np.bincount(places, weights=values, minlength=size * size).reshape(size, size)
