"""Reach of a whole plan: the worked exposure scenario, stacks, paths, notices."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.plan.resolve import average_transmitter_power
from boomwright.reach import FieldGrid
from boomwright.render.json.reach import reach_document
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.study.height_costs import height_costs
from boomwright.study.reach import (
    USUAL_WANTED_DEG,
    exceeded_reach_limits,
    reach_plan,
    read_coastlines,
    wanted_angles,
)
from boomwright.study.reach_parts.exposure import distances_around

HEAD = """boomwright = 1
title = "A test"

[site]
position = "52.2 N, 0.1 E"
ground = "medium dry"
"""
BEAM = """
[[beam]]
name = "{name}"
band = ["28.000 MHz", "28.700 MHz"]
design = "28.300 MHz"
height = "{height}"
heading = "{heading} deg"
material = "6061-T6"
feed = {{ kind = "split", gap = "20 mm" }}
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "16 mm"
  length = "5.18 m"
  [[beam.element]]
  role = "driven"
  at = "1.5 m"
  diameter = "16 mm"
  length = "4.96 m"
  [[beam.element]]
  role = "director"
  at = "3.2 m"
  diameter = "16 mm"
  length = "4.68 m"
"""
WINDOW = """
[transmitter]
power = "400 W"
emission = "carrier"

[permits]
  [[permits.exposure]]
  place = "neighbour's window"
  distance = "15 m"
  height = "6 m"
"""


def _beam(name="10m", height="12 m", heading=300):
    return BEAM.format(name=name, height=height, heading=heading)


@pytest.fixture(scope="module")
def window():
    """400 W on a three-element 10 m beam at 12 m, a window at 15 m with the beam on it."""
    return reach_plan(read_plan(HEAD + _beam() + WINDOW))


def test_the_window_is_held_against_both_standards_and_both_groups(window):
    checks = window.beams[0].exposure.checks
    assert {(c.limit.source, c.limit.group) for c in checks} == {
        ("cfr-47-1-1310", "general"),
        ("cfr-47-1-1310", "occupational"),
        ("icnirp-2020", "general"),
        ("icnirp-2020", "occupational"),
    }
    assert [c.applies for c in checks] == [c.limit.group == "general" for c in checks]


def test_limits_at_the_window_are_those_of_the_tables(window):
    """47 CFR 1.1310 Table 1: 824/f V/m, 2.19/f A/m; ICNIRP 2020 Table 5: 300 f^-0.7, 2.2/f."""
    checks = window.beams[0].exposure.checks
    general = {c.limit.source: c.limit for c in checks if c.limit.group == "general"}
    assert general["cfr-47-1-1310"].electric_field == pytest.approx(824.0 / 28.3)
    assert general["cfr-47-1-1310"].magnetic_field == pytest.approx(2.19 / 28.3)
    assert general["icnirp-2020"].electric_field == pytest.approx(300.0 * 28.3**-0.7)
    assert general["icnirp-2020"].magnetic_field == pytest.approx(2.2 / 28.3)


def test_the_far_field_formula_is_that_of_the_bulletin(window):
    """S = 0.64 EIRP / (pi R^2) {oet-65}, E = sqrt(377 S), R to the nearest part of the body."""
    exposure = window.beams[0].exposure
    for check in exposure.checks:
        # Head at 6 m: 6 m below the boom, 15 m out.
        assert check.place.slant == pytest.approx(math.hypot(15.0, 6.0))
        eirp = 400.0 * 10.0 ** (exposure.peak_gain_dbi / 10.0)
        density = 0.64 * eirp / (math.pi * check.place.slant**2)
        wanted = (math.sqrt(376.73 * density) / check.limit.electric_field) ** 2
        assert check.far.electric == pytest.approx(wanted, rel=1e-3)


def test_the_stricter_method_is_kept_and_the_margin_is_its(window):
    for check in window.beams[0].exposure.checks:
        assert check.governing == max(check.near.governing, check.far.governing)
        # The average over the body is allowed by both standards; it never governs.
        assert 0.0 < check.averaged.governing <= check.near.governing
        assert check.margin_db == pytest.approx(-10.0 * math.log10(check.governing))


def test_the_near_field_at_the_window_is_below_the_formula_but_of_its_size(window):
    """The formula aims the lobe at the place and reflects all but fully."""
    for check in window.beams[0].exposure.checks:
        assert 0.02 < check.near.governing / check.far.governing < 1.0


def test_cautions_stand_beside_the_figures(window):
    codes = {notice.code: notice for notice in window.notices}
    assert codes["reach.exposure-caution"].severity == "caution"
    assert all("safe" not in notice.text.lower().split() for notice in window.notices)


TOWER = """
[support]
soil = "sandy gravel"
  [support.tower]
  kind = "self-supporting"
  height = "11 m"
  section = "3 m"

[prices]
currency = "EUR"
list = "prices.csv"
"""


def test_what_height_costs_is_said_or_why_it_is_not_priced(window, tmp_path):
    assert not window.beams[0].costs.priced
    assert "[prices]" in write(window.beams[0].costs.reason, system="metric")
    plan = read_plan(HEAD + _beam() + TOWER)
    beam = plan.beams[0]
    heights = np.linspace(3.0, 24.0, 8)
    missing = height_costs(plan, beam, heights=heights, files=PlanFolder(tmp_path))
    assert "not beside the plan" in missing.reason
    (tmp_path / "prices.csv").write_text("item,unit\nnonsense", encoding="utf-8")
    assert "faults" in height_costs(plan, beam, heights=heights, files=PlanFolder(tmp_path)).reason
    text = packaged_text("demo_prices.csv").replace(",GBP,", ",EUR,")
    (tmp_path / "prices.csv").write_text(text, encoding="utf-8")
    costs = height_costs(plan, beam, heights=heights, files=PlanFolder(tmp_path))
    assert costs.priced
    assert beam.height in costs.heights
    # No lower than leaves a metre of tower, and the tower's 11 m go along with the boom's 12 m.
    assert costs.heights[0] >= 12.0 - 10.0
    assert (np.diff(costs.likely) >= 0.0).all()
    assert (costs.low <= costs.likely).all()
    assert (costs.likely <= costs.high).all()


def test_owners_angles_go_before_those_of_the_paths():
    plan = read_plan(HEAD + _beam() + '\n[reach]\nwanted = ["25 deg", "8 deg"]\n')
    assert wanted_angles(plan, ()) == pytest.approx((8.0, 25.0))
    assert wanted_angles(read_plan(HEAD + _beam()), ()) == USUAL_WANTED_DEG


def test_a_head_in_the_antenna_exceeds_the_limit_and_says_so():
    near = WINDOW.replace('"15 m"', '"2 m"').replace('"6 m"', '"11 m"')
    result = reach_plan(read_plan(HEAD.replace("medium dry", "perfect") + _beam() + near))
    exceeded = exceeded_reach_limits(result)
    assert exceeded
    assert all(notice.severity == "limit" and "%" in notice.value for notice in exceeded)


def test_distances_all_round_are_those_of_a_field_that_falls_off():
    """A share of (12 / r)^2 meets the limit 12 m out in every direction."""
    side = np.linspace(-25.0, 25.0, 33)
    x, y = np.meshgrid(side, side)
    share = 144.0 / np.maximum(x**2 + y**2, 1.0)
    share[16, 16] = np.nan
    level = FieldGrid(plane="level", at=2.0, across=side, up=side, electric=share, magnetic=share)
    found = dict(distances_around(level, share))
    assert set(found) == {45.0, 90.0, 135.0, 180.0}
    assert list(found.values()) == pytest.approx([12.0] * 4, abs=0.15)
    assert set(dict(distances_around(level, 0.001 * np.nan_to_num(share))).values()) == {0.0}


def test_duty_and_pauses_lower_the_average_power():
    shorter = WINDOW.replace('"carrier"', '"morse"').replace(
        "emission", 'transmit = "1 min"\nlisten = "1 min"\nemission'
    )
    plan = read_plan(HEAD + _beam() + shorter)
    assert average_transmitter_power(plan, averaging_time=1800.0) == pytest.approx(400 * 0.4 * 0.5)


def test_the_average_power_is_the_one_held_against_the_limits(window):
    assert window.beams[0].exposure.power == pytest.approx({1800.0: 400.0, 360.0: 400.0})


def test_a_plan_that_says_little_tells_what_to_add():
    bare = HEAD.replace('position = "52.2 N, 0.1 E"\n', "")
    result = reach_plan(read_plan(bare + _beam() + '\n[reach]\nring = "10m"\n'))
    codes = {notice.code for notice in result.notices}
    assert {"reach.no-transmitter", "reach.no-position", "reach.no-ring"} <= codes
    assert result.ring is None
    assert result.beams[0].exposure is None
    assert result.beams[0].footprint is None
    assert result.stack is None


def test_free_space_has_no_reach():
    with pytest.raises(BoomwrightError, match="free space"):
        reach_plan(read_plan(HEAD.replace("medium dry", "free space") + _beam()))


def test_a_stack_is_ordered_by_height_and_documented(tmp_path):
    text = HEAD.replace("medium dry", "perfect") + _beam("top", "16 m") + _beam("low", "9 m")
    text += _beam("middle", "12 m").replace("feed =", 'idle_feed = "shorted"\nfeed =', 1)
    text += '\n[reach]\nstack = ["top", "low"]\nring = "low"\nterrain = "hill.csv"\n'
    text += 'target = [{ name = "far", locator = "FN42" }]\n'
    (tmp_path / "hill.csv").write_text("0,20\n200,10\n900,0\n", encoding="utf-8")
    result = reach_plan(read_plan(text), files=PlanFolder(tmp_path))
    assert [beam.name for beam in result.stack.beams] == ["low", "top"]
    assert [beam.name for beam in result.stack.beside] == ["middle"]
    (told,) = [each for each in result.notices if each.code == "reach.stack-feeding"]
    assert told.text.endswith("Solved together with middle (shorted).")
    document = reach_document(result)
    assert document["stack"]["error_db"] >= 0.0
    ring = document["ring"]
    assert (ring["fixed"]["name"], ring["turning"]["name"]) == ("top", "low")
    assert len(ring["fixed"]["gain_dbi"]) == len(ring["turn_deg"]) == 13
    assert {each["sender"] for each in document["isolation"]} == {"top", "low", "middle"}
    assert document["beams"][0]["terrain"]["gain_dbi"]
    ways = {path["way"]: path for path in document["beams"][0]["paths"]}
    assert ways["short"]["distance_m"] < ways["long"]["distance_m"]
    apart = abs(ways["short"]["bearing_deg"] - ways["long"]["bearing_deg"])
    assert apart == pytest.approx(180.0, abs=1e-6)


def test_coastlines_are_whole_and_on_the_earth():
    lines = read_coastlines()
    assert len(lines) > 100
    assert all(len(line) >= 2 and abs(line[:, 1]).max() <= math.pi / 2 for line in lines)
