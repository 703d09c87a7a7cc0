"""Generators, loads and lines at the ports of an antenna, and its scattering parameters.

The antenna is its short-circuit admittance matrix; whatever hangs on the ports adds its own
admittances. Given voltages or currents of generators fix the rest {pozar-2012}.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: a line whose length is within this of a multiple of half a wave has no admittance matrix
_HALF_WAVE_GUARD = 1e-9


def scattering_parameters(*, admittance: Complexes, reference: Floats) -> Complexes:
    """Scattering matrix of an antenna with several ports {pozar-2012, sec. 4.3}.

    Args:
        admittance: short-circuit admittance [S] (f, n_ports, n_ports)
        reference: real reference resistance of each port [ohm] (n_ports,)
    """
    root = np.sqrt(reference)
    scaled = root[:, None] * admittance * root[None, :]
    unit = np.eye(len(reference))
    # (1 - y)(1 + y)^-1; both factors commute.
    result: Complexes = np.linalg.solve(unit + scaled, unit - scaled).astype(complex)
    return result
