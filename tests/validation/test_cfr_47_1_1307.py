"""47 CFR 1.1307(b)(3)(i)(C) Table 1, factors from memory.

The rule's factors are the general-population limit of 47 CFR 1.1310 met at the given distance
with full ground reflection and effective radiated power over a half-wave dipole (1.64). That
is held here against the table, which is rounded to two or three figures.
"""

import math

import pytest

from boomwright.permits import exempt_radiated_power, fcc_limit


@pytest.mark.parametrize(
    "frequency_mhz", [1.0, 3.6, 14.2, 28.5, 50.1, 145.0, 435.0, 1296.0, 10368.0]
)
def test_agrees_with_the_limit_and_full_reflection(frequency_mhz):
    distance = 60.0
    density = fcc_limit(frequency=frequency_mhz * 1e6, group="general").power_density
    expected = density * math.pi * distance**2 / 1.64
    power = exempt_radiated_power(frequency=frequency_mhz * 1e6, distance=distance)
    assert power == pytest.approx(expected, rel=5e-3)


def test_no_exemption_closer_than_a_wavelength_over_two_pi():
    assert exempt_radiated_power(frequency=14.2e6, distance=3.3) is None
    assert exempt_radiated_power(frequency=14.2e6, distance=3.4) is not None
