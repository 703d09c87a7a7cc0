"""Plane-wave reflection at flat real ground {balanis-2005}."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Complexes


def fresnel_coefficients(
    *, elevation: NDArray[np.float64], permittivity: complex
) -> tuple[Complexes, Complexes]:
    """Reflection coefficients for horizontal and vertical polarisation.

    Over a perfect conductor the horizontal one is -1 and the vertical one +1: the vertical
    coefficient belongs to the field component that the image of a vertical dipole repeats.

    Args:
        elevation: grazing angle [rad] (any shape)
        permittivity: complex relative permittivity of the ground, e^(+jwt) [-]

    Returns:
        horizontal and vertical coefficient (same shape) {balanis-2005, eq. 4-125}
    """
    sine = np.sin(elevation)
    root = np.sqrt(permittivity - np.cos(elevation) ** 2 + 0j)
    # At grazing over ground that is no ground both vanish, and nothing is reflected.
    nothing = np.abs(sine) + np.abs(root) == 0.0
    sine = np.where(nothing, 1.0, sine)
    root = np.where(nothing, np.where(permittivity == 1.0, 1.0, root), root)
    horizontal = (sine - root) / (sine + root)
    vertical = (permittivity * sine - root) / (permittivity * sine + root)
    return horizontal, vertical
