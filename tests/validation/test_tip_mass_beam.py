"""A cantilever with a mass at its tip: roots of its frequency equation (one of them published)."""

from __future__ import annotations

from math import cos, cosh, pi, sin, sinh, sqrt, tan

import pytest
from scipy.optimize import brentq
from structure_reference import expected

from boomwright.structure.support.sway import SwayHold, SwayMass, SwayPart, first_sway

STIFFNESS, MASS, LENGTH = 1.0e4, 5.0, 9.0
SCALE = sqrt(STIFFNESS / (MASS * LENGTH**4)) / (2.0 * pi)


def swayed(share: float) -> float:
    """First root of the frequency equation by the eigenproblem, for a mass at the tip."""
    part = SwayPart(top=LENGTH, stiffness=STIFFNESS, mass_per_length=MASS)
    tip = (SwayMass(height=LENGTH, mass=share * MASS * LENGTH),) if share else ()
    return first_sway(parts=(part,), masses=tip, weightless=True) / SCALE


@pytest.mark.parametrize(
    ("row", "share"),
    [
        ("tipmass_0p1", 0.1),
        ("tipmass_0p5", 0.5),
        ("tipmass_1", 1.0),
        ("tipmass_2", 2.0),
        ("tipmass_5", 5.0),
        ("tipmass_10", 10.0),
    ],
)
def test_first_root_of_the_frequency_equation(row, share):
    assert swayed(share) == pytest.approx(expected(row), rel=5e-5)

    def equation(x: float) -> float:
        tip = share * x * (cos(x) * sinh(x) - sin(x) * cosh(x))
        return 1.0 + cos(x) * cosh(x) + tip

    assert swayed(share) == pytest.approx(brentq(equation, 0.1, 1.9) ** 2, rel=5e-6)


def test_an_exercise_with_data_in_print():
    part = SwayPart(top=1.0, stiffness=2e11 * 4.7e-6, mass_per_length=7800.0 * 2.6e-3)
    found = first_sway(parts=(part,), masses=(SwayMass(height=1.0, mass=10.0),), weightless=True)
    assert found == pytest.approx(expected("tipmass_example"), abs=0.01)


def test_the_quick_formula():
    # sqrt(3 EI / ((M + 0.236 m L) L^3)) / 2 pi: 0.05 % high at M = m L.
    mass = MASS * LENGTH
    quick = sqrt(3.0 * STIFFNESS / (1.236 * mass * LENGTH**3)) / (2.0 * pi)
    assert swayed(1.0) * SCALE == pytest.approx(quick, rel=1e-3)


def test_a_rigid_bar_on_a_spring_by_hand():
    # Hinged foot, spring k at the top: f = sqrt(3 k / m L) / 2 pi; it tips at P = k L.
    spring = 800.0
    part = SwayPart(top=LENGTH, stiffness=1e9, mass_per_length=MASS, seat=0.0)
    hold = SwayHold(height=LENGTH, stiffness=spring)
    found = first_sway(parts=(part,), holds=(hold,), weightless=True)
    assert found == pytest.approx(sqrt(3.0 * spring / (MASS * LENGTH)) / (2.0 * pi), rel=1e-4)
    tipping = spring * LENGTH
    loads = [SwayHold(height=LENGTH, stiffness=spring, pull=share * tipping) for share in (0.5, 1)]
    # Its own weight of 441 N presses too, at half the height.
    half = first_sway(parts=(part,), holds=(loads[0],))
    own = MASS * LENGTH * 9.80665 / 2.0
    assert half / found == pytest.approx(sqrt(1.0 - 0.5 - own / tipping), rel=1e-3)
    assert first_sway(parts=(part,), holds=(loads[1],)) == 0.0


def test_weight_softens_a_pole_as_euler_says():
    # A light pole under P at its top: k = P / (L (tan kL / kL - 1)), kL = pi/2 sqrt(P / Pcr).
    critical = pi**2 * STIFFNESS / (4.0 * LENGTH**2)
    part = SwayPart(top=LENGTH, stiffness=STIFFNESS, mass_per_length=1e-4)
    load = SwayMass(height=LENGTH, mass=0.6 * critical / 9.80665)
    stiff, soft = (first_sway(parts=(part,), masses=(load,), weightless=w) for w in (True, False))
    bent, press = sqrt(0.6) * pi / 2.0, 0.6 * critical
    left = press / (LENGTH * (tan(bent) / bent - 1.0)) / (3.0 * STIFFNESS / LENGTH**3)
    assert soft / stiff == pytest.approx(sqrt(left), rel=1e-4)
    over = SwayMass(height=LENGTH, mass=1.01 * critical / 9.80665)
    assert first_sway(parts=(part,), masses=(over,)) == 0.0


def test_a_mast_on_two_pins_is_softer_than_a_clamped_one():
    # Cantilever L with a seat 3 EI / b: a light tip mass sways on L^3/3EI + L^2 b/3EI.
    back = 1.5
    part = SwayPart(
        top=LENGTH, stiffness=STIFFNESS, mass_per_length=1e-4, seat=3.0 * STIFFNESS / back
    )
    found = first_sway(parts=(part,), masses=(SwayMass(height=LENGTH, mass=20.0),), weightless=True)
    give = LENGTH**2 * (LENGTH + back) / (3.0 * STIFFNESS)
    assert found == pytest.approx(sqrt(1.0 / (20.0 * give)) / (2.0 * pi), rel=1e-4)
