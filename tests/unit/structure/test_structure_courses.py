"""What is drawn along a tube or a boom ends where the checked figures are."""

from __future__ import annotations

import numpy as np
import pytest
from station_example import GUYED

from boomwright.structure import element_fixes, highest_stress
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
        effects = element_fixes(inputs=GUYED, beam=0, element=number)
        assert effects
        after = [highest_stress(effect.after) for effect in effects]
        assert after == sorted(after)
        for effect in effects:
            assert highest_stress(effect.after) < highest_stress(effect.before)
            assert effect.remedy.element.half_length == pytest.approx(
                element.half_length, rel=1e-12
            )
