"""Planted clashes are named, and stations without one hear nothing.

Set ``BOOMWRIGHT_PLANS`` to try more: 300 stations of each sort take about half a minute.
"""

from __future__ import annotations

import os
import random

import tomlkit
from planted_clashes import OF_FASTENERS, PLANTS, clear_station

from boomwright.plan import read_plan
from boomwright.study.clashes import clash_findings
from written import metric

#: random stations of each sort
PLANS = int(os.environ.get("BOOMWRIGHT_PLANS", "36"))


def found(plan):
    return clash_findings(read_plan(tomlkit.dumps(plan)))


def test_planted_clashes_are_named_with_both_parts():
    missed = []
    for seed in range(PLANS):
        plant = PLANTS[seed % len(PLANTS)]
        plan, (one, other) = plant(random.Random(f"planted {seed}"))  # noqa: S311 - for tests
        findings = found(plan)
        # Where the size of a part is the trade's, the owner is asked.
        asked = {"exceeded"} | ({"ask"} if plant in OF_FASTENERS else set())
        named = [each for each in findings if each.verdict in asked]
        if not any(one in each.name and other in each.name for each in named):
            missed.append((seed, plant.__name__, [each.name for each in findings]))
        assert all("verlap by" in metric(each.reason) and each.change
                   for each in named if " into " in each.name)  # fmt: skip
    assert len(missed) <= PLANS // 100, missed


def test_clear_stations_hear_of_no_clash():
    heard = []
    for seed in range(PLANS):
        plan = clear_station(random.Random(f"clear {seed}"))  # noqa: S311 - for tests
        heard += [
            (seed, each.name, each.reason) for each in found(plan) if each.verdict != "within"
        ]
    assert not heard, heard
