"""What is drawn along a tube or a boom ends where the checked figures are."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from station_example import GUYED

from boomwright.parts import Element, TubeSection
from boomwright.structure import element_fixes, highest_stress
from boomwright.structure.checks.fixes import offered_remedies
from fakes.told import check_structure


@pytest.fixture(scope="module")
def beam():
    return check_structure(inputs=GUYED).beams[0]


def test_stress_and_droop_along_an_element_meet_the_checked_figures(beam):
    for element in beam.elements:
        course, strength = element.course, element.strength
        assert course.bare_stress.max() == pytest.approx(strength.worst_bare.bare_stress, rel=1e-9)
        assert course.iced_stress.max() == pytest.approx(strength.worst_iced.iced_stress, rel=1e-9)
        assert course.dead_droop[-1] == pytest.approx(strength.dead_droop, rel=1e-9)
        assert course.iced_droop[-1] == pytest.approx(strength.iced_droop, rel=1e-9)
        assert np.all(np.diff(course.place) >= 0.0)


def test_moment_and_sag_along_a_boom_meet_the_checked_figures(beam):
    course = beam.course
    ends = (course.sag[0], course.sag[-1])
    assert ends == pytest.approx([arm.sag for arm in beam.arms], rel=1e-9)
    # The arms take their greatest moment from a finer grid than the picture.
    greatest = max(arm.moment for arm in beam.arms)
    assert np.abs(course.moment).max() == pytest.approx(greatest, rel=5e-3)
    assert course.wind_moment.max() == pytest.approx(
        max(arm.wind_moment for arm in beam.arms), rel=1e-9
    )


def test_fixes_lower_the_stress_and_keep_the_tip_where_it_is():
    for number, element in enumerate(GUYED.beams[0].beam.elements):
        effects = element_fixes(inputs=GUYED, beam=0, element=number, joints=lambda _: ())
        assert effects
        after = [highest_stress(effect.after) for effect in effects]
        assert after == sorted(after)
        for effect in effects:
            assert highest_stress(effect.after) < highest_stress(effect.before)
            assert effect.remedy.element.half_length == pytest.approx(
                element.half_length, rel=1e-12
            )


def test_the_first_fix_suffices_and_says_the_use_after_it():
    for gust in (30.0, 40.0):
        speed = replace(GUYED.wind.speed, gust=gust)
        stormy = replace(GUYED, wind=replace(GUYED.wind, speed=speed))
        first, *others = element_fixes(inputs=stormy, beam=0, element=0, joints=lambda _: ())
        assert first.use_before > 1.0
        assert first.use_after <= 1.0
        held = stormy.beams[0]
        mended = (first.remedy.element, *held.beam.elements[1:])
        beams = (replace(held, beam=replace(held.beam, elements=mended)), *stormy.beams[1:])
        label = f"{held.beam.name} {held.beam.elements[0].role} (element 1)"
        lines = check_structure(inputs=replace(stormy, beams=beams)).ledger
        used = max(line.use for line in lines if line.part == label)
        assert used == pytest.approx(first.use_after, rel=1e-9)
        assert all(
            each.use_after > 1.0 or each.weight_change >= first.weight_change for each in others
        )


def test_a_doubled_wall_ends_where_the_next_tube_begins_unless_that_goes_in():
    def doubled(next_diameter):
        tubes = ((0.0318, 1.3, 0.0021), (next_diameter, 1.2, 0.0009))
        half = tuple(TubeSection(diameter=d, length=long, wall=w) for d, long, w in tubes)
        element = Element(role="driven", position=0.0, half=half)
        offers = offered_remedies(element=element, section=0)
        assert all(
            outer.takes(inner) for offer in offers for outer, inner in pairwise(offer.element.half)
        )
        return [(s.length, s.wall) for s in offers[0].element.half]

    # 31.8 mm with twice 2.1 mm leaves a bore of 23.4 mm.
    assert doubled(0.0230)[0] == (pytest.approx(1.3), pytest.approx(0.0042))
    part, rest, _ = doubled(0.0254)
    assert part == (pytest.approx(1.2), pytest.approx(0.0042))
    assert rest == (pytest.approx(0.1), pytest.approx(0.0021))
