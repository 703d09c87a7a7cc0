"""Footings: International Building Code 1806 and 1807, public permit sheets (published)."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from structure_reference import FOOT, POUND, PSF, expected

from boomwright.structure import PadBase, PierBase, Soil
from boomwright.structure.ground.pads import check_pad, diagonal_pressure, square_pressure
from boomwright.structure.ground.piers import check_pier, embedment_depth, embedment_term
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS, concrete

KIP_FOOT = 1000.0 * POUND * FOOT
YARD = 0.9144


def test_square_pad_of_a_permit_sheet():
    # The sheet rounds to two or three figures.
    moment = 24.7 * (16.0 * 5.0 + 4.5 * 1.5)
    pad = PadBase(side=2.58 * FOOT, thickness=2.5 * FOOT)
    found = check_pad(
        pad=pad, soil=PRESUMPTIVE_SOILS["clay"], moment=moment * POUND * FOOT, shear=0.0,
        axial=200.0 * POUND,
    )  # fmt: skip
    values = [
        found.moment / KIP_FOOT,
        found.weight / POUND,
        found.eccentricity / FOOT,
        found.pressure_square / PSF,
        found.weight * pad.side / 2.0 / 1.5 / KIP_FOOT,
    ]
    assert values == pytest.approx([2.1427, 2696.2, 0.7947, 1406.7, 2.3188], rel=2e-4)
    assert values == pytest.approx(expected("pad_sheet"), rel=0.021)


def test_pad_of_a_tower_review():
    pad = PadBase(side=7.0 * FOOT, thickness=2.0 * FOOT)
    found = check_pad(
        pad=pad, soil=PRESUMPTIVE_SOILS["clay"], moment=28000.0 * POUND * FOOT,
        shear=762.0 * POUND, axial=870.0 * POUND,
    )  # fmt: skip
    values = [
        pad.concrete.volume / YARD**3,
        found.pressure_square / PSF,
        found.overturning_factor,
    ]
    assert values == pytest.approx(expected("pad_tower"), rel=1e-3)
    assert found.moment / (POUND * FOOT) == pytest.approx(29524.0, abs=0.5)


def test_diagonal_over_square_pressure():
    square = square_pressure(weight=1.0, eccentricity=4.41, side=10.0, length=10.0)
    diagonal = diagonal_pressure(weight=1.0, eccentricity=4.41, side=10.0)
    ratio, crossover = expected("pad_diag")
    assert diagonal / square == pytest.approx(ratio, abs=1e-4)
    for e, corner_governs in ((10.0 * crossover - 0.001, True), (10.0 * crossover + 0.001, False)):
        corner = diagonal_pressure(weight=1.0, eccentricity=e, side=10.0)
        side = square_pressure(weight=1.0, eccentricity=e, side=10.0, length=10.0)
        assert (corner > side) is corner_governs


@pytest.mark.parametrize("share", [0.13, 0.2, 0.3, 0.35, 0.36, 0.441])
def test_diagonal_pressure_against_brute_force(share):
    # A grid of soil springs that only push, the same even fall of pressure.
    n, half = 600, 1.0 / sqrt(2.0)
    place = (np.arange(n) + 0.5) / n - 0.5
    x, y = np.meshgrid(place, place)
    from_corner = half - (x + y) / sqrt(2.0)
    low, high = 1e-3, 20.0
    for _ in range(60):
        depth = (low + high) / 2.0
        push = np.maximum(0.0, 1.0 - from_corner / depth)
        centre = float((push * from_corner).sum() / push.sum())
        low, high = (low, depth) if centre > half - share else (depth, high)
    brute = 1.0 / (float(push.sum()) / n**2)
    found = diagonal_pressure(weight=1.0, eccentricity=share, side=1.0)
    assert found == pytest.approx(brute, rel=1e-4)


def test_pad_inside_the_kern():
    found = square_pressure(weight=120.0, eccentricity=1.0, side=6.0, length=14.0)
    assert found == pytest.approx(expected("pad_kern"), abs=5e-4)


def test_lamp_pole_in_si():
    resistance, width = 16.223, 0.849
    found = [
        embedment_term(load=1.33, resistance=resistance, width=width),
        embedment_depth(load=1.33, height=8.0, resistance=resistance, width=width),
    ]
    assert found == pytest.approx(expected("pole_lamp"), abs=2e-3)


@pytest.mark.parametrize(
    ("name", "load", "height", "width", "exact"),
    [
        ("pole_sign", 24.7 * 36.0, 3.40, 3.0, (1.734, 3.546)),
        ("pole_wall", 1740.0, 4.17, 5.5, (1.851, 3.970)),
    ],
)
def test_piers_of_permit_sheets(name, load, height, width, exact):
    found = [
        embedment_term(load=load, resistance=400.0, width=width),
        embedment_depth(load=load, height=height, resistance=400.0, width=width),
    ]
    assert found == pytest.approx(exact, abs=2e-3)
    # The sheets round the term A to one decimal.
    assert found[0] == pytest.approx(expected(name)[0], abs=0.05)
    assert found[1] == pytest.approx(expected(name)[1], abs=0.01)


@pytest.mark.parametrize(("may_move", "feet"), [(True, 6.47), (False, 9.44)])
def test_block_of_a_tower_review(may_move, feet):
    clay = PRESUMPTIVE_SOILS["clay"]
    block = PierBase(width=3.0 * FOOT, depth=7.0 * FOOT, may_move=may_move)
    found = check_pier(pier=block, soil=clay, moment=28000.0 * POUND * FOOT, shear=762.0 * POUND)
    assert found.needed_depth / FOOT == pytest.approx(feet, abs=0.01)
    if may_move:
        assert feet == expected("pole_tower")
    # At the settled depth the formula asks for just that depth.
    again = check_pier(
        pier=PierBase(width=3.0 * FOOT, depth=found.settled_depth, may_move=may_move),
        soil=clay, moment=28000.0 * POUND * FOOT, shear=762.0 * POUND,
    )  # fmt: skip
    assert again.needed_depth == pytest.approx(found.settled_depth, rel=1e-6)


def test_presumptive_soils():
    found = [
        [round(soil.bearing / PSF, 6), round(soil.lateral / PSF * FOOT, 6)]
        for soil in (PRESUMPTIVE_SOILS[n] for n in ("sandy gravel", "sand", "clay"))
    ]
    assert found == expected("soil_presumptive")
    assert PRESUMPTIVE_SOILS["clay"].friction is None
    assert PRESUMPTIVE_SOILS["clay"].cohesion == pytest.approx(130.0 * PSF, rel=1e-9)


def test_concrete_count():
    found = concrete(volume=4.0 * 4.0 * 5.0 * FOOT**3)
    assert [found.cubic_yards, found.bags, found.weight / POUND] == pytest.approx(
        expected("concrete"), rel=2e-4
    )


def test_no_friction_and_no_cohesion_gives_no_sliding_figure():
    found = check_pad(
        pad=PadBase(side=2.0, thickness=0.5), soil=Soil(name="unknown"), moment=1.0, shear=1.0,
        axial=1.0,
    )  # fmt: skip
    assert found.sliding_factor is None
