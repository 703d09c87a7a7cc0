"""Sommerfeld's exact field of a plane wave at a perfectly conducting half-plane.

u = e^(j pi/4)/sqrt(pi) [e^(jk r cos(p-p')) Fr(-sqrt(2kr) cos((p-p')/2))
    -+ e^(jk r cos(p+p')) Fr(-sqrt(2kr) cos((p+p')/2))], Fr(a) = int_a^inf exp(-j t^2) dt.
For the half-plane the uniform theory is exact, so the tolerance is rounding.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import fresnel

from boomwright.reach.wedge import face_weights, wedge_coefficient

K = 2.0 * np.pi


def _fresnel_integral(a: np.ndarray) -> np.ndarray:
    sine, cosine = fresnel(a * np.sqrt(2.0 / np.pi))
    return np.sqrt(np.pi / 2.0) * ((0.5 - cosine) - 1j * (0.5 - sine))


def _exact(*, rho: float, phi: np.ndarray, source: float, sign: float) -> np.ndarray:
    total = np.zeros(phi.shape, dtype=complex)
    for angle, weight in ((phi - source, 1.0), (phi + source, sign)):
        argument = -np.sqrt(2.0 * K * rho) * np.cos(angle / 2.0)
        total += weight * np.exp(1j * K * rho * np.cos(angle)) * _fresnel_integral(argument)
    return total * np.exp(0.25j * np.pi) / np.sqrt(np.pi)


@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize("source_deg", [15.0, 50.0, 90.0, 140.0])
@pytest.mark.parametrize("rho", [0.2, 1.3, 40.0])
def test_half_plane(rho, source_deg, sign):
    source = np.radians(source_deg)
    # 0.37 degrees off the round angles, where a shadow boundary would leave the side open.
    phi = np.radians(np.arange(0.37, 360.0, 3.0))
    direct = (phi < np.pi + source) * np.exp(1j * K * rho * np.cos(phi - source))
    mirrored = sign * (phi < np.pi - source) * np.exp(1j * K * rho * np.cos(phi + source))
    coefficient = wedge_coefficient(
        wavenumber=K,
        distance=rho,
        n=2.0,
        incidence=source,
        departure=phi,
        weights=face_weights(
            n=2.0,
            incidence=source,
            departure=phi,
            reflection=lambda angle: np.full(angle.shape, sign),
        ),
    )
    uniform = direct + mirrored + coefficient * np.exp(-1j * K * rho) / np.sqrt(rho)
    exact = _exact(rho=rho, phi=phi, source=source, sign=sign)
    np.testing.assert_allclose(uniform, exact, rtol=0.0, atol=1e-12)


def test_continuous_through_the_shadow_boundary():
    source, rho = np.radians(50.0), 3.0
    off = np.array([-1e-4, -1e-6, -1e-8, 1e-8, 1e-6, 1e-4])
    phi = np.pi + source + off
    direct = (off < 0) * np.exp(1j * K * rho * np.cos(phi - source))
    coefficient = wedge_coefficient(
        wavenumber=K,
        distance=rho,
        n=2.0,
        incidence=source,
        departure=phi,
        weights=face_weights(
            n=2.0,
            incidence=source,
            departure=phi,
            reflection=lambda angle: np.full(angle.shape, -1.0),
        ),
    )
    uniform = direct + coefficient * np.exp(-1j * K * rho) / np.sqrt(rho)
    exact = _exact(rho=rho, phi=phi, source=source, sign=-1.0)
    np.testing.assert_allclose(uniform, exact, rtol=0.0, atol=1e-10)
