"""Choosing a method: go, no-go, ask, and what the plan says about it."""

import dataclasses
import math

import pytest

from boomwright.raising import (
    Crane,
    Crew,
    GinPole,
    HaulLine,
    LiftTruck,
    LineNear,
    Load,
    Raising,
    Tram,
    plan_lift,
    swr_expectation,
    weather_answer,
)

LOAD = Load(
    name="20 m beam",
    mass=20.0,
    drag_area=0.6,
    element_span=10.8,
    boom_length=6.0,
    balance_place=2.9,
)
CREW = Crew(trained_climbers=2, ground=5, rescue_plan=True, trained_rigger=True)
STRONG = HaulLine(breaking_strength=20e3, block_breaking_strength=40e3)
JOB = Raising(
    load=LOAD,
    tower_height=15.0,
    lift_height=16.0,
    crew=CREW,
    lines_surveyed=True,
    haul_line=STRONG,
    tower_top_horizontal_rating=2000.0,
    forecast_gust=3.0,
)
STREET = LineNear(
    name="street", distance=60.0, height=8.0, required_clearance=3.05, basis="Table A"
)


def changed(job=JOB, **more):
    return dataclasses.replace(job, **more)


def method(job, name):
    return next(choice for choice in plan_lift(job).methods if choice.name == name)


def test_hand_haul_with_everything_in_order():
    plan = plan_lift(JOB)
    assert plan.verdict == "go"
    assert plan.methods[0].name == "climbers with a hauling line"
    assert [choice.verdict for choice in plan.methods].count("no-go") == 5
    assert "get someone who is" in plan.trained_people
    assert plan.notices[0].severity == "caution"


@pytest.mark.parametrize(
    ("more", "verdict", "word"),
    [
        ({"crew": dataclasses.replace(CREW, trained_climbers=1)}, "no-go", "trained climbers"),
        ({"crew": dataclasses.replace(CREW, rescue_plan=False)}, "no-go", "rescue plan"),
        ({"crew": dataclasses.replace(CREW, ground=3)}, "no-go", "on the ground"),
        ({"load": dataclasses.replace(LOAD, mass=36.0)}, "no-go", "over 35 kg"),
        ({"guys_in_the_way": True}, "no-go", "guys"),
        ({"tower_top_horizontal_rating": None}, "ask", "ask the tower's maker"),
        ({"tower_top_horizontal_rating": 10.0}, "no-go", "over the allowed 10 N"),
        ({"haul_line": None}, "ask", "no hauling rope"),
        ({"haul_line": HaulLine(breaking_strength=20e3)}, "ask", "without marked strength"),
        (
            {"haul_line": HaulLine(breaking_strength=1e3, block_breaking_strength=4e4)},
            "no-go",
            "rope breaks",
        ),
    ],
)
def test_hand_haul_reasons(more, verdict, word):
    choice = method(changed(**more), "climbers with a hauling line")
    assert choice.verdict == verdict
    assert word in choice.reasons[0]


def test_hand_haul_forces():
    choice = method(JOB, "climbers with a hauling line")
    pull = 20.0 * 9.80665 * 1.05**2 * 1.25
    assert choice.forces[0].value == pytest.approx(5 * pull, rel=1e-12)
    assert choice.forces[1].value == pytest.approx(5 * 2 * pull, rel=1e-12)
    top = choice.tower_top
    assert top.base_moment == pytest.approx(top.horizontal * 16.0, rel=1e-12)
    # 15 mph on 0.6 m2, three times for gusts
    assert top.horizontal == pytest.approx(3 * 0.613 * 0.6 * (15 * 0.44704) ** 2, rel=1e-12)


TRUCK = LiftTruck(platform_height=15.0, outreach=6.0, needed_outreach=4.0, platform_capacity=250.0)


@pytest.mark.parametrize(
    ("more", "access", "verdict"),
    [
        ({}, True, "go"),
        ({}, False, "no-go"),
        ({"platform_height": 14.0}, True, "no-go"),
        ({"needed_outreach": 7.0}, True, "no-go"),
        ({"platform_capacity": 230.0}, True, "no-go"),
        ({"platform_capacity": None}, True, "ask"),
    ],
)
def test_lift_truck(more, access, verdict):
    truck = dataclasses.replace(TRUCK, **more)
    job = changed(lift_truck=truck, level_access=access, crew=Crew(ground=4))
    assert method(job, "lift truck").verdict == verdict


def test_machine_goes_before_climbing():
    plan = plan_lift(changed(lift_truck=TRUCK, level_access=True))
    assert [choice.name for choice in plan.methods[:2]] == [
        "lift truck",
        "climbers with a hauling line",
    ]
    assert not any(role.role == "climbers" for role in plan.crew)


CRANE = Crane(capacity=200.0, radius=8.0, hook_height=20.0)


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({}, "go"),
        ({"capacity": 26.0}, "no-go"),  # 75 % of 26 kg is 19.5 kg, the beam has 20
        ({"capacity": 27.0}, "go"),
        ({"capacity": None}, "ask"),
        ({"hook_height": 17.7}, "no-go"),  # 16 m plus 0.3 times 6 m of bridle
    ],
)
def test_crane(more, verdict):
    job = changed(crane=dataclasses.replace(CRANE, **more), level_access=True)
    assert method(job, "crane").verdict == verdict


TRAM = Tram(span=25.0, sag=2.0, breaking_strength=20e3, back_guyed=True)


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({}, "go"),
        ({"breaking_strength": 2e3}, "no-go"),
        ({"back_guyed": False}, "no-go"),
        ({"sag": 0.2}, "no-go"),  # tight line: the pull is over the tower top's rating
    ],
)
def test_tram(more, verdict):
    choice = method(changed(tram=dataclasses.replace(TRAM, **more)), "tram line")
    assert choice.verdict == verdict


POLE = GinPole(overhang=2.0, rated_load=600.0, maximum_overhang=2.5)


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({}, "go"),
        ({"overhang": 3.0}, "no-go"),
        ({"rated_load": 150.0}, "no-go"),
        ({"rated_load": None}, "ask"),
        ({"maximum_overhang": None}, "ask"),
    ],
)
def test_gin_pole(more, verdict):
    job = changed(gin_pole=dataclasses.replace(POLE, **more))
    assert method(job, "gin pole").verdict == verdict


def test_rigging_needs_a_trained_lead():
    crew = dataclasses.replace(CREW, trained_rigger=False)
    job = changed(gin_pole=POLE, tram=TRAM, crew=crew)
    assert method(job, "gin pole").verdict == "no-go"
    assert method(job, "tram line").verdict == "no-go"


def test_tilt_over_comes_first_when_it_is_possible():
    plan = plan_lift(changed(tilt_over=True))
    assert plan.methods[0].name == "tilt over"


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({"power_lines": (STREET,)}, "go"),
        ({"power_lines": (dataclasses.replace(STREET, voltage_known=False),)}, "ask"),
        ({"power_lines": (dataclasses.replace(STREET, distance=18.0),)}, "no-go"),
        ({"power_lines": (), "lines_surveyed": False}, "ask"),
        ({"power_lines": (dataclasses.replace(STREET, distance=30.0),), "tram": TRAM}, "no-go"),
    ],
)
def test_power_lines_decide_the_whole_plan(more, verdict):
    plan = plan_lift(changed(**more))
    assert plan.verdict == verdict
    if verdict != "go":
        assert any(notice.code == "raising.power-line" for notice in plan.notices)


def test_fall_arc_gap():
    plan = plan_lift(changed(power_lines=(STREET,)))
    reach = math.hypot(16.0, math.hypot(10.8, 6.0) / 2)
    assert plan.power_lines[0].gap == pytest.approx(math.hypot(60.0, 8.0) - reach, rel=1e-12)


def test_ground_and_texts():
    plan = plan_lift(JOB, swr_check=swr_expectation(frequency=14.1e6, swr=1.2, stand_height=2.0))
    assert plan.exclusion_radius == pytest.approx(16.0 + math.hypot(10.8, 6.0) / 2, rel=1e-12)
    assert plan.dropped_tool_radius == pytest.approx(8.0, rel=1e-12)
    assert sum(role.people for role in plan.crew) == 2 + 5
    assert "0.09 wavelengths" in plan.swr_check.text
    words = " ".join(
        [
            plan.trained_people,
            plan.stop_rule,
            *plan.emergency,
            *(check for point in plan.hold_points for check in point.checks),
        ]
    )
    assert "safe " not in words


@pytest.mark.parametrize(
    ("more", "hoist", "climb"),
    [
        ({"gust": 4.4}, "go", "go"),
        ({"gust": 4.5}, "no-go", "go"),
        ({"gust": 9.0}, "no-go", "no-go"),
        ({"gust": 2.0, "wet_or_iced": True}, "go", "no-go"),
        ({"gust": 2.0, "thunder_age": 1700.0}, "no-go", "no-go"),
        ({"gust": 2.0, "thunder_age": 1900.0}, "go", "go"),
        ({"gust": None}, "ask", "ask"),
        ({"gust": None, "wet_or_iced": True}, "ask", "no-go"),
    ],
)
def test_weather(more, hoist, climb):
    answer = weather_answer(**more)
    assert (answer.hoist, answer.climb) == (hoist, climb)


def test_bad_job_is_refused():
    with pytest.raises(ValueError, match=r"load\.mass is 0"):
        changed(load=dataclasses.replace(LOAD, mass=0.0))
