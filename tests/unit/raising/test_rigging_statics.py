"""Rope forces against balances of forces and moments, written out independently."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.raising.rigging import bridle_forces, gin_pole_forces, tram_forces


def test_level_tram_at_midspan():
    # T = W L / (4 sag), the textbook formula for a weightless level line
    forces = tram_forces(load=400.0, span=30.0, drop=0.0, sag=1.5)
    assert forces.horizontal == pytest.approx(400.0 * 30.0 / (4 * 1.5), rel=1e-12)
    assert forces.vertical_top == pytest.approx(200.0, rel=1e-12)
    assert forces.vertical_anchor == pytest.approx(200.0, rel=1e-12)


@given(
    load=st.floats(50, 1000),
    span=st.floats(5, 60),
    drop=st.floats(0, 30),
    sag=st.floats(0.3, 5),
    place=st.floats(0.1, 0.9),
)
def test_weightless_tram_is_two_straight_ropes(load, span, drop, sag, place):
    # Resolve at the load: two straight ropes to the ends, horizontal parts equal.
    depth = place * drop + sag  # load below the tower end
    up_top = depth / (place * span)
    up_anchor = (drop - depth) / ((1 - place) * span)  # negative: the anchor is higher
    horizontal = load / (up_top - up_anchor)
    forces = tram_forces(load=load, span=span, drop=drop, sag=sag, place=place)
    assert forces.horizontal == pytest.approx(horizontal, rel=1e-9)
    assert forces.vertical_top == pytest.approx(horizontal * up_top, rel=1e-9, abs=1e-9)
    assert forces.vertical_anchor == pytest.approx(-horizontal * up_anchor, rel=1e-6, abs=1e-6)
    assert forces.tension_top == pytest.approx(
        math.hypot(horizontal, horizontal * up_top), rel=1e-9
    )


def test_heavy_line_alone_is_the_parabola():
    # H = w L^2 / (8 sag) for a line of even weight, common textbook formula
    forces = tram_forces(load=0.0, span=40.0, drop=0.0, sag=2.0, line_weight=5.0)
    assert forces.horizontal == pytest.approx(5.0 * 40.0**2 / (8 * 2.0), rel=1e-12)
    assert forces.vertical_top == pytest.approx(100.0, rel=1e-12)


@given(left=st.floats(0.2, 5), right=st.floats(0.2, 5), rise=st.floats(0.2, 5))
def test_bridle_balances(left, right, rise):
    forces = bridle_forces(load=300.0, left=left, right=right, rise=rise)
    a, b = math.atan2(rise, left), math.atan2(rise, right)
    upright = forces.left * math.sin(a) + forces.right * math.sin(b)
    assert upright == pytest.approx(300.0, rel=1e-9)
    assert forces.left * math.cos(a) == pytest.approx(forces.right * math.cos(b), rel=1e-9)
    assert forces.compression == pytest.approx(forces.left * math.cos(a), rel=1e-9)


@given(offset=st.floats(0.0, 0.5), slope=st.floats(0.0, 0.9))
def test_gin_pole_balances(offset, slope):
    forces = gin_pole_forces(load=500.0, offset_angle=offset, tag_slope=slope)
    level = forces.hoist_line * math.sin(offset)
    upright = forces.hoist_line * math.cos(offset)
    assert level == pytest.approx(forces.tag_pull, rel=1e-9, abs=1e-9)
    assert upright == pytest.approx(forces.gross_load, rel=1e-9)
    assert forces.gross_load == pytest.approx(500.0 + forces.tag_pull * math.tan(slope), rel=1e-9)
    assert forces.heel_block == pytest.approx(math.sqrt(2.0) * forces.hoist_line, rel=1e-12)
