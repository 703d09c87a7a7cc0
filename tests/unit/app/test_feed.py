"""From a plan to its feed: what is solved, what is said, what is written."""

from __future__ import annotations

import json
import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pytest
import skrf

from boomwright.base.quantity import write
from boomwright.charts import LIGHT
from boomwright.feed import (
    FEED_CAUTIONS,
    FieldSetting,
    HairpinShape,
    SplitShape,
    standing_wave_ratio,
)
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.resolve.feed import drawn_shape
from boomwright.render.json.feed import feed_document
from boomwright.render.laid import lay_out
from boomwright.report.feed import feed_report
from boomwright.report.model import Canvas
from boomwright.session.files import packaged_text
from boomwright.solver import GROUND_CLASSES
from boomwright.study.feed import exceeded_feed_limits, feed_touchstone
from boomwright.study.feed_parts.braid import braid_cases
from boomwright.study.feed_parts.shapes import rod_sizes
from fakes.feed_plans import GAMMA, SPLIT, plan_text, solved

#: the small plan stretched to three times its size, for 7 MHz
LOW_BAND = (
    plan_text(SPLIT)
    .replace('["21.000 MHz", "21.450 MHz"]', '["7.000 MHz", "7.150 MHz"]')
    .replace("21.200 MHz", "7.066 MHz")
    .replace('"12 m"', '"15 m"')
    .replace('"2.12 m"', '"9.36 m"')
    .replace('"1.86 m"', '"8.58 m"')
    .replace('"2.0 m"', '"6.0 m"')
)


def test_a_gamma_without_length_is_proposed_in_the_field_beside_its_circuit_values():
    each = solved(GAMMA).beams[0]
    assert each.drawn is None
    assert "every dimension" in each.drawn_words
    assert each.proposed is not None
    assert each.proposed.swr < 1.05
    assert each.proposed.swr_of_start > 1.5
    rod = each.proposed.comparisons[0]
    assert rod.field != pytest.approx(rod.circuit, rel=0.02, abs=0.0)


def test_a_plan_with_a_match_of_its_own_is_cut_to_it_and_to_nothing_else():
    result = solved(GAMMA)
    (open_,) = result.beams
    worse = replace(open_.measured, swr=open_.measured.swr + 0.2)
    better = replace(open_.measured, swr=0.5 * (1.0 + open_.measured.swr))

    def report(each):
        return feed_report(replace(result, beams=(each,)), number=0)

    def first(each):
        return write(report(each).next[0], system="metric")

    own = replace(open_, drawn=open_.proposed, offered=worse)
    assert first(own) == "cut to the plan's own match, as the build sheets say"
    assert "compare both matches" in first(replace(own, offered=better))
    assert "write the proposed match into the plan" in first(open_)
    titles = [picture.title for picture in report(own).pictures if picture.group == "match"]
    assert [title for title in titles if "of the plan" in title] == ["Match of the plan: gamma"]
    heads = [each.head for table in report(own).tables for each in table.columns]
    assert not any("cut" in str(head) for head in heads)


def test_a_hairpin_is_drawn_the_way_its_rods_are_built():
    result = solved(GAMMA)
    (each,) = result.beams
    demo = packaged_text("demo.toml")
    forward = demo.replace("  fitting = [", '  hardware = { rods = "forward" }\n  fitting = [')
    for text, told, way in ((demo, "to the rear of the boom", -1.0), (forward, "heading", 1.0)):
        plan = read_plan(text)
        (beam,) = plan.beams
        rods, _, _ = drawn_shape(beam)
        # Its wires run where its parts do.
        wires = rods.wires(beam=beam, setting=FieldSetting()).runs
        reach = [run.direction[0] * run.shape.length for run in wires if run.direction[0]]
        assert sum(reach) == pytest.approx(way * rods.length, rel=1e-9, abs=0.0)
        bars = [
            part.solids[0]
            for part in station_assembly(plan).of(beam.name, "match")
            if part.name == "rod of the hairpin"
        ]
        assert [np.sign(bar.end[0] - bar.start[0]) for bar in bars] == [way, way]
        match = replace(each.proposed, shape=rods)
        fed = replace(each.beam, name=beam.name, feed=replace(each.beam.feed, kind="hairpin"))
        changed = replace(each, beam=fed, drawn=match, proposed=None)
        report = feed_report(replace(result, plan=plan, beams=(changed,)), number=0)
        picture = next(one for one in report.pictures if one.name == "drawn")
        assert f">{told}</text>" in picture.draw(Canvas(palette=LIGHT, system="metric"))


def test_ratings_are_those_of_the_port_current():
    result = solved(GAMMA)
    each = result.beams[0]
    match = each.used
    assert match is not None
    assert result.power == 100.0
    port, capacitor = each.ratings
    at = np.linspace(21.0e6, 21.45e6, 21)
    z = match.load.at(at)
    current = np.sqrt(100.0 / z.real)
    farads = match.shape.capacitance
    volts = math.sqrt(2.0) * current / (2.0 * math.pi * at * farads)
    assert capacitor.peak_voltage == pytest.approx(float(volts.max()), rel=1e-6, abs=0.0)
    assert capacitor.rated_voltage == pytest.approx(2.0 * capacitor.peak_voltage, rel=1e-9, abs=0.0)
    assert port.current == pytest.approx(float(current.max()), rel=1e-6, abs=0.0)


def test_the_radio_sees_less_than_the_antenna_has_and_the_line_takes_more_than_matched():
    line = solved(GAMMA).beams[0].line
    assert line is not None
    # Near 1 the line's own impedance, not quite 50 ohm, shows; above it the loss rules.
    off = line.feed_swr > 1.1
    assert np.all(line.shack_swr[off] < line.feed_swr[off])
    assert np.all(line.loss_db >= line.reading.matched_loss_db * 0.99)
    assert line.rating is not None


def test_five_kilohms_restore_the_pattern_and_a_bypass_does_not():
    cases = solved(GAMMA).beams[0].braids
    assert len(cases) == 2
    for case in cases:
        readings = dict(case.readings)
        assert readings["5 kohm"].harm_db < 0.1
        assert readings["bypassed"].greatest_current > readings["5 kohm"].greatest_current
    assert dict(cases[-1].readings)["bypassed"].harm_db > 0.3


def test_a_braid_ends_where_the_solver_still_holds():
    """Half a metre above ground is less than 0.02 wavelengths on 7 MHz, and that far it holds."""
    beam = read_plan(LOW_BAND).beams[0]
    setting = FieldSetting(ground=GROUND_CLASSES["medium dry"])
    cases, _ = braid_cases(read_plan(LOW_BAND), beam, setting=setting)
    assert len(cases) == 2
    end = beam.height - cases[0].braid.drop - cases[0].braid.down
    assert 0.02 < end / beam.wavelength < 0.03


def test_the_choke_of_the_plan_is_rated():
    result = solved(GAMMA)
    work = result.beams[0].choke_work
    assert work is not None
    assert 0.0 < work.heat < result.power * result.duty_factor
    assert work.voltage > 0.0


def test_turning_is_advised_for_strap_capacitor_and_a_plain_meter():
    turns = solved(GAMMA).beams[0].turns
    assert len(turns) == 5
    said = [write(turn.do[0], system="us") for turn in turns]
    assert said[0].startswith("Slide the strap out")
    assert said[1].startswith("Slide the strap in")
    assert " in:" in said[0]
    assert "more; the strap is right" in said[2]
    assert "less; the strap is right" in said[3]


def test_without_line_and_power_nothing_is_made_up_and_the_gaps_are_named():
    result = solved(SPLIT, station=False)
    each = result.beams[0]
    assert each.line is None
    assert each.ratings == ()
    assert each.choke_needed is None
    codes = {notice.code for notice in result.notices}
    assert {"feed.no-line", "feed.no-power"} <= codes


def test_every_caution_is_among_the_notices_whatever_the_feed():
    for result in (solved(GAMMA), solved(SPLIT, station=False)):
        assert set(FEED_CAUTIONS) <= set(result.notices)


def test_a_split_is_taken_as_it_is_and_a_high_ratio_at_the_radio_is_a_limit():
    result = solved(SPLIT)
    each = result.beams[0]
    assert each.proposed is None
    assert each.drawn is not None
    seen = each.bare.at(each.beam.design_frequency)
    ratio = float(standing_wave_ratio(seen, reference=each.reference))
    assert each.drawn.swr == pytest.approx(ratio, rel=1e-3, abs=0.0)
    worst = float(each.line.shack_swr.max())
    assert bool(exceeded_feed_limits(result)) is (worst > 2.0)


def test_all_kinds_stand_side_by_side_each_matched_or_refused_in_words():
    tries = solved(SPLIT).beams[0].tries
    kinds = " ".join(item.kind for item in tries)
    for kind in ("split", "hairpin", "gamma", "tee", "folded", "quarter-wave", "stub", "L-section"):
        assert kind in kinds
    for item in tries:
        assert (item.match is None) == bool(item.refusal)
        if item.match is not None and item.kind in {"hairpin", "gamma", "tee", "open stub"}:
            assert item.swr_design == pytest.approx(1.0, abs=1e-6)


def test_the_document_is_plain_json():
    for result in (solved(GAMMA), solved(SPLIT, station=False)):
        text = json.dumps(feed_document(result), allow_nan=False)
        document = json.loads(text)
        assert document["beams"][0]["name"] == "15m"


def test_touchstone_files_are_read_by_a_network_library(tmp_path):
    # scikit-rf reads version 1 files {touchstone-1}; its impedances must be ours.
    result = solved(GAMMA)
    each = result.beams[0]
    files = feed_touchstone(result)
    assert set(files) == {"bare-feed-point.s1p", "feed-point.s1p", "shack.s1p"}
    path = tmp_path / "shack.s1p"
    path.write_text(files["shack.s1p"], encoding="ascii")
    network = skrf.Network(str(path))
    assert np.allclose(network.f, each.line.frequency, rtol=1e-9, atol=0.0)
    assert np.allclose(network.z[:, 0, 0], each.line.shack_impedance, rtol=1e-8, atol=0.0)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_everything_is_drawn_and_every_picture_has_its_numbers(system):
    for result in (solved(GAMMA), solved(SPLIT, station=False)):
        canvas = Canvas(palette=LIGHT, system=system)
        shown = lay_out(feed_report(result, number=0), canvas=canvas)
        for picture in shown.pictures:
            root = ET.fromstring(picture.svg)  # noqa: S314 - made by this project a moment ago
            described = root.find("{http://www.w3.org/2000/svg}desc")
            assert described is not None
            assert described.text
            assert picture.behind.table.rows
        for table in shown.tables:
            assert all(len(row) == len(table.table.header) for row in table.table.rows)
    names = {picture.name for picture in feed_report(solved(GAMMA), number=0).pictures}
    assert names == {"match", "swr", "travel", "adjustment", "braid-pattern"}


def test_shapes_are_those_of_the_plan():
    coil = '{ kind = "hairpin", gap = "20 mm", inductance = "0.5 uH" }'
    rods = (
        '{ kind = "hairpin", gap = "20 mm", rod_diameter = "8 mm", rod_spacing = "60 mm", '
        'rod_length = "0.4 m" }'
    )
    bare = '{ kind = "hairpin", gap = "20 mm" }'
    beams = [read_plan(plan_text(feed), source="t").beams[0] for feed in (coil, rods, bare)]
    shape, behind, _ = drawn_shape(beams[0])
    assert isinstance(shape, SplitShape)
    assert len(behind) == 1
    shape, behind, kind = drawn_shape(beams[1])
    assert isinstance(shape, HairpinShape)
    assert (behind, kind) == ((), "hairpin")
    assert shape.length == pytest.approx(0.4, rel=1e-12, abs=0.0)
    assert drawn_shape(beams[2]) is None
    diameter, spacing = rod_sizes(beams[2])
    assert diameter == pytest.approx(0.0127, rel=1e-12, abs=0.0)
    assert spacing > 4.0 * diameter / 2.0
