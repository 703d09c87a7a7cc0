"""Tee, gamma and folded element as wires, against C. A. Balanis, Antenna Theory, 3rd ed., 9.7.

The published tee and folded element are lines and transformers. Two things they leave out are
put back here by plain circuit reasoning, so that the field can be held to them: the rods make
the element's middle thicker, which takes inductance from where its current is greatest, and
the strap lengthens the rod by half the spacing.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.feed.field_shapes import FoldedShape, GammaShape, SplitShape, TeeShape
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection

FREQUENCY = 14.15e6
K = 2.0 * math.pi * FREQUENCY / SPEED_OF_LIGHT
A, B = 0.011, 0.005


def dipole(half: float) -> Beam:
    element = Element(
        role="driven", position=0.0, half=(TubeSection(diameter=2.0 * A, length=half),)
    )
    return Beam(
        name="dipole",
        band=(14.0e6, 14.3e6),
        design_frequency=FREQUENCY,
        height=15.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=0.02),
        elements=(element,),
    )


def seen(beam: Beam, shape) -> complex:
    setting = FieldSetting()
    solution = solve_wires(
        beam=beam,
        system=shape.wires(beam=beam, setting=setting),
        frequencies=np.array([FREQUENCY]),
        setting=setting,
    )
    return complex(solution.impedance[0])


def published(element: complex, *, rod: float, spacing: float, rods: int) -> complex:
    """Section 9.7 with the two omissions put back.

    One rod sees the whole element in series with it: (1 + alpha)^2 Z_a beside one line. The
    book's gamma takes half of Z_a, as over a conducting plane.
    """
    u, v = A / B, spacing / B
    alpha = math.acosh((v * v - u * u + 1) / (2 * v)) / math.acosh(
        (v * v + u * u - 1) / (2 * u * v)
    )
    line = VACUUM_IMPEDANCE / (2 * math.pi) * math.acosh((spacing**2 - A * A - B * B) / (2 * A * B))
    # Two parallel wires share the current alpha : 1; the mean log distance of the pair.
    thick = math.exp((alpha * math.log(A) + math.log(spacing)) / (1.0 + alpha))
    squared = rod / 2.0 + math.sin(2.0 * K * rod) / (4.0 * K)
    saved = VACUUM_IMPEDANCE * K / (2.0 * math.pi) * math.log(thick / A) * squared * rods
    stepped = (1.0 + alpha) ** 2 * (element - 1j * saved)
    stub = 1j * rods * line * cmath.tan(K * (rod + spacing / 2.0))
    return stepped * stub / (stepped + stub)


@pytest.mark.parametrize("spacing", [0.07, 0.1, 0.15])
@pytest.mark.parametrize("rod", [0.5, 0.8, 1.1])
@pytest.mark.parametrize("half", [4.85, 5.05])
@pytest.mark.parametrize("kind", ["gamma", "tee"])
def test_rods_meet_the_equations_with_the_omissions_put_back(kind, half, rod, spacing):
    beam = dipole(half)
    element = seen(beam, SplitShape(gap=0.02))
    gamma = GammaShape(rod_diameter=2.0 * B, spacing=spacing, rod_length=rod, capacitance=1e-10)
    shape = (
        gamma
        if kind == "gamma"
        else TeeShape(
            rod_diameter=2.0 * B, spacing=spacing, rod_length=rod, capacitance=1e-10, gap=0.04
        )
    )
    expected = published(element, rod=rod, spacing=spacing, rods=1 if kind == "gamma" else 2)
    found = seen(beam, shape)
    # Equations without end bars or radiation of the rods: a quarter in R, a tenth in X.
    assert found.real == pytest.approx(expected.real, rel=0.25)
    assert found.imag == pytest.approx(expected.imag, rel=0.10)


def test_short_rods_see_a_quarter_of_the_tee_in_a_gamma():
    # Both couple by flux: one loop instead of two, so a quarter of the resistance, half of X.
    beam = dipole(4.9)
    tee = TeeShape(rod_diameter=2.0 * B, spacing=0.07, rod_length=0.4, capacitance=1e-10, gap=0.03)
    gamma = GammaShape(rod_diameter=2.0 * B, spacing=0.07, rod_length=0.4, capacitance=1e-10)
    ratio = seen(beam, tee).real / seen(beam, gamma).real
    assert ratio == pytest.approx(4.0, rel=0.06)


@pytest.mark.parametrize(("diameter", "step_up"), [(2.0 * A, 4.0), (2.0 * B, None)])
def test_folded_element_steps_up_as_published(diameter, step_up):
    # Eq. 9-24: four times the plain element for equal conductors; (1 + alpha)^2 in general.
    spacing = 0.1
    u, v = 2.0 * A / diameter, 2.0 * spacing / diameter
    alpha = math.acosh((v * v - u * u + 1) / (2 * v)) / math.acosh(
        (v * v + u * u - 1) / (2 * u * v)
    )
    if step_up is not None:
        assert (1.0 + alpha) ** 2 == pytest.approx(step_up, rel=1e-12)
    shape = FoldedShape(conductor_diameter=diameter, spacing=spacing, gap=0.02)
    # At its resonance, where the line mode is nearly open and only the step-up is left.
    lengths = np.linspace(4.75, 5.05, 7)
    folded = np.array([seen(dipole(half), shape) for half in lengths])
    resistance = np.interp(0.0, folded.imag, folded.real)
    # The plain element of the pair's equivalent radius at its own resonance.
    thick = math.exp((alpha * math.log(A) + math.log(spacing)) / (1.0 + alpha))
    plain = []
    for half in lengths:
        beam = dipole(half)
        tube = replace(beam.elements[0].half[0], diameter=2.0 * thick)
        element = replace(beam.elements[0], half=(tube,))
        plain.append(seen(replace(beam, elements=(element,)), SplitShape(gap=0.02)))
    at_resonance = np.interp(0.0, np.imag(plain), np.real(plain))
    assert resistance == pytest.approx((1.0 + alpha) ** 2 * at_resonance, rel=0.05)
