"""Plans from wishes: off the frontier, fitted to tubes, held against a budget."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.plan import read_plan
from boomwright.plan.model_work import PricesPlan
from boomwright.session.files import PlanFolder
from boomwright.session.new_plan import make_searched
from boomwright.study.as_measured import measure_beam
from boomwright.study.candidates import choices, work_out
from boomwright.study.computing import compute
from boomwright.study.requests import RequestError, Wishes, first_guess

WISHES = Wishes(band="20 m", boom="8 m", height="15 m", ground="free space")
EUROS = PricesPlan(currency="EUR", price_list="prices.csv")


def price_list(folder, each):
    """One price for every part that may be asked for, so that sums follow from quantities."""
    kinds = ("3.658 m", "3.660 m", "6.000 m", "6.096 m", "6.400 m", "7.315 m")
    lines = [f'"tube 25.00 mm 6061-T6, {length}",length,{each},{each},{each}' for length in kinds]
    others = ("element bracket with clamps", "boom to mast plate with clamps")
    others += ("rivet or screw 4.8 mm", "tip plug")
    lines += [f"{item},each,1,1,1" for item in others]
    rows = [f"{line},EUR,invented,2026-11-01" for line in lines]
    text = "\n".join(["item,unit,low,likely,high,currency,supplier,dated", *rows, ""])
    (folder / "prices.csv").write_text(text)


def test_three_beams_rise_along_the_frontier_within_the_boom():
    made = choices(WISHES)
    booms = [choice.boom for choice in made]
    gains = [choice.point.gain_dbi for choice in made]
    assert len(made) == 3
    assert booms == sorted(booms)
    assert booms[-1] == pytest.approx(8.0, rel=1e-9)
    assert np.all(np.diff(gains) > 0.3)


def test_a_worked_out_beam_keeps_over_the_band_what_its_words_say():
    choice = choices(WISHES)[-1]
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
    candidate = work_out(choices(WISHES)[-1], wishes=WISHES)
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
    candidate = work_out(choices(wishes)[-1], wishes=wishes)
    sweep = compute(candidate.plan, points=9).beams[0].sweep
    assert min(point.front_to_rear_db for point in sweep) > 15.0


def test_with_prices_the_budget_leaves_out_what_is_over_it(tmp_path):
    price_list(tmp_path, 30)
    wishes = Wishes(band="20 m", boom="8 m", budget="400 EUR")
    made = choices(wishes, prices=EUROS, files=PlanFolder(tmp_path))
    # Without a budget the longest boom comes too, as above.
    assert made[-1].boom < 7.9
    largest = work_out(made[-1], wishes=wishes, files=PlanFolder(tmp_path))
    assert "by prices.csv" in largest.price
    assert "ver the budget" not in largest.price
    assert largest.plan.prices.budget == pytest.approx(400.0)


def test_when_all_is_over_the_budget_small_beams_are_offered_and_say_so(tmp_path):
    price_list(tmp_path, 30)
    wishes = Wishes(band="20 m", boom="8 m", budget="50 EUR")
    made = choices(wishes, prices=EUROS, files=PlanFolder(tmp_path))
    assert made
    assert (
        "Over the budget of 50 EUR"
        in work_out(made[0], wishes=wishes, files=PlanFolder(tmp_path)).price
    )


@pytest.mark.parametrize(
    ("prices", "reason"),
    [
        (None, "names no price list"),
        (EUROS, "is not beside the plans"),
        (PricesPlan(currency="EUR"), "names no price list"),
    ],
)
def test_without_a_price_list_the_reason_is_said(prices, reason, tmp_path):
    wishes = Wishes(band="20 m", boom="3 m", budget="300 EUR")
    (choice, *_) = choices(wishes, prices=prices, files=PlanFolder(tmp_path))
    price = work_out(choice, wishes=wishes, files=PlanFolder(tmp_path)).price
    assert price.startswith("not priced, because")
    assert reason in price
    assert price.endswith("not compared with the budget of 300 EUR")


@pytest.mark.parametrize(
    ("budget", "said"),
    [
        ("800", "in which currency"),
        ("a lot", "no sum of money"),
        ("-5 EUR", "no sum of money"),
        ("EUR 5 EUR", "no sum of money"),
    ],
)
def test_a_budget_that_cannot_be_read_is_refused_with_a_remedy(budget, said):
    with pytest.raises(RequestError, match=said) as refused:
        choices(Wishes(band="20 m", budget=budget))
    assert "->" in str(refused.value)


def test_a_budget_in_another_currency_than_the_price_list_is_refused():
    with pytest.raises(RequestError, match="USD is not the currency"):
        choices(Wishes(band="20 m", budget="800 USD"), prices=EUROS)


def test_a_boom_too_short_for_two_elements_is_refused():
    with pytest.raises(RequestError, match="too short"):
        choices(Wishes(band="20 m", boom="1 m"))


def test_us_plans_are_written_in_feet():
    wishes = Wishes(band="20 m", boom="26 ft", system="us")
    candidate = work_out(choices(wishes)[0], wishes=wishes)
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
