"""ANSI/AISC 360-22, chapters E, F8 and H, appendices 6 and 8: steel tubes in compression.

Table and example values as an open steel-design library and public pages print them; the two-inch
pipe is worked here from the formulas.
"""

from __future__ import annotations

from dataclasses import replace
from math import inf, pi, sqrt

import pytest
from structure_reference import FOOT, INCH, KSI, POUND, expected

from boomwright.structure import MAST_STEELS, GuyLevel, TubeShape, TubularSupport
from boomwright.structure.faults import StructureInputError
from boomwright.structure.support.columns import (
    FREE_TOP,
    STIFFNESS_SHARE,
    amplification,
    brace_force,
    brace_stiffness,
    elastic_stress,
    steel_column_stress,
    steel_moment,
    tube_strength,
    working_area_share,
)
from boomwright.structure.support.guys import STRANDS
from boomwright.structure.support.tube_support import guyed_tube

STEEL = 29000.0 * KSI
KIP = 1000.0 * POUND
#: 2 in schedule 40 pipe
PIPE = TubeShape(diameter=2.375 * INCH, wall=0.154 * INCH)


def column_kip(*, area, gyration, length, yield_ksi, share=1.0):
    stress = steel_column_stress(
        yield_strength=yield_ksi * KSI, elastic_modulus=STEEL, slenderness=length / gyration
    )
    return share * stress / KSI * area


@pytest.mark.parametrize(
    ("thick", "thin", "feet"),
    [
        ("col_hss20x500_0ft", "col_hss20x250_0ft", 1e-6),
        ("col_hss20x500_18ft", "col_hss20x250_18ft", 18.0),
        ("col_hss20x500_40ft", "col_hss20x250_40ft", 40.0),
    ],
)
def test_table_values_of_a_large_tube(thick, thin, feet):
    # Printed to three figures: half a percent; the thin wall 0.6 %.
    found = column_kip(area=28.5, gyration=6.91, length=12.0 * feet, yield_ksi=50.0)
    assert 0.90 * found == pytest.approx(expected(thick), rel=5e-3)
    share = working_area_share(slenderness=85.8, yield_strength=50.0 * KSI, elastic_modulus=STEEL)
    found = column_kip(area=14.4, gyration=6.99, length=12.0 * feet, yield_ksi=50.0, share=share)
    assert 0.90 * found == pytest.approx(expected(thin), rel=6e-3)


def test_the_wall_of_a500_tube_counts_by_093():
    # B4.2: the table gives its 1/2 in and 1/4 in tubes 28.5 and 14.4 in2.
    share = MAST_STEELS["A500 C round"].wall_share
    for wall, area in ((0.500, 28.5), (0.250, 14.4)):
        tube = TubularSupport(diameter=20.0 * INCH, wall=wall * INCH, height=10.0, wall_share=share)
        assert tube.shape.area / INCH**2 == pytest.approx(area, rel=5e-3)
        # What it weighs is the wall as made.
        made = pi * (20.0 - wall) * wall * INCH**2
        assert tube.weight == pytest.approx(made * 10.0 * 7850.0 * 9.80665, rel=1e-9)
    assert {grade.name for grade in MAST_STEELS.values() if grade.wall_share < 1.0} == {
        "A500 B round", "A500 C round"
    }  # fmt: skip


def test_a_thin_wall_brings_part_of_its_area():
    given = {"yield_strength": 50.0 * KSI, "elastic_modulus": STEEL}
    share = working_area_share(slenderness=85.8, **given)
    assert share == pytest.approx(expected("col_hss20_slender_ratio"), abs=5e-5)
    assert working_area_share(slenderness=63.7, **given) == 1.0
    with pytest.raises(StructureInputError, match="too thin"):
        working_area_share(slenderness=262.0, **given)


def test_a_ten_inch_pipe():
    euler = elastic_stress(elastic_modulus=STEEL, slenderness=360.0 / 3.68)
    assert euler / KSI == pytest.approx(expected("col_pipe10_fe"), abs=0.05)
    stress = column_kip(area=1.0, gyration=3.68, length=360.0, yield_ksi=35.0)
    assert stress == pytest.approx(expected("col_pipe10_fcr"), abs=0.01)
    # The source rounds down; the formula gives 147.7.
    assert 11.5 * stress / 1.67 == pytest.approx(expected("col_pipe10_asd"), rel=6e-3)


def test_two_more_printed_columns():
    short = column_kip(area=7.66, gyration=3.448, length=60.0, yield_ksi=50.0)
    assert short == pytest.approx(expected("col_pipe10x25_pn"), rel=1e-3)
    long = column_kip(area=30.6, gyration=6.9, length=432.0, yield_ksi=42.0)
    assert 0.90 * long == pytest.approx(expected("col_hss20_42ksi"), rel=5e-3)


def test_the_change_of_branch():
    limit = expected("col_branch_limit35")
    assert 4.71 * sqrt(29000.0 / 35.0) == pytest.approx(limit, abs=0.06)
    below, above = (
        steel_column_stress(yield_strength=35.0 * KSI, elastic_modulus=STEEL, slenderness=s)
        for s in (limit - 0.1, limit + 0.1)
    )
    assert below == pytest.approx(above, rel=4e-3)
    # Past it Euler alone would flatter the column by an eighth, before it by more.
    assert above == pytest.approx(
        0.877 * elastic_stress(elastic_modulus=STEEL, slenderness=limit + 0.1), rel=1e-12
    )


def test_allowable_bending_of_a_compact_pipe():
    shape = TubeShape(diameter=8.625 * INCH, wall=0.5 * INCH)
    nominal = steel_moment(shape=shape, yield_strength=35.0 * KSI, elastic_modulus=STEEL)
    # Printed from Z 31.0 in3 of the reduced wall; the nominal wall has 33.0.
    printed = nominal / 1.67 / (KIP * FOOT) * 31.0 / (shape.plastic_modulus / INCH**3)
    assert printed == pytest.approx(expected("beam_pipe8xs"), rel=2e-3)
    thin = TubeShape(diameter=0.2, wall=0.002)
    found = steel_moment(shape=thin, yield_strength=35.0 * KSI, elastic_modulus=STEEL)
    assert found < 35.0 * KSI * thin.plastic_modulus
    assert found == pytest.approx((0.021 * STEEL / 100.0 + 35.0 * KSI) * thin.modulus, rel=1e-12)


def test_a_two_inch_mast_of_twelve_feet():
    strength = tube_strength(
        shape=PIPE, column_length=144.0 * INCH, yield_strength=35.0 * KSI,
        elastic_modulus=STEEL, steel=True,
    )  # fmt: skip
    assert strength.axial / KIP == pytest.approx(expected("col_2in_sch40_pa"), rel=1e-3)
    euler = elastic_stress(elastic_modulus=STEEL, slenderness=strength.slenderness) * PIPE.area
    growth = amplification(axial=1.5 * KIP, critical=euler)
    assert growth == pytest.approx(expected("b1_2in_sch40"), rel=1e-3)
    moment = growth * 6.0 * KIP * INCH
    assert strength.used(axial=1.5 * KIP, moment=moment) == pytest.approx(
        expected("h1_2in_sch40"), rel=1e-3
    )
    # Below a fifth of its column strength the axial load counts by half.
    light = strength.used(axial=0.1 * strength.axial, moment=0.5 * strength.moment)
    assert light == pytest.approx(0.05 + 0.5, rel=1e-12)
    # Torsion counts squared, with the whole axial load, past a fifth of its own limit (H3-6).
    twisted = strength.used(
        axial=0.1 * strength.axial, moment=0.5 * strength.moment, torque=0.3 * strength.torque
    )
    assert twisted == pytest.approx(0.1 + 0.5 + 0.09, rel=1e-12)
    assert strength.torque == pytest.approx(
        0.6 * 35.0 * KSI / 1.67 * PIPE.torsion_modulus, rel=1e-12
    )


def test_an_unstable_column_has_no_factor():
    assert amplification(axial=1.0, critical=1.6) == inf
    assert amplification(axial=2.0, critical=1.6) == inf
    assert amplification(axial=1.0, critical=1.6, share=1.0) == pytest.approx(1.6 / 0.6, rel=1e-12)


def test_braces():
    assert 100.0 * brace_force(axial=1.0) == pytest.approx(expected("brace_force"), rel=1e-12)
    assert brace_stiffness(axial=3.0, length=6.0) == pytest.approx(
        expected("brace_stiff_asd") * 0.5, rel=1e-12
    )


@pytest.mark.parametrize(
    ("name", "factor"),
    [
        ("euler_pinned_pinned", 1.0),
        ("euler_fixed_free", 2.0),
        ("euler_fixed_fixed", 0.5),
        ("euler_fixed_pinned", 1.0 / sqrt(2.046)),
    ],
)
def test_euler_loads_of_a_textbook_tube(name, factor):
    tube = TubeShape(diameter=0.040, wall=0.002)
    slender = factor * 1.2 / sqrt(tube.second_moment / tube.area)
    load = elastic_stress(elastic_modulus=210e9, slenderness=slender) * tube.area
    assert load / 1e3 == pytest.approx(expected(name), rel=5e-3)


def test_a_hinged_tube_guyed_near_its_top():
    """Hand calculation of a 60.3 x 3.9 mm tube of 12 m, guyed at 11.8 m with 900 N.

    A = pi (60.3 - 3.9) 3.9 = 691 mm2, r = 19.99 mm, slenderness 11.8 m / r = 590,
    Fe = pi^2 200 GPa / 590^2 = 5.66 MPa, Pc = 0.877 Fe A / 1.67 = 2.05 kN. Anchors out at 0.6 of
    the height: the guys pull down 3 x 900 N x sin(59 deg) = 2.32 kN, also in wind while all are
    taut; the tube weighs 0.64 kN and 0.08 kN hang on it: 3.03 kN, 148 % of the column.
    1.6 x 3.03 kN is past 0.8 x 3.91 kN, the Euler load: no finite moment.
    """
    tube = TubularSupport(
        diameter=0.0603, wall=0.0039, height=12.0, fixed=False, yield_strength=241e6
    )
    level = GuyLevel(
        height=11.8, anchor_radius=7.08, strand=STRANDS["3/16 in EHS"], initial_tension=900.0
    )
    bent = guyed_tube(
        tube=tube, levels=(level,), loads=(), line_load=lambda _z: 31.0, weight_on_top=80.0
    )
    low, top = bent.lengths
    assert (low.column_length, top.column_length) == pytest.approx((11.8, FREE_TOP * 0.2), rel=1e-9)
    strength = tube_strength(
        shape=tube.shape, column_length=low.column_length, yield_strength=241e6,
        elastic_modulus=200e9, steel=True,
    )  # fmt: skip
    assert strength.slenderness == pytest.approx(590.0, abs=1.0)
    assert strength.axial == pytest.approx(2050.0, rel=5e-3)
    assert low.axial == pytest.approx(3030.0, rel=5e-3)
    assert low.axial / strength.axial == pytest.approx(1.48, abs=0.01)
    euler = pi**2 * tube.stiffness / 11.8**2
    assert 1.6 * low.axial > STIFFNESS_SHARE * euler
    assert (bent.amplification, bent.stress, low.moment, bent.course) == (inf, inf, inf, None)
    # Two rings halve the columns: a finite growth, and every column far within.
    held = guyed_tube(
        tube=tube, levels=(level, replace(level, height=6.0)), loads=(),
        line_load=lambda _z: 31.0, weight_on_top=80.0,
    )  # fmt: skip
    assert 1.0 <= held.amplification < 2.0
    assert held.course is not None
