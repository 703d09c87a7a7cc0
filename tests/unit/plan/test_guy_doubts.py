"""What ``check`` asks about guys that stand out of the usual."""

from __future__ import annotations

import pytest

from boomwright.plan import Plan, plan_notices, read_plan
from boomwright.plan.resolve import structure_notices
from full_plan import FULL


def plan(*, rings: str, height: str = "15 m", drawing: str = "") -> Plan:
    start, end = FULL.index("[support.tower]"), FULL.index("[support.base]")
    tower = f'[support.tower]\nkind = "guyed"\nheight = "{height}"\n{drawing}\n'
    return read_plan(FULL[:start] + tower + rings + FULL[end:])


def ring(height: str, radius: str) -> str:
    return (
        f'[[support.guy]]\nheight = "{height}"\nradius = "{radius}"\n'
        'strand = "1/4 in EHS"\ntension = "2 kN"\n'
    )


def doubts(given: Plan) -> list[tuple[str, str]]:
    wanted = {"plan.guy-radius", "plan.guy-spacing", "plan.free-top"}
    return [(each.code, each.value) for each in plan_notices(given) if each.code in wanted]


@pytest.mark.parametrize("radius", ["9 m", "11 m", "12 m", "16 m"])
def test_a_usual_radius_is_not_doubted(radius: str) -> None:
    assert doubts(plan(rings=ring("14 m", radius) + ring("7 m", radius))) == []


@pytest.mark.parametrize(("radius", "share"), [("8 m", "0.57"), ("4 m", "0.29"), ("30 m", "2.14")])
def test_a_radius_far_from_the_usual_share_of_the_height(radius: str, share: str) -> None:
    # Only the highest ring on an anchor is asked: lower ones lie flatter.
    given = plan(rings=ring("14 m", radius) + ring("7 m", radius))
    assert doubts(given) == [("plan.guy-radius", f"{share} of the height")]
    assert "plan.guy-radius" in [each.code for each in structure_notices(given)]


def test_a_lower_ring_with_its_own_anchors_is_asked_too() -> None:
    given = plan(rings=ring("14 m", "11 m") + ring("7 m", "2 m"))
    assert doubts(given) == [("plan.guy-radius", "0.29 of the height")]


def test_a_long_free_top_and_wide_rings_are_doubted_without_a_drawing() -> None:
    one = ring("30 ft", "24 ft")
    assert doubts(plan(rings=one, height="60 ft")) == [("plan.free-top", "9.1 m (30.0 ft)")]
    wide = ring("29 m", "24 m")
    assert doubts(plan(rings=wide, height="30 m")) == [("plan.guy-spacing", "29.0 m (95.1 ft)")]
    drawing = (
        '[support.tower.drawing]\nheight = "60 ft"\nguys = ["30 ft"]\nradius = "24 ft"\n'
        'said_by = "sheet 2, the owner"'
    )
    assert doubts(plan(rings=one, height="60 ft", drawing=drawing)) == []
