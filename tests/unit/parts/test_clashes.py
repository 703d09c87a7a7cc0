"""Depths of two solids in each other by hand, and how clashes reach the verdict of a plan."""

from __future__ import annotations

import math

import pytest

from boomwright.base.quantity import write
from boomwright.base.verdict_text import finding_text
from boomwright.parts import GROUND, Assembly, Bar, Block, Carrier, Part, find_clashes
from boomwright.plan import read_plan
from boomwright.session.files import packaged_text
from boomwright.study.clashes import clash_findings
from boomwright.study.verdict import build_stamp, judge_plan

DEMO = packaged_text("demo.toml")


def two(one, other, *, rotor="", at=(0.0, 0.0, 0.0), heading=0.0):
    """One solid on a beam, the other on the ground."""
    parts = tuple(
        Part(mark="X", name="x", role="x", carrier=carrier, group=carrier, form="bought",
             material="steel", solids=(solid,))
        for carrier, solid in (("beam", one), (GROUND, other))
    )  # fmt: skip
    carriers = (
        Carrier(name=GROUND, origin=(0.0, 0.0, 0.0)),
        Carrier(name="beam", origin=at, rotor=rotor, heading=heading),
    )
    return find_clashes(Assembly(parts=parts, carriers=carriers))


def bar(start, end, diameter=0.02):
    return Bar(start=start, end=end, diameter=diameter)


def test_crossing_bars_overlap_by_what_parts_them():
    level = bar((-1.0, 0.0, 5.0), (1.0, 0.0, 5.0), 0.03)
    above = bar((0.0, -1.0, 5.02), (0.0, 1.0, 5.02), 0.02)
    (clash,) = two(level, above)
    assert clash.overlap == pytest.approx(0.005, abs=1e-12)
    assert not two(level, bar((0.0, -1.0, 5.0251), (0.0, 1.0, 5.0251), 0.02))


def test_a_bar_that_ends_short_of_another_is_clear():
    # Flat ends: 1 mm of air between them, though round caps would meet.
    assert not two(bar((0.0, 0.0, 1.0), (0.0, 0.0, 2.0), 0.1), bar((0, 0, 2.001), (0, 0, 3), 0.1))


def test_a_bar_in_a_block():
    block = Block(middle=(0.0, 0.0, 1.0), size=(0.2, 0.1, 0.3), turn=math.radians(30.0))
    (clash,) = two(bar((0.0, 0.0, 0.0), (0.0, 0.0, 1.0)), block)
    # Its axis lies in the middle of the narrow side, 50 mm deep, with its own 10 mm.
    assert clash.overlap == pytest.approx(0.06, abs=2e-4)


def test_two_blocks():
    one = Block(middle=(0.0, 0.0, 1.0), size=(0.2, 0.2, 0.2))
    other = Block(middle=(0.15, 0.0, 1.0), size=(0.2, 0.2, 0.2), turn=math.radians(45.0))
    (clash,) = two(one, other)
    assert clash.overlap == pytest.approx(0.1 + 0.1 * math.sqrt(2.0) - 0.15, abs=1e-9)


def test_a_thin_bar_that_turns_past_a_thin_wire_is_caught():
    # Five metres out both are 5 mm thick: they meet within a ninth of a degree of a full turn.
    spoke = bar((4.9, 0.0, 10.0), (5.1, 0.0, 10.0), 0.005)
    wire = bar((5.0 * math.cos(1.0), 5.0 * math.sin(1.0), 0.0),
               (5.0 * math.cos(1.0), 5.0 * math.sin(1.0), 20.0), 0.005)  # fmt: skip
    (clash,) = two(spoke, wire, rotor="mast")
    assert clash.overlap == pytest.approx(0.005, abs=1e-4)
    # To the left of north by one radian: a heading of 303 degrees.
    assert clash.heading == pytest.approx(2.0 * math.pi - 1.0, abs=1e-3)
    assert not two(spoke, wire)


def through_mast():
    text = DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  clamp = "2.62 m"')
    return read_plan(text)


def test_an_element_in_the_mast_is_exceeded_everywhere():
    plan = through_mast()
    verdict = judge_plan(plan)
    named = [each for each in verdict.worst if each.subject == "build"]
    assert verdict.word == "exceeded"
    clash = next(each for each in named if each.name == "20m: driven, inner tube into mast")
    assert clash.verdict == "exceeded"
    assert "overlap by 26 mm" in write(clash.reason, system="metric")
    assert "26 mm" in write(clash.change, system="metric")
    assert clash.holds_up
    said = finding_text(clash, system="us")
    assert "overlap by 1.02 in" in said
    assert " mm" not in said
    assert build_stamp(plan, system="metric").startswith("Not to be built from")


def test_the_demo_has_room_for_every_part():
    (only,) = clash_findings(read_plan(DEMO))
    assert only.verdict == "within"
    # Its rods would run through the mast the other way.
    forward = DEMO.replace("  fitting = [", '  hardware = { rods = "forward" }\n  fitting = [')
    named = [each.name for each in clash_findings(read_plan(forward))]
    assert any("rod of the hairpin into mast" in name for name in named)


def test_what_is_assumed_is_asked_and_what_has_no_place_is_not_checked():
    close = DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  clamp = "2.68 m"')
    asked = [each for each in clash_findings(read_plan(close)) if each.verdict == "ask"]
    assert asked
    assert all("what is assumed" in write(each.reason, system="metric") for each in asked)
    begin, end = DEMO.index("  [beam.boom]"), DEMO.index("# The pole")
    (open_,) = clash_findings(read_plan(DEMO[:begin] + DEMO[end:]))
    assert open_.verdict == "not checked"
    assert open_.reason
