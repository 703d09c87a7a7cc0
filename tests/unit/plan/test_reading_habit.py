"""Answers come in the units a plan is written in."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan, spoken_system, starter_plan, written_system


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_starter_plan_is_known_by_its_units(system) -> None:
    text = starter_plan(band="20 m", element_count=3, units=system)
    assert written_system(text) == system


@pytest.mark.parametrize(
    ("words", "system"),
    [
        (["18 ft", "12 m"], "metric"),
        (["18 ft 3-1/2 in", "12'", "12 m"], "us"),
        (["1 in", "7/8 in", "5.18 m"], "metric"),
        (["1 in", "7/8 in", "20 mm"], "us"),
        (["14.2 MHz", "0.2 wl", "a room of 30 m"], "metric"),
        ([], "metric"),
    ],
)
def test_long_lengths_tell_and_tubes_only_where_there_are_none(words, system) -> None:
    assert spoken_system(words) == system


def test_no_toml_is_refused() -> None:
    with pytest.raises(PlanError):
        written_system("= 3")


SUPPORT = """
[support]
  [support.tube]
  diameter = "{0}"
  wall = "{1}"
  height = "{2}"
  material = "6061-T6"
  [[support.guy]]
  height = "{3}"
  radius = "{2}"
  strand = "3/16 in EHS"
"""


@pytest.mark.parametrize(
    ("system", "written", "remedies"),
    [
        ("us", ("3 in", "2 in", "32 ft", "50 ft"), ("below 1.5 in", "up to 32 ft")),
        ("metric", ("76.2 mm", "51 mm", "10 m", "15 m"), ("below 38.1 mm", "up to 10 m")),
    ],
)
def test_a_remedy_speaks_the_units_of_the_plan(system, written, remedies) -> None:
    text = starter_plan(band="20 m", units=system) + SUPPORT.format(*written)
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    told = " ".join(fault.remedy for fault in caught.value.faults)
    assert all(remedy in told for remedy in remedies), told
