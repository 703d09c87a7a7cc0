"""A plan made taller or longer: what follows from the change changes with it, the rest stays."""

from __future__ import annotations

import math
from dataclasses import replace
from importlib.resources import files

import pytest

from boomwright.plan import read_plan
from boomwright.plan.resolve import longer_plan, plan_bill, taller_plan

PLAN = read_plan(files("boomwright.session").joinpath("data/demo.toml").read_text(encoding="utf-8"))


def line_of(plan, item: str) -> float:
    return sum(line.quantity for line in plan_bill(plan).lines if line.item.startswith(item))


def test_a_taller_plan_lifts_everything_that_stands_and_nothing_on_the_ground():
    tall = taller_plan(PLAN, step=3.0)
    assert tall.beams[0].height == pytest.approx(19.0)
    before, after = PLAN.support, tall.support
    assert after.tube.height == pytest.approx(18.0)
    assert (after.mast.bearing, after.mast.top) == pytest.approx((18.0, 19.4))
    # Rings keep their share of the height: 14 and 7.5 of 15 m become 16.8 and 9 of 18 m.
    assert [ring.height for ring in after.guy] == pytest.approx([16.8, 9.0])
    assert [ring.radius for ring in after.guy] == [ring.radius for ring in before.guy]
    assert (after.base, after.anchor, after.rotator) == (
        before.base, before.anchor, before.rotator,
    )  # fmt: skip
    assert tall.line.length == pytest.approx(45.0)
    assert tall.line.control_cable == pytest.approx(43.0)
    assert replace(tall, beams=PLAN.beams, support=before, line=PLAN.line) == PLAN


def test_the_bill_of_a_taller_plan_follows_by_pythagoras():
    tall = taller_plan(PLAN, step=3.0)
    strand = 1.05 * 3.0 * sum(math.hypot(height, 11.0) for height in (16.8, 9.0))
    assert line_of(tall, "guy strand") == pytest.approx(strand, rel=1e-9)
    # Three metres of line and a tenth to spare.
    more = line_of(tall, "feed line") - line_of(PLAN, "feed line")
    assert more == pytest.approx(3.3)
    assert line_of(tall, "support tube") - line_of(PLAN, "support tube") == pytest.approx(3.0)
    assert line_of(tall, "concrete") == line_of(PLAN, "concrete")


def test_steps_up_and_down_cancel():
    back = taller_plan(taller_plan(PLAN, step=2.0), step=-2.0)
    assert back.support.tube.height == pytest.approx(PLAN.support.tube.height)
    assert [r.height for r in back.support.guy] == pytest.approx(
        [r.height for r in PLAN.support.guy]
    )


def test_no_control_cable_and_no_support_stay_none():
    bare = replace(PLAN, support=None, line=replace(PLAN.line, control_cable=0.0))
    tall = taller_plan(bare, step=1.0)
    assert tall.support is None
    assert tall.line.control_cable == 0.0
    assert taller_plan(replace(PLAN, line=None), step=1.0).line is None


def test_a_longer_plan_has_a_shorter_director_one_gap_further_out():
    long = longer_plan(PLAN)
    *kept, added = long.beams[0].elements
    assert tuple(kept) == PLAN.beams[0].elements
    assert added.role == "director"
    assert added.position == pytest.approx(6.0 + 3.4)
    assert added.half_length == pytest.approx(0.99 * kept[-1].half_length)
    assert added.half[:-1] == kept[-1].half[:-1]
    assert long.boom_of("20m").length == pytest.approx(6.2 + 3.4)
    assert long.support is PLAN.support
    assert line_of(long, "element bracket") == line_of(PLAN, "element bracket") + 1
    assert line_of(long, "tip plug") == line_of(PLAN, "tip plug") + 2


def test_the_order_of_writing_does_not_matter():
    beam = PLAN.beams[0]
    turned = replace(PLAN, beams=(replace(beam, elements=beam.elements[::-1]),))
    assert longer_plan(turned).beams[0].elements[-1] == longer_plan(PLAN).beams[0].elements[-1]


def test_one_element_gives_no_gap_to_copy():
    beam = PLAN.beams[0]
    alone = replace(PLAN, beams=(replace(beam, elements=beam.elements[:1]),))
    with pytest.raises(ValueError, match="fewer than two elements"):
        longer_plan(alone)
