"""Wire elements with corners: read, refused with place and remedy, written back, cut to length."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from bent_plans import HEXAGON, hexagon, loop, upright, vee
from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan, write_plan


def along(corners):
    return sum(math.dist(low, high) for low, high in pairwise(corners))


def element(text, number=0):
    return read_plan(text).beams[0].elements[number]


@pytest.mark.parametrize("text", [hexagon(), vee(z=-2.0), loop(), upright(slope=30)])
def test_a_plan_with_corners_is_written_back(text):
    plan = read_plan(text)
    again = read_plan(write_plan(plan))
    assert again.beams == plan.beams
    assert {notice.code for notice in plan_notices(plan)} == {
        notice.code for notice in plan_notices(again)
    }


def test_a_wire_ends_where_its_length_is_used_up():
    reflector, driven = read_plan(hexagon()).beams[0].elements
    for each in (reflector, driven):
        assert along(each.corners) == pytest.approx(each.half_length, abs=1e-9)
    # Half of 10.52 m: 1.6 m to the rear corner, 3.2 m to the side, the rest towards the front.
    assert reflector.corners[:3] == ((-2.771, 0.0, 0.0), (-2.771, 1.6, 0.0), (0.0, 3.2, 0.0))
    assert math.dist(reflector.corners[-1], reflector.corners[-2]) == pytest.approx(0.46, abs=1e-3)
    # The fed middle lies straight across the boom, wide enough for its gap.
    assert driven.corners[1] == (0.0, 0.05, 0.0)
    assert len(driven.outline) == 2 * len(driven.corners) - 1
    assert driven.reach == pytest.approx(max(y for _, y, _ in driven.corners))


def test_a_loop_grows_to_its_length_about_its_middle():
    small, large = (element(loop(length=length)) for length in (20.0, 24.0))
    for each in (small, large):
        assert each.closed
        assert along(each.corners) == pytest.approx(each.half_length, abs=1e-9)
        assert each.corners[0][2] == pytest.approx(-each.corners[-1][2])
    assert large.reach / small.reach == pytest.approx(1.2)


def test_an_upright_element_is_one_wire_from_its_foot():
    mast = element(upright())
    assert mast.upright
    assert mast.length == mast.half_length == 5.1
    assert mast.outline == ((0.0, 0.0, 0.0), (0.0, 0.0, 5.1))


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('["front", "side"]', '["frnt", "side"]', "beam[0].element[1].through[0]", '"front"'),
        ('["front", "side"]', '["front"]', "beam[0].element[1].length", "longer than the way"),
        ('["front", "side"]', '["front", "front"]', "beam[0].element[1].through", "apart"),
        ('"1.6 m", "0 m"],\n    ["side"', '"-1.6 m", "0 m"],\n    ["side"',
         "beam[0].frame.points[0][2]", ""),
        ('["rear", "-2', '["side", "-2', "beam[0].frame.points[2][0]", "same name"),
        ('kind = "split"', 'kind = "gamma"', "beam[0].feed.kind", '"quarter-wave"'),
        ('  at = "0 m"\n', '  at = "0 m"\n  half = [["2 mm", "5 m"]]\n',
         "beam[0].element[1].half", "diameter and length"),
        ('  at = "0 m"\n', '  at = "0 m"\n  mount = { kind = "bonded through" }\n',
         "beam[0].element[1].mount", "take it out"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_at_its_place(old, new, path, words):
    text = hexagon()
    assert old in text
    with pytest.raises(PlanError) as caught:
        read_plan(text.replace(old, new))
    faults = {each.path: f"{each.message} {each.remedy}" for each in caught.value.faults}
    assert path in faults
    assert words in faults[path]


def test_a_middle_lies_where_the_element_is():
    with pytest.raises(PlanError) as caught:
        read_plan(loop().replace('role = "driven"\n  at = "0 m"', 'role = "driven"\n  at = "1 m"'))
    assert caught.value.faults[0].path == "beam[0].element[0].at"


def test_radials_and_upright_elements_go_together():
    without = "\n".join(
        line for line in upright().splitlines()
        if line.strip().split(" ")[0] not in {"[beam.radials]", "count", "laid", "slope"}
    ).replace('  length = "5.2 m"\n  diameter = "2 mm"\n', "", 1)  # fmt: skip
    with pytest.raises(PlanError) as caught:
        read_plan(without)
    assert [each.path for each in caught.value.faults] == ["beam[0].radials"]
    radials = '  [beam.radials]\n  count = 4\n  length = "5 m"\n  diameter = "2 mm"\n'
    with pytest.raises(PlanError) as caught:
        read_plan(hexagon().replace(HEXAGON, f'{radials}  laid = "buried"\n{HEXAGON}'))
    assert [each.path for each in caught.value.faults] == ["beam[0].radials"]


@pytest.mark.parametrize(
    ("laid", "height", "slope", "path", "words"),
    [
        ("buried", "9 m", 0, "beam[0].height", "9 m up, and its radials lie in the ground"),
        ("elevated", "3 m", 40, "beam[0].radials.slope", "0.34 m below the ground"),
    ],
)
def test_the_foot_of_a_vertical_stands_where_its_radials_are(laid, height, slope, path, words):
    text = upright(laid=laid, slope=slope, height=height)
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    (fault,) = caught.value.faults
    assert fault.path == path
    assert words in fault.message


def test_a_vertical_on_the_ground_stands_apart_from_the_other_beams():
    """Where in the garden it stands is not said, so neither is computed beside the other."""
    low = upright(height="0.1 m").replace('"20m"', '"vertical"')
    both = vee(ground="medium dry") + low[low.index("[[beam]]") :]
    plan = read_plan(both)
    assert [beam.neighbours for beam in plan.beams] == [(), ()]
    assert "plan.vertical-apart" in {notice.code for notice in plan_notices(plan)}
