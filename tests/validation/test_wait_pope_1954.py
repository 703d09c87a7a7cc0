"""Loss of verticals over radial wires: the formula's own figures, and a measurement of 1937.

The figures of the formula {wait-pope-1954} were worked out apart from the package: 3 MHz, mast of
77 degrees, wire radius 1.3 mm. The measurement is G. H. Brown, R. F. Lewis and J. Epstein, Ground
Systems as a Factor in Antenna Efficiency, Proc. IRE 25 (1937), figure 30: field of a quarter wave
over radials of 0.412 wavelengths, 3 MHz, as read from its curve to 0.3 dB.
"""

from __future__ import annotations

import math

import pytest

from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver.ground_screen import screen_resistance

FREQUENCY = 3e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
VACUUM_PERMITTIVITY = 8.854e-12


def loss(count, *, length_wl, conductivity, permittivity, height_deg=77.0):
    angular = 2.0 * math.pi * FREQUENCY
    return screen_resistance(
        count=count,
        length=length_wl * WAVELENGTH,
        wire_radius=1.3e-3,
        height=height_deg / 360.0 * WAVELENGTH,
        permittivity=permittivity - 1j * conductivity / (angular * VACUUM_PERMITTIVITY),
        frequency=FREQUENCY,
    )


@pytest.mark.parametrize(
    ("conductivity", "permittivity", "length_wl", "expected"),
    [
        (0.004, 13, 0.137, [12.7, 10.3, 9.2, 8.9]),
        (0.004, 13, 0.274, [11.2, 7.5, 5.2, 4.3]),
        (0.004, 13, 0.412, [10.7, 6.5, 3.5, 2.1]),
        (0.002, 10, 0.274, [14.0, 9.3, 6.7, 5.8]),
        (0.010, 20, 0.274, [8.2, 5.6, 3.8, 2.9]),
    ],
)
def test_figures_of_the_formula(conductivity, permittivity, length_wl, expected):
    found = [
        loss(n, length_wl=length_wl, conductivity=conductivity, permittivity=permittivity)
        for n in (15, 30, 60, 113)
    ]
    assert found == pytest.approx(expected, rel=0.01, abs=0.05)


@pytest.mark.parametrize(("conductivity", "expected"), [(0.002, 69.5), (0.004, 50.3), (0.01, 31.3)])
def test_without_radials(conductivity, expected):
    permittivity = {0.002: 10, 0.004: 13, 0.01: 20}[conductivity]
    found = loss(0, length_wl=0.1, conductivity=conductivity, permittivity=permittivity)
    assert found == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(
    ("count", "measured_db"), [(15, -2.0), (30, -1.3), (60, -0.7), (113, -0.2)]
)
def test_the_measured_loss_lies_within_the_band_that_is_told(count, measured_db):
    """Half to twice of the model, the reading of the curve included; 36.6 ohm radiate."""
    read = [36.6 * (10.0 ** (-(measured_db + off) / 10.0) - 1.0) for off in (0.3, -0.3)]
    model = loss(count, length_wl=0.412, conductivity=0.004, permittivity=13, height_deg=90.0)
    assert read[0] < 2.0 * model
    assert read[1] > 0.5 * model
