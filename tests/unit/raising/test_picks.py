"""Where the bridle takes hold: statics by hand and by moments about either pick."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.raising import Load, pick_plan

GRAVITY = 9.80665  # {nist-sp-811}: standard acceleration


def load(*, mass=24.0, boom=6.2, balance: float | None = 2.97) -> Load:
    return Load(
        name="beam", mass=mass, drag_area=0.8, element_span=11.0, boom_length=boom, reach=6.3,
        balance_place=balance,
    )  # fmt: skip


def test_the_demo_by_hand():
    picks = pick_plan(load())
    # 15 % of 6.2 m to either side of the balance point; hook at three quarters of their distance.
    assert (picks.rear, picks.front) == pytest.approx((2.04, 3.90))
    assert picks.rise == pytest.approx(0.75 * 1.86)
    assert picks.weight == pytest.approx(24.0 * GRAVITY)
    sine = 1.395 / math.hypot(1.395, 0.93)
    assert picks.forces.left == pytest.approx(0.5 * 24.0 * GRAVITY / sine)
    assert picks.forces.right == pytest.approx(picks.forces.left)
    assert picks.forces.compression == pytest.approx(0.5 * 24.0 * GRAVITY * 0.93 / 1.395)
    # {common-practice-raising}: five times the static load.
    assert picks.least_strength == pytest.approx(5.0 * picks.forces.left)


@given(mass=st.floats(1.0, 400.0), boom=st.floats(1.0, 30.0), share=st.floats(0.02, 0.98))
def test_the_beam_hangs_in_balance_and_both_picks_lie_on_the_boom(mass, boom, share):
    picks = pick_plan(load(mass=mass, boom=boom, balance=share * boom))
    assert -1e-9 <= picks.rear < picks.balance < picks.front <= boom + 1e-9
    lift = [
        force * picks.rise / math.hypot(picks.rise, abs(place - picks.balance))
        for force, place in ((picks.forces.left, picks.rear), (picks.forces.right, picks.front))
    ]
    assert sum(lift) == pytest.approx(mass * GRAVITY, rel=1e-9)
    turning = sum(
        up * (place - picks.balance)
        for up, place in zip(lift, (picks.rear, picks.front), strict=True)
    )
    assert turning == pytest.approx(0.0, abs=1e-9 * mass * GRAVITY * boom)


@pytest.mark.parametrize("balance", [None, 0.0, -0.5, 6.2, 7.0])
def test_no_picks_without_a_balance_point_on_the_boom(balance):
    assert pick_plan(load(balance=balance)) is None


def test_near_an_end_the_picks_draw_together():
    picks = pick_plan(load(balance=0.4))
    assert (picks.rear, picks.front) == pytest.approx((0.0, 0.8))
