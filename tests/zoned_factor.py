"""The plain factor of ground in zones, which fields over them must follow."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.reach.ground_reflection import ground_coefficients
from boomwright.reach.ground_zones import ZonedGround, zone_weights


def ground_factor(
    ground: ZonedGround,
    *,
    height: float,
    elevation: ArrayLike,
    frequency: float,
    polarisation: str = "horizontal",
) -> NDArray[np.complex128]:
    """Field over zones of ground relative to the same antenna's field in free space (n,)."""
    angle = np.atleast_1d(np.asarray(elevation, dtype=float))
    wavelength = SPEED_OF_LIGHT / frequency
    wavenumber = 2.0 * math.pi / wavelength
    weights = zone_weights(ground, height=height, elevation=angle, wavelength=wavelength)
    total = np.ones(len(angle), dtype=complex)
    for weight, (each, drop) in zip(weights, ground.grounds, strict=True):
        both = ground_coefficients(ground=each, elevation=angle, frequency=frequency)
        phase = np.exp(-2j * wavenumber * (height + drop) * np.sin(angle))
        total += weight * both[0 if polarisation == "horizontal" else 1] * phase
    return total
