"""Where the load goes up: between two guys, clear of them, and who stays how far from it."""

from __future__ import annotations

import dataclasses
import math
import random

import numpy as np
import pytest

from boomwright.base.quantity import write
from boomwright.raising import Crew, plan_lift
from boomwright.raising.standing import standing_points, standing_radius
from boomwright.raising.way import GUY_GAP, OVER_TOP, load_way
from boomwright.structure import GuyLevel
from boomwright.structure.support.guys import STRANDS
from fakes.lift_jobs import GUYS, JOB, TRUCK, YES, changed

CREW = Crew(ground=6, trained_rigger=YES)
BESIDE = changed(
    lift_truck=dataclasses.replace(TRUCK, needed_outreach=7.0, outreach=8.0, platform_height=16.0),
    guys=GUYS,
    clear_of_guys=YES,
    level_access=YES,
    crew=CREW,
    boundary=60.0,
)


def sampled_gap(job, way) -> float:
    """Least distance between beam and guys by points on both, at every height on the way up."""
    load, turn = job.load, way.bearing
    along = np.linspace(-load.balance_place, load.boom_length - load.balance_place, 41) + way.out
    across = np.linspace(-0.5, 0.5, 61) * load.element_span
    u, v = (a.ravel() for a in np.meshgrid(along, across))
    east = u * math.sin(turn) + v * math.cos(turn)
    north = u * math.cos(turn) - v * math.sin(turn)
    part = np.linspace(0.0, 1.0, 400)
    found = []
    for ring in job.guys:
        for guy in ring.azimuths:
            x, y = (f(guy) * ring.anchor_radius * (1.0 - part) for f in (math.sin, math.cos))
            # The beam passes every height of the guy, so distances over ground decide.
            found.append(np.hypot(east[:, None] - x, north[:, None] - y).min())
    return min(found)


@pytest.mark.parametrize("seed", range(8))
def test_the_gap_is_that_of_points_on_beam_and_guys(seed):
    dice = random.Random(seed)  # noqa: S311
    count, first = dice.choice((3, 4)), dice.uniform(0.0, math.tau)
    rings = tuple(
        GuyLevel(height=high, anchor_radius=30.0, strand=STRANDS["1/4 in EHS"], count=count,
                 first_azimuth=first)
        for high in (14.0, 7.0)
    )  # fmt: skip
    job = dataclasses.replace(
        BESIDE,
        guys=rings,
        load=dataclasses.replace(
            JOB.load, element_span=dice.uniform(2.0, 8.0), boom_length=dice.uniform(2.0, 6.0),
            balance_place=1.0, heading=dice.uniform(0.0, math.tau),
        ),
        lift_truck=dataclasses.replace(TRUCK, needed_outreach=dice.uniform(8.0, 12.0)),
    )  # fmt: skip
    way = load_way("truck", job)
    assert max(0.0, way.gap) == pytest.approx(sampled_gap(job, way), abs=0.1)
    # Standing as far out as asked leaves just the gap.
    nearer = dataclasses.replace(job.lift_truck, needed_outreach=way.needed)
    there = load_way("truck", dataclasses.replace(job, lift_truck=nearer))
    assert there.gap == pytest.approx(GUY_GAP, abs=1e-9)
    # It comes in between two guys, on the side that the beam points to.
    sector = math.tau / count
    apart = [abs(math.remainder(guy - way.bearing, math.tau)) for guy in rings[0].azimuths]
    assert min(apart) == pytest.approx(0.5 * sector)
    assert abs(math.remainder(way.bearing - job.load.heading, math.tau)) <= 0.5 * sector + 1e-9


@pytest.mark.parametrize(
    ("out", "bearing", "height", "verdict", "words"),
    [
        (7.0, None, 14.0, "go", ""),
        (5.0, None, 14.0, "ask", "the beam comes within 0.0 m of a guy: it needs 6.6 m there"),
        (7.0, 0.0, 14.0, "ask", "the arm comes in along a guy"),
        (7.0, None, 15.8, "ask", "does not pass above them"),
    ],
)
def test_what_does_not_pass_the_guys_is_asked_whatever_was_signed(
    out, bearing, height, verdict, words
):
    truck = dataclasses.replace(BESIDE.lift_truck, needed_outreach=out, bearing=bearing)
    guys = (dataclasses.replace(GUYS[0], height=height), GUYS[1])
    plan = plan_lift(dataclasses.replace(BESIDE, lift_truck=truck, guys=guys, tower_height=16.0))
    assert plan.methods[0].way == "truck"
    assert plan.verdict == verdict
    assert words in "; ".join(write(reason, system="metric") for reason in plan.reasons)


def test_people_stand_clear_of_the_load_the_foot_and_every_anchor():
    plan = plan_lift(BESIDE)
    out = standing_radius(plan.methods[0], BESIDE)
    assert out >= plan.dropped_tool_radius + 1.0
    points = standing_points(plan.methods[0], BESIDE)
    assert [role for role, *_ in points].count("tag line") == 2
    foot, load = np.zeros(2), np.array(plan.way.place)
    for role, *place in points:
        at = np.array(place)
        # Nearest point of the line from the foot to where the load goes up.
        share = np.clip(at @ load / (load @ load), 0.0, 1.0)
        assert np.linalg.norm(at - share * load) >= out - 1e-9, role
        assert np.linalg.norm(at - foot) >= out - 1e-9
        for guy in BESIDE.guys[0].azimuths:
            anchor = 11.0 * np.array([math.sin(guy), math.cos(guy)])
            assert np.linalg.norm(at - anchor) > 3.0, role


def test_what_the_work_reaches_counts_from_where_the_load_goes_up():
    plan = plan_lift(BESIDE)
    (boundary,) = (check for check in plan.ground if check.name == "boundary")
    assert boundary.reach == pytest.approx(plan.exclusion_radius + 7.0)
    assert any("rotator at 60° true" in check for p in plan.hold_points for check in p.checks)


def test_the_highest_part_is_the_top_of_the_mast_where_that_is_higher():
    plan = plan_lift(dataclasses.replace(BESIDE, mast_top=17.4))
    assert plan.exclusion_radius == pytest.approx(17.4 + OVER_TOP + BESIDE.swing_radius)


def test_the_beam_comes_in_over_the_mast_whose_other_side_its_elements_reach():
    """Mast to 16.4, boom half a metre over it; rails 1.1 m above the floor must get there."""
    job = dataclasses.replace(BESIDE, mast_top=16.4)
    plan = plan_lift(job)
    assert plan.way.high == pytest.approx(16.9)
    assert any("over the mast" in point.name for point in plan.hold_points)
    assert any("straight up" in point.name for point in plan.taking_down.hold_points)
    assert not any("over the mast" in point.name for point in plan.taking_down.hold_points)
    assert plan.verdict == "go"
    low = plan_lift(
        changed(job, lift_truck=dataclasses.replace(job.lift_truck, platform_height=15.7))
    )
    truck = next(one for one in low.methods if one.way == "truck")
    assert truck.verdict == "no-go"
    assert "passes over the mast at 16.9 m" in "; ".join(
        write(reason, system="metric") for reason in truck.reasons
    )
    # Without a boom nothing of it lies behind the clamp.
    bare = changed(job, load=dataclasses.replace(JOB.load, boom_length=0.0, balance_place=None))
    assert load_way("truck", bare).high == bare.lift_height
