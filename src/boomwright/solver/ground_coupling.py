"""What real ground adds to the matrix of the moment method.

Two ways: ``exact`` takes the quasi-static image by potentials and the rest of the reflected
field from Sommerfeld tables; ``image`` is the quick one, every node pair's image weighted by
the plane-wave coefficients at its own specular angle. Their difference is part of the error
band. Both work between nodes, since the ground is never nearer than a panel resolves.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import (
    SPEED_OF_LIGHT,
    VACUUM_PERMEABILITY,
    VACUUM_PERMITTIVITY,
    SolverError,
)
from boomwright.base.array_types import Complexes, Floats
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.chebyshev import over_band
from boomwright.solver.far_view import FarBlock, FarView, moments_once, spread_out
from boomwright.solver.fresnel import fresnel_coefficients
from boomwright.solver.ground import Ground
from boomwright.solver.half_space import GroundTable, ground_table, image_factor
from boomwright.solver.kernel_memory import Kernels
from boomwright.solver.wire_system import Image, images

Indices = NDArray[np.int64]

GroundMethod = Literal["exact", "image"]

#: wires must be this many wavelengths above real ground
LOWEST_WAVELENGTHS = 0.02


def ground_matrices(
    *,
    assembly: PreparedSystem,
    frequencies: Floats,
    ground: Ground,
    method: GroundMethod = "exact",
) -> Complexes:
    """Matrices over the free unknowns to add for the field that real ground reflects.

    Args:
        frequencies: [Hz] (f,)
        method: ``exact`` (Sommerfeld) or ``image`` (reflection coefficients)

    Returns:
        symmetric matrices [ohm] (f, n, n)
    """
    seen = ground_seen(assembly=assembly, frequencies=frequencies, ground=ground, method=method)
    return spread_out(clusters=assembly.clusters, shown=seen)


def ground_seen(
    *,
    assembly: PreparedSystem,
    frequencies: Floats,
    ground: Ground,
    method: GroundMethod = "exact",
) -> Complexes:
    """As :func:`ground_matrices`, over what shows of the clusters [ohm] (f, r, r).

    Args:
        frequencies: [Hz] (f,)
        method: ``exact`` (Sommerfeld) or ``image`` (reflection coefficients)

    Raises:
        SolverError: when a wire is lower than 0.02 wavelengths
    """
    height = assembly.system.ground_height
    lowest = float(assembly.points[:, 2].min()) + height
    wavelength = SPEED_OF_LIGHT / float(frequencies.min())
    if lowest < LOWEST_WAVELENGTHS * wavelength * 0.999:
        raise SolverError(
            f"a wire hangs {lowest:.3g} m above real ground, {lowest / wavelength:.3f} "
            f"wavelengths; the model holds from {LOWEST_WAVELENGTHS} wavelengths "
            f"({LOWEST_WAVELENGTHS * wavelength:.3g} m) up: raise it, or choose perfect ground"
        )
    geometry = _Geometry(assembly)
    across, (_, highest) = geometry.extent

    def added(at: Floats) -> list[list[Complexes]]:
        return [[np.stack([_at_frequency(geometry, float(f), ground, method) for f in at])]]

    turn = np.pi * float(np.ptp(frequencies)) / SPEED_OF_LIGHT * math.hypot(across, highest)
    ((seen,),) = over_band(added, at=frequencies, turn=turn)
    return seen


class _Pair:
    """Node pairs of a block with one symmetry image of the sources."""

    def __init__(self, far: FarView, rows: slice | Indices, columns: slice, image: Image) -> None:
        up = np.array([0.0, 0.0, far.assembly.system.ground_height])
        here = far.points[rows] + up
        source = (far.points[columns] + up) * image.flip + image.shift
        self.tangents = far.tangents[rows]
        self.source_tangents = far.tangents[columns] * image.flip * image.sign
        self.charge_sign = image.sign
        gap = here[:, None, :2] - source[None, :, :2]
        self.distance = np.hypot(gap[..., 0], gap[..., 1])
        self.height = here[:, None, 2] + source[None, :, 2]
        safe = np.where(self.distance > 0.0, self.distance, 1.0)
        radial = gap / safe[..., None]
        radial[self.distance == 0.0] = (1.0, 0.0)
        across = np.stack([-radial[..., 1], radial[..., 0]], axis=-1)
        self.radial = np.einsum("abx,ax->ab", radial, self.tangents[:, :2])
        self.across = np.einsum("abx,ax->ab", across, self.tangents[:, :2])
        self.vertical = self.tangents[:, None, 2]
        self.source_radial = np.einsum("abx,bx->ab", radial, self.source_tangents[:, :2])
        self.source_across = np.einsum("abx,bx->ab", across, self.source_tangents[:, :2])
        self.source_vertical = self.source_tangents[None, :, 2]

    def contract(self, field: Complexes) -> Complexes:
        """Tangent . F . source tangent for the four components (4, m, m)."""
        result: Complexes = (
            field[0] * self.radial * self.source_radial
            + field[1] * self.across * self.source_across
            + field[2] * self.vertical * self.source_vertical
            + field[3] * (self.radial * self.source_vertical - self.vertical * self.source_radial)
        )
        return result


class _Geometry:
    """All node pairs of a system, in blocks; kept when one block holds them all."""

    def __init__(self, assembly: PreparedSystem) -> None:
        self.far = FarView(assembly)
        self.blocks = list(self.far.blocks(frequencies=1))
        symmetry = tuple(m for m in assembly.system.mirrors if not m.material)
        self._images = images(symmetry)
        self._kept: dict[bytes, list[_Pair]] = {}

    @cached_property
    def extent(self) -> tuple[float, tuple[float, float]]:
        """Largest horizontal distance of two nodes, lowest and highest sum of heights [m]."""
        far = self.far
        heights = far.points[:, 2] + far.assembly.system.ground_height
        # Runs are straight: what is farthest from anywhere is an outermost node of one.
        change = np.diff(far.home, prepend=-1, append=-1) != 0
        ends = far.points[change[:-1] | change[1:], :2]
        farthest = 0.0
        for image in self._images:
            away = ends[:, None] - (ends * image.flip[:2] + image.shift[:2])
            farthest = max(farthest, float((away**2).sum(axis=2).max()))
        return math.sqrt(farthest), (2.0 * float(heights.min()), 2.0 * float(heights.max()))

    def pairs(self, block: FarBlock, some: Indices | None = None) -> list[_Pair]:
        """Pairs of a block, or of some nodes of a system that is one block."""
        rows = block.rows if some is None else some
        name = b"" if some is None else some.tobytes()
        if name in self._kept:
            return self._kept[name]
        made = [_Pair(self.far, rows, block.columns, image) for image in self._images]
        if len(self.blocks) == 1:
            self._kept[name] = made
        return made

    def seen(
        self,
        wavenumber: float,
        name: Hashable,
        make: Callable[[list[_Pair]], Kernels],
        *,
        kinds: int,
    ) -> list[Complexes]:
        """Kernels between what shows, of a system that is one block those of the last one (r, r).

        Args:
            name: what the kernels depend on besides the nodes
            make: makes them from pairs
            kinds: how many there are: of currents, and of charges
        """
        far = self.far
        memory = far.assembly.kernels if len(self.blocks) == 1 else None
        nodes = np.concatenate([far.points, far.tangents], axis=1)
        name = ("ground", name, far.assembly.system.ground_height, far.assembly.system.mirrors)

        def some(rows: Indices) -> Kernels:
            return make(self.pairs(self.blocks[0], rows))

        if memory is not None and len(far.clusters) == 1:
            moments = moments_once(memory, far.clusters[0], wavenumber=wavenumber)[:kinds]
            return list(memory.seen(name=name, nodes=nodes, moments=moments, make=some))
        seen = far.moments(wavenumber=np.array([wavenumber]))[:kinds]
        parts = [far.empty(frequencies=1) for _ in seen]
        for block in self.blocks:
            kernels = (
                make(self.pairs(block))
                if memory is None
                else memory.kernels(name=name, nodes=nodes, make=some)
            )
            for kernel, each, part in zip(kernels, seen, parts, strict=True):
                far.project(_split(kernel), each, block, into=part)
        for part in parts:
            far.fill(into=part, frequencies=1)
        return [part[0] for part in parts]


def _at_frequency(
    geometry: _Geometry, frequency: float, ground: Ground, method: GroundMethod
) -> Complexes:
    """What the ground adds at one frequency, over what shows (r, r)."""
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    magnetic = 2j * np.pi * frequency * VACUUM_PERMEABILITY / (4.0 * np.pi)
    name = (method, ground, frequency)
    if method == "image":
        (field,) = geometry.seen(
            wavenumber,
            name,
            lambda pairs: _specular_sum(pairs, wavenumber, ground, frequency),
            kinds=1,
        )
        return magnetic * field
    farthest, heights = geometry.extent
    table = ground_table(
        largest_distance=farthest * (1.0 + 1e-9) + 1e-9,
        heights=heights,
        ground=ground,
        frequency=frequency,
    )
    factor = image_factor(ground=ground, frequency=frequency)
    vector, scalar = geometry.seen(
        wavenumber, name, lambda pairs: _sommerfeld(pairs, wavenumber, factor, table), kinds=2
    )
    electric = 2j * np.pi * frequency * VACUUM_PERMITTIVITY * 4.0 * np.pi
    return magnetic * vector + scalar / electric


def _split(kernel: Complexes) -> Floats:
    """Real and imaginary part of a kernel at one frequency (1, 2, rows, columns)."""
    return np.stack([kernel.real, kernel.imag])[None]


def _sommerfeld(
    pairs: list[_Pair], wavenumber: float, factor: complex, table: GroundTable
) -> tuple[Complexes, Complexes]:
    """Kernels of currents and of charges: the quasi-static image, and the rest by the table."""
    vector = np.zeros_like(pairs[0].distance, dtype=complex)
    scalar = np.zeros_like(vector)
    shape = vector.shape
    # All images in one go, for few nodes cost as much as many.
    fields = table.at(
        distance=np.concatenate([pair.distance.ravel() for pair in pairs]),
        height=np.concatenate([pair.height.ravel() for pair in pairs]),
    ).reshape(4, len(pairs), *shape)
    for number, pair in enumerate(pairs):
        away = np.hypot(pair.distance, pair.height)
        wave = factor * np.exp(-1j * wavenumber * away) / away
        # The image of a horizontal current runs backwards, of a vertical one along.
        flipped = pair.source_tangents * np.array([-1.0, -1.0, 1.0])
        vector += (pair.tangents @ flipped.T) * wave
        scalar -= pair.charge_sign * wave
        vector += pair.contract(fields[:, number])
    return vector, scalar


def _specular_sum(
    pairs: list[_Pair], wavenumber: float, ground: Ground, frequency: float
) -> tuple[Complexes]:
    """Field of all images."""
    fields = [_specular(pair, wavenumber, ground, frequency) for pair in pairs]
    return (np.sum(fields, axis=0),)


def _specular(pair: _Pair, wavenumber: float, ground: Ground, frequency: float) -> Complexes:
    """Field of each image, weighted by the coefficients at its own specular angle."""
    away = np.hypot(pair.distance, pair.height)
    sine, cosine = pair.height / away, pair.distance / away
    horizontal, vertical = fresnel_coefficients(
        elevation=np.arcsin(sine),
        permittivity=ground.complex_permittivity(frequency=frequency),
    )
    phase = wavenumber * away
    wave = np.exp(-1j * phase) / away
    # Dyadic of a dipole's field: transverse and along the ray {balanis-2005, eq. 4-8}.
    near = 1.0 / (1j * phase) + 1.0 / (1j * phase) ** 2
    transverse, along = wave * (1.0 + near), -2.0 * wave * near
    # The image of a horizontal moment runs backwards, of a vertical one along.
    field = np.stack(
        [
            -vertical * (transverse * sine**2 + along * cosine**2),
            horizontal * transverse,
            vertical * (transverse * cosine**2 + along * sine**2),
            vertical * (along - transverse) * sine * cosine,
        ]
    )
    return pair.contract(field)
