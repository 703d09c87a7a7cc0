"""Plane-wave reflection at flat real ground {balanis-2005}."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]


def fresnel_coefficients(
    *, elevation: NDArray[np.float64], permittivity: complex
) -> tuple[Complexes, Complexes]:
    """Reflection coefficients for horizontal and vertical polarisation.

    Over a perfect conductor the horizontal one is -1 and the vertical one +1: the vertical
    coefficient belongs to the field component that the image of a vertical dipole repeats.

    Parameters
    ----------
    elevation
        grazing angle [rad] (any shape)
    permittivity
        complex relative permittivity of the ground, e^(+jwt) [-]

    Returns
    -------
    tuple of NDArray
        horizontal and vertical coefficient [-] (same shape) {balanis-2005, eq. 4-125}
    """
    sine = np.sin(elevation)
    root = np.sqrt(permittivity - np.cos(elevation) ** 2 + 0j)
    horizontal = (sine - root) / (sine + root)
    vertical = (permittivity * sine - root) / (permittivity * sine + root)
    return horizontal, vertical
