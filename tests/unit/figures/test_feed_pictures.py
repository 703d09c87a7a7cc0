"""Pictures of the feed: match to scale, reflection chart, strap and capacitor."""

from __future__ import annotations

import json

import numpy as np
import pytest
from svg_reading import parsed

from boomwright.charts import (
    LIGHT,
    adjustment_map,
    adjustment_table,
    match_schematic,
    reflection_chart,
    schematic_table,
    stage_words,
)
from boomwright.charts.palette import DARK
from boomwright.feed import (
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntStub,
    impedance_travel,
)
from fakes.feed_plans import GAMMA, SPLIT, solved

SVG = "{http://www.w3.org/2000/svg}"


def _match():
    match = solved(GAMMA).beams[0].proposed
    assert match is not None
    return match


def test_the_rod_is_drawn_to_the_stated_scale():
    match = _match()
    root = parsed(match_schematic(match=match))
    scale = float(root.get("data-scale"))
    rod = [
        float(rect.get("width"))
        for rect in root.iter(f"{SVG}rect")
        if abs(float(rect.get("width")) - scale * match.shape.rod_length) < 0.01
    ]
    assert rod


@pytest.mark.parametrize(("system", "unit"), [("metric", " mm"), ("us", " in")])
def test_dimensions_are_in_the_readers_units(system, unit):
    match = _match()
    words = " ".join(parsed(match_schematic(match=match, system=system)).itertext())
    assert unit in words
    table = schematic_table(match, system=system)
    assert table.header[1] == ("metric" if system == "metric" else "US")
    assert table.rows[-1][1].endswith("pF")


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda palette: palette.name)
def test_a_split_shows_its_gap_and_the_pieces_behind_it(palette):
    match = solved(SPLIT).beams[0].drawn
    assert match is not None
    words = " ".join(parsed(match_schematic(match=match, palette=palette)).itertext())
    assert "split 20 mm" in words


def test_the_reference_stands_in_the_middle_of_the_chart_and_an_open_end_at_its_rim():
    root = parsed(
        reflection_chart(traces=[("a", [14e6, 14.1e6], [50.0 + 0j, 1e9 + 0j])], reference=50.0)
    )
    centre = float(root.get("data-centre-x")), float(root.get("data-centre-y"))
    radius = float(root.get("data-radius"))
    (trace,) = [g for g in root.iter(f"{SVG}g") if g.get("data-series") == "a"]
    (line,) = [p for p in trace.iter(f"{SVG}path") if p.get("fill") == "none"]
    start, end = (tuple(float(v) for v in pair.split(",")) for pair in line.get("d")[1:].split())
    assert start == pytest.approx(centre, abs=0.02)
    assert end == pytest.approx((centre[0] + radius, centre[1]), abs=0.02)


def test_the_way_is_numbered_and_named_and_its_names_must_be_as_many():
    stages = (SeriesInductor(inductance=1e-6), LineSection(impedance=75.0, length=3.0))
    legs = impedance_travel(stages=stages, impedance=20.0 + 0j, frequency=14.2e6)
    names = [" ".join(stage_words(stage, system="metric")) for stage in stages]
    words = " ".join(
        parsed(
            reflection_chart(
                traces=[("a", [14e6, 14.4e6], [20.0, 21.0])],
                reference=50.0,
                legs=legs,
                leg_names=names,
            )
        ).itertext()
    )
    assert "1 coil 1.00 µH, 2 line 75 ohm 3000 mm" in words
    with pytest.raises(ValueError, match="give one each"):
        reflection_chart(traces=[("a", [14e6, 14.4e6], [20.0, 21.0])], reference=50.0, legs=legs)


def test_the_map_holds_its_numbers_and_marks_the_match():
    picture = solved(GAMMA).beams[0].adjustment
    assert picture is not None
    root = parsed(adjustment_map(adjustment=picture))
    ratios = np.array(json.loads(root.get("data-swr")))
    assert np.allclose(ratios, np.minimum(picture.swr, 99.0), rtol=0.0, atol=1e-3)
    words = " ".join(root.itertext())
    assert f"match: {picture.best_rod_length * 1e3:.0f} mm" in words
    table = adjustment_table(picture, system="us")
    assert table.header[0] == "strap, in"
    assert len(table.rows) == 9


def test_names_of_pieces():
    assert stage_words(SeriesCapacitor(capacitance=50e-12), system="metric", tee=True) == (
        "capacitor, each rod",
        "100 pF",
    )
    stub = ShuntStub(impedance=50.0, length=1.0, end="short")
    assert stage_words(stub, system="metric") == ("shorted stub 50 ohm", "1000 mm")
