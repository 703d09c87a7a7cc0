"""What decides a lift: method, wind, ground, lines and what carries it; a go needs all of them."""

import dataclasses

import pytest

from boomwright.base import Finding, plan_verdict
from boomwright.base.quantity import write
from boomwright.raising import Crew, Said, plan_lift
from fakes.lift_jobs import (
    BARE,
    CRANE,
    GUYS,
    JOB,
    NO,
    POLE,
    STREET,
    TILT,
    TRAM,
    TRUCK,
    YES,
    changed,
    method,
)

EXCEEDED = Finding(
    subject="structure", name="20m: boom in wind", verdict="exceeded", use=1.55, holds_up=True
)
OPEN = Finding(
    subject="structure",
    name="tower: wind area",
    verdict="not checked",
    reason="no rating",
    holds_up=True,
)


def told(value):
    """Write what is said for a reader of metric units."""
    return write(value, system="metric")


@pytest.mark.parametrize(
    ("carried", "verdict", "words"),
    [
        ((), "go", ""),
        ((OPEN,), "ask", "not checked: tower wind area"),
        ((EXCEEDED,), "no-go", "past its limit: 20m boom in wind, 155 %"),
        ((OPEN, EXCEEDED), "no-go", "past its limit"),
    ],
)
def test_no_go_while_what_holds_it_up_may_fall(carried, verdict, words):
    plan = plan_lift(JOB, carried=carried)
    assert plan.verdict == verdict
    assert plan.methods[0].verdict == "go"
    assert words in "; ".join(map(told, plan.reasons))
    assert any(note.code == "raising.structure" for note in plan.notices) == bool(carried)
    # The structure's findings count by themselves; they are not counted twice.
    assert all(finding.subject == "raising" for finding in plan.findings)
    assert plan_verdict(plan.findings).word == "within"


@pytest.mark.parametrize(
    ("gust", "verdict", "word"),
    [(4.4, "go", "within"), (4.5, "no-go", "exceeded"), (30.0, "no-go", "exceeded"),
     (None, "ask", "ask")],
)  # fmt: skip
def test_the_forecast_decides_with_the_rest(gust, verdict, word):
    plan = plan_lift(changed(forecast_gust=gust))
    assert plan.verdict == verdict
    (finding,) = (each for each in plan.findings if "forecast" in each.name)
    assert finding.verdict == word
    if gust == 30.0:
        # 10 mph is 4.4704 m/s
        assert finding.use == pytest.approx(30.0 / 4.4704)
        assert any(note.severity == "limit" for note in plan.notices)
        assert "hoist below" in told(plan.reasons[0])


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        # Kept empty: 16 m and half the diagonal of 10.8 m by 6 m, 22.2 m.
        ({"boundary": 22.3}, "go"),
        ({"boundary": None}, "ask"),
        ({"boundary": 22.0}, "ask"),
        ({"boundary": 22.0, "ground_beyond": BARE}, "ask"),
        ({"boundary": 22.0, "ground_beyond": YES}, "go"),
        ({"boundary": 22.0, "ground_beyond": NO}, "no-go"),
        ({"walkway": 40.0}, "go"),
        ({"walkway": 12.0}, "ask"),
        ({"walkway": 12.0, "ground_beyond": YES}, "go"),
    ],
)
def test_the_ground_kept_empty_ends_at_the_boundary(more, verdict):
    plan = plan_lift(changed(**more))
    assert plan.verdict == verdict
    word = {"go": "within", "ask": "ask", "no-go": "exceeded"}[verdict]
    ground = plan_verdict(each for each in plan.findings if "ground" in each.name)
    assert ground.word == word


def test_use_of_the_ground_is_reach_over_distance():
    plan = plan_lift(changed(boundary=20.0, ground_beyond=NO))
    (finding,) = (each for each in plan.findings if each.name.endswith("boundary"))
    assert finding.use == pytest.approx(plan.exclusion_radius / 20.0)
    assert "beyond" in told(finding.reason)
    assert finding.change


@pytest.mark.parametrize(
    ("answer", "verdict"), [(None, "ask"), (BARE, "ask"), (YES, "go"), (NO, "no-go")]
)
def test_guys_and_anchors_are_looked_at(answer, verdict):
    plan = plan_lift(changed(guys=GUYS, clear_of_guys=answer))
    assert plan.verdict == verdict
    (check,) = (each for each in plan.ground if each.name == "guys and anchors")
    # Within 6.18 m of the tower from 7.5 (1 - 6.18/11) = 3.3 m up to the upper ring at 14 m.
    assert "from 3.3 m" in told(check.reason)
    assert "to 14.0 m" in told(check.reason)
    assert check.distance == 11.0


def test_guys_clear_of_the_beam_are_not_crossed():
    # Anchors 7 m out and a beam of 3 m by 2 m: within 1.8 m of the mast only above the clamp.
    small = dataclasses.replace(JOB.load, element_span=3.0, boom_length=2.0)
    low = changed(load=small, guys=GUYS[:1], lift_height=5.0, clear_of_guys=YES)
    (check,) = (each for each in plan_lift(low).ground if each.name == "guys and anchors")
    assert "cross" not in told(check.reason)


def test_answers_say_who_and_when():
    plan = plan_lift(changed(guys=GUYS, clear_of_guys=YES))
    told = {each.question.matter: each.said for each in plan.answers}
    assert told["a rescue plan is written and its kit is on site"] == Said(
        yes=True, by="station owner", on="2026-05-01"
    )
    assert len(told) == len(plan.answers) == 5


def test_every_finding_names_the_beam_and_lines_have_a_use():
    near = dataclasses.replace(STREET, distance=23.0)
    plan = plan_lift(changed(power_lines=(near,)))
    assert all(each.name.startswith("20 m beam: ") for each in plan.findings)
    (line,) = (each for each in plan.findings if "power line" in each.name)
    assert line.verdict == "within"
    assert line.use == pytest.approx(near.required_clearance / plan.power_lines[0].gap)


def test_nearest_method_is_one_whose_gear_is_there():
    plan = plan_lift(changed(crew=Crew(ground=6), lift_truck=TRUCK, level_access=NO))
    assert plan.methods[0].way == "truck"
    assert "nearest is lift truck: no level" in told(plan.reasons[0])


_HAULED = ("haul_line", "haul_line.block_breaking_strength", "tower_top_horizontal_rating")
_CLIMBED = ("crew.training", "crew.rescue_plan")
#: what each method cannot do without, by the gear that makes it a go
NEEDS = {
    "hand line": ({}, (*_HAULED, *_CLIMBED)),
    "gin pole": (
        {"gin_pole": POLE},
        (*_HAULED, *_CLIMBED, "crew.trained_rigger", "gin_pole.rated_load",
         "gin_pole.maximum_overhang", "gin_pole"),
    ),
    "tram": (
        {"tram": TRAM},
        (*_HAULED, *_CLIMBED, "crew.trained_rigger", "tram.anchor", "tram.back_guyed", "tram"),
    ),
    "crane": (
        {"crane": CRANE, "level_access": YES, "boundary": 40.0},
        (*_CLIMBED, "crane.capacity", "crane.slings", "crane.operator", "level_access", "crane"),
    ),
    "truck": (
        {"lift_truck": TRUCK, "level_access": YES},
        ("lift_truck.platform_capacity", "lift_truck.operator", "lift_truck.carries_beam",
         "level_access", "lift_truck"),
    ),
    "tilt": (
        {"tilt": TILT},
        ("tilt.hinged", "tilt.side_guys", "tilt.winch", "tilt.rope", "tilt.lift_line",
         "tilt.lifter_rating", "tilt.anchor", "tilt.hinge_rating", "tilt.allowed_moment",
         "tilt.back_line", "tilt.back_line.anchor", "tilt.operator_out", "tilt"),
    ),
}  # fmt: skip
#: what every lift needs, whatever its method
ALWAYS = ("forecast_gust", "boundary", "lines_surveyed", "crew")


def taken_out(value, path):
    """The same value without what stands at the path."""
    key, _, rest = path.partition(".")
    inner = getattr(value, key)
    gone = Crew() if key == "crew" else None
    return dataclasses.replace(value, **{key: taken_out(inner, rest) if rest else gone})


@pytest.mark.parametrize(
    ("way", "path"), [(way, path) for way, (_, needs) in NEEDS.items() for path in needs]
)
def test_a_method_is_no_go_without_any_one_of_its_needs(way, path):
    job = changed(**NEEDS[way][0])
    assert method(job, way).verdict == "go"
    assert method(taken_out(job, path), way).verdict != "go"


@pytest.mark.parametrize(
    ("said", "verdict"), [(YES, "go"), (BARE, "ask"), (None, "ask"), (NO, "no-go")]
)
@pytest.mark.parametrize("way", ["hand line", "gin pole", "tram", "crane"])
def test_a_tube_is_climbed_only_where_somebody_says_it_is_made_for_it(way, said, verdict):
    # Common practice: a bare tube has neither rungs nor an anchor for the fall arrest.
    job = changed(**NEEDS[way][0], on_tube=True, climbable=said)
    assert method(job, way).verdict == verdict


@pytest.mark.parametrize("path", ALWAYS)
@pytest.mark.parametrize("way", NEEDS)
def test_no_lift_is_a_go_without_what_all_of_them_need(way, path):
    job = changed(**NEEDS[way][0])
    assert plan_lift(job).verdict == "go"
    assert plan_lift(taken_out(job, path)).verdict != "go"
