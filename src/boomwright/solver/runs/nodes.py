"""A run seen from afar: a few nodes on its axis that carry current and charge moments.

Every kernel that is smooth on the scale of a panel (another run, the far field, the part of
the own kernel without a kink) is interpolated between Gauss nodes of the panels; the unknowns
enter only through their moments against the interpolating polynomials, which do not depend
on frequency.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays, read_only
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.piece_map import pieces_of
from boomwright.solver.runs.shape_functions import shape_functions

Indices = NDArray[np.int64]

#: Gauss nodes on each panel
NODES_PER_PANEL = 10
#: points of the moment integrals on each stretch of a piece inside a panel
_MOMENT_POINTS = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RunNodes(ReadOnlyArrays):
    """Nodes of one run and the moments of its unknowns there."""

    place: Floats  #: axial place of each node [m] (m,)
    radius: Floats  #: tube radius at each node [m] (m,)
    current: Floats  #: axial current moment of each unknown at each node [m] (m, n)
    charge: Floats  #: moment of the derivative of each unknown at each node (m, n)

    def ring_terms(self, moments: Floats) -> Floats:
        """What the thickness of the tube does to its moments, seen from outside.

        A wave averaged around a tube of radius a is that on its axis times
        1 - a^2/4 (k^2 + d^2/dz^2), the start of J0(ka sin) {balanis-2005}.

        Args:
            moments: current or charge moments (m, n)
        """
        weighed = 0.25 * self.radius[:, None] ** 2 * moments
        unit = 2.0 * unit_gauss(NODES_PER_PANEL)[0] - 1.0
        panels = self.place.reshape(-1, NODES_PER_PANEL)
        half_width = (panels[0, -1] - panels[0, 0]) / (unit[-1] - unit[0])
        bend = _second_derivative() / half_width**2
        blocks = weighed.reshape(len(panels), NODES_PER_PANEL, -1)
        return np.stack([weighed, (bend @ blocks).reshape(weighed.shape)])


@cache
def _second_derivative() -> Floats:
    """Of a panel's interpolating polynomials at its nodes, transposed (n, n)."""
    slope = _differentiation(2.0 * unit_gauss(NODES_PER_PANEL)[0] - 1.0)
    bend: Floats = (slope @ slope).T
    return read_only(bend)


def run_nodes(*, mesh: RunMesh, panels: int) -> RunNodes:
    """Place nodes on a run and integrate the moments of its unknowns."""
    start, end = float(mesh.z0[0]), float(mesh.z1[-1])
    borders = np.linspace(start, end, panels + 1)
    unit = 2.0 * unit_gauss(NODES_PER_PANEL)[0] - 1.0
    half_width = 0.5 * (end - start) / panels
    centres = 0.5 * (borders[:-1] + borders[1:])
    place = (centres[:, None] + half_width * unit).ravel()
    current, charge = _moments(mesh, _stretches(mesh, borders), (centres, half_width), unit)
    return RunNodes(place=place, radius=_radius_at(mesh, place), current=current, charge=charge)


def _stretches(mesh: RunMesh, borders: Floats) -> tuple[Indices, Indices, Floats, Floats]:
    """Parameter ranges of every piece inside every panel: piece, panel, low and high (n,)."""
    last = len(borders) - 2
    tubes = np.flatnonzero(mesh.z1 > mesh.z0)
    flat = np.flatnonzero(mesh.z1 <= mesh.z0)
    cuts = np.unique(np.concatenate([borders, mesh.z0[tubes], mesh.z1[tubes]]))
    middle = 0.5 * (cuts[:-1] + cuts[1:])
    at = np.clip(np.searchsorted(mesh.z1[tubes], middle), 0, len(tubes) - 1)
    piece = np.concatenate([tubes[at], flat])
    places = np.concatenate([middle, mesh.z0[flat]])
    panel = np.clip(np.searchsorted(borders, places, side="right") - 1, 0, last)
    along = np.stack([cuts[:-1], cuts[1:]], axis=1) - mesh.z0[tubes[at]][:, None]
    ends = np.zeros((len(piece), 2))
    ends[: len(at)] = pieces_of(mesh, tubes[at]).parameter_at(along)
    ends[len(at) :, 1] = 1.0
    return piece, panel, ends[:, 0], ends[:, 1]


def _moments(
    mesh: RunMesh,
    stretches: tuple[Indices, Indices, Floats, Floats],
    panels: tuple[Floats, float],
    unit: Floats,
) -> tuple[Floats, Floats]:
    """Moments (node, unknown) of all stretches of all pieces."""
    piece, panel, start, end = stretches
    low, width = start[:, None], (end - start)[:, None]
    nodes, weights = unit_gauss(_MOMENT_POINTS)
    at = low + width * nodes
    picked = pieces_of(mesh, piece)
    arc, slope = picked.arc_at(at)
    place, _ = picked.position_at(arc)
    local = (place - panels[0][panel][:, None]) / panels[1]
    interpolant = _lagrange(unit, local.ravel()).reshape(len(unit), *local.shape)
    values, slopes = shape_functions(at=at, degree=mesh.unknowns.shape[1] - 1)
    measure = width * weights
    along = slope * measure * picked.direction[:, None]
    weighed = interpolant.transpose(1, 0, 2)
    rows = panel[:, None] * len(unit) + np.arange(len(unit))
    columns = mesh.unknowns[piece]
    found = []
    for shapes in (values * along, slopes * measure):
        # Numbers of -1 fall into a last column, which is dropped.
        total = np.zeros((len(panels[0]) * len(unit), mesh.count + 1))
        blocks = weighed @ shapes.transpose(1, 2, 0)
        np.add.at(total, (rows[:, :, None], columns[:, None, :]), blocks)
        found.append(total[:, :-1])
    return found[0], found[1]


def _lagrange(nodes: Floats, at: Floats) -> Floats:
    """Lagrange polynomials of the nodes (n_nodes, n_at)."""
    apart = nodes[:, None] - nodes[None, :]
    np.fill_diagonal(apart, 1.0)
    factor = (at[None, None, :] - nodes[None, :, None]) / apart[:, :, None]
    diagonal = np.arange(len(nodes))
    factor[diagonal, diagonal] = 1.0
    rows: Floats = factor.prod(axis=1)
    return rows


def _differentiation(nodes: Floats) -> Floats:
    """Matrix that differentiates a polynomial given at the nodes {berrut-trefethen-2004}."""
    apart = nodes[:, None] - nodes[None, :]
    np.fill_diagonal(apart, 1.0)
    weights = 1.0 / apart.prod(axis=1)
    matrix: Floats = weights[None, :] / weights[:, None] / apart
    np.fill_diagonal(matrix, 0.0)
    np.fill_diagonal(matrix, -matrix.sum(axis=1))
    return matrix


def _radius_at(mesh: RunMesh, place: Floats) -> Floats:
    """Radius of the tube on which each node lies."""
    tubes = np.flatnonzero(mesh.z1 > mesh.z0)
    which = np.searchsorted(mesh.z1[tubes], place, side="left")
    radius: Floats = mesh.r0[tubes[np.clip(which, 0, len(tubes) - 1)]]
    return radius
