"""Reach is told once: heads, figures and units that every reader lays out."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base.quantity import write
from boomwright.charts import LIGHT
from boomwright.plan import read_plan
from boomwright.render.laid import lay_out
from boomwright.render.rows import text_table
from boomwright.report.model import Canvas, Table
from boomwright.report.reach import reach_report
from boomwright.report.reach.heights import best_heights, cost_table, step_up
from boomwright.session.files import PlanFolder
from boomwright.study.height_costs import HeightCosts
from boomwright.study.reach import reach_plan
from fakes.desk import PLAN

BEAM = PLAN[PLAN.index("[[beam]]") :].replace('"20m"', '"low"').replace("16 m", "9 m")
MORE = """
[reach]
stack = ["20m", "low"]
ring = "low"
terrain = "hill.csv"
wanted = ["5 deg", "12.5 deg"]
target = [{ name = "far", locator = "FN42" }]

[transmitter]
power = "400 W"
emission = "carrier"

[permits]
  [[permits.exposure]]
  place = "terrace"
  distance = "9 m"
  height = "1.8 m"
"""
COSTS = HeightCosts(
    heights=np.array([6.0, 9.0, 16.0, 24.0]),
    low=np.array([900.0, 1050.0, 1400.0, 1800.0]),
    likely=np.array([1000.0, 1150.0, 1500.0, 1900.0]),
    high=np.array([1200.0, 1350.0, 1700.0, 2100.0]),
    currency="EUR",
)
#: heads of every table, with what stands for length and for distance
HEADS = {
    "heights": "height, {m}|lobes at elevation, dBi|minima, °|at 5°, dBi|at 12.5°, dBi",
    "height-costs": "height, {m}|at 5°, dBi|at 12.5°, dBi|estimate, EUR|low, EUR|high, EUR"
    "|against the plan",
    "plain-antennas": "elevation above the horizon, °|beam, dBi|dipole, same height, dBi"
    "|dipole at {low}, dBi|vertical with 32 radials, dBi",
    "advantages": "over|at 5°, dB|at 12.5°, dB",
    "pointing": "loss, dB|left, °|right, °",
    "paths": "to|way|bearing, °|distance, {km}|off the heading|costs, dB|time to turn, s",
    "hops": "to|way|layer|up at, {km}|hops|elevation, °|gain, dBi|over dipole, same height, dB"
    "|over dipole at {low}, dB|over vertical with 32 radials, dB",
    "terrain-profile": "distance from the mast, {m}|ground, {m}",
    "terrain": "elevation above the horizon, °|over the terrain, dBi|over flat ground, dBi",
    "stack-feeding": "fed|peak gain, dBi|at, °|impedance of each feed, ohm",
    "stack-best": "elevation, °|best phase, °|gain, dBi|no feeding exceeds, dBi"
    "|best lower height, in phase, {m}|gain there, dBi",
    "stack-isolation": "from|to|at, MHz|isolation, dB|arrives, W",
    "stack-ring": "apart, °|20m: gain, dBi|20m: front-to-back, dB|20m: impedance, ohm"
    "|low: gain, dBi|low: front-to-back, dB|low: impedance, ohm",
    "places": "place|limit|group|near field, greatest|over the body|formula"
    "|margin by the stricter|average power|E, V/m|H, A/m",
    "distances": "limit|group|ahead, {m}|45° off, {m}|90° off, {m}|135° off, {m}|180° off, {m}"
    "|formula, from the antenna, {m}",
}
UNITS = {
    "metric": {"m": "m", "km": "km", "low": "10 m"},
    "us": {"m": "ft", "km": "mi", "low": "33 ft"},
}
FOREIGN = {"metric": r"\d (ft|in|mi|lb)\b", "us": r"\d (m|mm|km)\b"}


@pytest.fixture(scope="module")
def result(tmp_path_factory):
    folder = tmp_path_factory.mktemp("reach")
    (folder / "hill.csv").write_text("0,20\n200,10\n900,0\n", encoding="utf-8")
    text = PLAN.replace('ground = "medium dry"', 'ground = "perfect"\nposition = "52.2 N, 0.1 E"')
    text = f"{text}\n{BEAM}{MORE}"
    found = reach_plan(read_plan(text), files=PlanFolder(folder))
    return replace(found, beams=(replace(found.beams[0], costs=COSTS), *found.beams[1:]))


def _tables(result):
    report = reach_report(result, number=0)
    behind = [picture.behind for picture in report.pictures]
    return {table.name: table for table in (*behind, *report.tables)}


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_table_has_its_heads_in_the_readers_units(result, system):
    tables = _tables(result)
    for name, heads in HEADS.items():
        written = text_table(tables[name], system=system)
        assert written.header == tuple(heads.format(**UNITS[system]).split("|")), name
        assert written.rows
    curves = {"stack", "stack-phase", "stack-spacing", "people-level", "people-upright"}
    ring = {f"stack-ring-{part}" for part in ("gain", "front-to-back", "impedance")}
    assert set(tables) == {*HEADS, *curves, *ring}


@pytest.mark.parametrize("system", ["metric", "us"])
def test_no_reader_gets_a_figure_in_the_units_of_the_other(result, system):
    laid = lay_out(reach_report(result, number=0), canvas=Canvas(palette=LIGHT, system=system))
    told = [*laid.facts, *((p.caption, p.svg) for p in laid.pictures)]
    for table in (*laid.tables, *(picture.behind for picture in laid.pictures)):
        told += [(table.caption, table.note), table.table.header, *table.table.rows]
    for texts in told:
        for text in texts:
            assert not re.search(FOREIGN[system], text), text[-300:]


def test_the_answer_names_what_counts_most(result):
    facts = reach_report(result, number=0).answer
    labels = [write(fact.label, system="us") for fact in facts]
    assert labels == [
        "Take-off angle",
        "Best height up to twice the plan's, beam turned to each place",
        "Ten feet more",
        "Over a dipole at 33 ft at 5°",
        "Stack, in phase",
        "Closest to its limit",
        "Height from which there is a second lobe",
    ]


def test_the_best_height_towards_a_target_has_the_most_power_over_its_angles(result):
    each = result.beams[0]
    said = write(best_heights(each), system="metric").split("; ")
    short = [path for path in each.paths if path.path.way == "short" and path.hops]
    assert len(said) == min(3, len(short)) > 0
    for path, told in zip(short, said, strict=False):
        hop, scan = path.hops[0].hop, each.scan
        inside = (scan.elevation_deg >= hop.lowest_elevation_deg) & (
            scan.elevation_deg <= hop.highest_elevation_deg
        )
        power = (10.0 ** (scan.gain_dbi[:, inside] / 10.0)).mean(axis=1)
        power[scan.heights > 2.0 * each.beam.height] = 0.0
        assert told.startswith(f"{path.target} {scan.heights[power.argmax()]:.1f} m")
        assert f"({hop.lowest_elevation_deg:.0f}° to {hop.highest_elevation_deg:.0f}°," in told


def test_a_step_up_is_priced_by_the_slope_of_the_estimate(result):
    """From 16 m up 400 EUR in 8 m: 50 EUR a metre, 152 EUR in ten feet."""
    each = result.beams[0]
    said = step_up(each, "{price}: {gains}", (12.5,))
    gain = each.scan.gain_at(elevation_deg=12.5)
    for system, step, price in (("metric", 1.0, "50 EUR"), ("us", 3.048, "152 EUR")):
        more = np.interp([16.0 + step, 16.0], each.scan.heights, gain)
        told = f"{price}: {more[0] - more[1]:+.2f} dB at 12.5°".replace("-", "−")
        assert write(said, system=system) == told
    unpriced = step_up(result.beams[1], "{price}", ())
    said = write(unpriced, system="us")
    assert said.startswith("not priced, because the plan has no currency and no price list")


def test_heights_are_priced_against_the_plans_own(result):
    rows = text_table(cost_table(result.beams[0]), system="us").rows
    assert [row[0] for row in rows] == ["19.7", "29.5", "52.5", "78.7"]
    assert [row[3:] for row in rows[1:3]] == [
        ("1\u202f150", "1\u202f050", "1\u202f350", "−350"),
        ("1\u202f500", "1\u202f400", "1\u202f700", "the plan"),
    ]


def test_figures_are_those_of_the_result(result):
    each, tables = result.beams[0], _tables(result)
    heights = text_table(tables["heights"], system="metric").rows
    assert len(heights) == len(each.scan.heights)
    gain = each.scan.gain_at(elevation_deg=5.0)
    assert [row[3] for row in heights][::20] == [
        f"{value:.1f}".replace("-", "−") if value >= -20.0 else "below −20" for value in gain[::20]
    ]
    path = each.paths[0]
    row = text_table(tables["paths"], system="us").rows[0]
    assert row[:4] == ("far", "short", f"{path.path.bearing_deg:.1f}",
                       f"{path.path.distance / 1609.344:.0f}")  # fmt: skip
    check = each.exposure.checks[0]
    places = text_table(tables["places"], system="metric").rows[0]
    used = (check.near, check.averaged, check.far)
    assert places[3:6] == tuple(f"{100.0 * each.governing:.1f} %" for each in used)
    root = check.power**0.5
    assert places[8:] == (
        f"{check.place.electric * root:.1f} of {check.limit.electric_field:.1f}",
        f"{check.place.magnetic * root:.3f} of {check.limit.magnetic_field:.3f}",
    )
    assert places[6] == f"{check.margin_db:.1f} dB, {check.method}"


def test_a_check_without_an_input_is_not_checked(result):
    exposure = result.beams[0].exposure
    check = exposure.checks[0]
    blind = replace(check, near=replace(check.near, electric=None, magnetic=None))
    beam = replace(result.beams[0], exposure=replace(exposure, checks=(blind,)))
    table = _tables(replace(result, beams=(beam,)))["places"]
    assert text_table(table, system="metric").rows[0][3] == "not checked"


def test_only_the_first_beam_tells_what_they_do_to_each_other(result):
    alone = reach_report(result, number=1, together=False)
    assert not any(table.name.startswith("stack") for table in alone.tables)
    assert not any(picture.group == "stack" for picture in alone.pictures)
    assert all(isinstance(picture.behind, Table) and picture.group for picture in alone.pictures)
