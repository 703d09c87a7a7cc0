"""Every number a lesson speaks of is computed, and every number it speaks of is claimed."""

from __future__ import annotations

import re

import numpy as np
import pytest

from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.session.lessons import lessons, take_step
from boomwright.study.computing import compute
from written import metric

LESSONS = lessons()
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
            "low_gain_dbi": float(
                np.interp(10.0, over.elevation_pattern.angle_deg, over.elevation_pattern.gain_dbi)
            ),
        }
    return found


def test_there_are_twelve_short_lessons_in_order():
    assert [int(lesson.name.split("-")[0]) for lesson in LESSONS] == list(range(1, 13))
    assert all(3 <= len(lesson.steps) <= 5 for lesson in LESSONS)


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
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


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_every_number_spoken_with_a_unit_is_claimed_by_some_step(lesson):
    claimed = set()
    for step in lesson.steps:
        claimed |= {stated.replace("-", "−").lstrip("+") for stated in step.claims.values()}
        # The cable's 50 ohm is no result.
        spoken = {
            (a or b).lstrip("+").replace("-", "−") for a, b in SPOKEN.findall(metric(step.say))
        } - {"50"}
        assert spoken <= claimed, spoken - claimed


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_every_step_keeps_a_usable_plan_and_names_its_sheet(lesson):
    for step, text in states(lesson):
        assert read_plan(text).beams
        assert step.look in {"beam", "waves"}
        assert bool(step.do) == bool(step.elements or step.changes)


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_lengths_a_lesson_speaks_of_are_those_it_sets(lesson):
    """Said to the centimetre or finer, each is a place, length, spacing or height of its plan."""
    known, heights = set(), set()
    for _, text in states(lesson):
        for beam in read_plan(text).beams:
            places = [element.position for element in beam.elements]
            known |= {element.length for element in beam.elements} | set(places)
            known |= {abs(one - two) for one in places for two in places}
            heights.add(beam.height)
    for step in lesson.steps:
        for said in re.findall(r"(\d+\.\d+) m\b", f"{metric(step.say)} {metric(step.do)}"):
            near = min(abs(float(said) - each) for each in known | heights)
            assert near < 0.5001 * 10.0 ** -len(said.partition(".")[2]), said


def test_a_close_beam_is_narrow_and_a_wide_one_tame():
    close, wide = (text for step, text in states(LESSONS[4]) if step.do)
    rise = []
    for text in (close, wide):
        sweep = compute(read_plan(text), points=9).beams[0].sweep
        rise.append(max(point.swr for point in sweep) / min(point.swr for point in sweep))
    # Steep: the ratio more than doubles over the band; tame: it rises by less than half.
    assert rise[0] > 2.0
    assert rise[1] < 1.5


def test_a_beam_for_the_higher_band_is_two_thirds_the_size():
    one, two = read_plan(LESSONS[6].plan_text).beams
    ratios = [b.length / a.length for a, b in zip(one.elements, two.elements, strict=True)]
    assert ratios == pytest.approx([2.0 / 3.0] * len(ratios), abs=0.02)


def test_lengths_come_in_the_readers_units_and_bands_keep_their_names():
    words = LESSONS[6].steps[0].say
    assert metric(words).startswith("A beam for 20 m, 16.00 m up")
    # 16.0 m = 629.92 in = 52 ft 5-15/16 in; 240 mm = 9.449 in = 9-7/16 in.
    assert write(words, system="us").startswith("A beam for 20 m, 52 ft 5-15/16 in up")
    told = [write(LESSONS[0].steps[2].say, system=system) for system in ("metric", "us")]
    assert ["by 240 mm:" in told[0], "by 9-7/16 in:" in told[1]] == [True, True]
