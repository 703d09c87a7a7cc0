"""Eigenfunction series of a perfectly conducting wedge, summed here.

u = (1/n) sum_m e_m J_(m/n)(k r) e^(j m pi / 2n) [cos(m(p-p')/n) -+ cos(m(p+p')/n)], e_0 = 1,
else 2: source at r, p'; observer infinitely far at p; relative to the wave at the edge.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import jv

from boomwright.reach.wedge import face_weights, wedge_coefficient

K = 2.0 * np.pi


def _series(*, rho: float, phi: np.ndarray, source: float, sign: float, n: float) -> np.ndarray:
    m = np.arange(int(n * (K * rho + 60)))[:, None]
    weight = np.where(m == 0, 1.0, 2.0) * jv(m / n, K * rho) * np.exp(0.5j * np.pi * m / n)
    modes = np.cos(m * (phi - source) / n) + sign * np.cos(m * (phi + source) / n)
    return (weight * modes).sum(axis=0) / n


# The uniform theory is the leading term for large k r: the error must fall at least with 1/r.
@pytest.mark.parametrize(("rho", "tolerance"), [(1.0, 7e-3), (3.0, 3e-3), (10.0, 1e-3)])
@pytest.mark.parametrize("n", [0.95, 1.1, 1.5, 1.75, 1.9])
@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize("source_deg", [21.3, 70.0, 121.7])
def test_wedge(rho, tolerance, n, sign, source_deg):
    source = np.radians(source_deg)
    phi = np.radians(np.linspace(2.0, 180.0 * n - 2.0, 53))
    total = (np.abs(phi - source) < np.pi) * np.exp(1j * K * rho * np.cos(phi - source))
    total = total + sign * (phi + source < np.pi) * np.exp(1j * K * rho * np.cos(phi + source))
    other = 2.0 * n * np.pi - phi - source
    total = total + sign * (other < np.pi) * np.exp(1j * K * rho * np.cos(other))
    coefficient = wedge_coefficient(
        wavenumber=K,
        distance=rho,
        n=n,
        incidence=source,
        departure=phi,
        weights=face_weights(
            n=n,
            incidence=source,
            departure=phi,
            reflection=lambda angle: np.full(angle.shape, sign),
        ),
    )
    uniform = total + coefficient * np.exp(-1j * K * rho) / np.sqrt(rho)
    exact = _series(rho=rho, phi=phi, source=source, sign=sign, n=n)
    np.testing.assert_allclose(uniform, exact, rtol=0.0, atol=tolerance)
