"""From wires to the matrix of the moment method, at as many frequencies as wanted."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY, read_only
from boomwright.solver.prepared_run import PreparedRun, Preparer, prepare_run
from boomwright.solver.run_mesh import Detail
from boomwright.solver.wire_system import WireSystem, images, starts_on_mirror

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: a panel of nodes is at most this many wavelengths long
_PANEL_WAVELENGTHS = 0.3
#: and at most this many times the distance to the nearest other run
_PANEL_DISTANCES = 1.6
#: points on each run when the distance of two runs is measured
_DISTANCE_POINTS = 25


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Assembly:
    """The frequency-independent part of a system's matrix.

    Parameters
    ----------
    system
        the wires [-]
    runs
        each run, prepared [-] (n_runs,)
    offsets
        first unknown of each run, and the total [-] (n_runs + 1,)
    points
        all nodes in space [m] (m, 3)
    tangents
        direction of the run of each node [-] (m, 3)
    current, charge
        moments of all unknowns at all nodes [m], [-] (m, n)
    squared_radius
        added to the squared distance of two nodes of one axis, per image [m^2] (n_images, m, m)
    own
        1 where the kernel's kink is taken out of the nodes, per image [-] (n_images, m, m)
    """

    system: WireSystem
    runs: tuple[PreparedRun, ...]
    offsets: tuple[int, ...]
    points: Floats
    tangents: Floats
    current: Floats
    charge: Floats
    squared_radius: Floats
    own: Floats

    def __post_init__(self) -> None:
        for name in ("points", "tangents", "current", "charge", "squared_radius", "own"):
            object.__setattr__(self, name, read_only(getattr(self, name)))

    @property
    def count(self) -> int:
        """Number of unknowns [-]."""
        return self.offsets[-1]


def assemble(
    *,
    system: WireSystem,
    detail: Detail,
    highest_frequency: float,
    prepare: Preparer = prepare_run,
) -> Assembly:
    """Prepare a system.

    Parameters
    ----------
    system
        the wires [-]
    detail
        how finely to cut them [-]
    highest_frequency
        highest frequency that will be asked for [Hz]
    prepare
        prepares one run [-]

    Returns
    -------
    Assembly
        the prepared system [-]
    """
    wavelength = SPEED_OF_LIGHT / highest_frequency
    spacing = _smallest_distances(system)
    runs = []
    for placed, distance in zip(system.runs, spacing, strict=True):
        longest = min(_PANEL_WAVELENGTHS * wavelength, _PANEL_DISTANCES * distance)
        panels = math.ceil(placed.shape.length / longest)
        mirrored = any(starts_on_mirror(placed, mirror) for mirror in system.mirrors)
        runs.append(prepare(placed.shape, detail, panels, mirrored))
    return _join(system, tuple(runs))


def _join(system: WireSystem, runs: tuple[PreparedRun, ...]) -> Assembly:
    offsets = np.concatenate([[0], np.cumsum([run.mesh.count for run in runs])])
    sizes = [len(run.nodes.place) for run in runs]
    rows = np.concatenate([[0], np.cumsum(sizes)])
    current = np.zeros((rows[-1], offsets[-1]))
    charge = np.zeros_like(current)
    points, tangents = [], []
    reflections = images(system.mirrors)
    squared = np.zeros((len(reflections), rows[-1], rows[-1]))
    own = np.zeros_like(squared)
    for index, (placed, run) in enumerate(zip(system.runs, runs, strict=True)):
        block = slice(rows[index], rows[index + 1])
        columns = slice(offsets[index], offsets[index + 1])
        current[block, columns] = run.nodes.current
        charge[block, columns] = run.nodes.charge
        direction = np.array(placed.direction)
        points.append(np.array(placed.origin) + run.nodes.place[:, None] * direction)
        tangents.append(np.tile(direction, (sizes[index], 1)))
        ring = run.nodes.radius[:, None] ** 2 + run.nodes.radius[None, :] ** 2
        for number, image in enumerate(reflections):
            if number == 0 or any(
                image.flip[mirror.axis] < 0.0
                and np.prod(image.flip) < 0.0
                and image.flip.sum() > 0.0
                and starts_on_mirror(placed, mirror)
                for mirror in system.mirrors
            ):
                squared[number, block, block] = ring
                own[number, block, block] = 1.0
    return Assembly(
        system=system,
        runs=runs,
        offsets=tuple(int(x) for x in offsets),
        points=np.concatenate(points),
        tangents=np.concatenate(tangents),
        current=current,
        charge=charge,
        squared_radius=squared,
        own=own,
    )


def _smallest_distances(system: WireSystem) -> list[float]:
    """Distance from each run to the nearest other run or foreign image [m]."""
    share = np.linspace(0.0, 1.0, _DISTANCE_POINTS)
    clouds = [
        np.array(run.origin) + np.outer(share * run.shape.length, run.direction)
        for run in system.runs
    ]
    reflections = images(system.mirrors)
    found = []
    for index, cloud in enumerate(clouds):
        best = math.inf
        for other, far in enumerate(clouds):
            for number, image in enumerate(reflections):
                if other == index and (
                    number == 0
                    or any(starts_on_mirror(system.runs[index], m) for m in system.mirrors)
                ):
                    continue
                gap = cloud[:, None, :] - (far * image.flip + image.shift)[None, :, :]
                best = min(best, float(np.sqrt((gap**2).sum(axis=2)).min()))
        found.append(max(best, 1e-3 * system.runs[index].shape.length))
    return found


def impedance_matrices(*, assembly: Assembly, frequencies: Floats) -> Complexes:
    """Matrices of the moment method, conductor loss included.

    Parameters
    ----------
    assembly
        the prepared system [-]
    frequencies
        frequencies [Hz] (f,)

    Returns
    -------
    NDArray
        symmetric matrices over the unknowns [ohm] (f, n, n) {harrington-1968}
    """
    wavenumber = 2.0 * np.pi * frequencies / SPEED_OF_LIGHT
    angular = 2.0 * np.pi * frequencies
    vector_kernel, scalar_kernel = _node_kernels(assembly, wavenumber)
    inductive = _sandwich(assembly.current, vector_kernel)
    capacitive = _sandwich(assembly.charge, scalar_kernel)
    half_square = 0.5 * wavenumber[:, None, None] ** 2
    loss = np.zeros_like(inductive)
    for index, run in enumerate(assembly.runs):
        block = slice(assembly.offsets[index], assembly.offsets[index + 1])
        statics = run.statics
        inductive[:, block, block] += statics.current - half_square * statics.current_far
        capacitive[:, block, block] += statics.charge - half_square * statics.charge_far
        conductivity = assembly.system.runs[index].conductivity
        resistance = surface_resistance(frequencies=frequencies, conductivity=conductivity)
        # The field inside lags by 45 degrees: the metal's reactance equals its resistance.
        loss[:, block, block] += (1.0 + 1.0j) * resistance[:, None, None] * run.loss
    magnetic = 1j * angular[:, None, None] * VACUUM_PERMEABILITY / (4.0 * np.pi)
    electric = 1j * angular[:, None, None] * VACUUM_PERMITTIVITY * 4.0 * np.pi
    return magnetic * inductive + capacitive / electric + loss


def surface_resistance(*, frequencies: Floats, conductivity: float) -> Floats:
    """Resistance of a metal surface much thicker than the skin depth {balanis-2005}.

    Parameters
    ----------
    frequencies
        frequencies [Hz] (f,)
    conductivity
        conductivity of the metal, may be infinite [S/m]

    Returns
    -------
    NDArray
        surface resistance [ohm] (f,)
    """
    return np.sqrt(np.pi * frequencies * VACUUM_PERMEABILITY / conductivity)


def _node_kernels(assembly: Assembly, wavenumber: Floats) -> tuple[Complexes, Complexes]:
    """Smooth kernels between nodes, images summed: for currents and for charges."""
    size = len(assembly.points)
    vector = np.zeros((len(wavenumber), size, size), dtype=complex)
    scalar = np.zeros_like(vector)
    k = wavenumber[:, None, None]
    for number, image in enumerate(images(assembly.system.mirrors)):
        source = assembly.points * image.flip + image.shift
        gap = assembly.points[:, None, :] - source[None, :, :]
        squared = (gap**2).sum(axis=2) + assembly.squared_radius[number]
        distance = np.sqrt(squared)
        own = assembly.own[number]
        kernel = (np.exp(-1j * k * distance) - own * (1.0 - 0.5 * k**2 * squared)) / distance
        product = (assembly.tangents[:, None, :] * (assembly.tangents * image.flip)).sum(axis=2)
        vector += image.sign * product * kernel
        scalar += image.sign * kernel
    return vector, scalar


def _sandwich(moments: Floats, kernel: Complexes) -> Complexes:
    """Moments^T kernel moments at every frequency, with real matrix products."""
    right = (kernel.view(float).reshape(*kernel.shape, 2)).transpose(0, 3, 1, 2) @ moments
    both = moments.T @ right
    result: Complexes = both[:, 0] + 1j * both[:, 1]
    return result
