"""From wires to the frequency-independent part of the moment method's matrix."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY, read_only
from boomwright.solver.near_coupling import Axis, near_statics
from boomwright.solver.prepared_run import PreparedRun, Preparer, prepare_run
from boomwright.solver.run_mesh import Detail
from boomwright.solver.run_static import RunStatics
from boomwright.solver.series_inductance import series_matrix
from boomwright.solver.wire_system import (
    Image,
    PlacedRun,
    WireSystem,
    images,
    starts_on_mirror,
)

Floats = NDArray[np.float64]

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
class Assembly:
    """The frequency-independent part of a system's matrix."""

    system: WireSystem  #: the wires
    runs: tuple[PreparedRun, ...]  #: each run, prepared (n_runs,)
    offsets: tuple[int, ...]  #: first raw unknown of each run, and the total (n_runs + 1,)
    #: raw unknowns of the runs from the free ones: the currents at joints add up to zero (n_raw, n)
    expand: Floats
    points: Floats  #: all nodes in space [m] (m, 3)
    tangents: Floats  #: direction of the run of each node (m, 3)
    current: Floats  #: moments of the free unknowns at all nodes [m], (m, n)
    charge: Floats  #: moments of the free unknowns at all nodes [m], (m, n)
    #: what the thickness of the wires does to those moments: the parts that go with k^2 [m^3],
    #: [m^2] and with the second derivative [m], (2, m, n)
    ring_current: Floats
    #: what the thickness of the wires does to those moments: the parts that go with k^2 [m^3],
    #: [m^2] and with the second derivative [m], (2, m, n)
    ring_charge: Floats
    statics: RunStatics  #: static matrices over the free unknowns
    #: conductivity [S/m] and circumference integrals [-] (n, n) of each metal
    loss: tuple[tuple[float, Floats], ...]
    #: added to the squared distance of two nodes of one axis, per image [m^2] (n_images, m, m)
    squared_radius: Floats
    #: 1 for nodes of one axis, whose kernel has the ring's thickness in it, per image (n_images, m,
    #: m)
    coaxial: Floats
    #: 1 where the kernel's kink is taken out of the nodes, per image (n_images, m, m)
    kinkless: Floats

    def __post_init__(self) -> None:
        for name in (
            "expand",
            "points",
            "tangents",
            "current",
            "charge",
            "ring_current",
            "ring_charge",
            "squared_radius",
            "coaxial",
            "kinkless",
        ):
            object.__setattr__(self, name, read_only(getattr(self, name)))

    def outside_moments(self, *, wavenumber: float) -> tuple[Floats, Floats]:
        """Current and charge moments as another wire, or the far field, sees them.

        Parameters
        ----------
        wavenumber
            wavenumber [1/m]
        """
        square = wavenumber**2
        return (
            self.current - square * self.ring_current[0] - self.ring_current[1],
            self.charge - square * self.ring_charge[0] - self.ring_charge[1],
        )

    @property
    def count(self) -> int:
        """Number of free unknowns."""
        return int(self.expand.shape[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Close:
    """Two runs (the second as an image) that are integrated piece by piece."""

    first: int
    second: int
    image: int
    coaxial: bool
    radius: float


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
    highest_frequency
        highest frequency that will be asked for [Hz]
    """
    wavelength = SPEED_OF_LIGHT / highest_frequency
    close, spacing = _survey(system, _NEAR_WAVELENGTHS * wavelength)
    runs = []
    for placed, distance in zip(system.runs, spacing, strict=True):
        nearest = max(distance, _SMALLEST_SPACING * wavelength)
        longest = min(_PANEL_WAVELENGTHS * wavelength, _PANEL_DISTANCES * nearest)
        panels = math.ceil(placed.shape.length / longest)
        mirrored = any(starts_on_mirror(placed, mirror) for mirror in system.mirrors)
        runs.append(prepare(placed.shape, detail, panels, mirrored))
    return _join(system, tuple(runs), close)


def _survey(system: WireSystem, near: float) -> tuple[list[_Close], list[float]]:
    """Find the pairs that are close, and how far each run is from those that are not."""
    share = np.linspace(0.0, 1.0, _DISTANCE_POINTS)
    clouds = [
        np.array(run.origin) + np.outer(share * run.shape.length, run.direction)
        for run in system.runs
    ]
    # A run's image in real ground is at least twice its lowest height away.
    spacing = [2.0 * (float(cloud[:, 2].min()) + system.ground_height) for cloud in clouds]
    close = []
    for number, image in enumerate(images(system.mirrors)):
        for first, cloud in enumerate(clouds):
            for second in range(first, len(clouds)):
                if number == 0 and first == second:
                    close.append(
                        _Close(first=first, second=second, image=0, coaxial=True, radius=0.0)
                    )
                    continue
                gap = cloud[:, None, :] - (clouds[second] * image.flip + image.shift)
                distance = math.sqrt(float(np.einsum("abx,abx->ab", gap, gap).min()))
                if distance >= near:
                    spacing[first] = min(spacing[first], distance)
                    spacing[second] = min(spacing[second], distance)
                    continue
                coaxial = first == second and _continues(system, first, image)
                close.append(
                    _Close(
                        first=first,
                        second=second,
                        image=number,
                        coaxial=coaxial,
                        radius=_touching_radius(system, first, second)
                        if distance < _TOUCH
                        else 0.0,
                    )
                )
    return close, spacing


def _continues(system: WireSystem, run: int, image: Image) -> bool:
    """Whether a run goes on in this image of itself, on one axis."""
    reflected = [m for m in system.mirrors if image.flip[m.axis] < 0.0]
    return len(reflected) == 1 and starts_on_mirror(system.runs[run], reflected[0])


def _touching_radius(system: WireSystem, first: int, second: int) -> float:
    shapes = (system.runs[first].shape, system.runs[second].shape)
    return max(radius for shape in shapes for _, radius in shape.sections)


def _join(system: WireSystem, runs: tuple[PreparedRun, ...], close: list[_Close]) -> Assembly:
    offsets = np.concatenate([[0], np.cumsum([run.mesh.count for run in runs])])
    rows = np.concatenate([[0], np.cumsum([len(run.nodes.place) for run in runs])])
    expand = _expansion(system, runs, offsets)
    current = np.zeros((rows[-1], offsets[-1]))
    charge = np.zeros_like(current)
    ring_current = np.zeros((2, *current.shape))
    ring_charge = np.zeros_like(ring_current)
    points, tangents = [], []
    for index, (placed, run) in enumerate(zip(system.runs, runs, strict=True)):
        block = (slice(rows[index], rows[index + 1]), slice(offsets[index], offsets[index + 1]))
        current[block] = run.nodes.current
        charge[block] = run.nodes.charge
        ring_current[:, block[0], block[1]] = run.nodes.ring_terms(run.nodes.current)
        ring_charge[:, block[0], block[1]] = run.nodes.ring_terms(run.nodes.charge)
        direction = np.array(placed.direction)
        points.append(np.array(placed.origin) + run.nodes.place[:, None] * direction)
        tangents.append(np.tile(direction, (len(run.nodes.place), 1)))
    squared, coaxial, kinkless = _node_masks(system, runs, rows, close)
    return Assembly(
        system=system,
        runs=runs,
        offsets=tuple(int(x) for x in offsets),
        expand=expand,
        points=np.concatenate(points),
        tangents=np.concatenate(tangents),
        current=current @ expand,
        charge=charge @ expand,
        ring_current=ring_current @ expand,
        ring_charge=ring_charge @ expand,
        statics=_statics(system, runs, offsets, close, expand),
        loss=_losses(system, runs, offsets, expand),
        squared_radius=squared,
        coaxial=coaxial,
        kinkless=kinkless,
    )


def _expansion(
    system: WireSystem, runs: tuple[PreparedRun, ...], offsets: NDArray[np.int64]
) -> Floats:
    """Matrix from free to raw unknowns; the last end at each joint takes what the others bring."""
    total = int(offsets[-1])
    expand = np.eye(total)
    dropped = []
    for joint in system.joints:
        ends = []
        for run, at_end in joint:
            mesh = runs[run].mesh
            unknown = mesh.end_unknown if at_end else mesh.start_unknown
            # A current along the run flows into the joint at its end, out of it at its start.
            ends.append((int(offsets[run]) + unknown, 1.0 if at_end else -1.0))
        last, last_sign = ends[-1]
        for unknown, sign in ends[:-1]:
            expand[last, unknown] -= sign / last_sign
        dropped.append(last)
    return np.delete(expand, dropped, axis=1)


def _node_masks(
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    rows: NDArray[np.int64],
    close: list[_Close],
) -> tuple[Floats, Floats, Floats]:
    """Squared radii and masks of the nodes of close pairs."""
    shape = (len(images(system.mirrors)), int(rows[-1]), int(rows[-1]))
    squared, coaxial, kinkless = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    for pair in close:
        first = slice(rows[pair.first], rows[pair.first + 1])
        second = slice(rows[pair.second], rows[pair.second + 1])
        for block in ((first, second), (second, first)):
            kinkless[(pair.image, *block)] = 1.0
        if pair.coaxial:
            radius = runs[pair.first].nodes.radius
            squared[pair.image, first, first] = radius[:, None] ** 2 + radius[None, :] ** 2
            coaxial[pair.image, first, first] = 1.0
    return squared, coaxial, kinkless


def _axis(placed: PlacedRun, run: PreparedRun, image: Image) -> Axis:
    return Axis(
        mesh=run.mesh,
        origin=np.array(placed.origin) * image.flip + image.shift,
        direction=np.array(placed.direction) * image.flip,
    )


def _statics(
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    offsets: NDArray[np.int64],
    close: list[_Close],
    expand: Floats,
) -> RunStatics:
    total = np.zeros((4, offsets[-1], offsets[-1]))
    reflections = images(system.mirrors)
    for pair in close:
        first = slice(offsets[pair.first], offsets[pair.first + 1])
        second = slice(offsets[pair.second], offsets[pair.second + 1])
        if pair.coaxial:
            # The run's own matrices hold its own image already.
            if pair.image == 0:
                total[:, first, first] += _stack(runs[pair.first].statics)
                # Series inductance is the same at all frequencies, as the static part is.
                total[0, first, first] += (4.0 * math.pi / VACUUM_PERMEABILITY) * series_matrix(
                    mesh=runs[pair.first].mesh, stretches=system.runs[pair.first].inductance
                )
            continue
        image = reflections[pair.image]
        blocks = image.sign * _stack(
            near_statics(
                tested=_axis(system.runs[pair.first], runs[pair.first], reflections[0]),
                source=_axis(system.runs[pair.second], runs[pair.second], image),
                radius=pair.radius,
            )
        )
        total[:, first, second] += blocks
        if pair.first != pair.second:
            total[:, second, first] += blocks.transpose(0, 2, 1)
    free = expand.T @ total @ expand
    return RunStatics(current=free[0], charge=free[1], current_far=free[2], charge_far=free[3])


def _stack(statics: RunStatics) -> Floats:
    return np.stack([statics.current, statics.charge, statics.current_far, statics.charge_far])


def _losses(
    system: WireSystem,
    runs: tuple[PreparedRun, ...],
    offsets: NDArray[np.int64],
    expand: Floats,
) -> tuple[tuple[float, Floats], ...]:
    found: dict[float, Floats] = {}
    for index, (placed, run) in enumerate(zip(system.runs, runs, strict=True)):
        if math.isinf(placed.conductivity):
            continue
        block = slice(offsets[index], offsets[index + 1])
        matrix = found.setdefault(
            placed.conductivity, np.zeros((int(offsets[-1]), int(offsets[-1])))
        )
        matrix[block, block] += run.loss
    return tuple(
        (conductivity, read_only(expand.T @ matrix @ expand))
        for conductivity, matrix in found.items()
    )
