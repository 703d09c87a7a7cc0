"""The matrix of the moment method at as many frequencies as wanted."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.chebyshev import over_band
from boomwright.solver.cluster import Cluster
from boomwright.solver.far_view import (
    FarBlock,
    FarView,
    moments_once,
    rows_at_once,
    shown_slices,
    spread_out,
)
from boomwright.solver.kernel_memory import KernelMemory, Kernels
from boomwright.solver.wire_system import images

Indices = NDArray[np.int64]

#: free unknowns of a cluster up to which its matrices are kept from system to system
_MOST_KEPT = 250


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SystemMatrices:
    """Matrices of a system: within each cluster, and between clusters.

    Those between may be several times as many frequencies: the others are then the same again.
    """

    assembly: PreparedSystem
    #: of each cluster over its free unknowns [ohm] (n_clusters) of (f, n, n)
    own: tuple[Complexes, ...]
    #: over what shows of all clusters, in their order, zero within each; empty for a single
    #: cluster [ohm] (f, r, r)
    between: Complexes

    def dense(self) -> Complexes:
        """All in one, over the free unknowns [ohm] (f, n, n)."""
        clusters = self.assembly.clusters
        if len(clusters) == 1:
            return self.again(self.own[0])
        total = spread_out(clusters=clusters, shown=self.between)
        for cluster, matrix in zip(clusters, self.own, strict=True):
            total[:, cluster.free[:, None], cluster.free] += self.again(matrix)
        return total

    def again(self, own: Complexes) -> Complexes:
        """What belongs to a cluster, as often as the band is swept."""
        times = len(self.between) // len(own)
        return own if times == 1 else np.concatenate([own] * times)

    def twice(self) -> SystemMatrices:
        """The same matrices once more behind themselves (2 f)."""
        return replace(self, between=np.concatenate([self.between, self.between]))


def system_matrices(*, assembly: PreparedSystem, frequencies: Floats) -> SystemMatrices:
    """Matrices of the moment method, conductor loss included {harrington-1968}.

    Args:
        frequencies: [Hz] (f,)
    """
    wavenumber = 2.0 * np.pi * frequencies / SPEED_OF_LIGHT
    parts = _over_band(assembly, wavenumber)
    own = tuple(
        _joined(*part, frequencies, cluster)
        for part, cluster in zip(parts, assembly.clusters, strict=False)
    )
    between = np.zeros((len(frequencies), 0, 0), dtype=complex)
    if len(own) > 1:
        _add_near(assembly, parts[-1], wavenumber)
        between = _joined(*parts[-1], frequencies, None)
    return SystemMatrices(assembly=assembly, own=own, between=between)


def _add_near(
    assembly: PreparedSystem, parts: tuple[Complexes, Complexes], wavenumber: Floats
) -> None:
    """Add the static coupling of close clusters to the parts between clusters."""
    places = shown_slices(assembly.clusters)
    half_square = 0.5 * wavenumber[:, None, None] ** 2
    for near in assembly.near:
        first, second = places[near.first], places[near.second]
        current, charge, current_far, charge_far = near.statics
        for part, static, far in zip(
            parts, (current, charge), (current_far, charge_far), strict=True
        ):
            block = static - half_square * far
            part[:, first, second] += block
            part[:, second, first] += block.transpose(0, 2, 1)


def _joined(
    inductive: Complexes, capacitive: Complexes, frequencies: Floats, cluster: Cluster | None
) -> Complexes:
    """Impedances from both parts, with a cluster's statics and metal; the parts are used up."""
    angular = (2.0 * np.pi * frequencies)[:, None, None]
    if cluster is not None:
        statics = cluster.statics
        half_square = 0.5 * (angular / SPEED_OF_LIGHT) ** 2
        inductive += statics.current - half_square * statics.current_far
        capacitive += statics.charge - half_square * statics.charge_far
    inductive *= 1j * angular * VACUUM_PERMEABILITY / (4.0 * np.pi)
    capacitive /= 1j * angular * VACUUM_PERMITTIVITY * 4.0 * np.pi
    inductive += capacitive
    for conductivity, loss in () if cluster is None else cluster.loss:
        resistance = surface_resistance(frequencies=frequencies, conductivity=conductivity)
        # The field inside lags by 45 degrees: the metal's reactance equals its resistance.
        inductive += (1.0 + 1.0j) * resistance[:, None, None] * loss
    return inductive


Parts = list[tuple[Complexes, Complexes]]


def _over_band(assembly: PreparedSystem, wavenumber: Floats) -> Parts:
    """Smooth parts at all frequencies: the phase of the longest way turns little over a band."""
    spread = np.ptp(assembly.points, axis=0)
    turn = 0.5 * float(np.ptp(wavenumber)) * float(np.sqrt((spread**2).sum()))

    def sides(at: Floats) -> list[tuple[Complexes, ...]]:
        return list(zip(*_smooth_parts(assembly, at), strict=True))

    inductive, capacitive = over_band(sides, at=wavenumber, turn=turn)
    return list(zip(inductive, capacitive, strict=True))


def _smooth_parts(assembly: PreparedSystem, wavenumber: Floats) -> Parts:
    """Smooth parts of the inductive and capacitive matrices, of each cluster, then between."""
    parts = [_own_parts(assembly, cluster, wavenumber) for cluster in assembly.clusters]
    if len(parts) > 1:
        parts.append(_parts_between(assembly, wavenumber))
    return parts


def surface_resistance(*, frequencies: Floats, conductivity: float) -> Floats:
    """Resistance of a metal surface much thicker than the skin depth {balanis-2005} [ohm] (f,).

    Args:
        frequencies: [Hz] (f,)
        conductivity: conductivity of the metal, may be infinite [S/m]
    """
    return np.sqrt(np.pi * frequencies * VACUUM_PERMEABILITY / conductivity)


def _own_parts(
    assembly: PreparedSystem, cluster: Cluster, wavenumber: Floats
) -> tuple[Complexes, Complexes]:
    """Smooth parts of one cluster's own matrices (f, n, n)."""
    count = len(cluster.nodes)
    step = rows_at_once(columns=count, frequencies=len(wavenumber))
    small = count <= step and len(cluster.free) <= _MOST_KEPT
    if assembly.kernels is not None and small and len(wavenumber) == 1:
        return _kept_parts(assembly.kernels, assembly, cluster, wavenumber)
    size = (len(wavenumber), len(cluster.free), len(cluster.free))
    parts = np.zeros(size, dtype=complex), np.zeros(size, dtype=complex)
    # Nodes of one axis, whose kernel has the ring's thickness in it, and all others.
    sides = {True: (cluster.current, cluster.charge)}
    if not cluster.coaxial.all():
        sides[False] = cluster.outside_moments(wavenumber=wavenumber)
    for start in range(0, count, step):
        rows = slice(start, start + step)
        kernels = _own_kernels(assembly, cluster, wavenumber, np.arange(count)[rows], tuple(sides))
        for side, kernel in zip(sides, kernels, strict=True):
            for part, moment, each in zip(parts, sides[side], kernel, strict=True):
                if side and len(sides) > 1 and count <= step:
                    _add_by_runs(moment, each, cluster.home, into=part)
                else:
                    part += _sandwich(moment, each, rows)
    return parts


def _kept_parts(
    memory: KernelMemory, assembly: PreparedSystem, cluster: Cluster, wavenumber: Floats
) -> tuple[Complexes, Complexes]:
    """The same at one frequency, with what holds of the last system like it (1, n, n)."""
    nodes, mirrors = cluster.nodes, assembly.system.mirrors
    at = float(wavenumber[0])

    def alone() -> tuple[Complexes, Complexes]:
        every = np.arange(len(nodes))
        (kernel,) = _own_kernels(assembly, cluster, wavenumber, every, (True,))
        size = (1, len(cluster.free), len(cluster.free))
        parts = np.zeros(size, dtype=complex), np.zeros(size, dtype=complex)
        for part, moment, each in zip(
            parts, (cluster.current, cluster.charge), kernel, strict=True
        ):
            _add_by_runs(moment, each, cluster.home, into=part)
        return parts

    # Wherever its runs are, what is on one axis stays there.
    parts = memory.same(name=("alone", cluster, at, mirrors), make=alone)
    if cluster.coaxial.all():
        return parts[0].copy(), parts[1].copy()

    def others(rows: Indices) -> Kernels:
        (kernel,) = _own_kernels(assembly, cluster, wavenumber, rows, (False,))
        return kernel[0, 0], kernel[1, 0]

    seen = memory.seen(
        name=(
            "own",
            at,
            mirrors,
            cluster.home.tobytes(),
            cluster.coaxial.tobytes(),
            cluster.kinkless.tobytes(),
        ),
        nodes=np.column_stack([assembly.points[nodes], assembly.tangents[nodes], cluster.radius]),
        moments=moments_once(memory, cluster, wavenumber=at),
        make=others,
    )
    return parts[0] + seen[0], parts[1] + seen[1]


def _add_by_runs(moments: Floats, kernel: Complexes, home: Indices, *, into: Complexes) -> None:
    """Add moments^T kernel moments of a kernel that holds within runs only (f, n, n)."""
    borders = np.flatnonzero(np.diff(home, prepend=-1, append=-1))
    for low, high in pairwise(borders.tolist()):
        nodes = slice(low, high)
        own = np.flatnonzero(moments[nodes].any(axis=0))
        block = _sandwich(moments[nodes, own], kernel[:, nodes, nodes], slice(None))
        into[:, own[:, None], own] += block


def _own_kernels(
    assembly: PreparedSystem,
    cluster: Cluster,
    wavenumber: Floats,
    rows: Indices,
    sides: tuple[bool, ...],
) -> Kernels:
    """Smooth kernels between some nodes and all, images summed (currents or charges, f, rows, m).

    Args:
        sides: True for nodes on one axis, with the ring's thickness in the distance; False for all
            others, whose moments hold it
    """
    points, tangents = assembly.points[cluster.nodes], assembly.tangents[cluster.nodes]
    here = points[rows]
    size = (2, len(wavenumber), len(here), len(points))
    kernels = tuple(np.zeros(size, dtype=complex) for _ in sides)
    k = wavenumber[:, None, None]
    for number, image in enumerate(images(assembly.system.mirrors)):
        gap = here[:, None, :] - (points * image.flip + image.shift)
        coaxial, kinkless, thickness = cluster.masks(image=number, rows=rows)
        squared = np.einsum("abx,abx->ab", gap, gap) + thickness
        # Two nodes may coincide only where the kink is taken out; the limit there is -jk.
        distance = np.sqrt(np.maximum(squared, 1e-18))
        wave = np.exp(-1j * k * distance)
        smooth = (wave - kinkless * (1.0 - 0.5 * k**2 * squared)) / distance
        product = image.sign * (tangents[rows] @ (tangents * image.flip).T)
        for found, side in zip(kernels, sides, strict=True):
            mask = coaxial if side else 1.0 - coaxial
            if mask.any():
                found[0] += (product * mask) * smooth
                found[1] += (image.sign * mask) * smooth
    return kernels


def _sandwich(moments: Floats, kernel: Complexes, rows: slice) -> Complexes:
    """Moments^T kernel moments of some rows at every frequency, with real matrix products."""
    split = np.stack([kernel.real, kernel.imag], axis=1)
    here = moments if moments.ndim == 2 else moments[:, None]
    both = np.swapaxes(here[..., rows, :], -1, -2) @ (split @ here)
    result: Complexes = both[:, 0] + 1j * both[:, 1]
    return result


def _parts_between(assembly: PreparedSystem, wavenumber: Floats) -> tuple[Complexes, Complexes]:
    """Smooth parts between clusters, over what shows of each (f, r, r)."""
    far = FarView(assembly)
    seen = far.moments(wavenumber=wavenumber)
    parts = tuple(far.empty(frequencies=len(wavenumber)) for _ in seen)
    for block in far.blocks(frequencies=len(wavenumber)):
        kernels = _far_kernels(far, block, wavenumber)
        for part, kernel, moments in zip(parts, kernels, seen, strict=True):
            far.project(kernel, moments, block, into=part)
    for part in parts:
        far.fill(into=part, frequencies=len(wavenumber))
        for place in far.places:
            part[:, place, place] = 0.0
    return parts[0], parts[1]


def _far_kernels(far: FarView, block: FarBlock, wavenumber: Floats) -> tuple[Floats, Floats]:
    """Kernels between nodes of a block and those from there on, images summed.

    Returns:
        of currents and of charges, real and imaginary part [1/m] (f, 2, rows, columns)
    """
    here, tangents = far.points[block.rows], far.tangents[block.rows]
    there, others = far.points[block.columns], far.tangents[block.columns]
    shape = (len(wavenumber), 2, len(here), len(there))
    vector, scalar = np.zeros(shape), np.zeros(shape)
    homes = far.home[block.rows, None], far.home[block.columns]
    for number, image in enumerate(images(far.assembly.system.mirrors)):
        source = there * image.flip + image.shift
        squared = sum(np.subtract.outer(here[:, axis], source[:, axis]) ** 2 for axis in range(3))
        # Only nodes of one cluster may coincide, and their part is thrown away.
        distance = np.sqrt(np.maximum(squared, 1e-18))
        phase = wavenumber[:, None, None] * distance
        wave = np.stack([np.cos(phase), -np.sin(phase)], axis=1)
        if far.assembly.near:
            kinkless = far.assembly.kinkless[number][homes]
            wave[:, 0] -= kinkless * (1.0 - 0.5 * phase**2)
        wave /= distance
        vector += (image.sign * (tangents @ (others * image.flip).T)) * wave
        scalar += image.sign * wave
    return vector, scalar
