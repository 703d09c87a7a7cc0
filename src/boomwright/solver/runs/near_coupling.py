"""Static coupling of two runs on different axes that meet, or pass close to each other.

Where two runs meet at an angle their surfaces interpenetrate and no kernel is exact; the
distance from axis to surface, R^2 = (axis to axis)^2 + a^2 with the larger radius, is within
order a/length of any other choice. Runs that pass without touching couple from axis to axis:
the potential of an evenly charged tube outside itself is that of its axis.
"""

from __future__ import annotations

from collections import defaultdict

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.gauss import graded_nodes, unit_gauss
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.piece_map import Pieces, pieces_of
from boomwright.solver.runs.shape_functions import shape_functions
from boomwright.solver.runs.static import RunStatics

Indices = NDArray[np.int64]

#: pieces closer than this many lengths of the longer one need the graded quadrature
_NEAR = 0.8
_FAR_POINTS = 10
#: places on a piece when its distance to another is measured
_PROBES = 5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Axis:
    """A run's mesh with the place of its axis."""

    mesh: RunMesh  #: the pieces
    origin: Floats  #: place of z = 0 [m] (3,)
    direction: Floats  #: unit vector of rising z (3,)

    def points(self, place: Floats) -> Floats:
        """Points in space of axial places [m] (..., 3).

        Args:
            place: axial places [m] (...)
        """
        return self.origin + place[..., None] * self.direction


def near_statics(*, tested: Axis, source: Axis, radius: float) -> RunStatics:
    """Integrate the static kernel between two runs.

    Args:
        radius: added in square to the squared distance, 0 for runs that do not touch [m]
    """
    total = np.zeros((4, tested.mesh.count + 1, source.mesh.count + 1))
    for (outer, inner), pairs in _grouped_pairs(tested, source, radius).items():
        which = np.array(pairs)
        blocks = _pair_blocks(tested, source, which, (outer, inner), radius)
        rows = tested.mesh.unknowns[which[:, 0]][:, :, None]
        columns = source.mesh.unknowns[which[:, 1]][:, None, :]
        # Numbers of -1 fall into the last row or column, which is dropped below.
        for matrix, block in zip(total, blocks, strict=True):
            np.add.at(matrix, (rows, columns), block)
    total = total[:, :-1, :-1]
    product = float(tested.direction @ source.direction)
    return RunStatics(
        current=product * total[0],
        charge=total[1],
        current_far=product * total[2],
        charge_far=total[3],
    )


def _grouped_pairs(
    tested: Axis, source: Axis, radius: float
) -> dict[tuple[int, int], list[tuple[int, int]]]:
    """Sort pairs of pieces by the quadrature they need; (0, 0) means far apart."""
    probes = np.linspace(0.0, 1.0, _PROBES)
    clouds = []
    for axis in (tested, source):
        mesh = axis.mesh
        place = mesh.z0[:, None] + (mesh.z1 - mesh.z0)[:, None] * probes
        clouds.append(axis.points(place))
    gap = clouds[0][:, None, :, None, :] - clouds[1][None, :, None, :, :]
    apart = np.sqrt((gap**2).sum(axis=4).min(axis=(2, 3)) + radius**2)
    lengths = np.maximum(tested.mesh.arc_length[:, None], source.mesh.arc_length[None, :])
    groups: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    for first in range(apart.shape[0]):
        for second in range(apart.shape[1]):
            key = (0, 0)
            if apart[first, second] < _NEAR * lengths[first, second]:
                reach = np.arcsinh(lengths[first, second] / apart[first, second])
                key = (
                    4 * int(np.ceil((5.0 + 1.3 * reach) / 4.0)),
                    4 * int(np.ceil((6.0 + 1.6 * reach) / 4.0)),
                )
            groups[key].append((first, second))
    return groups


def _pair_blocks(
    tested: Axis, source: Axis, pairs: Indices, key: tuple[int, int], radius: float
) -> Floats:
    """Blocks (4, n_pairs, shape, shape) of the static integrals, direction product left out."""
    outer_pieces = pieces_of(tested.mesh, pairs[:, 0])
    inner_pieces = pieces_of(source.mesh, pairs[:, 1])
    if key == (0, 0):
        nodes, weights = unit_gauss(_FAR_POINTS)
        outer = np.tile(nodes, (len(pairs), 1))
        outer_weight = np.tile(weights, (len(pairs), 1))
        inner = np.tile(outer[:, None, :], (1, _FAR_POINTS, 1))
        inner_weight = np.tile(outer_weight[:, None, :], (1, _FAR_POINTS, 1))
    else:
        scale = np.minimum(_approach(tested, source, pairs, radius) / outer_pieces.arc, 1.0)
        outer, outer_weight = graded_nodes(scale=scale, points=key[0])
        inner, inner_weight = _around_nearest(
            tested, source, outer_pieces, inner_pieces, outer, key[1], radius
        )
    arc_out, slope_out = outer_pieces.arc_at(outer)
    arc_in, slope_in = inner_pieces.arc_at(inner)
    z_out, _ = outer_pieces.position_at(arc_out)
    z_in, _ = inner_pieces.position_at(arc_in)
    gap = tested.points(z_out)[:, :, None, :] - source.points(z_in)
    distance = np.sqrt((gap**2).sum(axis=3) + radius**2)
    value_out, slope_value_out = shape_functions(at=outer, degree=tested.mesh.unknowns.shape[1] - 1)
    value_in, slope_value_in = shape_functions(at=inner, degree=source.mesh.unknowns.shape[1] - 1)
    along_out = slope_out * outer_pieces.direction[:, None] * outer_weight
    along_in = slope_in * inner_pieces.direction[:, None, None] * inner_weight
    current = (value_out * along_out, value_in * along_in)
    charge = (slope_value_out * outer_weight, slope_value_in * inner_weight)
    return np.stack(
        [
            _contract(current, 1.0 / distance),
            _contract(charge, 1.0 / distance),
            _contract(current, distance),
            _contract(charge, distance),
        ]
    )


def _contract(sides: tuple[Floats, Floats], kernel: Floats) -> Floats:
    potential = np.einsum("poi,bpoi->pob", kernel, sides[1])
    blocks: Floats = np.matmul(sides[0].transpose(1, 0, 2), potential)
    return blocks


def _approach(tested: Axis, source: Axis, pairs: Indices, radius: float) -> Floats:
    """Smallest distance from the ends of the tested piece to the source piece [m]."""
    mesh = tested.mesh
    ends = np.stack([mesh.z0[pairs[:, 0]], mesh.z1[pairs[:, 0]]], axis=1)
    _, distance = _nearest(source, pairs[:, 1], tested.points(ends), radius)
    smallest: Floats = distance.min(axis=1)
    return smallest


def _nearest(source: Axis, pieces: Indices, points: Floats, radius: float) -> tuple[Floats, Floats]:
    """Nearest axial place on each source piece, and the distance to it."""
    mesh = source.mesh
    low, high = mesh.z0[pieces][:, None], mesh.z1[pieces][:, None]
    along = (points - source.origin) @ source.direction
    place = np.clip(along, np.minimum(low, high), np.maximum(low, high))
    gap = points - source.points(place)
    return place, np.sqrt((gap**2).sum(axis=2) + radius**2)


def _around_nearest(
    tested: Axis,
    source: Axis,
    outer_pieces: Pieces,
    inner_pieces: Pieces,
    outer: Floats,
    points: int,
    radius: float,
) -> tuple[Floats, Floats]:
    """Nodes on both sides of the point nearest to each tested point; dt = ds/R there."""
    arc, _ = outer_pieces.arc_at(outer)
    place, _ = outer_pieces.position_at(arc)
    spots = tested.points(place)
    along = (spots - source.origin) @ source.direction
    arc_nearest = np.clip(
        (along - inner_pieces.z0[:, None]) * inner_pieces.direction[:, None],
        0.0,
        inner_pieces.arc[:, None],
    )
    nearest = inner_pieces.parameter_at(arc_nearest)
    on_axis, _ = inner_pieces.position_at(arc_nearest)
    gap = spots - source.points(on_axis)
    distance = np.sqrt((gap**2).sum(axis=2) + radius**2)
    scale = np.minimum(distance / inner_pieces.arc[:, None], 1.0)[:, :, None]
    unit, weights = unit_gauss(points)
    sides, side_weights = [], []
    for length, sign in ((nearest, -1.0), (1.0 - nearest, 1.0)):
        reach = np.arcsinh(length[..., None] / scale)
        sides.append(nearest[..., None] + sign * scale * np.sinh(reach * unit))
        side_weights.append(scale * np.cosh(reach * unit) * reach * weights)
    return np.clip(np.concatenate(sides, axis=2), 0.0, 1.0), np.concatenate(side_weights, axis=2)
