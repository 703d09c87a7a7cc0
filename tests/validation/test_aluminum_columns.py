"""Aluminium columns by the 2020 design manual; the buckling constants are from memory."""

from __future__ import annotations

from math import sqrt

import pytest
from structure_reference import INCH, KSI, POUND, expected

from boomwright.structure import TubeShape
from boomwright.structure.faults import StructureInputError
from boomwright.structure.support.columns import AluminiumColumn, tube_strength

ALUMINIUM = 10100.0 * KSI
ALLOY = AluminiumColumn(yield_strength=35.0 * KSI, elastic_modulus=ALUMINIUM)


def test_buckling_constants_of_6061_t6():
    # From memory, allowed 0.1 %.
    assert ALLOY.intercept / KSI == pytest.approx(expected("alu_Bc"), rel=1e-3)
    assert ALLOY.slope / KSI == pytest.approx(expected("alu_Dc"), rel=1e-3)
    assert ALLOY.limit == pytest.approx(expected("alu_Cc"), rel=1e-3)
    assert ALLOY.short == pytest.approx(17.8, abs=0.05)


@pytest.mark.parametrize(
    ("name", "slender"),
    [
        ("alu_col_20", 20),
        ("alu_col_40", 40),
        ("alu_col_60", 60),
        ("alu_col_80", 80),
        ("alu_col_100", 100),
    ],
)
def test_allowable_column_stress(name, slender):
    found = ALLOY.stress(slenderness=float(slender)) / 1.65 / KSI
    assert found == pytest.approx(expected(name), rel=1e-3)
    if slender > 66:
        # An older printed rule, 51 000 / (L/r)^2 in ksi.
        assert found == pytest.approx(51000.0 / slender**2, rel=0.01)


def test_a_two_inch_tube_of_eight_feet():
    shape = TubeShape(diameter=2.0 * INCH, wall=0.120 * INCH)
    strength = tube_strength(
        shape=shape, column_length=96.0 * INCH, yield_strength=35.0 * KSI,
        elastic_modulus=ALUMINIUM, steel=False,
    )  # fmt: skip
    assert strength.slenderness == pytest.approx(144.1, abs=0.1)
    assert strength.axial / 1e3 / POUND == pytest.approx(expected("alu_tube_2x120"), rel=1e-3)
    # Yield, not the plastic section, limits the bending of a thicker tube: 1.5 S at most.
    assert strength.moment <= 1.5 * 35.0 * KSI / 1.65 * shape.modulus
    # Axial, bending and torsion: 0.2 + 0.4 + 0.5^2 (H.3).
    used = strength.used(
        axial=0.2 * strength.axial, moment=0.4 * strength.moment, torque=0.5 * strength.torque
    )
    assert used == pytest.approx(0.85, rel=1e-12)


def test_a_thin_wall_buckles_first():
    # Table constants Bt 43.2, Dt 1.558 ksi from memory: yield up to a mean radius of 27.7 walls.
    assert ALLOY.wall_stress(slenderness=56.0) == 35.0 * KSI
    thin = 2.0 * 50.0 + 1.0
    assert ALLOY.wall_stress(slenderness=thin) / KSI == pytest.approx(
        43.2 - 1.558 * sqrt(50.0), abs=0.05
    )
    with pytest.raises(StructureInputError, match="too thin"):
        ALLOY.wall_stress(slenderness=300.0)


def test_other_metals_have_no_rule_here():
    given = {
        "shape": TubeShape(diameter=0.05, wall=0.003), "column_length": 2.0,
        "yield_strength": 2e8,
    }  # fmt: skip
    for steel, modulus, words in ((True, 193e9, "stainless"), (False, 117e9, "no column rule")):
        with pytest.raises(StructureInputError, match=words):
            tube_strength(steel=steel, elastic_modulus=modulus, **given)
