"""Solving for the currents."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.impedance import SystemMatrices, surface_resistance, system_matrices
from boomwright.solver.matrix_solution import solve_matrices
from boomwright.solver.runs.mesh import RunMesh
from boomwright.solver.runs.shape_functions import shape_functions
from boomwright.solver.wire_system import WireSystem, starts_on_mirror

#: entries of matrices that are held at once, a few times over
_ENTRIES_AT_ONCE = 4_000_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PortVectors:
    """How ports drive the unknowns and how their currents are read."""

    drive: Floats  #: right-hand side for one volt at each port (n, n_ports)
    read: Floats  #: gap-averaged current at each port from the unknowns (n, n_ports)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Currents(ReadOnlyArrays):
    """Currents for one volt at each port in turn, the others short-circuited."""

    assembly: PreparedSystem  #: the prepared system
    frequencies: Floats  #: frequencies [Hz] (f,)
    unknowns: Complexes  #: unknowns for each driven port [A/V] (f, n, n_ports)
    admittance: Complexes  #: short-circuit admittance matrix [S] (f, n_ports, n_ports)
    #: voltage at each load times the root of its conductance, for one volt at each port
    #: [W^0.5/V] (f, n_loads, n_ports)
    heated: Complexes
    #: voltage and current at each driven gap, for one volt at each port
    #: [V/V] and [A/V] (f, 2, n_gaps, n_ports)
    fed: Complexes

    def rows(self, rows: slice) -> Currents:
        """The same at some of the frequencies."""
        return Currents(
            assembly=self.assembly,
            frequencies=self.frequencies[rows],
            unknowns=self.unknowns[rows],
            admittance=self.admittance[rows],
            heated=self.heated[rows],
            fed=self.fed[rows],
        )


def solve_currents(
    *,
    assembly: PreparedSystem,
    frequencies: Floats,
    added: Complexes | None = None,
    below: Complexes | None = None,
    alone: SystemMatrices | None = None,
    series: Floats | None = None,
) -> Currents:
    """Solve at each frequency for one volt at each port.

    Args:
        frequencies: [Hz] (f,)
        added: further matrices over the free unknowns; None adds nothing [ohm] (f, n, n)
        below: further matrices over what shows outside, of real ground; None adds nothing [ohm]
            (f, r, r)
        alone: matrices of the system by itself; None makes them
        series: resistance in series with each driven gap, such as of the ground at its foot; None
            for none [ohm] (f,)
    """
    ports = port_vectors(assembly=assembly)
    unknowns: Complexes = np.empty((len(frequencies), *ports.drive.shape), dtype=np.complex128)
    every = [slice(None)] if alone else _chunks(assembly, len(frequencies))
    for rows in every:
        matrices = alone
        if matrices is None:
            matrices = system_matrices(assembly=assembly, frequencies=frequencies[rows])
        unknowns[rows] = solve_matrices(
            matrices=matrices,
            drive=ports.drive,
            added=None if added is None else added[rows],
            below=None if below is None else below[rows],
        )
    admittance = ports.read.T @ unknowns
    loads = _load_admittance(assembly.system, frequencies)
    driven_gaps = len(assembly.system.fed_gaps)
    here, idle = slice(driven_gaps), slice(driven_gaps, None)
    # At a load the current into the wire is what the load brings: I = -Y V.
    across = -np.linalg.solve(
        admittance[:, idle, idle] + np.eye(loads.shape[1]) * loads[:, None, :],
        admittance[:, idle, here],
    )
    seen = admittance[:, here, here] + admittance[:, here, idle] @ across
    resistance = np.zeros(len(frequencies)) if series is None else series
    fed, taken = _through_feeders(assembly.system, frequencies, seen, resistance)
    volts, amperes = fed[:, 0], fed[:, 1]
    # What is left of a gap's voltage behind the resistance drives the wires.
    wires = volts - resistance[:, None, None] * amperes
    lost = np.sqrt(resistance)[:, None, None] * amperes
    return Currents(
        assembly=assembly,
        frequencies=frequencies,
        unknowns=(unknowns[:, :, here] + unknowns[:, :, idle] @ across) @ wires,
        admittance=taken,
        heated=np.concatenate(
            [np.sqrt(loads.real * _times(assembly.system))[:, :, None] * across @ wires, lost],
            axis=1,
        ),
        fed=fed,
    )


def _load_admittance(system: WireSystem, frequencies: Floats) -> Complexes:
    """Admittance of every load [S] (f, n_loads)."""
    found = [load.admittance(frequencies=frequencies) for load in system.loads]
    return np.array(found, dtype=complex).reshape(-1, len(frequencies)).T


def _times(system: WireSystem) -> Floats:
    """How often each load is there: twice where the plane of symmetry has one behind it too."""
    planes = [mirror for mirror in system.mirrors if not mirror.material]
    found = []
    for load in system.loads:
        run = system.runs[load.port.run]
        centre, width = run.shape.gaps[load.port.gap]
        cut = centre < width / 2.0
        alone = all(cut and starts_on_mirror(run, plane) for plane in planes)
        found.append(1.0 if alone else 2.0)
    return np.array(found)


def _through_feeders(
    system: WireSystem, frequencies: Floats, admittance: Complexes, series: Floats
) -> tuple[Complexes, Complexes]:
    """Drive the gaps through what is in series with each, and the lines to the ports.

    Along a line of impedance Z and electrical length a its near end has cos(a) V + j Z sin(a) I
    and takes cos(a) I + j sin(a) V / Z {pozar-2012}. What hangs on lines that go on from a gap is
    taken there too.

    Args:
        admittance: of the gaps themselves [S] (f, n_gaps, n_gaps)
        series: resistance in series with each gap [ohm] (f,)

    Returns:
        voltage and current at each gap for one volt at each port [V/V] and [A/V]
        (f, 2, n_gaps, n_ports), and the admittance of the ports [S] (f, n_ports, n_ports)
    """
    gaps, eye = system.fed_gaps, np.eye(len(system.fed_gaps))
    behind = np.linalg.solve(eye + admittance * series[:, None, None], admittance)
    lines = {gaps.index(each.gap): each for each in system.feeders}
    joined = np.zeros((len(gaps), len(system.ports)))
    impedance, delay = np.full(len(gaps), 50.0), np.zeros(len(gaps))
    past = np.full(len(gaps), -1)
    for number in range(len(gaps)):
        line = lines.get(number)
        if line is not None:
            impedance[number], delay[number] = line.impedance, line.delay
            past[number] = -1 if line.past is None else gaps.index(line.past)
        if past[number] < 0:
            joined[number, number if line is None else line.into] = 1.0
    turn = 2.0 * np.pi * frequencies[:, None] * delay
    along, across = np.cos(turn)[:, :, None], 1j * np.sin(turn)[:, :, None]
    ohms = impedance[:, None]
    # What flows out of the far end of each line, and into its near end, per volt at each gap.
    out, held = behind.astype(np.complex128), np.zeros_like(behind)
    for number in _farthest_first(past):
        near = along[:, number] * out[:, number] + across[:, number] / ohms[number] * eye[number]
        held[:, number] = near
        if past[number] >= 0:
            out[:, past[number]] += near
    begins = np.zeros_like(eye)
    begins[past >= 0] = eye[past[past >= 0]]
    volts = np.linalg.solve(along * eye + across * ohms * out - begins, joined + 0j * along)
    taken: Complexes = joined.T @ (held @ volts)
    return np.stack([volts, behind @ volts], axis=1), taken


def _farthest_first(past: NDArray[np.int64]) -> list[int]:
    """Numbers of the gaps, each behind all whose lines go on from it."""

    def steps(number: int) -> int:
        return 0 if past[number] < 0 else 1 + steps(int(past[number]))

    return sorted(range(len(past)), key=steps, reverse=True)


def _chunks(assembly: PreparedSystem, count: int) -> list[slice]:
    """Frequencies that are solved together: as many as fit into memory."""
    entries = sum(len(each.free) ** 2 for each in assembly.clusters)
    entries += sum(each.seen for each in assembly.clusters) ** 2
    step = max(1, _ENTRIES_AT_ONCE // entries)
    return [slice(start, min(start + step, count)) for start in range(0, count, step)]


def port_vectors(*, assembly: PreparedSystem) -> PortVectors:
    """Drive and read vectors of all driven gaps, then of all loads.

    A gap cut in half by a symmetry plane passes the current of both halves; one that stands
    on real ground has its whole voltage across the half that exists.
    """
    system = assembly.system
    gaps = (*system.fed_gaps, *(load.port for load in system.loads))
    drive = np.zeros((assembly.offsets[-1], len(gaps)))
    read = np.zeros_like(drive)
    for number, port in enumerate(gaps):
        block = slice(assembly.offsets[port.run], assembly.offsets[port.run + 1])
        mean = assembly.runs[port.run].gaps[port.gap]
        placed = system.runs[port.run]
        centre, width = placed.shape.gaps[port.gap]
        planes = [m for m in system.mirrors if starts_on_mirror(placed, m)]
        halved = bool(planes) and centre < width / 2.0
        on_ground = halved and planes[0].material
        drive[block, number] = mean * (2.0 if on_ground else 1.0)
        read[block, number] = mean * (2.0 if halved else 1.0)
    return PortVectors(drive=assembly.gathered(drive), read=assembly.gathered(read))


def conductor_loss(*, currents: Currents, weights: Complexes) -> Floats:
    """Power lost in the metal and in the loads.

    Args:
        weights: voltage of each port at each frequency, peak value [V] (f, n_ports)

    Returns:
        power, both halves of a symmetric antenna counted [W] (f,)
    """
    assembly = currents.assembly
    total = (currents.unknowns @ weights[:, :, None])[:, :, 0]
    lost = np.zeros(len(currents.frequencies))
    for cluster in assembly.clusters:
        mine = total[:, cluster.free]
        for conductivity, matrix in cluster.loss:
            resistance = surface_resistance(
                frequencies=currents.frequencies, conductivity=conductivity
            )
            lost += 0.5 * resistance * ((mine.conj() @ matrix) * mine).sum(axis=1).real
    symmetric = any(not mirror.material for mirror in assembly.system.mirrors)
    heat = 0.5 * (np.abs(currents.heated @ weights[:, :, None])[:, :, 0] ** 2).sum(axis=1)
    total_lost: Floats = lost * (2.0 if symmetric else 1.0) + heat
    return total_lost


def current_on_run(*, mesh: RunMesh, unknowns: Complexes, along: Floats) -> Complexes:
    """Read the current at places along a run from its shape functions.

    Args:
        unknowns: its unknowns, for one case or for several [A] (n,) or (n, n_cases)
        along: places from the start of the run [m] (p,)

    Returns:
        current towards the end of the run [A] (p,) or (p, n_cases)
    """
    padded = np.concatenate([unknowns, np.zeros((1, *unknowns.shape[1:]))])
    tubes = np.flatnonzero(mesh.z1 > mesh.z0)
    which = tubes[np.clip(np.searchsorted(mesh.z1[tubes], along), 0, len(tubes) - 1)]
    length = (mesh.z1 - mesh.z0)[which]
    share = np.clip((along - mesh.z0[which]) / length, 0.0, 1.0)
    root = np.abs(mesh.root[which])
    at = np.where(mesh.root[which] < 0, share ** (1.0 / root), 1.0 - (1.0 - share) ** (1.0 / root))
    values, _ = shape_functions(at=at, degree=mesh.unknowns.shape[1] - 1)
    current: Complexes = np.einsum("dp,pd...->p...", values, padded[mesh.unknowns[which]])
    return current
