"""Moves of recorded trials, taken into the plan: the tips as they are now, the last sweep first."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan
from boomwright.study.taking_moves import moves_refused, taken_moves
from boomwright.study.weighing import changed_values
from fakes.desk import PLAN

MEASURED = """
[measured]
sweep = "first.s1p"  # on the mast
meter = "hand-held"
"""
TRIALS = """
[[measured.trial]]
sweep = "second.s1p"
moved = [{ element = 1, tips = "-12 mm" }]

[[measured.trial]]
sweep = "third.s1p"
moved = [{ element = 1, tips = "4 mm" }, { element = 2, tips = "-1/2 in" }]
day = "2026-05-02"
"""


def test_every_tip_stands_where_the_trials_left_it_and_the_last_sweep_is_the_first():
    text = PLAN + MEASURED + TRIALS
    plan = read_plan(text)
    written = taken_moves(text, plan)
    after = read_plan(written)
    was, now = (each.beams[0].elements for each in (plan, after))
    # By hand: -12 mm and 4 mm at each tip are 16 mm less from tip to tip; half an inch is 12.7 mm.
    grown = [new.length - old.length for old, new in zip(was, now, strict=True)]
    assert grown == pytest.approx([0.0, -0.016, -0.0254], abs=1e-6)
    assert after.measured.sweep == "third.s1p"
    assert after.measured.trial == ()
    assert after.measured.day == "2026-05-02"
    assert after.measured.meter == "hand-held"
    assert "# on the mast" in written
    assert "# the owner's words" in written


STAGE = """
[[measured.trial]]
sweep = "second.s1p"
moved = [{ stage = 0, longer = "4 mm" }]
"""
HAIRPIN = """feed = { kind = "hairpin", gap = "40 mm", rod_diameter = "8 mm", \
rod_spacing = "60 mm", rod_length = "400 mm" }"""
GAMMA = """feed = { kind = "gamma", rod_diameter = "10 mm", rod_spacing = "120 mm", \
rod_length = "1 m", capacitance = "80 pF" }"""
HIGHER = """
[[measured.trial]]
sweep = "second.s1p"
rise = "2 m"
moved = [{ element = 1, tips = "4 mm" }]
"""
BEFORE = '[[measured.front_to_back]]\nratio = 20\nfrequency = "14.1 MHz"\n'


@pytest.mark.parametrize(
    ("feed", "moved", "now"),
    [
        (HAIRPIN, '{ stage = 1, longer = "-12 mm" }', {"rod_length": 0.388}),
        (GAMMA, '{ stage = 1, longer = "15 mm" }', {"rod_length": 1.015}),
        (GAMMA, '{ stage = 2, more = "-10 %" }, { stage = 1, longer = "1 mm" }',
         {"capacitance": 72e-12, "rod_length": 1.001}),
    ],
)  # fmt: skip
def test_a_match_that_was_set_stands_in_the_plan_as_it_was_left(feed, moved, now):
    text = PLAN.replace('feed = { kind = "split", gap = "40 mm" }', feed) + MEASURED
    text += f'[[measured.trial]]\nsweep = "second.s1p"\nmoved = [{moved}]\n'
    plan = read_plan(text)
    assert moves_refused(plan) == ""
    after = read_plan(taken_moves(text, plan))
    for key, value in now.items():
        assert getattr(after.beams[0].feed, key) == pytest.approx(value, rel=1e-9)
    assert after.measured.sweep == "second.s1p"


@pytest.mark.parametrize(
    ("measured", "why"),
    [
        ("", "no trial is recorded"),
        (MEASURED, "no trial is recorded"),
        (MEASURED + STAGE, "a piece of the match that the plan does not have"),
        (MEASURED + HIGHER, "hung higher"),
        (MEASURED + '[[measured.trial]]\nsweep = "b.s1p"\nrise = "1 m"\n', "what was moved"),
        (MEASURED + TRIALS + BEFORE, "before the moves"),
    ],
)
def test_what_would_not_be_the_beam_as_it_stands_is_refused(measured, why):
    plan = read_plan(PLAN + measured)
    assert why in moves_refused(plan)
    with pytest.raises(PlanError):
        taken_moves(PLAN + measured, plan)


def test_a_table_taken_out_is_one_line_of_what_changes():
    text = PLAN + MEASURED + TRIALS
    changed = changed_values(text, taken_moves(text, read_plan(text)))
    assert [(each.name, each.after) for each in changed if not each.after] == [
        ("measured, trial 1", ""),
        ("measured, trial 2", ""),
    ]
    assert "driven element, tube 3, exposed length" in {each.name for each in changed}
