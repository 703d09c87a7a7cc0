"""Average of 1/R between coaxial rings against direct integration round the circle.

NIST Digital Library of Mathematical Functions, chapter 19 (complete elliptic integrals,
eq. 19.2.8); the reference is the integral itself by adaptive quadrature (QUADPACK, in SciPy).
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad

from boomwright.solver.runs.ring_kernel import ring_potential, ring_radial

CASES = [
    (0.0, 1.0, 0.5),
    (0.01, 1.0, 1.0),
    (1.0, 1.0, 1.0),
    (0.3, 0.2, 0.9),
    (40.0, 1.0, 0.7),
    (0.5, 1.0, 0.01),
    (0.5, 1.0, 0.0),
]


def average(axial, radius, source, weight):
    def integrand(angle):
        squared = axial**2 + (radius - source) ** 2 + 4 * radius * source * np.sin(angle / 2) ** 2
        return weight(angle) / np.sqrt(squared)

    value, _ = quad(
        integrand, 0.0, np.pi, epsabs=1e-12, epsrel=1e-11, limit=400, points=[0.01, 0.1]
    )
    return value / np.pi


def found(kernel, axial, radius, source):
    arguments = (np.array([value]) for value in (axial, radius, source))
    return float(
        kernel(**dict(zip(("axial", "radius", "source_radius"), arguments, strict=True)))[0]
    )


def nearness(**place):
    return ring_potential(**place)[0]


@pytest.mark.parametrize(("axial", "radius", "source"), CASES)
def test_potential_of_a_ring(axial, radius, source):
    expected = average(axial, radius, source, lambda angle: 1.0)
    assert found(nearness, axial, radius, source) == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize(("axial", "radius", "source"), CASES)
def test_radial_current_of_a_ring(axial, radius, source):
    if source == 0.0:
        expected, floor = 0.0, 1e-12
    else:
        expected, floor = average(axial, radius, source, np.cos), 1e-12
    # Far away the average is a small difference: held to the size of the potential.
    assert found(ring_radial, axial, radius, source) == pytest.approx(
        expected, rel=1e-8, abs=max(floor, 1e-9 / np.hypot(axial, radius))
    )
