"""A plan in its reader's units: feet where a tape is read, and the same plan read from it."""

from __future__ import annotations

import pytest

from boomwright.plan import read_plan, write_plan
from boomwright.plan.forms import restated

PLAN = """\
# as the owner wrote it
boomwright = 1
title = "Three metres of 20 m"
[site]
ground = "medium dry"
wind = "40 m/s"
[[beam]]
name = "20 m"
band = ["14 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "11.6 m"  # over the ridge
heading = "60 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
[[beam.element]]
role = "driven"
at = "0 m"
half = [["25.4 mm", "1.83 m", "2.95 mm"], ["19.05 mm", "3.1 m"]]
[support]
[support.tube]
diameter = "60.3 mm"
wall = "5 mm"
height = "11 m"
material = "A53 B"
[support.rotator]
place = "inside tower"
holding_torque = "500 N m"
"""


def test_feet_and_inches_where_a_tape_is_read() -> None:
    text = restated(PLAN, system="us")
    assert '"38 ft 11/16 in"  # over the ridge' in text
    assert '["1 in", "6 ft 1/16 in", "0.116 in"]' in text
    assert 'wind = "89.4775 mph"' in text
    assert "lbf ft" in text
    assert ' m"' not in text.replace('"20 m"', "").replace('of 20 m"', "")
    assert 'name = "20 m"' in text
    assert 'title = "Three metres of 20 m"' in text


def test_twice_is_once() -> None:
    once = restated(PLAN, system="us")
    plan = read_plan(once)
    again = restated(write_plan(plan), system="us")
    assert read_plan(again) == plan
    assert plan.beams[0].height == pytest.approx(11.6, abs=0.0008)
    tip = plan.beams[0].elements[0].half[1]
    assert tip.length == pytest.approx(3.1, abs=0.0008)


def test_metric_readers_keep_their_text() -> None:
    assert restated(PLAN, system="metric") is PLAN
