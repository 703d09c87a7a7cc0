"""ASME B30.9 as taught: design factors of slings, and the legs of a bridle at 45 degrees."""

import math

import pytest
from check_values import expected_values

from boomwright.raising import Load, pick_plan
from boomwright.raising.rigging import breaking_strength_needed, bridle_forces

CHECKS = expected_values("raising_checks.toml")


@pytest.mark.parametrize("name", ["sling_wire", "sling_web"])
def test_design_factor(name):
    assert breaking_strength_needed(static_load=100.0) >= 100.0 * CHECKS[name]


def test_a_leg_at_45_degrees():
    forces = bridle_forces(load=200.0, left=1.0, right=1.0, rise=1.0)
    assert forces.left / 100.0 == pytest.approx(CHECKS["sling_45"], abs=5e-4)


def test_no_leg_of_a_pick_plan_lies_under_30_degrees():
    load = Load(
        name="b",
        mass=20.0,
        drag_area=0.5,
        element_span=10.0,
        boom_length=6.0,
        reach=5.8,
        balance_place=2.9,
    )
    picks = pick_plan(load)
    assert picks is not None
    assert math.degrees(math.atan2(picks.rise, picks.front - picks.balance)) > 30.0
