"""Electric and magnetic field at any points outside the wires.

Each node of the wires is a short current; nodes are laid as closely as the nearest point
demands. Over perfect ground the images are added, over real ground the quasi-static image and
the Sommerfeld rest; a surface wave is part of that rest near the antenna.
"""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from boomwright.base import (
    SPEED_OF_LIGHT,
    VACUUM_IMPEDANCE,
    VACUUM_PERMEABILITY,
    ReadOnlyArrays,
    SolverError,
)
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.ground import FREE_SPACE, Ground
from boomwright.solver.half_space import ground_table, image_factor
from boomwright.solver.runs.nodes import run_nodes
from boomwright.solver.wire_system import images

#: a panel of nodes is at most this many times the distance to the nearest point
_PANEL_DISTANCES = 1.5
_PANEL_WAVELENGTHS = 0.3
#: step of the curl over real ground [wavelengths]
_CURL_STEP = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sources(ReadOnlyArrays):
    """Short currents that stand for the wires."""

    points: Floats  #: places, heights above the ground [m] (m, 3)
    moments: Complexes  #: current times length, peak [A m] (m, 3)
    frequency: float  #: frequency [Hz]


def near_sources(
    *,
    assembly: PreparedSystem,
    unknowns: Complexes,
    frequency: float,
    nearest: float,
    runs: Collection[int] | None = None,
) -> Sources:
    """Lay short currents closely enough for points at a given distance.

    Args:
        unknowns: free unknowns [A] (n,)
        nearest: smallest distance from a wire's axis at which the field will be asked for [m]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    raw = assembly.raw(unknowns)
    points, moments = [], []
    for index, (placed, run) in enumerate(zip(assembly.system.runs, assembly.runs, strict=True)):
        if runs is not None and index not in runs:
            continue
        longest = min(_PANEL_DISTANCES * nearest, _PANEL_WAVELENGTHS * wavelength)
        panels = int(np.ceil(placed.shape.length / longest))
        nodes = run_nodes(mesh=run.mesh, panels=panels)
        block = slice(assembly.offsets[index], assembly.offsets[index + 1])
        direction = np.array(placed.direction)
        points.append(np.array(placed.origin) + nodes.place[:, None] * direction)
        moments.append((nodes.current @ raw[block])[:, None] * direction)
    here, moment = np.concatenate(points), np.concatenate(moments)
    symmetry = tuple(m for m in assembly.system.mirrors if not m.material)
    lift = assembly.system.ground_height
    up = np.array([0.0, 0.0, lift if np.isfinite(lift) else 0.0])
    reflections = images(symmetry)
    return Sources(
        points=np.concatenate([here * i.flip + i.shift for i in reflections]) + up,
        moments=np.concatenate([moment * i.flip * i.sign for i in reflections]),
        frequency=frequency,
    )


def near_field(
    *, sources: Sources, points: Floats, ground: Ground = FREE_SPACE, ground_level: float = 0.0
) -> tuple[Complexes, Complexes]:
    """Electric and magnetic field {balanis-2005, eq. 4-8}.

    Args:
        points: where to compute, above the ground [m] (p, 3)
        ground_level: height of the ground's surface in the sources' axes [m]

    Returns:
        electric field [V/m] and magnetic field [A/m], peak (p, 3)

    Raises:
        SolverError: for points below the ground
    """
    if ground.kind != "free space" and bool((points[:, 2] < ground_level).any()):
        lowest = float(points[:, 2].min())
        msg = f"a point at height {lowest:.3g} m lies below the ground; ask for points above it"
        raise SolverError(msg)
    electric, magnetic = _free_fields(sources, points)
    if ground.kind == "free space":
        return electric, magnetic
    mirrored = Sources(
        points=sources.points * [1.0, 1.0, -1.0] + [0.0, 0.0, 2.0 * ground_level],
        moments=sources.moments * np.array([-1.0, -1.0, 1.0]),
        frequency=sources.frequency,
    )
    image_e, image_h = _free_fields(mirrored, points)
    if ground.kind == "perfect":
        return electric + image_e, magnetic + image_h
    factor = image_factor(ground=ground, frequency=sources.frequency)
    rest_e, rest_h = _ground_rest(sources, points, ground, ground_level)
    return electric + factor * image_e + rest_e, magnetic + factor * image_h + rest_h


def _free_fields(sources: Sources, points: Floats) -> tuple[Complexes, Complexes]:
    wavenumber = 2.0 * np.pi * sources.frequency / SPEED_OF_LIGHT
    gap = points[:, None, :] - sources.points[None, :, :]
    away = np.sqrt((gap**2).sum(axis=2))
    ray = gap / away[..., None]
    phase = 1j * wavenumber * away
    wave = np.exp(-phase) / (4.0 * np.pi * away)
    near = 1.0 / phase + 1.0 / phase**2
    along = (ray * sources.moments).sum(axis=2)
    electric = (
        -1j
        * wavenumber
        * VACUUM_IMPEDANCE
        * (
            np.einsum("pm,mi->pi", wave * (1.0 + near), sources.moments)
            - np.einsum("pm,pmi->pi", wave * (1.0 + 3.0 * near) * along, ray)
        )
    )
    turned = np.cross(np.broadcast_to(sources.moments, gap.shape), ray)
    spin = 1j * wavenumber * wave * (1.0 + 1.0 / phase)
    magnetic = np.einsum("pm,pmi->pi", spin, turned)
    return electric, magnetic


def _ground_rest(
    sources: Sources, points: Floats, ground: Ground, level: float
) -> tuple[Complexes, Complexes]:
    """Sommerfeld rest of the field; the magnetic part by the curl of the electric."""
    step = _CURL_STEP * SPEED_OF_LIGHT / sources.frequency
    shifts = np.concatenate([np.zeros((1, 3)), step * np.eye(3), -step * np.eye(3)])
    cloud = (points[None, :, :] + shifts[:, None, :]).reshape(-1, 3)
    gap = cloud[:, None, :2] - sources.points[None, :, :2]
    distance = np.sqrt((gap**2).sum(axis=2))
    height = cloud[:, None, 2] + sources.points[None, :, 2] - 2.0 * level
    table = ground_table(
        largest_distance=float(distance.max()) * (1.0 + 1e-9) + 1e-9,
        heights=(float(height.min()), float(height.max())),
        ground=ground,
        frequency=sources.frequency,
    )
    field = table.at(distance=distance.ravel(), height=height.ravel())
    field = field.reshape(4, *distance.shape)
    safe = np.where(distance > 0.0, distance, 1.0)
    radial = gap / safe[..., None]
    radial[distance == 0.0] = (1.0, 0.0)
    across = np.stack([-radial[..., 1], radial[..., 0]], axis=-1)
    flat = sources.moments[None, :, :2]
    on_radial, on_across = (radial * flat).sum(axis=2), (across * flat).sum(axis=2)
    upward = sources.moments[None, :, 2]
    outward = field[0] * on_radial + field[3] * upward
    sideways = field[1] * on_across
    vertical = field[2] * upward - field[3] * on_radial
    angular = 2.0 * np.pi * sources.frequency
    scale = -1j * angular * VACUUM_PERMEABILITY / (4.0 * np.pi)
    level_part = (outward[..., None] * radial + sideways[..., None] * across).sum(axis=1)
    electric = scale * np.concatenate([level_part, vertical.sum(axis=1)[:, None]], axis=1)
    electric = electric.reshape(7, -1, 3)
    slope = (electric[1:4] - electric[4:7]) / (2.0 * step)
    curl = np.stack(
        [
            slope[1, :, 2] - slope[2, :, 1],
            slope[2, :, 0] - slope[0, :, 2],
            slope[0, :, 1] - slope[1, :, 0],
        ],
        axis=1,
    )
    return electric[0], 1j * curl / (angular * VACUUM_PERMEABILITY)
