"""Laying a support over: statics from balances written out, and what the method needs for a go."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.base.quantity import write
from boomwright.raising import Lifter, Part, plan_lift
from boomwright.raising.tilt_statics import hold_back_pull, lying_moment, tilt_state, weight_moment
from fakes.lift_jobs import BARE, CREW, JOB, NO, TILT, changed, method

PARTS = TILT.parts
GRAVITY = 9.80665
SHEAVE = Lifter(kind="fixed sheave", height=6.0, line_at=8.0, behind=2.0)


def told(value):
    """Write what is said for a reader of metric units."""
    return write(value, system="metric")


def cross(place, force):
    return place[0] * force[1] - place[1] * force[0]


@given(
    angle=st.floats(0.0, math.radians(80.0)),
    height=st.floats(2.0, 6.0),
    held=st.floats(4.0, 10.0),
    winch=st.floats(7.0, 20.0),
    wind=st.floats(0.0, 100.0),
)
def test_gin_pole_in_balance(angle, height, held, winch, wind):
    """Moments and forces from the drawing: the support lies to the left, the winch to the right."""
    parts = (*PARTS, Part(name="sail", mass=0.0, at=12.0, wind=wind))
    lifter = Lifter(kind="gin pole", height=height, line_at=held, winch=winch)
    state = tilt_state(parts=parts, lifter=lifter, angle=angle)
    along = np.array([-math.cos(angle), math.sin(angle)])
    across = np.array([math.sin(angle), math.cos(angle)])
    head, ground, grip = height * across, np.array([winch, 0.0]), held * along
    pull = state.winch_line * (ground - head) / np.linalg.norm(ground - head)
    moment = cross(head, pull)
    moment += sum(cross(part.at * along, (-part.wind, -part.weight)) for part in parts)
    scale = weight_moment(parts) + 1200.0
    assert moment == pytest.approx(0.0, abs=1e-9 * scale)
    weight, blown = sum(part.weight for part in parts), sum(part.wind for part in parts)
    assert state.thrust == pytest.approx(abs(pull[0] - blown), rel=1e-9, abs=1e-6)
    assert state.down == pytest.approx(weight - pull[1], rel=1e-9)
    # The support alone turns about the hinge under its weights and the line to the pole's head.
    line = state.lift_line * (head - grip) / np.linalg.norm(head - grip)
    alone = cross(grip, line)
    alone += sum(cross(part.at * along, (-part.wind, -part.weight)) for part in parts)
    assert alone == pytest.approx(0.0, abs=1e-9 * scale)
    # The pole is pressed by both lines at its head.
    assert state.lifter == pytest.approx(-float((pull - line) @ across), rel=1e-9, abs=1e-6)


@given(
    angle=st.floats(0.0, math.radians(80.0)),
    height=st.floats(2.0, 12.0),
    held=st.floats(4.0, 10.0),
    behind=st.floats(0.0, 6.0),
    wind=st.floats(0.0, 100.0),
)
def test_fixed_sheave_in_balance(angle, height, held, behind, wind):
    parts = (*PARTS, Part(name="sail", mass=0.0, at=12.0, wind=wind))
    lifter = Lifter(kind="fixed sheave", height=height, line_at=held, behind=behind)
    state = tilt_state(parts=parts, lifter=lifter, angle=angle)
    along = np.array([-math.cos(angle), math.sin(angle)])
    grip, sheave = held * along, np.array([behind, height])
    line = state.winch_line * (sheave - grip) / np.linalg.norm(sheave - grip)
    moment = cross(grip, line)
    moment += sum(cross(part.at * along, (-part.wind, -part.weight)) for part in parts)
    assert moment == pytest.approx(0.0, abs=1e-8 * (weight_moment(parts) + 1200.0))
    blown = sum(part.wind for part in parts)
    assert state.thrust == pytest.approx(abs(line[0] - blown), rel=1e-9, abs=1e-6)
    assert state.down == pytest.approx(sum(part.weight for part in parts) - line[1], rel=1e-9)


def test_the_sheave_by_its_printed_formula():
    """T = S cos th sqrt((s cos th + b)^2 + (s sin th - h)^2) / (s |h cos th + b sin th|)."""
    still = tuple(dataclasses.replace(part, wind=0.0) for part in PARTS)
    moment = 60 * GRAVITY * 5.5 + 25 * GRAVITY * 12.0
    for degrees in (0, 30, 60, 85):
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        long = math.sqrt((8 * c + 2) ** 2 + (8 * s - 6) ** 2)
        expected = moment * c * long / (8 * abs(6 * c + 2 * s))
        state = tilt_state(parts=still, lifter=SHEAVE, angle=math.radians(degrees))
        assert state.winch_line == pytest.approx(expected, rel=1e-12)


def test_bending_of_the_lying_support():
    # A tube of 12 m and 120 N/m from the hinge, 200 N at 12 m, held at 8 m: over the line
    # 120 x 4 x 2 + 200 x 4 = 1760 N m by hand; between hinge and line less.
    parts = (
        Part(name="tube", mass=1440.0 / GRAVITY, at=6.0, length=12.0),
        Part(name="top", mass=200.0 / GRAVITY, at=12.0),
    )
    moment, place = lying_moment(parts=parts, line_at=8.0)
    assert (moment, place) == (pytest.approx(1760.0, rel=1e-12), pytest.approx(8.0))
    # Held near its tip it sags like a beam on two supports: w l^2 / 8 in the middle of 12 m.
    sagging, middle = lying_moment(parts=parts[:1], line_at=12.0)
    assert sagging == pytest.approx(120.0 * 12.0**2 / 8.0, rel=1e-3)
    assert middle == pytest.approx(6.0, abs=0.05)


def test_hold_back_line():
    # 3-4-5: held at 4 m, anchored at 3 m, 1200 N m: lever arm 12/5 m.
    assert hold_back_pull(turning=1200.0, line_at=4.0, anchor=3.0) == pytest.approx(500.0)


def test_a_go_when_everything_is_there_and_strong_enough():
    choice = method(changed(tilt=TILT), "tilt")
    assert (choice.verdict, choice.deciding) == ("go", ())
    assert plan_lift(changed(tilt=TILT)).verdict == "go"
    winch = next(force for force in choice.forces if force.name.startswith("winch, pull"))
    # Largest at the start, 1.6 times the steady 1690.2 N of data/raising_checks.toml.
    assert winch.name.endswith("(worst at 0°)")
    assert winch.value == pytest.approx(1.6 * 1690.2, abs=0.1)
    hinge = next(force for force in choice.forces if force.name.startswith("hinge"))
    assert hinge.value == pytest.approx(1.6 * math.hypot(1544.5, 1520.0), abs=0.3)


def without(name):
    return changed(tilt=dataclasses.replace(TILT, **{name: None}))


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("winch", "winch without a marked pull"),
        ("rope", "winch rope without"),
        ("lift_line", "line from gin pole"),
        ("lifter_rating", "gin pole: nobody knows"),
        ("anchor", "ground anchor of the winch line"),
        ("hinge_rating", "hinge: nobody knows"),
        ("allowed_moment", "ask its maker"),
        ("back_line", "no hold-back line"),
        ("operator_out", "winch is worked"),
        ("hinged", "hinge made to lay"),
        ("side_guys", "side guys"),
    ],
)
def test_what_is_missing_is_asked_for_by_name(name, word):
    choice = method(without(name), "tilt")
    assert choice.verdict == "ask"
    assert any(word in told(reason) for reason in choice.deciding)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"winch": 2600.0}, "winch too weak"),  # 1.6 x 1690
        ({"rope": 8400.0}, "winch rope too weak"),  # 5 x 1690
        ({"rope": 16000.0, "ends": "knot"}, "a knot counting for half"),
        ({"lift_line": 8600.0}, "lift line too weak"),  # 5 x 1727
        ({"lifter_rating": 2300.0}, "gin pole too weak"),  # 1.6 (S/d + S/s) = 2334
        ({"anchor": 2600.0}, "ground anchor of the winch line too weak"),
        ({"hinge_rating": 3400.0}, "hinge too weak"),  # 1.6 x 2167
        ({"allowed_moment": 1500.0}, "bending"),  # 1.6 x 4 m x 25 g = 1569
        ({"operator_out": 13.0}, "what falls reaches"),
        ({"hinged": NO}, "no hinge"),
        ({"side_guys": NO}, "no side guys"),
    ],
)
def test_what_is_too_weak_stands_against_it(more, word):
    choice = method(changed(tilt=dataclasses.replace(TILT, **more)), "tilt")
    assert choice.verdict == "no-go"
    assert any(word in told(reason) for reason in choice.deciding)


def test_the_hold_back_line_is_held_against_wind_and_lean():
    # 49.4 N at 12 m and S sin 5 deg turn with 593 + 538 N m; line at 8 m, anchor at 9 m.
    moment = 60 * GRAVITY * 5.5 + 25 * GRAVITY * 12.0
    pull = (49.4 * 12.0 + moment * math.sin(math.radians(5.0))) * math.hypot(8, 9) / 72.0
    weak = dataclasses.replace(TILT.back_line, breaking_strength=5 * pull - 1.0)
    strong = dataclasses.replace(weak, breaking_strength=5 * pull + 1.0)
    for line, verdict in ((weak, "no-go"), (strong, "go")):
        job = changed(tilt=dataclasses.replace(TILT, back_line=line))
        assert method(job, "tilt").verdict == verdict


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ({"foot_set": True}, "no-go"),
        ({"crew": dataclasses.replace(CREW, ground=3)}, "no-go"),
        ({"tilt": None}, "no-go"),
        ({"tilt": dataclasses.replace(TILT, hinged=BARE)}, "ask"),
        ({"tilt": dataclasses.replace(TILT, unknown_parts=("weight of the support",))}, "ask"),
    ],
)
def test_a_tube_in_its_pier_and_a_bare_yes_do_not_tilt(more, verdict):
    assert method(changed(**{"tilt": TILT, **more}), "tilt").verdict == verdict


def test_wind_and_tackle_count():
    calm = tuple(dataclasses.replace(part, wind=0.0) for part in PARTS)
    windy = tilt_state(parts=PARTS, lifter=TILT.lifter, angle=math.radians(60.0))
    still = tilt_state(parts=calm, lifter=TILT.lifter, angle=math.radians(60.0))
    # 49.4 N at 12 m, upright by sin 60; the line's arm falls with cos 60.
    moment = 60 * GRAVITY * 5.5 + 25 * GRAVITY * 12.0
    grown = 1.0 + 49.4 * 12.0 * math.tan(math.radians(60.0)) / moment
    assert windy.winch_line / still.winch_line == pytest.approx(grown, rel=1e-12)
    four = method(changed(tilt=dataclasses.replace(TILT, winch_parts=4)), "tilt")
    winch = next(force for force in four.forces if force.name.startswith("winch, pull"))
    # {navy-tackle}: (W + 0.4 W) / 4.
    assert winch.value == pytest.approx(1.6 * 1690.2 * 1.4 / 4, abs=0.1)


def test_the_course_names_every_angle_shown():
    course = method(changed(tilt=TILT), "tilt").course
    assert [round(math.degrees(state.angle)) for state in course] == [0, 15, 30, 45, 60, 75, 80]
    assert course[0].turning == pytest.approx(60 * GRAVITY * 5.5 + 25 * GRAVITY * 12.0)
    assert method(JOB, "tilt").course == ()


@pytest.mark.parametrize(
    "more", [{"height": 0.0}, {"line_at": -1.0}, {"winch": 0.0}, {"behind": -1.0}]
)
def test_a_lifter_out_of_nothing_is_refused(more):
    with pytest.raises(ValueError, match="must be above 0"):
        dataclasses.replace(TILT.lifter, **more)
