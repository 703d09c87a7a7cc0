"""Choosing a method: go, no-go, ask, and what the plan says about it."""

import dataclasses
import math

import pytest

from boomwright.base.quantity import write
from boomwright.raising import Crew, HaulLine, plan_lift, swr_expectation
from boomwright.raising.weather import weather_answer
from fakes.lift_jobs import (
    BARE,
    CAPSTAN,
    CRANE,
    CREW,
    GUYS,
    JOB,
    LOAD,
    NO,
    POLE,
    STREET,
    STRONG,
    TILT,
    TRAM,
    TRUCK,
    YES,
    changed,
    method,
)


def told(value):
    """Write what is said for a reader of metric units."""
    return write(value, system="metric")


def test_hand_haul_with_everything_in_order():
    plan = plan_lift(JOB)
    assert plan.verdict == "go"
    assert plan.methods[0].name == "climbers with a hauling line"
    assert [choice.verdict for choice in plan.methods].count("no-go") == 5
    assert "call in someone who is" in plan.trained_people
    assert plan.notices[0].severity == "caution"


@pytest.mark.parametrize(
    ("more", "verdict", "word"),
    [
        ({"crew": dataclasses.replace(CREW, trained_climbers=1)}, "no-go", "trained climbers"),
        ({"crew": dataclasses.replace(CREW, rescue_plan=NO)}, "no-go", "rescue plan"),
        ({"crew": dataclasses.replace(CREW, rescue_plan=None)}, "ask", "rescue plan"),
        ({"crew": dataclasses.replace(CREW, rescue_plan=BARE)}, "ask", "who says so"),
        ({"crew": dataclasses.replace(CREW, training=None)}, "ask", "training"),
        ({"crew": dataclasses.replace(CREW, ground=4)}, "no-go", "on the ground"),
        ({"load": dataclasses.replace(LOAD, mass=36.0)}, "no-go", "by hand"),
        ({"clear_of_guys": NO}, "no-go", "guys"),
        ({"guys": GUYS}, "ask", "passes guys"),
        ({"tower_top_horizontal_rating": None}, "ask", "ask the tower's maker"),
        ({"tower_top_horizontal_rating": 10.0}, "no-go", "over the allowed 10 N"),
        ({"haul_line": None}, "ask", "no hauling rope"),
        ({"haul_line": HaulLine(breaking_strength=20e3)}, "ask", "without marked strength"),
        (
            {"haul_line": HaulLine(breaking_strength=1e3, block_breaking_strength=4e4)},
            "no-go",
            "rope too weak",
        ),
    ],
)
def test_hand_haul_reasons(more, verdict, word):
    choice = method(changed(**more), "hand line")
    assert choice.verdict == verdict
    assert word in told(choice.reasons[0])


def test_hand_haul_forces():
    choice = method(JOB, "hand line")
    heavy = 20.0 * 9.80665
    # {navy-tackle}: a tenth of the load at top and foot block; 1.25 for jerks; five times static.
    assert choice.forces[0].value == pytest.approx(5 * 1.25 * 1.2 * heavy, rel=1e-12)
    assert choice.forces[1].value == pytest.approx(5 * 1.25 * (1.0 + 1.1) * heavy, rel=1e-12)
    top = choice.tower_top
    assert top.base_moment == pytest.approx(top.horizontal * 16.0, rel=1e-12)
    # 15 mph on 0.6 m2, three times for gusts
    assert top.horizontal == pytest.approx(3 * 0.613 * 0.6 * (15 * 0.44704) ** 2, rel=1e-12)


def hauled(mass, **line):
    rope = dataclasses.replace(STRONG, **line)
    job = changed(load=dataclasses.replace(LOAD, mass=mass), haul_line=rope)
    return method(job, "hand line")


@pytest.mark.parametrize(
    ("mass", "line", "verdict"),
    [
        (35.0, {}, "go"),
        (36.0, {}, "no-go"),
        # By hand 35 g x 1.2 = 412 N: two parts m g (1 + 0.3) / 2 up to 64.6 kg, three parts
        # m g (1 + 0.4) / 3 up to 90.0 kg.
        (64.0, {"parts": 2}, "go"),
        (65.0, {"parts": 2}, "no-go"),
        (89.0, {"parts": 3}, "go"),
        (91.0, {"parts": 3}, "no-go"),
        (90.0, {"capstan": CAPSTAN}, "no-go"),  # a hand would hold 201 N with wet rope
        (90.0, {"capstan": dataclasses.replace(CAPSTAN, turns=4)}, "go"),
    ],
)
def test_a_tackle_or_a_capstan_takes_more_than_a_block(mass, line, verdict):
    assert hauled(mass, **line).verdict == verdict


@pytest.mark.parametrize(
    ("gear", "verdict", "word"),
    [
        ({"rated_pull": None}, "ask", "without a marked pull"),
        ({"fastening": None}, "ask", "fastened to"),
        ({"rated_pull": 800.0}, "no-go", "winch too weak"),
        ({"fastening": 1000.0}, "no-go", "fastening of the capstan"),
        ({"turns": 2}, "no-go", "2 turns"),
    ],
)
def test_a_capstan_needs_its_ratings(gear, verdict, word):
    # 60 kg: steady 60 g 1.2 = 706 N; winch 1.25 of that, its fastening 1.6.
    choice = hauled(60.0, capstan=dataclasses.replace(CAPSTAN, **gear))
    assert choice.verdict == verdict
    assert word in told(choice.deciding[0])


def test_a_capstan_is_for_loads_and_its_hand_holds_wet_rope():
    choice = hauled(60.0, capstan=CAPSTAN)
    assert any("loads only" in told(reason) for reason in choice.reasons)
    (tail,) = (force for force in choice.forces if "hand behind" in force.name)
    # {belt-friction}: three turns at 0.1.
    pull = 1.25 * 60.0 * 9.80665 * 1.2
    assert tail.value == pytest.approx(pull / math.exp(2 * math.pi * 3 * 0.1), rel=1e-12)
    # The winch replaces one of two people at the rope.
    assert (choice.people, method(JOB, "hand line").people) == ((2, 4), (2, 5))


def test_a_knot_counts_for_half():
    # needs 5 x 1.25 x 1.2 x 20 g = 1471 N
    knotted = hauled(20.0, breaking_strength=2500.0, ends="knot")
    spliced = hauled(20.0, breaking_strength=2500.0)
    assert (knotted.verdict, spliced.verdict) == ("no-go", "go")
    assert "half" in told(knotted.deciding[0])


@pytest.mark.parametrize(
    ("more", "access", "verdict"),
    [
        ({}, YES, "go"),
        ({}, NO, "no-go"),
        ({}, None, "ask"),
        ({}, BARE, "ask"),
        ({"platform_height": 14.0}, YES, "no-go"),
        ({"needed_outreach": 7.0}, YES, "no-go"),
        ({"platform_capacity": 230.0}, YES, "no-go"),
        ({"platform_capacity": None}, YES, "ask"),
        ({"operator": None}, YES, "ask"),
        ({"operator": NO}, YES, "no-go"),
        ({"carries_beam": None}, YES, "ask"),
    ],
)
def test_lift_truck(more, access, verdict):
    truck = dataclasses.replace(TRUCK, **more)
    job = changed(lift_truck=truck, level_access=access, crew=Crew(ground=5))
    assert method(job, "truck").verdict == verdict


def test_machine_goes_before_climbing():
    plan = plan_lift(changed(lift_truck=TRUCK, level_access=YES))
    assert [choice.name for choice in plan.methods[:2]] == [
        "lift truck",
        "climbers with a hauling line",
    ]
    assert not any(role.role == "climbers" for role in plan.crew)


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({}, "go"),
        ({"capacity": 26.0}, "no-go"),  # 75 % of 26 kg is 19.5 kg, the beam has 20
        ({"capacity": 27.0}, "go"),
        ({"capacity": None}, "ask"),
        # leg: 5 x (20 g / 2) / sin of 0.75 to 0.5, 589 N
        ({"slings": 580.0}, "no-go"),
        ({"slings": 600.0}, "go"),
        ({"hook_height": 17.7}, "no-go"),  # 16 m plus 0.3 times 6 m of bridle
    ],
)
def test_crane(more, verdict):
    job = changed(crane=dataclasses.replace(CRANE, **more), level_access=YES)
    assert method(job, "crane").verdict == verdict


GROUNDED = Crew(ground=6)


@pytest.mark.parametrize(
    ("truck", "crew", "verdict"),
    [
        # Somebody must bolt the clamp: climbers with a rescue plan, or a truck that will do.
        (None, CREW, "go"),
        (None, GROUNDED, "no-go"),
        (None, dataclasses.replace(CREW, rescue_plan=None), "ask"),
        ({}, GROUNDED, "go"),
        # A truck that cannot reach does not take the climbers' need away.
        ({"platform_height": 5.0}, GROUNDED, "no-go"),
        ({"platform_height": 5.0}, CREW, "go"),
        ({"operator": None}, GROUNDED, "ask"),
        ({"operator": None}, CREW, "go"),
        # It carries two people with tools; the crane carries the beam.
        ({"platform_capacity": 225.0, "carries_beam": None}, GROUNDED, "go"),
        ({"platform_capacity": 215.0}, GROUNDED, "no-go"),
    ],
)
def test_somebody_trained_reaches_the_clamp_of_a_crane_lift(truck, crew, verdict):
    job = changed(
        crane=CRANE,
        level_access=YES,
        crew=crew,
        lift_truck=None if truck is None else dataclasses.replace(TRUCK, **truck),
    )
    assert method(job, "crane").verdict == verdict


def test_a_machine_stops_at_its_own_wind():
    truck = dataclasses.replace(TRUCK, wind_limit=2.5)
    plan = plan_lift(changed(lift_truck=truck, level_access=YES))
    assert plan.methods[0].way == "truck"
    assert plan.stops.begin_hoist_below == 2.5
    assert plan.verdict == "no-go"
    assert "forecast" in told(plan.reasons[0])


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({}, "go"),
        ({"breaking_strength": 2e3}, "no-go"),
        ({"back_guyed": NO}, "no-go"),
        ({"back_guyed": None}, "ask"),
        ({"anchor": None}, "ask"),
        ({"anchor": 500.0}, "no-go"),
        ({"sag": 0.2}, "no-go"),  # tight line: the pull is over the tower top's rating
    ],
)
def test_tram(more, verdict):
    choice = method(changed(tram=dataclasses.replace(TRAM, **more)), "tram")
    assert choice.verdict == verdict


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
    crew = dataclasses.replace(CREW, trained_rigger=NO)
    job = changed(gin_pole=POLE, tram=TRAM, crew=crew)
    assert method(job, "gin pole").verdict == "no-go"
    assert method(job, "tram").verdict == "no-go"


def test_tilt_over_comes_first_when_it_is_possible():
    plan = plan_lift(changed(tilt=TILT))
    assert plan.methods[0].name == "tilt over"


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({"power_lines": (STREET,)}, "go"),
        ({"power_lines": (dataclasses.replace(STREET, voltage_known=False),)}, "ask"),
        ({"power_lines": (dataclasses.replace(STREET, distance=18.0),)}, "no-go"),
        ({"power_lines": (), "lines_surveyed": None}, "ask"),
        ({"power_lines": (), "lines_surveyed": BARE}, "ask"),
        ({"power_lines": (), "lines_surveyed": NO}, "ask"),
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
    plan = plan_lift(
        JOB, swr_check=swr_expectation(frequency=14.1e6, swr=1.2, stand_height=2.0, half_length=5.0)
    )
    assert plan.exclusion_radius == pytest.approx(16.0 + math.hypot(10.8, 6.0) / 2, rel=1e-12)
    # Hauled up beside the foot: what turns there reaches twice as far.
    assert plan.dropped_tool_radius == pytest.approx(math.hypot(10.8, 6.0), rel=1e-12)
    assert sum(role.people for role in plan.crew) == 2 + 6
    assert "0.09 wavelengths" in told(plan.swr_check.text)
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


def test_a_machine_without_its_wind_limit_is_asked_for_it():
    bare = dataclasses.replace(TRUCK, wind_limit=None)
    choice = method(changed(lift_truck=bare, level_access=YES), "truck")
    assert choice.verdict == "ask"
    assert "at what gust the lift truck stops" in told(choice.deciding[0])


def test_a_go_past_the_guys_says_on_whose_answer_it_rests():
    ground = plan_lift(changed(guys=GUYS, clear_of_guys=YES, walkway=50.0)).ground
    found = {check.name: check for check in ground}
    assert found["guys and anchors"].verdict == "go"
    assert "rests on one signed answer" in told(found["guys and anchors"].reason)
    assert "station owner, 2026-05-01" in told(found["guys and anchors"].reason)
    assert "before the public way" in told(found["public way"].reason)


def test_stands_cut_nothing_and_trimming_has_steps_and_an_end():
    check = swr_expectation(frequency=14.0e6, swr=1.2, stand_height=2.0, half_length=5.0)
    assert "Cut and move nothing" in told(check.text)
    # Length and frequency in proportion: 10 mm of 5 m are 0.2 %, 28 kHz of 14 MHz.
    words = told(check.trim)
    assert "shorten both tips of the driven element by 10 mm each for every 28 kHz" in words
    assert "Too high: replace both outermost tubes" in words
    assert "Stop at 50 mm at each tip" in words
