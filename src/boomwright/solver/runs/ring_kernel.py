"""The static kernel between two coaxial rings of charge or current.

A tube's current is spread evenly around it, so the potential of one ring at another is the
average of 1/R around the circle, R^2 = dz^2 + (a-b)^2 + 4ab sin^2(phi/2): a complete elliptic
integral {dlmf-19}. Unlike the kernel of a filament it stays honest below one radius.
"""

from __future__ import annotations

import numpy as np

from boomwright.base.array_types import Floats

#: keeps the logarithm finite where two quadrature points fall on each other
_SMALLEST_COMPLEMENT = 1e-30
_SMALLEST_SHARE = 1e-15


def ring_potential(
    *, axial: Floats, radius: Floats, source_radius: Floats
) -> tuple[Floats, Floats]:
    """Average 1/R between two coaxial rings, and the root of the average of R^2.

    The first is one over the arithmetic-geometric mean of the largest and the smallest R
    {dlmf-19, eq. 19.8.5}.

    Args:
        axial: distance of the ring planes [m] (any shape)
        radius: radius of the observed ring [m] (same shape)
        source_radius: radius of the source ring [m] (same shape)

    Returns:
        both [1/m], [m] (same shape)
    """
    # With the mean square and twice the product of both radii, largest and smallest R are roots
    # of sum and difference.
    squared = axial * axial
    smallest = radius - source_radius
    squared += smallest * smallest
    crossed = 2.0 * radius * source_radius
    other = np.sqrt(squared)
    squared += crossed
    distance = np.sqrt(squared)
    squared += crossed
    mean = np.sqrt(squared)
    np.maximum(other, _SMALLEST_SHARE * mean, out=other)
    # The distance of the two falls with its square: 1e-8 here is 1e-17 after one more mean.
    while (mean - other > 1e-8 * mean).any():
        np.multiply(mean, other, out=squared)
        mean += other
        mean *= 0.5
        np.sqrt(squared, out=other)
    mean += other
    np.divide(2.0, mean, out=mean)
    return mean, distance


def ring_radial(*, axial: Floats, radius: Floats, source_radius: Floats) -> Floats:
    """Average cos(phi)/R between two coaxial rings, for currents along the radius.

    Args:
        axial: distance of the ring planes [m] (any shape)
        radius: radius of the observed ring [m] (same shape)
        source_radius: radius of the source ring [m] (same shape)

    Returns:
        <cos(phi)/R> [1/m] (same shape) {dlmf-19, eq. 19.2.8}
    """
    far_squared = axial**2 + (radius + source_radius) ** 2
    modulus = 4.0 * radius * source_radius / far_squared
    complement = (axial**2 + (radius - source_radius) ** 2) / far_squared
    other = np.sqrt(np.maximum(complement, _SMALLEST_COMPLEMENT))
    # The integrals of both kinds by their arithmetic-geometric mean {dlmf-19, eqs. 19.8.5 and
    # 19.8.6}: of their difference only the squares of half differences are left.
    half = modulus / (2.0 * (1.0 + other))
    share = half * half / np.maximum(modulus, _SMALLEST_COMPLEMENT)
    total, weight = share.copy(), 1.0
    mean, other = 0.5 * (1.0 + other), np.sqrt(other)
    while (half > 1e-8 * mean).any():
        half = 0.5 * (mean - other)
        mean, other = mean - half, np.sqrt(mean * other)
        weight *= 2.0
        total += weight * half * half / np.maximum(modulus, _SMALLEST_COMPLEMENT)
    radial: Floats = 2.0 * total / (mean * np.sqrt(far_squared))
    return radial
