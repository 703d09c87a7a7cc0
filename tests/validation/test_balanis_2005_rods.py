"""Tee, half-tee and folded element by C. A. Balanis, Antenna Theory, 3rd ed., section 9.7."""

from __future__ import annotations

import math

import pytest
from check_values import feed_check as check

from antennas import resonant_load
from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.feed import (
    RodGeometry,
    design_folded_element,
    design_gamma,
    design_tee,
)

FREQUENCY = 14.15e6
K = 2.0 * math.pi * FREQUENCY / SPEED_OF_LIGHT
# A driven element of a beam: low resistance, a little short.
LOAD = resonant_load(frequency=FREQUENCY, impedance=28 - 12j, quality=12.0)
GEOMETRY = RodGeometry(element_diameter=25.4e-3, rod_diameter=10e-3, spacing=90e-3)


@pytest.mark.parametrize("which", range(4))
def test_current_division_and_step_up(which):
    values = check("tmatch-alpha-points")
    u, v = values["inputs"]["u"][which], values["inputs"]["v"][which]
    geometry = RodGeometry(element_diameter=2e-2 * u, rod_diameter=2e-2, spacing=1e-2 * v)
    assert geometry.current_division == pytest.approx(values["expected"]["alpha"][which], abs=1e-4)
    assert geometry.step_up == pytest.approx(values["expected"]["step_up"][which], rel=1e-4)


def _published_tee(impedance: complex, *, rod_length: float) -> complex:
    """Equations of the check, written out anew: l_rod counts both rods together."""
    assert "2 Zt (1+alpha)^2 Za" in check("tmatch-balanis")["expected"]["Zin"]
    a, rod, s = 12.7e-3, 5e-3, 90e-3
    u, v = a / rod, s / rod
    alpha = math.acosh((v * v - u * u + 1) / (2 * v)) / math.acosh(
        (v * v + u * u - 1) / (2 * u * v)
    )
    z0 = VACUUM_IMPEDANCE / (2 * math.pi) * math.acosh((s * s - a * a - rod * rod) / (2 * a * rod))
    zt = 1j * z0 * math.tan(K * rod_length / 2.0)
    step = (1.0 + alpha) ** 2
    return 2 * zt * step * impedance / (2 * zt + step * impedance)


def test_tee_meets_the_published_equations():
    found = design_tee(load=LOAD, frequency=FREQUENCY, geometry=GEOMETRY)
    published = _published_tee(28 - 12j, rod_length=2.0 * found.rod_length)
    # 60 ohm in the book is eta / 2 pi rounded: 1e-4.
    assert published.real == pytest.approx(200.0, rel=1e-9)
    assert found.capacitance == pytest.approx(
        1.0 / (math.pi * FREQUENCY * published.imag), rel=1e-9
    )
    seen = complex(found.match.transform(impedance=28 - 12j, frequency=FREQUENCY))
    assert seen == pytest.approx(50.0, abs=1e-6)


def test_gamma_is_half_a_tee():
    found = design_gamma(load=LOAD, frequency=FREQUENCY, geometry=GEOMETRY)
    published = _published_tee(28 - 12j, rod_length=2.0 * found.rod_length) / 2.0
    assert published.real == pytest.approx(50.0, rel=1e-9)
    reactance = 1.0 / (2.0 * math.pi * FREQUENCY * found.capacitance)
    assert reactance == pytest.approx(published.imag, rel=1e-9)
    seen = complex(found.match.transform(impedance=28 - 12j, frequency=FREQUENCY))
    assert seen == pytest.approx(50.0, abs=1e-6)


def test_folded_half_wave_dipole_of_equal_conductors():
    values = check("dip-folded")
    impedance = complex(*values["inputs"]["Za_ohm"])
    geometry = RodGeometry(element_diameter=10e-3, rod_diameter=10e-3, spacing=0.2)
    assert geometry.step_up == pytest.approx(values["inputs"]["step_up"], rel=1e-12)
    match = design_folded_element(
        load=resonant_load(frequency=FREQUENCY, impedance=impedance, quality=8.0),
        frequency=FREQUENCY,
        geometry=geometry,
        half_length=SPEED_OF_LIGHT / FREQUENCY / 4.0,
        reference=300.0,
    )
    seen = complex(match.transform(impedance=impedance, frequency=FREQUENCY))
    assert seen == pytest.approx(complex(*values["expected"]), abs=1e-9)
