"""Inductance in series with stretches of a run: what a mount or a coat adds to each metre."""

from __future__ import annotations

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.piece_map import pieces_of
from boomwright.solver.runs.shape_functions import shape_functions

#: where a stretch begins and ends, from the start of its run [m], and its inductance [H/m]; one
#: that ends at infinity reaches to the end of the run
Stretch = tuple[float, float, float]

#: points of the integral on each stretch of a piece
_POINTS = 12


def stretches_between(
    stretches: tuple[Stretch, ...], *, low: float, high: float
) -> tuple[Stretch, ...]:
    """Cut out what lies between two places.

    Args:
        low, high: where the part begins and ends [m]

    Returns:
        its stretches, measured from ``low`` [m] and [H/m]
    """
    inside = [(max(start, low), min(end, high), each) for start, end, each in stretches]
    return tuple((start - low, end - low, each) for start, end, each in inside if end > start)


def stretches_from_the_end(stretches: tuple[Stretch, ...], *, length: float) -> tuple[Stretch, ...]:
    """The same stretches of a run that is walked the other way.

    Args:
        length: of the run [m]

    Returns:
        its stretches, measured from its end [m] and [H/m]
    """
    inside = stretches_between(stretches, low=0.0, high=length)
    return tuple((length - end, length - start, each) for start, end, each in reversed(inside))


def series_matrix(*, mesh: RunMesh, stretches: tuple[Stretch, ...]) -> Floats:
    """Integrals of the inductance over products of two unknowns.

    Returns:
        symmetric matrix over the unknowns of the run [H] (n, n)
    """
    total = np.zeros((mesh.count + 1, mesh.count + 1))
    if stretches:
        starts, ends, inductances = np.array(stretches).T[:, :, None]
        # Caps and rings are too short to count, and have no axial extent.
        low, high = np.maximum(mesh.z0, starts), np.minimum(mesh.z1, ends)
        stretch, piece = np.nonzero(high > low)
        low, span = low[stretch, piece], (high - low)[stretch, piece]
        nodes, weights = unit_gauss(_POINTS)
        arc = (low - mesh.z0[piece])[:, None] + span[:, None] * nodes
        values, _ = shape_functions(
            at=pieces_of(mesh, piece).parameter_at(arc), degree=mesh.unknowns.shape[1] - 1
        )
        measure = (inductances[stretch, 0] * span)[:, None] * weights
        found = mesh.unknowns[piece]
        products = np.einsum("apq,bpq,pq->pab", values, values, measure)
        np.add.at(total, (found[:, :, None], found[:, None, :]), products)
    return total[:-1, :-1]
