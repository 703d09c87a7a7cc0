"""Finding the clusters of a system, joining their runs, and what shows of them outside."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import VACUUM_PERMEABILITY, read_only
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.solver.cluster import ClosePair, Cluster, NearCoupling
from boomwright.solver.kernel_memory import KernelMemory, made_once
from boomwright.solver.runs.near_coupling import Axis, near_statics
from boomwright.solver.runs.prepared_run import PreparedRun
from boomwright.solver.runs.static import RunStatics
from boomwright.solver.series_inductance import series_matrix
from boomwright.solver.wire_system import Image, PlacedRun, WireSystem, images, joined_groups

Indices = NDArray[np.int64]

#: unknowns up to which a system is one cluster: taking it apart costs more than it saves
_FEW = 120
#: clusters of more unknowns are seen as they are
_MOST_REDUCED = 250
#: decimals to which the gap between two runs is told from others [m]
_PLACES = 12
#: what shows outside less than this, the strongest being one, is rounding
_ROUNDING = 1e-14
#: static current integral that an inductance in series is worth [m/H]
_PER_HENRY = 4.0 * math.pi / VACUUM_PERMEABILITY


def join_clusters(
    *,
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    close: list[ClosePair],
    memory: KernelMemory | None,
) -> tuple[tuple[Cluster, ...], tuple[NearCoupling, ...]]:
    """Find the clusters of a system, join each, and couple those that are close.

    Args:
        close: pairs of runs that are integrated piece by piece, each run with itself among them
        memory: keeps clusters from system to system; None keeps nothing
    """
    few = sum(run.mesh.count for run in runs) <= _FEW
    groups = [tuple(range(len(runs)))] if few else joined_groups(system)
    home = {run: number for number, group in enumerate(groups) for run in group}
    within: dict[int, list[ClosePair]] = defaultdict(list)
    across: list[ClosePair] = []
    for pair in close:
        if home[pair.first] == home[pair.second]:
            within[home[pair.first]].append(pair)
        else:
            across.append(pair)
    raw = np.concatenate([[0], np.cumsum([run.mesh.count for run in runs])])
    nodes = np.concatenate([[0], np.cumsum([len(run.nodes.place) for run in runs])])
    kept = np.ones(int(raw[-1]), dtype=bool)
    for joint in system.joints:
        run, at_end = joint[-1]
        kept[int(raw[run]) + _end_unknown(runs[run], at_end)] = False
    free = np.cumsum(kept) - 1
    clusters = []
    for number, group in enumerate(groups):
        places = np.concatenate([np.arange(raw[run], raw[run + 1]) for run in group])
        joining = _Joining(system=system, runs=runs, group=group, close=within[number])
        clusters.append(
            joining.kept(
                memory,
                raw=places,
                free=free[places[kept[places]]],
                nodes=np.concatenate([np.arange(nodes[run], nodes[run + 1]) for run in group]),
            )
        )
    near = _near_blocks(system, runs, across, clusters, home)
    if len(clusters) > 1:
        clusters, near = _reduced(clusters, near, runs, memory)
    return tuple(clusters), tuple(
        NearCoupling(first=first, second=second, statics=statics)
        for (first, second), statics in near.items()
    )


def _end_unknown(run: PreparedRun, at_end: bool) -> int:
    return run.mesh.end_unknown if at_end else run.mesh.start_unknown


def _near_blocks(
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    across: list[ClosePair],
    clusters: list[Cluster],
    home: dict[int, int],
) -> dict[tuple[int, int], Floats]:
    """Static integrals over the free unknowns of clusters that are close (4, n, n)."""
    reflections = images(system.mirrors)
    found: dict[tuple[int, int], Floats] = {}
    for pair in across:
        image = reflections[pair.image]
        statics = near_statics(
            tested=_axis(system.runs[pair.first], runs[pair.first], reflections[0]),
            source=_axis(system.runs[pair.second], runs[pair.second], image),
            radius=pair.radius,
        )
        ends = [
            (home[run], clusters[home[run]].expansion_of(run=run, runs=runs))
            for run in (pair.first, pair.second)
        ]
        block = image.sign * (ends[0][1].T @ _stack(statics) @ ends[1][1])
        if ends[0][0] > ends[1][0]:
            ends, block = ends[::-1], block.transpose(0, 2, 1)
        key = (ends[0][0], ends[1][0])
        found[key] = found[key] + block if key in found else block
    return found


def _reduced(
    clusters: list[Cluster],
    near: dict[tuple[int, int], Floats],
    runs: tuple[PreparedRun, ...],
    memory: KernelMemory | None,
) -> tuple[list[Cluster], dict[tuple[int, int], Floats]]:
    """Clusters that others see through no more unknowns than show, and their near couplings."""
    felt: dict[int, list[Floats]] = defaultdict(list)
    for (first, second), statics in near.items():
        felt[second].append(statics)
        felt[first].append(statics.transpose(0, 2, 1))
    alike: dict[int, Floats | None] = {}
    found = []
    for number, cluster in enumerate(clusters):
        if number in felt:
            found.append(replace(cluster, shown=_shown(cluster, felt[number])))
            continue

        def reduced(cluster: Cluster = cluster) -> Cluster:
            # Alone and far from others, runs of one shape show alike.
            key = id(runs[cluster.runs[0]]) if len(cluster.runs) == 1 else id(cluster)
            if key not in alike:
                alike[key] = _shown(cluster, [])
            return replace(cluster, shown=alike[key])

        found.append(made_once(memory, name=("reduced", cluster), make=reduced))
    seen = {}
    for (first, second), statics in near.items():
        left, right = found[first].shown, found[second].shown
        statics = statics if left is None else left.T @ statics
        seen[first, second] = statics if right is None else statics @ right
    return found, seen


def _shown(cluster: Cluster, near: list[Floats]) -> Floats | None:
    """Combinations of a cluster's unknowns that others feel; None when that is nearly all."""
    if len(cluster.free) > _MOST_REDUCED:
        return None
    # Each in units of its own: the current's moments are lengths.
    felt = [cluster.current, cluster.charge]
    felt += [np.concatenate(kind) for kind in zip(*near, strict=True)] if near else []
    scaled = [each / norm for each in felt if (norm := np.linalg.norm(each)) > 0.0]
    _, strength, rows = np.linalg.svd(np.concatenate(scaled), full_matrices=False)
    kept: Floats = rows[strength > _ROUNDING * strength[0]].T
    return read_only(kept) if kept.shape[1] < kept.shape[0] else None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Joining:
    """Runs of one group on their way to a cluster."""

    system: WireSystem
    runs: Sequence[PreparedRun]
    group: tuple[int, ...]
    close: list[ClosePair]

    def kept(
        self, memory: KernelMemory | None, *, raw: Indices, free: Indices, nodes: Indices
    ) -> Cluster:
        """The cluster, made once wherever its runs are, as long as close ones stay as they are."""

        def make() -> Cluster:
            return self.cluster(raw=raw, free=free, nodes=nodes)

        places = self.group, raw.tobytes(), free.tobytes(), nodes.tobytes()
        mine = [(self.runs[run], self.system.runs[run]) for run in self.group]
        metal = tuple((run, each.conductivity, each.inductance) for run, each in mine)
        joints = tuple(joint for joint in self.system.joints if joint[0][0] in self.group)
        apart = tuple(self._apart(pair) for pair in self.close if not pair.coaxial)
        name = (places, metal, joints, tuple(self.close), apart, self.system.mirrors)
        return made_once(memory, name=name, make=make)

    def _apart(self, pair: ClosePair) -> tuple[object, ...]:
        """How the second run of a pair stands to the first [m], and the ways of both [-]."""
        image = images(self.system.mirrors)[pair.image]
        first, second = self.system.runs[pair.first], self.system.runs[pair.second]
        gap = np.array(second.origin) * image.flip + image.shift - np.array(first.origin)
        # What is moved as a whole differs by rounding.
        return (*gap.round(_PLACES).tolist(), first.direction, second.direction)

    def cluster(self, *, raw: Indices, free: Indices, nodes: Indices) -> Cluster:
        mine = [self.runs[run] for run in self.group]
        raws = _slices([run.mesh.count for run in mine])
        rows = _slices([len(run.nodes.place) for run in mine])
        expand = self._expansion(raws, len(raw))
        current = np.zeros((len(nodes), len(raw)))
        charge = np.zeros_like(current)
        ring_current = np.zeros((2, *current.shape))
        ring_charge = np.zeros_like(ring_current)
        for run, row, column in zip(mine, rows, raws, strict=True):
            current[row, column] = run.nodes.current
            charge[row, column] = run.nodes.charge
            ring_current[:, row, column] = run.nodes.ring_terms(run.nodes.current)
            ring_charge[:, row, column] = run.nodes.ring_terms(run.nodes.charge)
        coaxial, kinkless = self._masks()
        return Cluster(
            runs=self.group,
            raw=raw,
            free=free,
            nodes=nodes,
            expand=expand,
            current=_on_free(current, expand),
            charge=_on_free(charge, expand),
            ring_current=_on_free(ring_current, expand),
            ring_charge=_on_free(ring_charge, expand),
            statics=self._statics(raws, expand),
            loss=self._losses(raws, expand),
            home=np.repeat(np.arange(len(mine)), [len(run.nodes.place) for run in mine]),
            radius=np.concatenate([run.nodes.radius for run in mine]),
            coaxial=coaxial,
            kinkless=kinkless,
            shown=None,
        )

    def _expansion(self, raws: list[slice], count: int) -> Floats:
        """Matrix from free to raw unknowns; the last end at each joint takes what others bring."""
        expand = np.eye(count)
        place = dict(zip(self.group, raws, strict=True))
        dropped = []
        for joint in self.system.joints:
            if joint[0][0] not in place:
                continue
            ends = [
                # A current along the run flows into the joint at its end, out of it at its start.
                (place[run].start + _end_unknown(self.runs[run], at_end), 1.0 if at_end else -1.0)
                for run, at_end in joint
            ]
            last, last_sign = ends[-1]
            for unknown, sign in ends[:-1]:
                expand[last, unknown] -= sign / last_sign
            dropped.append(last)
        return np.delete(expand, dropped, axis=1)

    def _masks(self) -> tuple[Floats, Floats]:
        """Which runs are coaxial, and which are close."""
        shape = (len(images(self.system.mirrors)), len(self.group), len(self.group))
        coaxial, kinkless = np.zeros(shape), np.zeros(shape)
        place = {run: number for number, run in enumerate(self.group)}
        for pair in self.close:
            first, second = place[pair.first], place[pair.second]
            kinkless[pair.image, first, second] = kinkless[pair.image, second, first] = 1.0
            if pair.coaxial:
                coaxial[pair.image, first, first] = 1.0
        return coaxial, kinkless

    def _statics(self, raws: list[slice], expand: Floats) -> RunStatics:
        total = np.zeros((4, len(expand), len(expand)))
        reflections = images(self.system.mirrors)
        place = dict(zip(self.group, raws, strict=True))
        for pair in self.close:
            first, second = place[pair.first], place[pair.second]
            if pair.coaxial:
                # The run's own matrices hold its own image already.
                if pair.image == 0:
                    total[:, first, first] += _stack(self.runs[pair.first].statics)
                    # Series inductance is the same at all frequencies, as the static part is.
                    total[0, first, first] += _PER_HENRY * series_matrix(
                        mesh=self.runs[pair.first].mesh,
                        stretches=self.system.runs[pair.first].inductance,
                    )
                continue
            image = reflections[pair.image]
            blocks = image.sign * _stack(
                near_statics(
                    tested=_axis(
                        self.system.runs[pair.first], self.runs[pair.first], reflections[0]
                    ),
                    source=_axis(self.system.runs[pair.second], self.runs[pair.second], image),
                    radius=pair.radius,
                )
            )
            total[:, first, second] += blocks
            if pair.first != pair.second:
                total[:, second, first] += blocks.transpose(0, 2, 1)
        free = _both_on_free(total, expand)
        return RunStatics(current=free[0], charge=free[1], current_far=free[2], charge_far=free[3])

    def _losses(self, raws: list[slice], expand: Floats) -> tuple[tuple[float, Floats], ...]:
        found: dict[float, Floats] = {}
        for number, block in zip(self.group, raws, strict=True):
            conductivity = self.system.runs[number].conductivity
            if math.isinf(conductivity):
                continue
            matrix = found.setdefault(conductivity, np.zeros((len(expand), len(expand))))
            matrix[block, block] += self.runs[number].loss
        return tuple(
            (conductivity, read_only(_both_on_free(matrix, expand)))
            for conductivity, matrix in found.items()
        )


def _on_free(raw: Floats, expand: Floats) -> Floats:
    """Columns over the free unknowns; without joints they are the raw ones."""
    return raw if expand.shape[0] == expand.shape[1] else raw @ expand


def _both_on_free(raw: Floats, expand: Floats) -> Floats:
    """Rows and columns over the free unknowns."""
    return raw if expand.shape[0] == expand.shape[1] else expand.T @ raw @ expand


def _axis(placed: PlacedRun, run: PreparedRun, image: Image) -> Axis:
    return Axis(
        mesh=run.mesh,
        origin=np.array(placed.origin) * image.flip + image.shift,
        direction=np.array(placed.direction) * image.flip,
    )


def _slices(lengths: list[int]) -> list[slice]:
    ends = np.cumsum(lengths).tolist()
    return [slice(end - length, end) for end, length in zip(ends, lengths, strict=True)]


def _stack(statics: RunStatics) -> Floats:
    return np.stack([statics.current, statics.charge, statics.current_far, statics.charge_far])
