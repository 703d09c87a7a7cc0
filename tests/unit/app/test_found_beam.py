"""A found beam in the owner's text: order, units and comments stay; elements come and go."""

from __future__ import annotations

from dataclasses import replace

import pytest

from boomwright.parts import Element
from boomwright.plan import read_plan
from boomwright.plan.resolve import boom_order, design_wish
from boomwright.study.found_beam import put_found_beam

PLAN = """boomwright = 1
title = "Out of order"

[site]
ground = "free space"

[[beam]]
name = "20m"
band = ["14.000 MHz", "14.350 MHz"]
design = "14.175 MHz"
height = "16 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "director"
  at = "19 ft"  # the last clamp
  half = [["1 in", "6 ft"], ["7/8 in", "9 ft 6 in"]]
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "22 mm"
  length = "10.7 m"
  [[beam.element]]
  role = "driven"
  at = "2.6 m"
  diameter = "22 mm"
  length = "10.1 m"
"""


def found(plan, places, lengths):
    """The beam along the boom with other places and lengths."""
    beam = plan.beams[0]
    elements = []
    for number, place, length in zip(boom_order(beam), places, lengths, strict=True):
        old = beam.elements[number]
        tip = old.half[-1]
        fixed = sum(section.length for section in old.half[:-1])
        half = (*old.half[:-1], replace(tip, length=length / 2 - fixed))
        elements.append(replace(old, position=place, half=half))
    return replace(beam, elements=tuple(elements))


def test_each_element_gets_its_own_values_whatever_the_order_in_the_plan():
    plan = read_plan(PLAN)
    assert boom_order(plan.beams[0]) == (1, 2, 0)
    after = found(plan, [0.0, 2.4, 6.0], [10.8, 10.0, 9.5])
    text = put_found_beam(PLAN, plan, before=plan.beams[0], after=after)
    got = read_plan(text).beams[0]
    assert [each.position for each in got.elements] == pytest.approx([6.0, 0.0, 2.4], abs=8e-4)
    assert [each.length for each in got.elements] == pytest.approx([9.5, 10.8, 10.0], abs=2e-3)
    assert 'ft"  # the last clamp' in text
    assert text.count('"6 ft"') == 1


def test_nothing_is_written_where_nothing_changed():
    plan = read_plan(PLAN)
    same = found(plan, [0.0, 2.6, 19 * 0.3048], [10.7, 10.1, 31 * 0.3048])
    assert put_found_beam(PLAN, plan, before=plan.beams[0], after=same) == PLAN


def test_elements_are_added_like_the_last_along_the_boom_and_taken_out_again():
    plan = read_plan(PLAN)
    before = plan.beams[0]
    three = found(plan, [0.0, 2.6, 5.0], [10.7, 10.1, 9.6])
    last = three.elements[-1]
    extra = Element(role="director", position=8.0, half=last.half)
    four = replace(three, elements=(*three.elements, extra))
    text = put_found_beam(PLAN, plan, before=before, after=four)
    longer = read_plan(text)
    assert [each.role for each in longer.beams[0].elements][3] == "director"
    assert longer.beams[0].elements[3].position == 8.0
    assert longer.beams[0].elements[3].half[0] == before.elements[0].half[0]
    two = replace(before, elements=three.elements[:2])
    shorter = read_plan(put_found_beam(PLAN, plan, before=before, after=two)).beams[0]
    assert [each.role for each in shorter.elements] == ["reflector", "driven"]


def test_frozen_places_are_counted_along_the_boom():
    text = PLAN + '[wish]\nfrozen = ["beam[0].element[0].at", "beam[0].element[2].length"]\n'
    wish = design_wish(read_plan(text))
    assert (wish.keep_positions, wish.keep_lengths) == ((2,), (1,))
    whole = design_wish(read_plan(PLAN + '[wish]\nfrozen = ["beam[0].element[1]"]\n'))
    assert (whole.keep_positions, whole.keep_lengths) == ((0,), (0,))
    elsewhere = design_wish(read_plan(PLAN + '[wish]\nfrozen = ["beam[0].height"]\n'))
    assert (elsewhere.keep_positions, elsewhere.keep_lengths) == ((), ())
