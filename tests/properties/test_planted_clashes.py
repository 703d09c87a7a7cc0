"""Planted clashes are named, and stations without one hear nothing."""

from __future__ import annotations

import random

import pytest
import tomlkit
from planted_clashes import PLANTS, clear_station

from boomwright.plan import read_plan
from boomwright.study.clashes import clash_findings
from written import metric

#: random stations of each sort: a few each time, all of them with the slow tests
COUNTS = (24, pytest.param(300, marks=pytest.mark.slow))


def found(plan):
    return clash_findings(read_plan(tomlkit.dumps(plan)))


@pytest.mark.parametrize("stations", COUNTS)
def test_planted_clashes_are_named_with_both_parts(stations):
    missed = []
    for seed in range(stations):
        plant = PLANTS[seed % len(PLANTS)]
        plan, (one, other) = plant(random.Random(f"planted {seed}"))  # noqa: S311 - for tests
        findings = found(plan)
        named = [each for each in findings if each.verdict == "exceeded"]
        if not any(one in each.name and other in each.name for each in named):
            missed.append((seed, plant.__name__, [each.name for each in findings]))
        assert all("overlap by" in metric(each.reason) and each.change for each in named)
    assert len(missed) <= stations // 100, missed


@pytest.mark.parametrize("stations", COUNTS)
def test_clear_stations_hear_of_no_clash(stations):
    heard = []
    for seed in range(stations):
        plan = clear_station(random.Random(f"clear {seed}"))  # noqa: S311 - for tests
        heard += [
            (seed, each.name, each.reason) for each in found(plan) if each.verdict != "within"
        ]
    assert not heard, heard
