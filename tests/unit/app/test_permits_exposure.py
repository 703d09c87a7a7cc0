"""The exposure finding of the permits: computed, with margin, basis and whom to ask."""

from __future__ import annotations

import pytest

from boomwright.plan import read_plan
from boomwright.solver import prepare_run
from boomwright.study.permits import permit_plan
from boomwright.study.reach_parts.exposure import read_places

PLAN = """boomwright = 1
title = "Exposure"
[site]
ground = "medium dry"
[[beam]]
name = "20m"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "9 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
[[beam.element]]
role = "driven"
at = "0 m"
diameter = "22 mm"
length = "10.1 m"
[permits]
country = "US"
[[permits.exposure]]
place = "terrace"
distance = "6 m"
height = "2 m"
[[permits.exposure]]
place = "attic room"
distance = "5 m"
height = "7 m"
"""
TRANSMITTER = """[transmitter]
power = "1500 W"
emission = "carrier"
"""


def findings(text):
    sheet = permit_plan(read_plan(text)).sheet
    return [f for f in sheet.findings if f.subject.startswith(("Exposure at", "Fields where"))]


def test_each_place_is_held_against_each_standard_with_its_margin():
    plan = read_plan(PLAN + TRANSMITTER)
    found = findings(PLAN + TRANSMITTER)
    places = read_places(plan, plan.beams[0], prepare=prepare_run)
    checks = [check for check in places.checks if check.applies]
    for place in ("terrace", "attic room"):
        for standard in {check.limit.standard for check in checks}:
            (one,) = [f for f in found if place in f.subject and f.basis == standard]
            worst = max(
                (c for c in checks if c.place.place == place and c.limit.standard == standard),
                key=lambda check: check.governing,
            )
            assert f"margin {worst.margin_db:+.1f} dB of power ({worst.method})" in one.value
            assert one.verdict == ("exceeded" if worst.governing > 1.0 else "within")
            assert one.whom_to_ask == "the Federal Communications Commission"
            assert "1500 W averaged over" in one.text
            assert "far-field formula" in one.text
    # 1.5 kW of carrier, 2 m below the wire: the room is past a limit, and that ends a strict run.
    assert "exceeded" in {f.verdict for f in found if "attic" in f.subject}
    assert [f for f in permit_plan(plan).exceeded if "attic" in f.subject]


def test_more_power_costs_margin_in_decibels():
    ten = findings(PLAN + TRANSMITTER.replace("1500", "150"))
    full = findings(PLAN + TRANSMITTER)
    margins = [[float(f.value.split("margin ")[1].split(" dB")[0]) for f in run]
               for run in (ten, full)]  # fmt: skip
    for low, high in zip(*margins, strict=True):
        assert low - high == pytest.approx(10.0, abs=0.11)  # both printed to a tenth


def test_without_a_transmitter_it_is_not_checked():
    (one,) = findings(PLAN)
    assert one.verdict == "not checked"
    assert "[transmitter]" in one.text
    assert one.value == "terrace, attic room"


def test_without_places_nothing_is_computed():
    assert findings(PLAN.split("[[permits.exposure]]")[0] + TRANSMITTER) == []


def test_findings_given_are_taken_as_they_are():
    plan = read_plan(PLAN)
    assert not [
        f for f in permit_plan(plan, exposure=()).sheet.findings if f.subject.startswith("Fields")
    ]
