"""What a solution will take, from counts alone: known before any of it is computed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from boomwright.base import SolverError
from boomwright.base.records import dataclass
from boomwright.solver.runs.mesh import Detail, RunShape
from boomwright.solver.runs.nodes import NODES_PER_PANEL
from boomwright.solver.wire_system import PlacedRun, WireSystem, joined_groups

#: length of a panel of nodes among neighbours at the usual distances [wavelengths]
_USUAL_PANEL_WAVELENGTHS = 0.15
#: lower than this no wire is solved over real ground [wavelengths]
_LOWEST_WAVELENGTHS = 0.02
#: memory that the matrices of one system may take [B]
_MOST_BYTES = 1.6e9
#: processor time that one answer may take, as estimated here [s]
_MOST_SECONDS = 60.0
#: pairs of wires that pass close by each other
_MOST_NEAR = 4000
#: stretches of wire in one network
_MOST_STRETCHES = 800

#: complex numbers of 16 bytes held for each entry of the equations of one cluster, and of all
_HELD_OWN, _HELD_SHOWN = 8.0, 5.0
#: real numbers of 8 bytes held for each node and unknown of a cluster
_HELD_MOMENTS = 7.0
#: seconds for each equation cubed and each run of wire, measured on one core of an ordinary
#: machine (docs/benchmarks/job_speed.md says how fast it is)
_BY_EQUATION, _BY_RUN = 3e-11, 0.01
#: the same for each pair of nodes: in free space, over real ground at one height, at many heights
_BY_PAIR, _BY_LEVEL_PAIR, _BY_STEEP_PAIR = 1.5e-7, 3e-7, 2e-6
#: a panel over real ground is at most this many times as long as its height
_PANEL_HEIGHTS = 3.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """Sizes of a system, and what follows from them."""

    unknowns: tuple[int, ...]  #: about how many each cluster has (n_clusters,)
    nodes: tuple[int, ...]  #: about how many each cluster has (n_clusters,)
    pair: float  #: time that each pair of nodes takes [s]

    @property
    def shown(self) -> int:
        """Unknowns through which clusters see each other."""
        pairs = zip(self.unknowns, self.nodes, strict=True)
        return sum(min(count, math.ceil(1.1 * nodes) + 6) for count, nodes in pairs)

    @property
    def bytes(self) -> float:
        """Memory of the matrices at one frequency [B]."""
        own = sum(count**2 for count in self.unknowns)
        moments = sum(count * nodes for count, nodes in zip(self.unknowns, self.nodes, strict=True))
        return 16.0 * (_HELD_OWN * own + _HELD_SHOWN * self.shown**2) + 8.0 * (
            _HELD_MOMENTS * moments
        )

    def seconds(self, *, solutions: int) -> float:
        """Processor time of some solutions.

        Returns:
            an estimate for one core of an ordinary machine [s]
        """
        equations = self.shown**3 + sum(count**3 for count in self.unknowns)
        each = _BY_EQUATION * equations + self.pair * sum(self.nodes) ** 2
        return solutions * each + _BY_RUN * len(self.unknowns)


def effort(*, system: WireSystem, detail: Detail, wavelength: float) -> Effort:
    """Count what a system will take.

    Args:
        wavelength: shortest wavelength that will be asked for [m]
    """
    unknowns, nodes = [], []
    for group in joined_groups(system):
        runs = [system.runs[run] for run in group]
        unknowns.append(sum(_unknowns(run.shape, detail) for run in runs))
        nodes.append(sum(_nodes(run, system.ground_height, wavelength) for run in runs))
    level = {height for run in system.runs for height in _ends(run)}
    pair = _BY_PAIR
    if math.isfinite(system.ground_height):
        pair = _BY_LEVEL_PAIR if len(level) == 1 else _BY_STEEP_PAIR
    return Effort(unknowns=tuple(unknowns), nodes=tuple(nodes), pair=pair)


def _ends(run: PlacedRun) -> tuple[float, float]:
    """Heights of both ends in the system's axes [m]."""
    start = run.origin[2]
    return start, start + run.shape.length * run.direction[2]


def _nodes(run: PlacedRun, ground_height: float, wavelength: float) -> int:
    """About how many nodes a run gets, as :func:`assemble` lays them."""
    panel = _USUAL_PANEL_WAVELENGTHS * wavelength
    above = max(min(_ends(run)) + ground_height, _LOWEST_WAVELENGTHS * wavelength)
    return NODES_PER_PANEL * math.ceil(run.shape.length / min(panel, _PANEL_HEIGHTS * above))


def _unknowns(shape: RunShape, detail: Detail) -> int:
    """About how many unknowns a run gets, as :func:`mesh_run` cuts it."""
    pieces = sum(math.ceil(length / detail.longest) + 2 for length, _ in shape.sections)
    return detail.degree * pieces + 10


def refuse_large(needed: Effort) -> None:
    """Refuse what would not fit into memory.

    Raises:
        SolverError: naming the sizes, the memory and the remedy
    """
    if needed.bytes > _MOST_BYTES:
        raise SolverError(
            f"these wires have about {sum(needed.unknowns)} unknown currents at "
            f"{sum(needed.nodes)} places, which take {needed.bytes / 1e9:.1f} GB of memory; "
            f"{_MOST_BYTES / 1e9:.1f} GB is the limit: take out elements or wires, or shorten the "
            "longest"
        )


def refuse_near(pairs: int) -> None:
    """Refuse more wires close by each other than can be integrated piece by piece.

    Raises:
        SolverError: naming their number and the remedy
    """
    if pairs > _MOST_NEAR:
        raise SolverError(
            f"{pairs} pairs of wires pass within a twentieth of a wavelength of each other, and "
            f"{_MOST_NEAR} is the limit: take out elements or wires, or set them further apart"
        )


def refuse_stretches(stretches: int) -> None:
    """Refuse more straight stretches of wire than can be searched for joints.

    Raises:
        SolverError: naming their number and the remedy
    """
    if stretches > _MOST_STRETCHES:
        raise SolverError(
            f"elements and wires have {stretches} straight stretches, and {_MOST_STRETCHES} is the "
            "limit: give the wires fewer points"
        )


def refuse_long(*, seconds: Sequence[float], what: str, remedy: str) -> None:
    """Refuse what would take too long.

    Args:
        seconds: estimates of its parts [s] (n_parts,)
        what: what is asked for, with its numbers
        remedy: what to ask for instead

    Raises:
        SolverError: naming the time and the remedy
    """
    total = sum(seconds)
    if total > _MOST_SECONDS:
        raise SolverError(
            f"{what}: about {total:.0f} s of one processor core, and {_MOST_SECONDS:.0f} s is the "
            f"limit; {remedy}"
        )
