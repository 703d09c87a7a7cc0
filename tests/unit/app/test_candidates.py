"""A plan from wishes: off the frontier, fitted to tubes, matched."""

from __future__ import annotations

import pytest

from boomwright.plan import read_plan
from boomwright.session.new_plan import make_searched
from boomwright.study.as_measured import measure_beam
from boomwright.study.candidates import choice_of, work_out
from boomwright.study.computing import compute
from boomwright.study.requests import RequestError, Wishes, first_guess

WISHES = Wishes(band="20 m", boom="8 m", height="15 m", ground="free space")


def test_a_worked_out_beam_keeps_over_the_band_what_its_words_say():
    choice = choice_of(WISHES)
    candidate = work_out(choice, wishes=WISHES)
    sweep = compute(candidate.plan, points=9).beams[0].sweep
    gain = min(point.gain_dbi for point in sweep)
    rear = min(point.front_to_rear_db for point in sweep)
    assert f"at least {gain:.1f} dBi and {rear:.0f} dB front to rear" in candidate.words
    # The frontier's own elements are plain tube of nearly this size, without loss.
    assert gain == pytest.approx(choice.point.gain_dbi, abs=0.15)
    assert rear >= choice.rear_db - 0.3
    assert candidate.plan.beams[0].boom_length <= 8.0 + 1e-6
    assert "first guess" not in candidate.text
    assert candidate.text.count("Taken off the frontier") == 1


def test_the_hairpin_is_solved_and_the_driven_element_lies_between_its_neighbours():
    candidate = work_out(choice_of(WISHES), wishes=WISHES)
    beam = candidate.plan.beams[0]
    assert beam.feed.kind == "hairpin"
    assert None not in {beam.feed.rod_diameter, beam.feed.rod_spacing, beam.feed.rod_length}
    reflector, driven, *directors = (each.half_length for each in beam.elements)
    assert reflector >= driven >= max(directors)
    measured = measure_beam(candidate.plan, beam)
    assert measured.swr_design < 1.1
    worst = float(measured.match_swr.max())
    assert worst < 2.05
    assert f"standing wave ratio up to {worst:.1f} behind its hairpin" in candidate.words


def test_a_band_wider_than_the_frontier_is_fitted_to_its_own_edges():
    wishes = Wishes(band="10 m", boom="5 m", ground="free space")
    candidate = work_out(choice_of(wishes), wishes=wishes)
    sweep = compute(candidate.plan, points=9).beams[0].sweep
    assert min(point.front_to_rear_db for point in sweep) > 15.0


def test_two_elements_of_fifty_ohm_are_fed_straight():
    """On a band this wide the frontier's two elements are 50 ohm as they are: no hairpin fits."""
    wishes = Wishes(band="10 m", elements=2, boom="1.56 m", height="5.2 m", ground="medium dry")
    candidate = work_out(choice_of(wishes), wishes=wishes)
    beam = candidate.plan.beams[0]
    assert beam.feed.kind == "split"
    measured = measure_beam(candidate.plan, beam)
    assert measured.swr_design < 1.3
    worst = float(measured.match_swr.max())
    assert worst < 2.0
    assert f"standing wave ratio up to {worst:.1f} at its split feed" in candidate.words


def test_a_boom_too_short_for_two_elements_is_refused():
    with pytest.raises(RequestError, match="too short"):
        choice_of(Wishes(band="20 m", boom="1 m"))


def test_us_plans_are_written_in_feet():
    wishes = Wishes(band="20 m", boom="26 ft", system="us")
    candidate = work_out(choice_of(wishes), wishes=wishes)
    assert " ft" in candidate.label
    assert " ft" in candidate.text


def test_a_searched_plan_keeps_a_front_to_rear_ratio_the_first_guess_does_not(tmp_path):
    wishes = Wishes(band="20 m", elements=4, boom="9 m", ground="free space")
    made = make_searched(tmp_path / "found.toml", wishes)
    assert (tmp_path / "found.toml").read_text(encoding="utf-8") == made.text
    guess = read_plan(first_guess(wishes, elements=4, boom=9.0))
    found, guessed = (
        min(point.front_to_rear_db for point in compute(plan, points=5).beams[0].sweep)
        for plan in (made.plan, guess)
    )
    assert found > 15.5
    assert guessed < found - 3.0
