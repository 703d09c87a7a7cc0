"""Every number a lesson speaks of is computed, and every number it speaks of is claimed."""

from __future__ import annotations

import re

import pytest

from boomwright.app import compute
from boomwright.app.lessons import lessons, take_step
from boomwright.plan import read_plan

EIGHT = lessons()
#: a number with the unit of something computed
SPOKEN = re.compile(r"([−-]?\+?\d+(?:\.\d+)?)(?: ?(?:dBi|dB|ohm)\b|°)|SWR (?:falls to )?(\d\.\d)")


def states(lesson):
    text = lesson.plan_text
    for step in lesson.steps:
        if step.do:
            text = take_step(text, step)
        yield step, text


def readings(text, beam):
    made = compute(read_plan(text), points=2).beams[beam]
    point, over = made.free_space, made.over_ground
    found = {
        "gain_dbi": point.gain_dbi,
        "front_to_back_db": point.front_to_back_db,
        "resistance_ohm": point.impedance.real,
        "reactance_ohm": point.impedance.imag,
        "swr": point.swr,
    }
    if over is not None:
        found |= {
            "take_off_deg": over.peak_elevation_deg,
            "peak_gain_dbi": over.peak_gain_dbi,
            "lobes": float(len(over.lobes)),
        }
    return found


def test_there_are_eight_short_lessons_in_order():
    assert [lesson.name[0] for lesson in EIGHT] == list("12345678")
    assert all(3 <= len(lesson.steps) <= 5 for lesson in EIGHT)


@pytest.mark.parametrize("lesson", EIGHT, ids=lambda lesson: lesson.name)
def test_the_numbers_a_lesson_speaks_of_are_true(lesson):
    for number, (step, text) in enumerate(states(lesson)):
        if not step.claims:
            continue
        found = readings(text, step.beam)
        for name, stated in step.claims.items():
            decimals = len(stated.partition(".")[2])
            # Half a unit of the last digit stated.
            assert found[name] == pytest.approx(float(stated), abs=0.5001 * 10.0**-decimals), (
                f"step {number + 1}: {name}"
            )


@pytest.mark.parametrize("lesson", EIGHT, ids=lambda lesson: lesson.name)
def test_every_number_spoken_with_a_unit_is_claimed_by_some_step(lesson):
    claimed = set()
    for step in lesson.steps:
        claimed |= {stated.replace("-", "−").lstrip("+") for stated in step.claims.values()}
        # The cable's 50 ohm is no result.
        spoken = {(a or b).lstrip("+").replace("-", "−") for a, b in SPOKEN.findall(step.say)} - {
            "50"
        }
        assert spoken <= claimed, spoken - claimed


@pytest.mark.parametrize("lesson", EIGHT, ids=lambda lesson: lesson.name)
def test_every_step_keeps_a_usable_plan_and_names_its_sheet(lesson):
    for step, text in states(lesson):
        assert read_plan(text).beams
        assert step.look in {"beam", "waves"}
        assert bool(step.do) == bool(step.elements or step.changes)
