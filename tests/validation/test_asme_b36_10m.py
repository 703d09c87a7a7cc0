"""ASME B36.10M pipe sizes with textbook table A16-6 (published); tube sizes of the trade."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, INCH, POUND, expected

from boomwright.plan.shapes import POLES
from boomwright.structure import TubeShape

#: steel, 0.2836 lb/in3 [N/m^3]
STEEL_WEIGHT = 0.2836 * POUND / INCH**3
#: outer diameter and wall as the standard has them
PIPES = {"2 in Sch 40": (2.375, 0.154), "1-1/2 in Sch 40": (1.900, 0.145)}


def _shape(diameter, wall):
    return TubeShape(diameter=diameter * INCH, wall=wall * INCH)


def test_poles_of_a_first_plan_are_pipes_of_the_standard():
    # Schedule 40 and 80 sizes of the poles and masts that a first plan takes, in inches.
    listed = {
        (2.375, 0.218), (1.9, 0.2), (2.875, 0.203), (3.5, 0.216), (2.875, 0.276), (4.5, 0.237),
        (3.5, 0.3),
    }  # fmt: skip
    for pole in POLES:
        for tube in (pole.tube, pole.mast):
            assert any(tube == pytest.approx((d * INCH, w * INCH), abs=6e-5) for d, w in listed)


def _row(name):
    shape = _shape(*PIPES[name])
    return (
        shape.diameter / INCH,
        shape.wall / INCH,
        shape.area / INCH**2,
        shape.second_moment / INCH**4,
        shape.modulus / INCH**3,
        shape.area * STEEL_WEIGHT / POUND * FOOT,
    )


def test_two_inch_schedule_40():
    # Printed to four figures; the weight list rounds its steel, hence 0.2 percent.
    assert _row("2 in Sch 40") == pytest.approx(expected("pipe_2_sch40"), rel=2e-3)


def test_one_and_a_half_inch_schedule_40():
    assert _row("1-1/2 in Sch 40")[3:] == pytest.approx(expected("pipe_15_sch40"), rel=2e-3)


def test_two_inch_tube_of_a_quarter_wall():
    shape = _shape(2.0, 0.25)
    assert shape.second_moment / INCH**4 == pytest.approx(expected("tube_2x025_I"), abs=1e-4)
    assert shape.modulus / INCH**3 == pytest.approx(expected("tube_2x025_I"), abs=1e-4)


def test_torsion_and_plastic_modulus():
    # Textbook row for 2 in Schedule 40: 1.121 in3 in torsion.
    shape = _shape(*PIPES["2 in Sch 40"])
    assert shape.torsion_modulus / INCH**3 == pytest.approx(1.121, abs=1e-3)
    assert shape.plastic_modulus > shape.modulus


def test_thin_wall_limit():
    # Sign support specification, appendix B: I = 3.14 R^3 t, S = 3.14 R^2 t, A = 6.28 R t.
    radius, wall = 1.0, 1e-4
    shape = TubeShape(diameter=2.0 * radius + wall, wall=wall)
    found = [
        shape.second_moment / (radius**3 * wall),
        shape.modulus / (radius**2 * wall),
        shape.area / (radius * wall),
    ]
    assert found == pytest.approx(expected("thin_tube"), rel=6e-4)


def test_solid_rod():
    # Published hand check, printed rounded: 0.19 in3, 7700 lb in, 80 lb at 96 in.
    rod = TubeShape(diameter=1.25 * INCH, wall=0.625 * INCH)
    modulus = rod.modulus / INCH**3
    moment = modulus * 40000.0
    printed = expected("mast_rod")
    assert [modulus, moment, moment / 96.0] == pytest.approx(printed, rel=0.01)
