"""From wires to the frequency-independent part of the moment method's matrix."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.cluster import ClosePair, Cluster, NearCoupling
from boomwright.solver.cluster_joining import join_clusters
from boomwright.solver.effort import effort, refuse_large, refuse_near
from boomwright.solver.kernel_memory import KernelMemory, Kernels
from boomwright.solver.runs.mesh import Detail
from boomwright.solver.runs.prepared_run import (
    PreparedRun,
    Preparer,
    RunRequest,
    kernels_of,
    prepare_run,
)
from boomwright.solver.wire_system import Image, WireSystem, images, starts_on_mirror

Indices = NDArray[np.int64]

#: a panel of nodes is at most this many wavelengths long
_PANEL_WAVELENGTHS = 0.3
#: and at most this many times the distance to the nearest run that is seen through nodes
_PANEL_DISTANCES = 1.6
#: runs nearer than this many wavelengths are integrated piece by piece
_NEAR_WAVELENGTHS = 0.05
#: keeps the number of panels finite for wires that are refused later anyway
_SMALLEST_SPACING = 0.01
#: points on each run when the distance of two runs is measured
_DISTANCE_POINTS = 33
#: runs nearer than this touch [m]
_TOUCH = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PreparedSystem(ReadOnlyArrays):
    """The frequency-independent part of a system's matrix, cluster by cluster."""

    system: WireSystem  #: the wires
    runs: tuple[PreparedRun, ...]  #: each run, prepared (n_runs,)
    offsets: tuple[int, ...]  #: first raw unknown of each run, and the total (n_runs + 1,)
    clusters: tuple[Cluster, ...]  #: runs that are joined to each other (n_clusters,)
    near: tuple[NearCoupling, ...]  #: static coupling of clusters that pass close by (n_near,)
    #: whether the kernel's kink is taken out of the nodes of two runs, per image [-]
    #: (n_images, n_runs, n_runs)
    kinkless: NDArray[np.bool_]
    count: int  #: number of free unknowns
    points: Floats  #: all nodes in space [m] (m, 3)
    tangents: Floats  #: direction of the run of each node (m, 3)
    #: kernels of systems like it; None remembers nothing
    kernels: KernelMemory | None = None

    def raw(self, free: NDArray[Any]) -> NDArray[Any]:
        """Raw unknowns of the runs from the free ones: the currents at joints add up to zero.

        Args:
            free: free unknowns, for one case or for several [A] (n,) or (n, n_cases)

        Returns:
            raw unknowns [A] (n_raw,) or (n_raw, n_cases)
        """
        found = np.zeros((self.offsets[-1], *free.shape[1:]), dtype=free.dtype)
        for each in self.clusters:
            found[each.raw] = each.expand @ free[each.free]
        return found

    def gathered(self, raw: Floats) -> Floats:
        """Weights of the free unknowns from weights of the raw ones.

        Args:
            raw: weights, for one reading or for several (n_raw,) or (n_raw, n_readings)
        """
        found = np.zeros((self.count, *raw.shape[1:]))
        for each in self.clusters:
            found[each.free] = each.expand.T @ raw[each.raw]
        return found


def assemble(
    *,
    system: WireSystem,
    detail: Detail,
    highest_frequency: float,
    prepare: Preparer = prepare_run,
) -> PreparedSystem:
    """Prepare a system.

    Args:
        highest_frequency: highest frequency that will be asked for [Hz]
    """
    wavelength = SPEED_OF_LIGHT / highest_frequency
    refuse_large(effort(system=system, detail=detail, wavelength=wavelength))
    kernels = kernels_of(prepare)
    close, spacing = _survey(system, _NEAR_WAVELENGTHS * wavelength, kernels)
    refuse_near(len(close) - len(system.runs))
    wanted = []
    for placed, distance in zip(system.runs, spacing, strict=True):
        nearest = max(distance, _SMALLEST_SPACING * wavelength)
        longest = min(_PANEL_WAVELENGTHS * wavelength, _PANEL_DISTANCES * nearest)
        panels = math.ceil(placed.shape.length / longest)
        mirrored = any(starts_on_mirror(placed, mirror) for mirror in system.mirrors)
        wanted.append(
            RunRequest(shape=placed.shape, detail=detail, panels=panels, mirrored=mirrored)
        )
    return _join(system, prepare(wanted), close, kernels)


def _survey(
    system: WireSystem, near: float, kernels: KernelMemory | None
) -> tuple[list[ClosePair], list[float]]:
    """Find the pairs that are close, and how far each run is from those that are not."""
    ends = np.array(
        [(*run.origin, *(run.shape.length * x for x in run.direction)) for run in system.runs]
    )
    share = np.linspace(0.0, 1.0, _DISTANCE_POINTS)
    clouds = ends[:, None, :3] + share[:, None] * ends[:, None, 3:]
    reflections = images(system.mirrors)

    def apart(rows: Indices) -> Kernels:
        return (_distances(clouds, reflections, rows),)

    every = np.arange(len(ends))
    (distances,) = (
        apart(every)
        if kernels is None
        else kernels.kernels(name=("apart", system.mirrors), nodes=ends, make=apart)
    )
    # A run's image in real ground is at least twice its lowest height away.
    spacing = 2.0 * (clouds[:, :, 2].min(axis=1) + system.ground_height)
    close = []
    for number, (image, gaps) in enumerate(zip(reflections, distances, strict=True)):
        far = np.where(gaps >= near, gaps, math.inf)
        spacing = np.minimum(spacing, far.min(axis=1))
        for first, second in np.argwhere(np.triu(gaps < near)).tolist():
            own = first == second and (number == 0 or _continues(system, first, image))
            touching = not (own and number == 0) and gaps[first, second] < _TOUCH
            radius = _touching_radius(system, first, second) if touching else 0.0
            close.append(
                ClosePair(first=first, second=second, image=number, coaxial=own, radius=radius)
            )
    return close, spacing.tolist()


def _distances(clouds: Floats, reflections: Sequence[Image], rows: Indices) -> Floats:
    """Distances between some runs and the images of all, by points (n_images, rows, n_runs)."""
    every = clouds.transpose(1, 0, 2)
    found = np.zeros((len(reflections), len(rows), len(clouds)))
    whole = len(rows) == len(clouds)
    for image, distances in zip(reflections, found, strict=True):
        reflected = every * image.flip + image.shift
        for place, first in enumerate(rows.tolist()):
            start = first if whole else 0
            gaps = sum(
                np.subtract.outer(clouds[first, :, axis], reflected[:, start:, axis]) ** 2
                for axis in range(3)
            )
            distances[place, start:] = np.sqrt(np.asarray(gaps).min(axis=(0, 1)))
        if whole:
            # The first from the second's image is the second from the first's.
            distances += np.triu(distances, 1).T
    return found


def _continues(system: WireSystem, run: int, image: Image) -> bool:
    """Whether a run goes on in this image of itself, on one axis."""
    reflected = [m for m in system.mirrors if image.flip[m.axis] < 0.0]
    return len(reflected) == 1 and starts_on_mirror(system.runs[run], reflected[0])


def _touching_radius(system: WireSystem, first: int, second: int) -> float:
    shapes = (system.runs[first].shape, system.runs[second].shape)
    return max(radius for shape in shapes for _, radius in shape.sections)


def _join(
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    close: list[ClosePair],
    kernels: KernelMemory | None,
) -> PreparedSystem:
    points, tangents = [], []
    for placed, run in zip(system.runs, runs, strict=True):
        direction = np.array(placed.direction)
        points.append(np.array(placed.origin) + run.nodes.place[:, None] * direction)
        tangents.append(np.tile(direction, (len(run.nodes.place), 1)))
    clusters, near = join_clusters(system=system, runs=runs, close=close, memory=kernels)
    kinkless = np.zeros((len(images(system.mirrors)), len(runs), len(runs)), dtype=bool)
    for pair in close:
        kinkless[pair.image, [pair.first, pair.second], [pair.second, pair.first]] = True
    offsets = np.concatenate([[0], np.cumsum([run.mesh.count for run in runs])])
    return PreparedSystem(
        system=system,
        runs=runs,
        offsets=tuple(offsets.tolist()),
        clusters=clusters,
        near=near,
        kinkless=kinkless,
        count=sum(len(each.free) for each in clusters),
        points=np.concatenate(points),
        tangents=np.concatenate(tangents),
        kernels=kernels,
    )
