"""A support tube on house brackets: hand calculations of its moments, couple and column.

Sources: {plane-statics} for the couple, {beam-theory} for three supports (the prop force of an
even load on two equal spans, 10/8 w L, and its moment, w L^2 / 8), {aisc-360-22} for the column;
the alignment chart of its commentary (free top, girder hinged at the far end) from memory.
"""

from __future__ import annotations

from dataclasses import replace
from math import inf, pi, sqrt, tan

import pytest
from station_example import GUYED, ON_PIPE

from boomwright.structure import HouseBrackets, TubularSupport, check_structure
from boomwright.structure.faults import StructureInputError
from boomwright.structure.support.columns import steel_column_stress
from boomwright.structure.support.held_beam import SideLoad
from boomwright.structure.support.house_brackets import free_top_factor
from boomwright.structure.support.tube_support import bracketed_tube

LIGHT = 1e-3


def tube(brackets, *, height=8.0, density=LIGHT, **sizes):
    sizes = {"diameter": 0.0603, "wall": 0.0055, "yield_strength": 240e6} | sizes
    return TubularSupport(height=height, density=density, brackets=brackets, **sizes)


def bend(brackets, *, loads=(), line=0.0, weight=0.0, **sizes):
    return bracketed_tube(
        tube=tube(brackets, **sizes), brackets=brackets, loads=loads,
        line_load=lambda _z: line, weight_on_top=weight,
    )  # fmt: skip


HUNG = HouseBrackets(heights=(4.5, 6.2), foot=4.2)
#: 500 N at 8.5 m, half a metre above the top; 60 N/m along the tube go with it
LOADS = (SideLoad(height=8.5, force=500.0),)


def test_two_brackets_are_a_couple():
    """By hand: M = 500 x 2.3 + 60 x 1.8^2 / 2 = 1247 N m at the upper bracket at 6.2 m.

    About the lower one: 500 x 4.0 + 60 (3.5^2 - 0.3^2) / 2 = 2364.8 N m over 1.7 m = 1391.1 N on
    the upper, 1391.1 - 500 - 228 = 663.1 N the other way on the lower. No weight: nothing grows.
    """
    found = bend(HUNG, loads=LOADS, line=60.0)
    assert found.moment == pytest.approx(1247.2, rel=1e-3)
    assert found.bracket_forces == pytest.approx((663.1, 1391.1), rel=1e-3)
    assert (found.base_moment, found.base_shear) == (0.0, 0.0)
    assert found.amplification == pytest.approx(1.0, abs=1e-3)


def test_what_hangs_below_the_brackets_pulls_on_them_too():
    """By hand: 500 N at 1 m below the lower of two 2 m apart: 500 x 3 / 2 = 750 N there."""
    hung = HouseBrackets(heights=(5.0, 7.0), foot=3.0)
    found = bend(hung, loads=(SideLoad(height=4.0, force=500.0),))
    assert found.bracket_forces == pytest.approx((750.0, 250.0), rel=1e-3)
    assert found.moment == pytest.approx(500.0, rel=1e-3)
    with pytest.raises(StructureInputError, match="below its lower end"):
        bend(hung, loads=(SideLoad(height=2.0, force=500.0),))


def test_one_bracket_and_a_foot_are_a_couple_too():
    """By hand: (500 x 8.5 + 60 x 8^2 / 2) / 6.2 m = 995.2 N, and 995.2 - 980 N at the foot."""
    found = bend(HouseBrackets(heights=(6.2,)), loads=LOADS, line=60.0)
    assert found.bracket_forces == pytest.approx((995.2,), rel=1e-3)
    assert found.base_shear == pytest.approx(15.2, rel=1e-2)
    assert found.moment == pytest.approx(1247.2, rel=1e-3)


def test_three_brackets_share_an_even_load():
    """Two equal spans under w: 10/8 w L on the middle one and w L^2 / 8 there."""
    found = bend(HouseBrackets(heights=(2.0, 5.0, 8.0), foot=2.0), line=60.0)
    assert found.moment == pytest.approx(60.0 * 9.0 / 8.0, rel=5e-3)
    assert found.bracket_forces == pytest.approx((67.5, 225.0, 67.5), rel=5e-3)


def test_a_foot_on_the_ground_may_hold_or_slip():
    """500 N at the top: slipping, the couple alone; held, the three-moment equation.

    M1 (L0 + L1) 2 + M2 L1 = 0 with M2 = -500 x 1.8: M1 = 900 x 1.7 / (2 x 6.2) = 123.4 N m, which
    adds to the couple of the upper bracket: 500 + (900 + 123.4) / 1.7 = 1102 N against 1029.4 N.
    """
    loads = (SideLoad(height=8.0, force=500.0),)
    stands = bend(HouseBrackets(heights=(4.5, 6.2)), loads=loads)
    hangs = bend(HUNG, loads=loads)
    assert hangs.bracket_forces[1] == pytest.approx(1029.4, rel=1e-3)
    assert stands.bracket_forces[1] == pytest.approx(1102.0, rel=1e-3)
    assert stands.base_shear == pytest.approx(123.4 / 4.5, rel=1e-3)


@pytest.mark.parametrize(("free", "spacing", "theory"), [(1.0, 1e-4, 2.0), (1.0, 0.5, 2.328)])
def test_the_free_top_is_longer_than_that_of_a_clamped_tube(free, spacing, theory):
    """Alignment chart, G at the top infinite: (pi/K) tan(pi/K) = 6 / G, G = 2 s / a: 2.33 at 1."""
    factor = free_top_factor(free=free, spacing=spacing)
    assert factor == pytest.approx(1.05 * theory, rel=1e-3)
    x = 1.05 * pi / factor
    assert x * tan(x) == pytest.approx(6.0 / (2.0 * spacing / free), rel=1e-6)


def test_column_of_the_free_top():
    """By hand: 1.8 m free over 1.7 m: x tan x = 3.176, K = 1.05 pi / 1.208 = 2.73.

    Lc = 4.92 m, r = 19.4 mm, slenderness 253: 0.877 Fe / 1.67 of 947 mm2.
    """
    found = bend(HUNG, weight=400.0)
    between, top = found.lengths
    assert between.column_length == pytest.approx(1.7)
    assert top.column_length == pytest.approx(4.92, rel=5e-3)
    shape = tube(HUNG).shape
    radius = sqrt(shape.second_moment / shape.area)
    stress = steel_column_stress(
        yield_strength=240e6, elastic_modulus=200e9, slenderness=top.column_length / radius
    )
    assert stress == pytest.approx(0.877 * pi**2 * 200e9 / 253.0**2, rel=1e-2)
    assert top.axial == pytest.approx(400.0, rel=1e-3)


def test_too_much_weight_buckles_the_free_top():
    """0.8 EI of a 20 mm tube over a = 1.8 m: 1.6 P past it, so no finite moment."""
    found = bend(HUNG, weight=1500.0, loads=LOADS, diameter=0.0213, wall=0.0026)
    assert (found.course, found.amplification, found.lengths[-1].moment) == (None, inf, inf)


@pytest.mark.parametrize(
    ("heights", "foot"), [((6.2,), 4.2), ((6.2, 4.5), 4.2), ((4.5, 6.2), 5.0), ((4.5, 4.51), 0.0)]
)
def test_brackets_that_hold_nothing_are_refused(heights, foot):
    with pytest.raises(StructureInputError):
        HouseBrackets(heights=heights, foot=foot)


def on_house(**changes):
    brackets = replace(
        HouseBrackets(heights=(6.0, 7.8), foot=5.7, side_force=9e3, vertical_load=9e3), **changes
    )
    pipe = replace(ON_PIPE.tube, brackets=brackets, diameter=0.1143, wall=0.008)
    return check_structure(inputs=replace(ON_PIPE, tube=pipe, base=None, soil=None))


def verdicts(report):
    return {
        line.name: line.verdict
        for line in report.ledger
        if line.name.startswith(("support tube", "base"))
    }


def test_every_part_of_a_house_bracket_reaches_the_ledger():
    found = verdicts(on_house())
    for suffix in ("", ", ice with its wind"):
        for what in (
            "bending", "column", "column and bending together", "force on a house bracket",
            "load straight down on its brackets",
        ):  # fmt: skip
            assert found[f"support tube: {what}{suffix}"] == "within"
    assert found["support tube: wall behind its brackets"] == "not checked"
    # Nothing stands on the ground, so no footing is asked for.
    assert not [name for name in found if name.startswith("base")]
    signed = on_house(said_by="engineer, 2026-05-02")
    assert "support tube: wall behind its brackets" not in verdicts(signed)
    (notice,) = [each for each in signed.notices if each.code == "structure.wall-agreed"]
    assert "engineer, 2026-05-02" in notice.text


def test_unknown_fixings_are_never_within_and_weak_ones_are_exceeded():
    force = "support tube: force on a house bracket"
    assert verdicts(on_house(side_force=None))[force] == "not checked"
    assert verdicts(on_house(side_force=50.0))[force] == "exceeded"
    down = "support tube: load straight down on its brackets"
    assert verdicts(on_house(vertical_load=None))[down] == "not checked"
    assert verdicts(on_house(vertical_load=50.0))[down] == "exceeded"


def test_a_bracketed_tube_on_the_ground_brings_its_foot_to_the_footing():
    brackets = HouseBrackets(heights=(6.0, 7.8), side_force=9e3)
    pipe = replace(ON_PIPE.tube, brackets=brackets, diameter=0.1143, wall=0.008)
    report = check_structure(inputs=replace(ON_PIPE, tube=pipe))
    assert report.base is not None
    assert report.base.reactions.moment == 0.0
    assert report.base.reactions.shear == pytest.approx(report.tube.base_shear)
    assert report.base.reactions.shear > 0.0
    alone = check_structure(inputs=replace(ON_PIPE, tube=pipe, base=None))
    assert verdicts(alone)["base: overturning"] == "not checked"


def test_guys_beside_brackets_are_for_an_engineer():
    brackets = HouseBrackets(heights=(6.0, 7.8), foot=5.7)
    pipe = replace(ON_PIPE.tube, brackets=brackets, height=20.0)
    report = check_structure(inputs=replace(GUYED, tower=None, tube=pipe))
    assert verdicts(report)["support tube: bending"] == "not checked"


def test_the_gust_factor_is_never_that_of_something_stiff():
    report = on_house()
    assert report.gusts is not None
    assert report.gusts.factor >= 1.35
