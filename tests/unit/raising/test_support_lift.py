"""Raising the support: a pole on a hook by hand figures, and no go while nobody says it stands."""

from __future__ import annotations

import dataclasses

import pytest

from boomwright.base.quantity import write
from boomwright.raising import Crane, Part, SupportLift, plan_lift
from fakes.lift_jobs import BARE, GUYS, NO, STREET, TILT, YES, changed

CRANE = Crane(
    radius=6.0, hook_height=14.0, capacity=500.0, slings=20e3, wind_limit=9.0, operator=YES
)
#: 200 kg evenly over 12 m and 40 kg at its top
LIFT = SupportLift(
    parts=(
        Part(name="pole", mass=200.0, at=6.0, length=12.0),
        Part(name="top", mass=40.0, at=12.0),
    ),
    length=12.0,
    allowed_moment=8e3,
    whole=YES,
    crane=CRANE,
)


def raised(said=None, **more):
    job = changed(support_stands=said, support_lift=dataclasses.replace(LIFT, **more))
    return plan_lift(job)


def test_a_pole_on_a_hook_by_hand_figures():
    plan = raised()
    facts = {name: write(value, system="metric") for name, value in plan.support.facts}
    # Balance (200 x 6 + 40 x 12) / 240 = 7 m; sling a tenth of 12 m above it; 1.5 m to the hook.
    assert facts["Lifted"].startswith("240.0 kg in one piece, 12.0 m long")
    assert facts["Balance, sling"] == "7.0 m; 8.2 m from its lower end"
    assert facts["Hook"] == "at 9.7 m or more"
    assert plan.support.verdict == plan.verdict == "go"
    assert [point.name for point in plan.support.hold_points][-1] == "before the hook is let off"
    assert any("nobody climbs" in check for p in plan.support.hold_points for check in p.checks)


@pytest.mark.parametrize(
    ("more", "verdict", "words"),
    [
        ({"crane": None}, "ask", "no machine entered that raises the pole"),
        ({"whole": None}, "ask", "every joint carries its full bending"),
        ({"whole": NO}, "no-go", "a joint of the pole does not carry"),
        ({"allowed_moment": None}, "ask", "ask its maker what it may take"),
        ({"allowed_moment": 1e3}, "no-go", "bending of the lying support"),
        ({"unknown": ("mass of the rotator",)}, "ask", "mass of the rotator not entered"),
        ({"crane": dataclasses.replace(CRANE, capacity=300.0)}, "no-go", "over 75% of the chart"),
        ({"crane": dataclasses.replace(CRANE, capacity=None)}, "ask", "not read"),
        ({"crane": dataclasses.replace(CRANE, hook_height=9.5)}, "no-go", "9.7 m is needed"),
        # 240 kg x 9.80665 x 5 = 11.8 kN.
        ({"crane": dataclasses.replace(CRANE, slings=11e3)}, "no-go", "sling of the pole too weak"),
        ({"crane": dataclasses.replace(CRANE, operator=None)}, "ask", "operator runs the crane"),
    ],
)  # fmt: skip
def test_no_lift_of_the_pole_is_a_go_without_its_needs(more, verdict, words):
    plan = raised(**more)
    assert plan.support.verdict == verdict
    assert plan.verdict == verdict
    assert words in "; ".join(write(reason, system="metric") for reason in plan.reasons)


@pytest.mark.parametrize(
    ("said", "verdict"), [(YES, "go"), (BARE, "ask"), (NO, "ask"), (None, "ask")]
)
def test_the_day_is_no_go_before_somebody_says_that_the_support_stands(said, verdict):
    """A tower goes up by its maker's instructions: nothing but an answer settles it."""
    plan = plan_lift(changed(support_stands=said))
    assert plan.support.verdict == plan.verdict == verdict
    assert not plan.support.sequence
    assert any(finding.name == "20 m beam: raising the support" for finding in plan.findings)


def test_a_support_that_tilts_up_with_its_beam_needs_no_lift_of_its_own():
    assert plan_lift(changed(tilt=TILT, support_stands=None)).support.verdict == "go"
    assert plan_lift(changed(stands=False, support_stands=None)).support.verdict == "go"


def test_the_pole_is_held_against_power_lines_and_stays_clear_of_people_by_its_whole_height():
    """14 m with its mast; a line 20 m off, 8 m up, is 21.5 m away; the arm reaches 15.2 m."""
    line = dataclasses.replace(STREET, distance=20.0, height=8.0)
    job = changed(support_stands=None, power_lines=(line,), guys=GUYS, clear_of_guys=YES,
                  support_lift=dataclasses.replace(LIFT, top=14.0, buried=1.4))  # fmt: skip
    support = plan_lift(job).support
    facts = {name: write(value, system="metric") for name, value in support.facts}
    assert facts["Power line street"] == "6.3 m at the nearest, at least 3.0 m"
    assert facts["Nobody at all"].startswith("14.0 m around the foot")
    assert facts["Kept empty"] == "20.0 m around the foot"
    assert facts["Crane"] == "6.0 m from the foot, at 60.0° true"
    assert facts["Wind"].startswith("lift only with gusts below 4.5 m/s")
    assert "3 for the anchors" in facts["People"]
    assert support.verdict == "go"
    told = " ".join(support.sequence)
    assert "plate or slab" in told
    assert "bolt" not in told
    near = dataclasses.replace(line, distance=14.0)
    against = plan_lift(dataclasses.replace(job, power_lines=(near,))).support
    assert against.verdict == "no-go"
    assert "comes within 0.9 m of the power line street" in "; ".join(
        write(reason, system="metric") for reason in against.reasons
    )
