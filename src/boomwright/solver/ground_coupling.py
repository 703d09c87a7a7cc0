"""What real ground adds to the matrix of the moment method.

Two ways: ``exact`` takes the quasi-static image by potentials and the rest of the reflected
field from Sommerfeld tables; ``image`` is the quick one, every node pair's image weighted by
the plane-wave coefficients at its own specular angle. Their difference is part of the error
band. Both work between nodes, since the ground is never nearer than a panel resolves.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import (
    SPEED_OF_LIGHT,
    VACUUM_PERMEABILITY,
    VACUUM_PERMITTIVITY,
    SolverError,
)
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.fresnel import fresnel_coefficients
from boomwright.solver.ground import Ground
from boomwright.solver.half_space import ground_table, image_factor
from boomwright.solver.wire_system import images

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

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
    """Matrices to add for the field that real ground reflects.

    Parameters
    ----------
    frequencies
        frequencies [Hz] (f,)
    method
        ``exact`` (Sommerfeld) or ``image`` (reflection coefficients)

    Returns
    -------
    NDArray
        symmetric matrices over the free unknowns [ohm] (f, n, n)

    Raises
    ------
    SolverError
        when a wire is lower than 0.02 wavelengths
    """
    height = assembly.system.ground_height
    lowest = float(assembly.points[:, 2].min()) + height
    wavelength = SPEED_OF_LIGHT / float(frequencies.min())
    if lowest < LOWEST_WAVELENGTHS * wavelength * 0.999:
        msg = (
            f"a wire hangs {lowest:.3g} m above real ground, {lowest / wavelength:.3f} "
            f"wavelengths; the model holds from {LOWEST_WAVELENGTHS} wavelengths "
            f"({LOWEST_WAVELENGTHS * wavelength:.3g} m) up: raise it, or choose perfect ground"
        )
        raise SolverError(msg)
    pairs = _pairs(assembly, height)
    return np.stack(
        [
            _at_frequency(assembly, pairs, float(frequency), ground, method)
            for frequency in frequencies
        ]
    )


class _Pair:
    """Geometry of all node pairs with one symmetry image of the sources."""

    def __init__(self, assembly: PreparedSystem, height: float, number: int) -> None:
        image = images(tuple(m for m in assembly.system.mirrors if not m.material))[number]
        here = assembly.points + np.array([0.0, 0.0, height])
        source = here * image.flip + image.shift
        self.tangents = assembly.tangents
        self.source_tangents = assembly.tangents * image.flip * image.sign
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


def _pairs(assembly: PreparedSystem, height: float) -> list[_Pair]:
    symmetry = tuple(m for m in assembly.system.mirrors if not m.material)
    return [_Pair(assembly, height, number) for number in range(len(images(symmetry)))]


def _at_frequency(
    assembly: PreparedSystem,
    pairs: list[_Pair],
    frequency: float,
    ground: Ground,
    method: GroundMethod,
) -> Complexes:
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    magnetic = 2j * np.pi * frequency * VACUUM_PERMEABILITY / (4.0 * np.pi)
    electric = 2j * np.pi * frequency * VACUUM_PERMITTIVITY * 4.0 * np.pi
    current, charge = assembly.outside_moments(wavenumber=wavenumber)
    if method == "image":
        specular = np.stack([_specular(pair, wavenumber, ground, frequency) for pair in pairs]).sum(
            axis=0
        )
        image: Complexes = magnetic * (current.T @ specular @ current)
        return image
    factor = image_factor(ground=ground, frequency=frequency)
    table = ground_table(
        largest_distance=max(float(pair.distance.max()) for pair in pairs) * (1.0 + 1e-9) + 1e-9,
        heights=(
            min(float(pair.height.min()) for pair in pairs),
            max(float(pair.height.max()) for pair in pairs),
        ),
        ground=ground,
        frequency=frequency,
    )
    vector = np.zeros_like(pairs[0].distance, dtype=complex)
    scalar = np.zeros_like(vector)
    for pair in pairs:
        away = np.hypot(pair.distance, pair.height)
        wave = factor * np.exp(-1j * wavenumber * away) / away
        # The image of a horizontal current runs backwards, of a vertical one along.
        flipped = pair.source_tangents * np.array([-1.0, -1.0, 1.0])
        vector += (pair.tangents @ flipped.T) * wave
        scalar -= pair.charge_sign * wave
        field = table.at(distance=pair.distance.ravel(), height=pair.height.ravel())
        vector += pair.contract(field.reshape(4, *pair.distance.shape))
    inductive = current.T @ vector @ current
    capacitive = charge.T @ scalar @ charge
    exact: Complexes = magnetic * inductive + capacitive / electric
    return exact


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
