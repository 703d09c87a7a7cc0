"""Clusters as they see each other: their nodes in blocks small enough for any machine."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.cluster import Cluster
from boomwright.solver.kernel_memory import KernelMemory

#: pairs of nodes that are looked at together, counted at every frequency
_PAIRS_AT_ONCE = 60_000


@dataclass(frozen=True, slots=True, kw_only=True)
class FarBlock:
    """Some clusters next to each other, or part of one, as rows; all from there on as columns."""

    first: int  #: number of the first cluster of the rows
    last: int  #: number of the one after the last
    rows: slice  #: nodes of the rows
    columns: slice  #: nodes of all clusters from the first on


class FarView:
    """Nodes of a system in the order of its clusters."""

    def __init__(self, assembly: PreparedSystem) -> None:
        self.assembly, self.clusters = assembly, assembly.clusters
        order = np.concatenate([each.nodes for each in self.clusters])
        self.points, self.tangents = assembly.points[order], assembly.tangents[order]
        lengths = [len(run.nodes.place) for run in assembly.runs]
        #: run of each node
        self.home = np.repeat(np.arange(len(lengths)), lengths)[order]
        self.nodes = _slices([len(each.nodes) for each in self.clusters])
        self.places = shown_slices(self.clusters)

    def moments(self, *, wavenumber: Floats) -> tuple[list[Floats], list[Floats]]:
        """Moments of what shows of each cluster.

        Args:
            wavenumber: [1/m] (f,)

        Returns:
            of currents [m] and of charges (n_clusters) of (f, m, r)
        """
        seen = [_seen(each, wavenumber) for each in self.clusters]
        return [each[0] for each in seen], [each[1] for each in seen]

    def empty(self, *, frequencies: int) -> Complexes:
        """Matrices over what shows, to be filled (f, r, r)."""
        total = self.places[-1].stop
        return np.zeros((frequencies, total, total), dtype=complex)

    def blocks(self, *, frequencies: int) -> Iterator[FarBlock]:
        """All nodes, as many at a time as memory allows at so many frequencies."""
        first = 0
        while first < len(self.clusters):
            columns = slice(self.nodes[first].start, len(self.points))
            most = rows_at_once(columns=columns.stop - columns.start, frequencies=frequencies)
            last = first + 1
            while last < len(self.clusters) and self.nodes[last].stop - columns.start <= most:
                last += 1
            end = self.nodes[last - 1].stop
            for start in range(columns.start, end, end if last > first + 1 else most):
                rows = slice(start, end if last > first + 1 else min(start + most, end))
                yield FarBlock(first=first, last=last, rows=rows, columns=columns)
            first = last

    def project(
        self, kernel: Floats, moments: Sequence[Floats], block: FarBlock, *, into: Complexes
    ) -> None:
        """Add moments^T kernel moments of a block to a symmetric matrix, on one side of it.

        Args:
            kernel: between the block's nodes, real and imaginary part (f, 2, rows, columns)
            moments: of what shows of each cluster (n_clusters) of (f, m, r)
            into: added to at the block's rows (f, r, r)
        """
        columns = range(block.first, len(self.clusters))
        felt = np.concatenate(
            [
                kernel[..., _shifted(self.nodes[number], block.columns.start)]
                @ moments[number][:, None]
                for number in columns
            ],
            axis=3,
        )
        across = slice(self.places[block.first].start, self.places[-1].stop)
        for number in range(block.first, block.last):
            rows = _shifted(self._within(number, block), block.rows.start)
            here = np.swapaxes(self._rows(moments[number], number, block), -1, -2)
            both = here[:, None] @ felt[:, :, rows]
            into.real[:, self.places[number], across] += both[:, 0]
            into.imag[:, self.places[number], across] += both[:, 1]

    def _within(self, number: int, block: FarBlock) -> slice:
        """Nodes of a cluster that are rows of a block."""
        nodes = self.nodes[number]
        return slice(max(nodes.start, block.rows.start), min(nodes.stop, block.rows.stop))

    def _rows(self, moments: Floats, number: int, block: FarBlock) -> Floats:
        return moments[:, _shifted(self._within(number, block), self.nodes[number].start)]

    def fill(self, *, into: Complexes, frequencies: int) -> None:
        """Copy the side of a symmetric matrix that was projected to the other side.

        Args:
            into: changed in place (f, r, r)
        """
        for block in self.blocks(frequencies=frequencies):
            rows = slice(self.places[block.first].start, self.places[block.last - 1].stop)
            beyond = slice(rows.stop, into.shape[1])
            into[:, beyond, rows] = np.swapaxes(into[:, rows, beyond], 1, 2)


def rows_at_once(*, columns: int, frequencies: int) -> int:
    """How many rows of a kernel are made together: the fewer the wider."""
    return max(1, _PAIRS_AT_ONCE // (columns * frequencies))


def _seen(cluster: Cluster, wavenumber: Floats) -> tuple[Floats, Floats]:
    """Moments of what shows of a cluster (f, m, r)."""
    current, charge = cluster.outside_moments(wavenumber=wavenumber)
    if cluster.shown is None:
        return current, charge
    return current @ cluster.shown, charge @ cluster.shown


def moments_once(
    memory: KernelMemory, cluster: Cluster, *, wavenumber: float
) -> tuple[Floats, Floats]:
    """Moments of a cluster as seen from outside, made once.

    Args:
        wavenumber: [1/m]

    Returns:
        moments of current [m] and charge (m, n)
    """
    return memory.same(
        name=("moments", cluster, wavenumber),
        make=lambda: cluster.outside_moments(wavenumber=wavenumber),
    )


def _slices(lengths: list[int]) -> list[slice]:
    ends = np.cumsum(lengths).tolist()
    return [slice(end - length, end) for end, length in zip(ends, lengths, strict=True)]


def _shifted(place: slice, start: int) -> slice:
    return slice(place.start - start, place.stop - start)


def shown_slices(clusters: tuple[Cluster, ...]) -> list[slice]:
    """Where each cluster's share lies among all that show outside."""
    return _slices([each.seen for each in clusters])


def spread_out(*, clusters: tuple[Cluster, ...], shown: Complexes) -> Complexes:
    """Matrices over the free unknowns from those over what shows [ohm] (f, n, n).

    Args:
        shown: matrices [ohm] (f, r, r)
    """
    places = shown_slices(clusters)
    count = sum(len(each.free) for each in clusters)
    order = np.concatenate([each.free for each in clusters])
    if all(each.shown is None for each in clusters) and (order == np.arange(count)).all():
        return shown.copy()
    total = np.empty((len(shown), count, count), dtype=complex)
    for first, row in zip(clusters, places, strict=True):
        left = shown[:, row] if first.shown is None else first.shown @ shown[:, row]
        for second, column in zip(clusters, places, strict=True):
            block = left[:, :, column]
            total[:, first.free[:, None], second.free] = (
                block if second.shown is None else block @ second.shown.T
            )
    return total
