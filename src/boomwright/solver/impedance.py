"""The matrix of the moment method at as many frequencies as wanted."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.chebyshev import chebyshev_nodes, chebyshev_weights
from boomwright.solver.wire_system import images

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: interpolated entries over a band may differ from solved ones by this share of the largest
_BAND_TOLERANCE = 1e-9


def impedance_matrices(*, assembly: PreparedSystem, frequencies: Floats) -> Complexes:
    """Matrices of the moment method, conductor loss included {harrington-1968}.

    Parameters
    ----------
    frequencies
        frequencies [Hz] (f,)

    Returns
    -------
    NDArray
        symmetric matrices over the free unknowns [ohm] (f, n, n)
    """
    wavenumber = 2.0 * np.pi * frequencies / SPEED_OF_LIGHT
    angular = (2.0 * np.pi * frequencies)[:, None, None]
    inductive, capacitive = _over_band(assembly, wavenumber)
    half_square = 0.5 * wavenumber[:, None, None] ** 2
    statics = assembly.statics
    inductive += statics.current - half_square * statics.current_far
    capacitive += statics.charge - half_square * statics.charge_far
    inductive *= 1j * angular * VACUUM_PERMEABILITY / (4.0 * np.pi)
    capacitive /= 1j * angular * VACUUM_PERMITTIVITY * 4.0 * np.pi
    matrices = inductive + capacitive
    for conductivity, loss in assembly.loss:
        resistance = surface_resistance(frequencies=frequencies, conductivity=conductivity)
        # The field inside lags by 45 degrees: the metal's reactance equals its resistance.
        matrices += (1.0 + 1.0j) * resistance[:, None, None] * loss
    return matrices


def _over_band(assembly: PreparedSystem, wavenumber: Floats) -> tuple[Complexes, Complexes]:
    """Smooth parts at all frequencies, interpolated from a few when there are many.

    The phase of the longest way turns little over a band; Chebyshev nodes for that turn are
    tried against one more solution in between, and doubled until they agree.
    """
    low, high = float(wavenumber.min()), float(wavenumber.max())
    spread = np.ptp(assembly.points, axis=0)
    turn = 0.5 * (high - low) * float(np.sqrt((spread**2).sum()))
    count = 4 + int(np.ceil(1.5 * turn))
    while count < len(wavenumber) // 2:
        nodes = chebyshev_nodes(count)
        at = 0.5 * (low + high) + 0.5 * (high - low) * nodes
        between = 0.5 * (at[count // 2] + at[count // 2 - 1])
        sampled = _smooth_parts(assembly, np.append(at, between))
        weights = chebyshev_weights(count, (2.0 * between - low - high) / (high - low))
        agrees = all(
            np.abs(np.tensordot(weights, part[:-1], axes=(0, 0)) - part[-1]).max()
            < _BAND_TOLERANCE * np.abs(part[-1]).max()
            for part in sampled
        )
        if agrees:
            places = (2.0 * wavenumber - low - high) / (high - low)
            spreading = chebyshev_weights(count, places)
            inductive, capacitive = (
                (spreading @ part[:-1].reshape(count, -1)).reshape(-1, *part.shape[1:])
                for part in sampled
            )
            return inductive, capacitive
        count *= 2
    return _smooth_parts(assembly, wavenumber)


def _smooth_parts(assembly: PreparedSystem, wavenumber: Floats) -> tuple[Complexes, Complexes]:
    """Smooth parts of the inductive and capacitive matrices (f, n, n)."""
    own, other = _node_kernels(assembly, wavenumber)
    seen = [assembly.outside_moments(wavenumber=float(k)) for k in wavenumber]
    outside_current = np.stack([each[0] for each in seen])
    outside_charge = np.stack([each[1] for each in seen])
    return (
        _sandwich(assembly.current, own[0]) + _sandwich(outside_current, other[0]),
        _sandwich(assembly.charge, own[1]) + _sandwich(outside_charge, other[1]),
    )


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


def _node_kernels(assembly: PreparedSystem, wavenumber: Floats) -> tuple[Complexes, Complexes]:
    """Smooth kernels between nodes, images summed (currents or charges, f, m, m).

    The first are those of nodes on one axis, with the ring's thickness in the distance; the
    second those of all others, whose moments hold it.
    """
    size = len(assembly.points)
    kernels = np.zeros((2, 2, len(wavenumber), size, size), dtype=complex)
    k = wavenumber[:, None, None]
    for number, image in enumerate(images(assembly.system.mirrors)):
        source = assembly.points * image.flip + image.shift
        gap = assembly.points[:, None, :] - source[None, :, :]
        coaxial, kinkless = assembly.coaxial[number], assembly.kinkless[number]
        squared = np.einsum("abx,abx->ab", gap, gap) + assembly.squared_radius[number]
        # Two nodes may coincide only where the kink is taken out; the limit there is -jk.
        distance = np.sqrt(np.maximum(squared, 1e-18))
        wave = np.exp(-1j * k * distance)
        smooth = (wave - kinkless * (1.0 - 0.5 * k**2 * squared)) / distance
        close, far = coaxial * smooth, (1.0 - coaxial) * smooth
        product = image.sign * (assembly.tangents @ (assembly.tangents * image.flip).T)
        for side, kernel in enumerate((close, far)):
            kernels[side, 0] += product * kernel
            kernels[side, 1] += image.sign * kernel
    return kernels[0], kernels[1]


def _sandwich(moments: Floats, kernel: Complexes) -> Complexes:
    """Moments^T kernel moments at every frequency, with real matrix products."""
    split = kernel.view(float).reshape(*kernel.shape, 2).transpose(0, 3, 1, 2)
    here = moments if moments.ndim == 2 else moments[:, None]
    both = np.swapaxes(here, -1, -2) @ (split @ here)
    result: Complexes = both[:, 0] + 1j * both[:, 1]
    return result
