"""The weight on the drifted top of a tower that stands by itself: W times the drift, by hand."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from station_example import STANDING

from boomwright.base.quantity import write
from boomwright.structure import check_structure


def report_of(**changes):
    return check_structure(inputs=replace(STANDING, tower=replace(STANDING.tower, **changes)))


def standing(**changes):
    return {line.name: line for line in report_of(**changes).ledger}


def test_a_tower_whose_drift_nobody_gave_is_not_wholly_checked():
    known, unknown = standing(), standing(top_drift=None)
    name = "tower: weight on the drifted top"
    assert name not in known
    assert unknown[name].verdict == "not checked"
    assert "top_drift in [support.tower]" in write(unknown[name].change, system="metric")
    on_page = write(unknown[name].change, system="metric", forms=True)
    assert on_page == "enter the drift"
    assert unknown[name].finding.holds_up
    # 0.2 m of drift: beam and mast (3 m of 50.8 x 6.35 mm steel) on top, and half of the 2500 N.
    mast = pi * (0.0508 - 0.00635) * 0.00635 * 7850.0 * 9.80665 * 3.0
    (beam,) = report_of().beams
    moment = "tower: base moment"
    grown = known[moment].demand - unknown[moment].demand
    assert grown == pytest.approx((mast + beam.weight + 1250.0) * 0.2, rel=1e-6)


@pytest.mark.parametrize("kind", ["guyed", "bracketed"])
def test_no_drift_is_asked_of_a_tower_that_is_held(kind):
    assert "tower: weight on the drifted top" not in standing(kind=kind, top_drift=None)
