"""One beam on a ring: symmetry, reciprocity, and the limits of far apart and of one heading."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach import feed_stack, solve_at_height, solve_stack, stack_gain_dbi, sweep_ring
from boomwright.reach.comparison import half_wave_dipole
from boomwright.reach.stack import Feeding
from boomwright.solver import FREE_SPACE, GROUND_CLASSES, PERFECT_GROUND

F = 14.175e6
LOW = replace(half_wave_dipole(frequency=F, height=10.0), name="low")
HIGH = replace(half_wave_dipole(frequency=F, height=16.0), name="high")


def test_crossed_dipoles_do_not_feel_each_other():
    """At right angles the mutual impedance of level dipoles on one mast is zero {carter-1932}."""
    sweep = sweep_ring(fixed=HIGH, turning=LOW, ground=FREE_SPACE, turn_deg=[0.0, 90.0])
    alone = solve_at_height(beam=HIGH, ground=FREE_SPACE, height=16.0).impedance[0]
    # Idle means open, so it is the driven end that a resonant neighbour would still move.
    assert sweep.fixed.impedance[1] == pytest.approx(alone, abs=1e-3)
    shorted = sweep_ring(
        fixed=HIGH, turning=LOW, ground=FREE_SPACE, turn_deg=[0.0, 90.0], idle="shorted"
    )
    assert abs(shorted.fixed.impedance[0] - alone) > 5.0
    assert shorted.fixed.impedance[1] == pytest.approx(alone, abs=1e-3)


def test_left_and_right_are_alike_and_alike_beams_change_places():
    turns = [-120.0, -45.0, 45.0, 120.0]
    sweep = sweep_ring(
        fixed=HIGH, turning=LOW, ground=PERFECT_GROUND, turn_deg=turns, idle="shorted"
    )
    for each in (sweep.fixed, sweep.turning):
        assert each.gain_dbi == pytest.approx(each.gain_dbi[::-1], abs=1e-6)
        assert each.impedance == pytest.approx(each.impedance[::-1], abs=1e-6)
    other = sweep_ring(
        fixed=LOW, turning=HIGH, ground=PERFECT_GROUND, turn_deg=turns, idle="shorted"
    )
    assert other.turning.gain_dbi == pytest.approx(sweep.fixed.gain_dbi, abs=0.02)
    assert other.turning.impedance == pytest.approx(sweep.fixed.impedance, abs=0.05)


def test_with_one_heading_it_is_the_stack():
    ground = GROUND_CLASSES["medium dry"]
    sweep = sweep_ring(fixed=HIGH, turning=LOW, ground=ground, turn_deg=[0.0], idle="shorted")
    stack = solve_stack(beams=(HIGH, LOW), ground=ground, frequency=F)
    reading = feed_stack(stack, feeding=Feeding(name="", weights=(1, 0), idle="shorted"))
    at = np.array([math.radians(sweep.fixed.elevation_deg)])
    gain = stack_gain_dbi(reading, azimuth=np.zeros(1), elevation=at)[0]
    band = sweep.fixed
    assert band.gain_dbi[0] == pytest.approx(gain, abs=band.gain_error_db + 1e-9)
    assert band.gain_error_db < 0.1
    assert band.impedance[0] == pytest.approx(
        reading.feed_impedances[0], abs=band.impedance_error + 1e-9
    )


def test_differences_that_do_not_rise_are_refused():
    with pytest.raises(BoomwrightError, match="do not rise"):
        sweep_ring(fixed=HIGH, turning=LOW, ground=PERFECT_GROUND, turn_deg=[30.0, 10.0])
