"""A plan made taller or longer: what follows from the change changes with it, the rest stays."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from boomwright.plan import read_plan
from boomwright.plan.resolve import longer_plan, plan_bill, taller_plan
from boomwright.session.files import packaged_text

PLAN = read_plan(packaged_text("demo.toml"))


def line_of(plan, item: str) -> float:
    return sum(line.quantity for line in plan_bill(plan).lines if line.item.startswith(item))


def test_a_taller_plan_lifts_what_stands_and_holds_it_from_further_out():
    tall = taller_plan(PLAN, step=3.0)
    assert tall.beams[0].height == pytest.approx(19.0)
    before, after = PLAN.support, tall.support
    assert after.tube.height == pytest.approx(18.0)
    assert (after.mast.bearing, after.mast.top) == pytest.approx((18.0, 19.4))
    # Rings keep their share of the height: 14 and 7.5 of 15 m become 16.8 and 9 of 18 m.
    assert [ring.height for ring in after.guy] == pytest.approx([16.8, 9.0])
    # They keep their slope, so 11 m become 13.2 m.
    assert [ring.anchor_radius for ring in after.guy] == pytest.approx([13.2, 13.2])
    assert after.anchor.length == pytest.approx(1.2 * before.anchor.length)
    assert after.base.width == pytest.approx(math.sqrt(1.2) * before.base.width)
    assert after.rotator == before.rotator
    assert tall.line.length == pytest.approx(45.0)
    assert tall.line.control_cable == pytest.approx(43.0)
    assert replace(tall, beams=PLAN.beams, support=before, line=PLAN.line) == PLAN


def test_the_bill_of_a_taller_plan_follows_by_pythagoras():
    tall = taller_plan(PLAN, step=3.0)
    strand = 1.05 * 3.0 * sum(math.hypot(height, 13.2) for height in (16.8, 9.0))
    assert line_of(tall, "guy strand") == pytest.approx(strand, rel=1e-9)
    # Three metres of line and a tenth to spare.
    more = line_of(tall, "feed line") - line_of(PLAN, "feed line")
    assert more == pytest.approx(3.3)
    assert line_of(tall, "support tube") - line_of(PLAN, "support tube") == pytest.approx(3.0)
    assert line_of(tall, "concrete") == pytest.approx(1.2 * line_of(PLAN, "concrete"))


def test_a_much_taller_mast_gets_another_ring_of_guys():
    # Two rings hold 15 m; at 19 m half a spacing more has come, so three hold it, evenly.
    tall = taller_plan(PLAN, step=4.0)
    top = 14.0 * 19.0 / 15.0
    assert [ring.height for ring in tall.support.guy] == pytest.approx(
        [top / 3.0, 2.0 * top / 3.0, top]
    )
    assert {ring.count for ring in tall.support.guy} == {3}
    assert line_of(tall, "turnbuckle") == line_of(PLAN, "turnbuckle") + 3
    assert line_of(tall, "guy anchor") == line_of(PLAN, "guy anchor")


def test_a_free_support_stands_against_the_square_of_its_height():
    free = replace(
        PLAN,
        support=replace(PLAN.support, guy=(), anchor=None),
        prices=replace(PLAN.prices, concrete_minimum=0.0),
    )
    tall = taller_plan(free, step=15.0)
    # Twice as high, four times the moment, and a footing resists with the cube of its size.
    for size in ("width", "depth"):
        grown = getattr(tall.support.base, size) / getattr(free.support.base, size)
        assert grown**3 == pytest.approx(4.0)
    assert line_of(tall, "concrete") == pytest.approx(4.0 * line_of(free, "concrete"))


def test_steps_up_and_down_cancel():
    back = taller_plan(taller_plan(PLAN, step=2.0), step=-2.0)
    assert back.support.tube.height == pytest.approx(PLAN.support.tube.height)
    assert [r.height for r in back.support.guy] == pytest.approx(
        [r.height for r in PLAN.support.guy]
    )
    assert back.support.anchor.length == pytest.approx(PLAN.support.anchor.length)
    assert back.support.base.width == pytest.approx(PLAN.support.base.width)


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
