"""Wire on ropes goes up by hand: no crane, no climber, and nothing passes that nobody looked at."""

from __future__ import annotations

import dataclasses

import pytest

from bent_plans import HEAD, HELD, UPRIGHT, vee
from boomwright.plan import read_plan
from boomwright.raising import plan_lift
from boomwright.study.raising import raise_plan
from fakes.lift_jobs import JOB, NO, STRONG, YES

WIRE = dataclasses.replace(
    JOB,
    load=dataclasses.replace(JOB.load, mass=3.0, boom_length=0.0, balance_place=None, hung=True,
                             pull=40.0),
    crew=dataclasses.replace(JOB.crew, trained_climbers=0, ground=3),
    haul_line=STRONG,
    pulleys_up=YES,
    holds_sound=YES,
    ropes_clear=YES,
)  # fmt: skip
RAISING = '\n[permits]\nboundary = "40 m"\n[raising]\nground_crew = 3\nforecast_gust = "3 m/s"\n'


def words(plan):
    return " ".join(map(str, plan.reasons))


def test_three_people_pull_up_a_dipole():
    plan = plan_lift(WIRE)
    best = plan.methods[0]
    assert (plan.verdict, best.way, best.people) == ("go", "by hand", (0, 3))
    assert {method.way for method in plan.methods} == {"by hand", "tilt", "truck", "hand line"}
    assert plan.falls is None
    assert sum(role.people for role in plan.crew) == 3
    told = " ".join(str(note) for note in best.reasons)
    assert all(word in told for word in ("power line", "tree", "roof", "ladder", "nobody climbs"))


@pytest.mark.parametrize("asked", ["pulleys_up", "holds_sound", "ropes_clear"])
def test_nothing_passes_that_nobody_looked_at(asked):
    assert plan_lift(dataclasses.replace(WIRE, **{asked: None})).verdict == "ask"
    assert plan_lift(dataclasses.replace(WIRE, **{asked: NO})).verdict == "no-go"


def test_two_people_or_no_rope_are_not_enough():
    alone = dataclasses.replace(WIRE, crew=dataclasses.replace(WIRE.crew, ground=2))
    assert "needs 3 people" in words(plan_lift(alone))
    assert plan_lift(dataclasses.replace(WIRE, haul_line=None)).verdict == "ask"


def test_the_rope_holds_the_pull_of_the_wire_not_only_its_weight():
    pulls = [
        plan_lift(
            dataclasses.replace(WIRE, load=dataclasses.replace(WIRE.load, pull=pull))
        ).methods[0].forces[0].value
        for pull in (10.0, 100.0)
    ]  # fmt: skip
    # 3 kg weigh 29.4 N, more than the first pull and less than the second.
    assert pulls[1] / pulls[0] == pytest.approx(100.0 / (3.0 * 9.80665), rel=1e-9)


def test_a_beam_on_a_mast_is_not_lifted_so():
    assert "by hand" not in {method.way for method in plan_lift(JOB).methods}


def test_coming_down_has_its_own_order():
    down = plan_lift(WIRE).taking_down
    assert down.hold_points[1].name == "before the first rope is let off"
    assert not any("clamp" in step for step in down.sequence)


@pytest.mark.parametrize("shape", ["vee", "upright"])
def test_wire_without_a_support_can_be_planned(shape):
    if shape == "vee":
        text = vee(ground="medium dry", held=HELD)
    else:
        text = (HEAD + UPRIGHT).format(
            ground="medium dry", height="0.1 m", count=32, laid="buried", slope=0
        )
        text = text.replace('8 m"]]\n', '8 m"]]\n' + HELD)
    (each,) = raise_plan(read_plan(text + RAISING)).lifts
    assert each.gaps == ()
    assert each.lift is not None
    assert each.lift.methods[0].way == "by hand"
    # Upright wire lies on no stand, and has one end to trim.
    steps = " ".join([*each.lift.sequence, *(point.name for point in each.lift.hold_points)])
    assert ("stands" in steps) == (shape == "vee")
    assert ("both ends" in steps) == (shape == "vee")
    # What lifts 5.1 m of wire on end goes up to its top.
    assert each.lift.job.lift_height == pytest.approx(12.0 if shape == "vee" else 5.2, abs=0.01)
