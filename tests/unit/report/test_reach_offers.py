"""What Reach proposes does what it says when it is taken into the plan."""

from __future__ import annotations

import pytest

from boomwright.base.quantity import write
from boomwright.plan import read_plan, rewrite
from boomwright.report.reach import reach_report
from boomwright.study.reach import reach_plan
from fakes.offering import PLAN


@pytest.fixture(scope="module")
def before():
    return reach_plan(read_plan(PLAN))


@pytest.fixture(scope="module")
def offers(before):
    return {each.place: each for each in reach_report(before, number=0).offers}


@pytest.fixture(scope="module")
def after(offers):
    taken = {place: write(each.value, system="metric") for place, each in offers.items()}
    return reach_plan(read_plan(rewrite(PLAN, taken)))


def test_power_heading_and_height_are_proposed(offers):
    assert list(offers) == ["transmitter.power", "beam[0].heading", "beam[0].height"]


def test_with_less_power_every_limit_of_the_people_there_is_kept(before, offers):
    power = write(offers["transmitter.power"].value, system="metric")
    lower = reach_plan(read_plan(rewrite(PLAN, {"transmitter.power": power})))
    used = [
        max(check.governing for check in each.beams[0].exposure.checks if check.applies)
        for each in (before, lower)
    ]
    assert used[0] > 1.0
    # Two figures of the power are kept, rounded down.
    assert 0.9 < used[1] <= 1.0


def test_the_heading_goes_to_the_target_and_the_height_brings_what_is_said(before, after):
    assert abs(after.beams[0].paths[0].off_heading_deg) < 0.06
    one, two = (each.beams[0] for each in (before, after))
    gains = [each.scan.gain_at(elevation_deg=10.0) for each in (one, two)]
    heights = [each.beam.height for each in (one, two)]
    assert 5.0 < heights[1] <= 10.0
    assert (
        gains[0][abs(one.scan.heights - heights[1]).argmin()]
        > gains[0][abs(one.scan.heights - 5.0).argmin()] + 0.5
    )


def test_a_heading_that_is_taken_is_not_proposed_again(after):
    assert "beam[0].heading" not in {each.place for each in reach_report(after, number=0).offers}
