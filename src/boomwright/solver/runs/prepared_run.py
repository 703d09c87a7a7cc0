"""All of a run that does not depend on frequency or place, ready to be kept and used again."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.kernel_memory import KernelMemory
from boomwright.solver.runs.mesh import Detail, RunMesh, RunShape, mesh_run
from boomwright.solver.runs.nodes import RunNodes, run_nodes
from boomwright.solver.runs.piece_map import pieces_of
from boomwright.solver.runs.shape_functions import shape_functions
from boomwright.solver.runs.static import RunStatics, run_statics

#: points of the loss and gap integrals on each piece
_POINTS = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PreparedRun(ReadOnlyArrays):
    """What a run brings to any system it is part of."""

    mesh: RunMesh  #: its pieces
    statics: RunStatics  #: its static matrices
    nodes: RunNodes  #: its moments seen from afar
    loss: Floats  #: integrals of two unknowns over the circumference (n, n)
    #: mean of each unknown over each gap of the full run; half of it where the gap continues in the
    #: mirror (n_gaps, n)
    gaps: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class RunRequest:
    """A run to be prepared."""

    shape: RunShape
    detail: Detail
    panels: int  #: panels of nodes along it
    mirrored: bool = False  #: whether it goes on in a mirror at its start


#: prepares runs, all of a system at once; an application may pass one that remembers
Preparer = Callable[[Sequence[RunRequest]], tuple[PreparedRun, ...]]


def prepare_run(requests: Sequence[RunRequest]) -> tuple[PreparedRun, ...]:
    """Mesh runs and integrate their frequency-independent matrices; equal ones become one."""
    kinds = dict.fromkeys(requests)
    meshes = [mesh_run(shape=each.shape, detail=each.detail) for each in kinds]
    statics = run_statics(
        runs=[(mesh, each.mirrored) for mesh, each in zip(meshes, kinds, strict=True)]
    )
    made = {}
    for each, mesh, static in zip(kinds, meshes, statics, strict=True):
        loss, gaps = _loss_and_gaps(mesh, each.shape)
        made[each] = PreparedRun(
            mesh=mesh,
            statics=static,
            nodes=run_nodes(mesh=mesh, panels=each.panels),
            loss=loss,
            gaps=gaps,
        )
    return tuple(made[each] for each in requests)


def _loss_and_gaps(mesh: RunMesh, shape: RunShape) -> tuple[Floats, Floats]:
    nodes, weights = unit_gauss(_POINTS)
    pieces = len(mesh.z0)
    at = np.tile(nodes, (pieces, 1))
    picked = pieces_of(mesh, np.arange(pieces))
    arc, slope = picked.arc_at(at)
    place, radius = picked.position_at(arc)
    measure = slope * weights
    values, _ = shape_functions(at=at, degree=mesh.unknowns.shape[1] - 1)
    circumference = 2.0 * np.pi * radius
    products = np.einsum("apq,bpq,pq->pab", values, values, measure / circumference)
    loss = np.zeros((mesh.count + 1, mesh.count + 1))
    np.add.at(loss, (mesh.unknowns[:, :, None], mesh.unknowns[:, None, :]), products)
    gaps = np.zeros((len(shape.gaps), mesh.count + 1))
    for number, (centre, width) in enumerate(shape.gaps):
        inside = np.abs(place - centre) <= width / 2.0
        inside &= (np.abs(picked.direction) > 0.0)[:, None]
        means = np.einsum("apq,pq->pa", values, measure * inside) / width
        np.add.at(gaps[number], mesh.unknowns, means)
    return loss[:-1, :-1], gaps[:, :-1]


class _Remembering:
    """A preparer that keeps what it made; see :func:`remembering`."""

    def __init__(self, prepare: Preparer, most: int | None) -> None:
        self._prepare, self._most = prepare, most
        self._made: dict[RunRequest, PreparedRun] = {}
        #: kernels of the systems its runs were put into
        self.kernels = kernels_of(prepare) or KernelMemory()

    def __call__(self, requests: Sequence[RunRequest]) -> tuple[PreparedRun, ...]:
        made = self._made
        # Threads may share it: each step by itself is whole, and at worst a run is made twice.
        found = {each: run for each in requests if (run := made.get(each)) is not None}
        missing = [each for each in dict.fromkeys(requests) if each not in found]
        if missing:
            found.update(zip(missing, self._prepare(missing), strict=True))
        for each in requests:
            # Those asked for last stand last.
            made.pop(each, None)
            made[each] = found[each]
        if self._most is not None:
            for each in list(made)[: -self._most]:
                made.pop(each, None)
        return tuple(found[each] for each in requests)


def remembering(prepare: Preparer = prepare_run, *, most: int | None = None) -> Preparer:
    """A preparer that keeps what it made, for as long as it is held itself.

    Args:
        most: runs kept, those asked for last; None for all
    """
    return _Remembering(prepare, most)


class _Watched:
    """A preparer that asks first whether to go on; see :func:`watched`."""

    def __init__(self, prepare: Preparer, before: Callable[[], None]) -> None:
        self._prepare, self._before = prepare, before
        self.kernels = kernels_of(prepare)

    def __call__(self, requests: Sequence[RunRequest]) -> tuple[PreparedRun, ...]:
        self._before()
        return self._prepare(requests)


def watched(prepare: Preparer, *, before: Callable[[], None]) -> Preparer:
    """A preparer that calls something before every solution, which may raise to break off."""
    return _Watched(prepare, before)


def kernels_of(prepare: Preparer) -> KernelMemory | None:
    """The kernels that a preparer remembers besides; None for one that remembers nothing."""
    return prepare.kernels if isinstance(prepare, _Remembering | _Watched) else None
