"""What stands beside each beam of a plan."""

import re

import pytest

from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan, write_plan

BEAM = """
[[beam]]
name = "{name}"
band = ["28.0 MHz", "28.8 MHz"]
design = "28.4 MHz"
height = "{height}"
heading = "{heading}"
material = "6061-T6"
feed = {{ kind = "split", gap = "40 mm" }}
{more}
  [[beam.element]]
  role = "driven"
  at = "{at}"
  diameter = "16 mm"
  length = "5.05 m"
"""
HEAD = 'boomwright = 1\ntitle = "two"\n[site]\nground = "medium dry"\n'
GUYED = """
[support.mast]
diameter = "50 mm"
wall = "4 mm"
bearing = "12 m"
top = "18 m"
material = "steel"
[[support.guy]]
height = "11 m"
radius = "8 m"
strand = "3/16 in EHS"
"""


def beam(name, *, height="15 m", heading="60 deg", at="0 m", more=""):
    return BEAM.format(name=name, height=height, heading=heading, at=at, more=more)


def test_every_beam_has_the_others_beside_it():
    plan = read_plan(HEAD + beam("a") + beam("b", height="17 m", more='idle_feed = "open"'))
    first, second = plan.beams
    assert [other.name for other in first.neighbours] == ["b"]
    assert [other.name for other in second.neighbours] == ["a"]
    assert first.neighbours[0].idle_feed == "open"
    assert second.neighbours[0].idle_feed == ""
    assert first.neighbours[0].neighbours == ()
    assert read_plan(write_plan(plan)) == plan


def test_beams_on_one_boom_share_height_and_heading():
    shared = 'on_boom_of = "a"'
    plan = read_plan(HEAD + beam("a") + beam("b", at="0.7 m", more=shared))
    assert plan.beams[1].shares_boom(plan.beams[0])
    assert read_plan(write_plan(plan)) == plan
    for wrong, told in (
        (beam("b", at="0.7 m", height="16 m", more=shared), "height differs"),
        (beam("b", at="0.7 m", heading="90 deg", more=shared), "heading differs"),
        (beam("b", at="0.7 m", more='on_boom_of = "c"'), "no other beam"),
    ):
        with pytest.raises(PlanError) as refused:
            read_plan(HEAD + beam("a") + wrong)
        assert told in refused.value.faults[0].message


def test_a_mast_counts_where_the_plane_of_symmetry_is_lost():
    alike = HEAD + beam("a") + beam("b", height="17 m") + GUYED.split("[[support.guy]]")[0]
    assert read_plan(alike).beams[0].conductors == ()
    crossed = alike.replace('heading = "60 deg"', 'heading = "90 deg"', 1)
    (mast,) = read_plan(crossed).beams[0].conductors
    assert mast.name == "mast"
    assert (mast.start[2], mast.end[2]) == (12.0, 18.0)


def test_guys_count_once_the_plan_says_how_they_are_broken_up():
    text = HEAD + beam("a") + GUYED
    unsaid = read_plan(text)
    assert unsaid.beams[0].conductors == ()
    assert "plan.guys-unsaid" in {notice.code for notice in plan_notices(unsaid)}
    said = read_plan(text + 'longest_piece = "2 m"\n')
    assert "plan.guys-unsaid" not in {notice.code for notice in plan_notices(said)}
    pieces = [each for each in said.beams[0].conductors if each.name.startswith("guy 1.1")]
    assert len(pieces) == 7 - 1  # the last one ends next to the ground
    assert max(abs(each.end[2] - each.start[2]) for each in pieces) < 2.0
    none = read_plan(text + 'longest_piece = "0 m"\n')
    assert none.beams[0].conductors == ()
    assert "plan.guys-unsaid" not in {notice.code for notice in plan_notices(none)}


def test_a_stack_of_beams_without_a_common_band_is_doubted():
    elsewhere = beam("b", height="19 m").replace("5.05 m", "6.8 m").replace("28.4", "21.2")
    other = re.sub("band = .*", 'band = ["21.0 MHz", "21.4 MHz"]', elsewhere)
    reach = '\n[reach]\nstack = ["a", "b"]\n'
    for second, doubted in ((other, True), (beam("b", height="19 m"), False)):
        plan = read_plan(HEAD + beam("a") + second + reach)
        assert ("plan.stack-bands" in {each.code for each in plan_notices(plan)}) is doubted
