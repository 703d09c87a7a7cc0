"""Roles, signals, holds and the order of the day come from the method alone."""

import dataclasses
import re

import pytest

from boomwright.base.quantity import write
from boomwright.raising import Crew, plan_lift
from boomwright.raising.standing import standing_radius
from fakes.lift_jobs import (
    CAPSTAN,
    CRANE,
    CREW,
    GUYS,
    JOB,
    POLE,
    STREET,
    STRONG,
    TILT,
    TRAM,
    TRUCK,
    YES,
    changed,
)

GROUNDED = Crew(ground=6, trained_rigger=YES)
JOBS = {
    "hand line": JOB,
    "tilt": changed(tilt=TILT, crew=GROUNDED),
    "truck": changed(lift_truck=TRUCK, level_access=YES, crew=GROUNDED),
    "crane": changed(crane=CRANE, level_access=YES),
    "crane with a truck": changed(
        crane=CRANE,
        lift_truck=dataclasses.replace(TRUCK, platform_capacity=225.0),
        level_access=YES,
        crew=GROUNDED,
    ),
    "tram": changed(tram=TRAM),
    "gin pole": changed(gin_pole=POLE, load=dataclasses.replace(JOB.load, name="pole lift")),
}
PLANS = {name: plan_lift(job) for name, job in JOBS.items()}


def words(plan):
    holds = [check for point in plan.hold_points for check in (point.who, *point.checks)]
    roles = [text for role in plan.crew for text in (role.role, role.task)]
    return " ".join((*holds, *roles, *plan.sequence, *plan.emergency)).lower()


@pytest.mark.parametrize("name", JOBS)
def test_the_method_is_the_one_meant(name):
    assert PLANS[name].methods[0].way == name.removesuffix(" with a truck")
    assert PLANS[name].methods[0].verdict == "go"


@pytest.mark.parametrize(
    ("name", "roles", "never"),
    [
        ("hand line", {"climbers": 2, "hauling rope": 2, "tag lines": 2}, ("platform", "crane")),
        ("tilt", {"winch": 1, "hold-back line": 1},
         ("climb", "harness", "tag line", "platform", "hauling")),
        ("truck", {"platform operator": 1, "platform hand": 1},
         ("hauling", "haul", "climbers", "rescuer", "capstan", "winch")),
        ("crane", {"crane operator": 1, "climbers": 2}, ("hauling rope", "platform", "winch")),
        ("crane with a truck", {"crane operator": 1, "platform operator": 1, "platform hand": 1},
         ("hauling rope", "climbers", "rescuer")),
        ("tram", {"climbers": 2, "hauling rope": 2}, ("platform", "crane")),
        ("gin pole", {"climbers": 2, "hauling rope": 2}, ("platform", "crane")),
    ],
)  # fmt: skip
def test_roles_by_method(name, roles, never):
    plan = PLANS[name]
    found = {role.role: role.people for role in plan.crew}
    assert found["lift director"] == found["spotter"] == 1
    assert {role: found.get(role) for role in roles} == roles
    assert all(role.people > 0 for role in plan.crew)
    for word in never:
        assert word not in words(plan).replace("hauls nothing", ""), word


@pytest.mark.parametrize("name", JOBS)
def test_everybody_entered_has_one_role(name):
    plan = PLANS[name]
    hired = sum("operator" in role.role for role in plan.crew)
    climbers = plan.methods[0].people[0]
    assert sum(role.people for role in plan.crew) == hired + climbers + JOBS[name].crew.ground


@pytest.mark.parametrize("ground", range(4, 12))
def test_a_capstan_takes_the_place_of_the_haulers(ground):
    rope = dataclasses.replace(STRONG, capstan=CAPSTAN)
    plan = plan_lift(changed(haul_line=rope, crew=dataclasses.replace(CREW, ground=ground)))
    found = {role.role: role for role in plan.crew}
    assert found["capstan winch"].people == 1
    assert "never people" in found["capstan winch"].task
    assert "hauling rope" not in found
    assert sum(role.people for role in plan.crew) == 2 + ground


@pytest.mark.parametrize(
    ("name", "there", "missing"),
    [
        ("tilt", "winch in", "up"),
        ("hand line", "up", "arm up"),
        ("crane", "swing the arm", "winch in"),
        ("truck", "arm up", "winch in"),
    ],
)
def test_signals_by_method(name, there, missing):
    found = [signal.word for signal in PLANS[name].signals]
    assert {"stop", "emergency stop", "hold", there} <= set(found)
    assert missing not in found


def test_fall_figures_are_for_climbers():
    assert PLANS["hand line"].falls is not None
    assert PLANS["truck"].falls is None
    assert PLANS["tilt"].falls is None


@pytest.mark.parametrize("name", JOBS)
def test_the_same_holds_in_reverse(name):
    plan = PLANS[name]
    up = [point.name for point in plan.hold_points]
    down = [point.name for point in plan.taking_down.hold_points]
    assert down[0] in {name.replace("lifted", "loosened") for name in up}
    middle = [point for point in up if point in down]
    assert [point for point in down if point in up] == middle[::-1]
    assert any("rust" in line for line in plan.taking_down.look_at)
    assert any("loosen" in line or "lower" in line for line in plan.taking_down.sequence)


@pytest.mark.parametrize(
    ("name", "order"),
    [("hand line", ("10m", "20 m beam", "6m")), ("crane", ("6m", "20 m beam", "10m"))],
)
def test_what_was_lifted_last_comes_first(name, order):
    job = dataclasses.replace(JOBS[name], others=(("10m", 14.0), ("6m", 18.0)))
    assert plan_lift(job).taking_down.order == order


def test_nobody_at_a_guy_while_people_work_above():
    plan = plan_lift(changed(guys=GUYS, clear_of_guys=YES))
    assert any(
        "anchor while people work above" in each
        for point in plan.hold_points
        for each in point.checks
    )


@pytest.mark.parametrize("name", JOBS)
def test_nothing_is_called_safe(name):
    plan = PLANS[name]
    assert "safe " not in words(plan)
    assert "safe " not in " ".join(plan.taking_down.sequence)


@pytest.mark.parametrize("name", JOBS)
def test_power_is_off_from_the_check_on_stands_until_everybody_is_down(name):
    points = PLANS[name].hold_points
    measured, locked = (
        next(place for place, point in enumerate(points) if word in " ".join(point.checks))
        for word in ("expected shape", "transmitters off and locked")
    )
    assert measured < locked
    (powered,) = (point for point in points if "low power" in " ".join(point.checks))
    assert powered is points[-1]
    assert "nobody up" in powered.checks[0]


@pytest.mark.parametrize("name", JOBS)
def test_nothing_turns_before_everybody_is_down(name):
    """In holds and in the order of the day: down and away first, then the rotator."""
    plan = PLANS[name]
    points = [point.name for point in plan.hold_points]
    (turned,) = (point for point in plan.hold_points if "turned" in point.name)
    assert points.index(turned.name) > max(
        place for place, name in enumerate(points) if "leave" in name or "let off" in name
    )
    assert turned.checks[0].startswith("nobody up")
    assert not any(
        "turned" in check or "full range" in check
        for point in plan.hold_points
        if point is not turned
        for check in point.checks
    )
    down = plan.sequence.index("everybody down and away")
    assert all(place > down for place, step in enumerate(plan.sequence) if "full range" in step)
    assert "control unplugged" in " ".join(check for p in plan.hold_points for check in p.checks)


def test_wire_that_does_not_turn_has_no_hold_for_it():
    plan = plan_lift(changed(load=dataclasses.replace(JOB.load, upright=True)))
    assert not any("turned" in point.name for point in plan.hold_points)
    assert not any("full range" in step for step in plan.sequence)


@pytest.mark.parametrize("name", JOBS)
def test_the_lift_director_alone_says_go_on_and_is_told_by_others(name):
    plan = PLANS[name]
    there = {role.role for role in plan.crew} | {"whoever measures"}
    for point in (*plan.hold_points, *plan.taking_down.hold_points):
        assert point.who.split(",")[0] == "lift director"
        assert set(point.reports) <= there
        assert "lift director" not in point.reports


@pytest.mark.parametrize("name", [name for name in JOBS if name != "tilt"])
def test_a_sling_put_on_is_taken_off_before_anything_turns(name):
    for points in (PLANS[name].taking_down.hold_points, PLANS[name].hold_points):
        told = [" ".join(point.checks) for point in points]
        put, off = (
            next(place for place, text in enumerate(told) if re.search(words, text))
            for words in ("safety sling on", "safety sling (and tag lines )?off")
        )
        assert put < off
    turned = [point.name for point in PLANS[name].hold_points].index("before the beam is turned")
    assert off < turned


@pytest.mark.parametrize("name", JOBS)
def test_steps_speak_of_the_support_that_stands(name):
    plan = plan_lift(dataclasses.replace(JOBS[name], on_tube=True, climbable=YES))
    assert "tower" not in words(plan)
    assert "torque its bolts" not in words(plan)
    assert not any("legs" in line or "tower" in line for line in plan.taking_down.look_at)


@pytest.mark.parametrize("name", JOBS)
def test_every_role_has_its_place_outside_what_drops_and_turns(name):
    plan = PLANS[name]
    assert all(role.place for role in plan.crew)
    out = standing_radius(plan.methods[0], JOBS[name])
    assert out >= max(plan.dropped_tool_radius, JOBS[name].swing_radius) + 1.0
    director = write(plan.crew[0].place, system="metric")
    assert f"at least {out:.2f} m from the foot" in director
    assert "in sight of" in director


def test_the_spotter_stands_where_the_power_line_shows():
    plan = plan_lift(dataclasses.replace(JOBS["truck"], power_lines=(STREET,)))
    (spotter,) = (role for role in plan.crew if role.role == "spotter")
    assert "towards the power line “street” but never under it" in write(
        spotter.place, system="metric"
    )
