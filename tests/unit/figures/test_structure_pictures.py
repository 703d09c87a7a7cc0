"""Pictures of structure and permits: whole, described, in scale, and true to what was found."""

from __future__ import annotations

import math

import numpy as np
import pytest
from svg_reading import cut_off, data_list, every, overlaps, parsed

from boomwright import charts
from boomwright.charts import LIGHT
from boomwright.charts.palette import DARK
from boomwright.permits import fall_gap
from boomwright.plan import read_plan
from boomwright.plan.shapes import shape_plan
from boomwright.report.model import Canvas
from boomwright.report.structure.cases import load_cases
from boomwright.report.structure.ledger import ledger, ledger_pictures
from boomwright.session.files import load_plan
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan
from example_stations import station


def _loaded(start):
    plan = load_plan(station(start)).plan
    return plan, structure_plan(plan, fixes=False).report, permit_plan(plan)


GUYED, SEA, PIPE, UNKNOWN = (_loaded(start) for start in ("05", "10", "01", "09"))


def _ledger(report, *, most_rows=None, system="metric", width=640.0, palette=LIGHT):
    """Draw the ledger, in as many pictures as its lines want."""
    canvas = Canvas(palette=palette, system=system, width=width)
    made = ledger_pictures(
        report,
        wind=report.basis,
        table=ledger(report.ledger, cases=load_cases((), wind=report.basis)),
        most_rows=most_rows,
    )
    return [picture.draw(canvas) for picture in made]


def _pictures(station, **options):
    plan, report, permits = station
    plain = {key: value for key, value in options.items() if key != "system"}
    made = {
        "ledger": _ledger(report, **plain)[0],
        "side": charts.station_elevation(plan=plan, installation=permits.installation, **options),
    }
    if permits.surfaces:
        made["airports"] = charts.airport_slopes(
            checks=permits.surfaces, installation=permits.installation, **options
        )
    if report.guys is not None:
        made["guys"] = charts.guy_chart(
            guys=report.guys, levels=report.inputs.guying, ledger=report.ledger, **options
        )
    for beam, held in zip(report.beams, plan.beams, strict=True):
        made[f"{beam.name} wind"] = charts.wind_polar(beam=beam, **plain)
        if beam.course is not None:
            made[f"{beam.name} boom"] = charts.boom_chart(report=beam, beam=held, **options)
        for element in beam.elements[:1]:
            for iced in (False, True):
                made[f"{beam.name} stress {iced}"] = charts.element_stress_chart(
                    element=element, iced=iced, **options
                )
                made[f"{beam.name} droop {iced}"] = charts.droop_chart(
                    element=element, iced=iced, **options
                )
    return made


@pytest.mark.parametrize("station", [GUYED, SEA, PIPE, UNKNOWN], ids=["guyed", "sea", "pipe", "?"])
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("width", [350.0, 600.0])
def test_every_picture_is_whole_and_described(station, palette, system, width):
    for name, svg in _pictures(station, palette=palette, system=system, width=width).items():
        root = parsed(svg)
        assert root.attrib["role"] == "img", name
        title, description = every(root, "title")[0].text, every(root, "desc")[0].text
        assert title, name
        assert description.endswith("."), name
        assert cut_off(svg) == [], name
        assert not any(tag in svg for tag in ("<style", "<script", "<clipPath", "<mask")), name


def test_the_ledger_draws_every_line_in_order_with_words_beside_colour():
    report = SEA[1]
    root = parsed(_ledger(report)[0])
    groups = [g for g in every(root, "g") if "data-verdict" in g.attrib]
    assert [g.attrib["data-series"] for g in groups] == [line.name for line in report.ledger]
    for group, line in zip(groups, report.ledger, strict=True):
        told = " ".join(text.text or "" for text in every(group, "text"))
        assert line.verdict in told
        if line.use is not None:
            assert float(group.attrib["data-use"]) == pytest.approx(line.use, abs=1e-6)
    # A part draws its own lines only, on the same scale; what is within and far from its limit
    # is left to the table.
    parts = [parsed(svg) for svg in _ledger(report, most_rows=4)]
    names = [
        [g.attrib["data-series"] for g in every(part, "g") if "data-verdict" in g.attrib]
        for part in parts
    ]
    assert len(names) > 1
    assert max(map(len, names)) <= 4
    told = [line.name for line in report.ledger if line.verdict != "within"]
    assert len(told) > 4
    assert [name for part in names for name in part] == told
    for part in parts:
        assert part.attrib["data-use-at-edge"] == root.attrib["data-use-at-edge"]


def test_bars_are_as_long_as_the_use_they_stand_for():
    report = GUYED[1]
    root = parsed(_ledger(report)[0])
    edge = float(root.attrib["data-use-at-edge"])
    for group in every(root, "g"):
        if group.attrib.get("data-verdict") != "within":
            continue
        bar = every(group, "rect")[1]
        assert float(bar.attrib["width"]) == pytest.approx(
            612.0 * float(group.attrib["data-use"]) / edge, abs=0.51
        )


def test_the_side_view_is_to_scale():
    plan, _, permits = SEA
    root = parsed(charts.station_elevation(plan=plan, installation=permits.installation))
    scale = float(root.attrib["data-scale"])
    parts = {e.attrib["data-part"]: e for e in root.iter() if "data-part" in e.attrib}
    support = parts["support"]
    assert float(support.attrib["y1"]) - float(support.attrib["y2"]) == pytest.approx(
        20.0 * scale, abs=0.01
    )
    around, heights = permits.installation.around, permits.installation.heights
    fall = math.hypot(heights.permanent_top, around.swing_radius)
    assert float(parts["fall-arc"].attrib["data-radius"]) == pytest.approx(fall, abs=1e-3)
    line = permits.installation.power_lines[0]
    dot = every(parts["power-line"], "circle")[1]
    foot, ground = float(root.attrib["data-foot-x"]), float(root.attrib["data-ground-y"])
    away = math.hypot(float(dot.attrib["cx"]) - foot, ground - float(dot.attrib["cy"])) / scale
    gap = fall_gap(line=line, height=heights.permanent_top, swing_radius=around.swing_radius)
    assert away - fall == pytest.approx(gap, abs=0.02)


def test_the_side_view_shows_hub_post_and_spreaders_of_a_frame():
    plan = read_plan(shape_plan("hexagon", band="20 m", further=("15 m",)))
    held = permit_plan(plan).installation
    root = parsed(charts.station_elevation(plan=plan, installation=held))
    scale, ground = float(root.attrib["data-scale"]), float(root.attrib["data-ground-y"])
    drawn = [e for e in root.iter() if e.attrib.get("data-part") == "spreader"]
    tips = sorted((float(e.attrib["x2"]), ground - float(e.attrib["y2"])) for e in drawn)
    assert len(tips) == 6
    frame, height = plan.beams[0].frame, plan.beams[0].height
    rise = frame.points[-1].place[2]
    assert (tips[-1][0] - tips[0][0]) / scale == pytest.approx(
        2.0 * frame.points[3].place[1], abs=0.01
    )
    assert {round(high / scale, 1) for _, high in tips} == {round(height + rise, 1)}
    assert {"hub", "post"} <= {e.attrib.get("data-part") for e in root.iter()}


def test_the_polar_carries_both_rules_and_all_three_areas():
    beam = GUYED[1].beams[0]
    root = parsed(charts.wind_polar(beam=beam))
    series = {g.attrib["data-series"]: g for g in every(root, "g") if "data-series" in g.attrib}
    drawn = data_list(series["square to the wind"], "data-value")
    assert np.allclose(drawn, beam.wind.drag_area, atol=1e-4)
    assert np.allclose(
        data_list(series["older sum rule"], "data-value"), beam.wind.older_drag_area, atol=1e-4
    )
    said = " ".join(charts.wind_sentences(beam))
    for area in (beam.wind.worst, beam.wind.older_worst):
        for value in (area.projected, area.drag, area.flat):
            assert f"{value:.2f}" in said


def test_charts_carry_what_was_found():
    plan, report, permits = GUYED
    beam = report.beams[0]
    element = beam.elements[0]
    root = parsed(charts.element_stress_chart(element=element, iced=True))
    series = {g.attrib["data-series"]: g for g in every(root, "g") if "data-series" in g.attrib}
    stress = data_list(series["in wind, bare"], "data-value")
    assert max(stress) == pytest.approx(element.strength.worst_bare.bare_stress / 1e6, abs=1e-3)
    guys = parsed(
        charts.guy_chart(guys=report.guys, levels=report.inputs.guying, ledger=report.ledger)
    )
    tensions = [
        max(data_list(g, "data-value")) for g in every(guys, "g") if "data-series" in g.attrib
    ]
    assert sorted(tensions) == pytest.approx(
        sorted(t / 1e3 for t in report.guys.highest_tensions), abs=1e-3
    )
    slopes = parsed(
        charts.airport_slopes(checks=permits.surfaces, installation=permits.installation)
    )
    for group in every(slopes, "g"):
        if "data-series" not in group.attrib:
            continue
        x, y = data_list(group, "data-x"), data_list(group, "data-value")
        ratio = float(group.attrib["data-series"].split(", ")[1].split(":")[0])
        assert (y[1] - y[0]) == pytest.approx(1e3 * (x[1] - x[0]) / ratio, rel=1e-3)
    assert plan.title


def test_labels_of_a_crowded_side_view_keep_off_one_another():
    for plan, _, permits in (SEA, PIPE):
        svg = charts.station_elevation(plan=plan, installation=permits.installation)
        # Each label stands twice, rim and letters.
        assert [pair for pair in overlaps(svg) if pair[0] != pair[1]] == []


def test_a_boom_that_could_not_be_bent_is_refused_with_a_reason():
    plan, report, permits = UNKNOWN
    with pytest.raises(ValueError, match="ledger"):
        charts.boom_chart(report=report.beams[0], beam=plan.beams[0])
    with pytest.raises(ValueError, match="no surface"):
        charts.airport_slopes(checks=(), installation=permits.installation)


def test_every_picture_is_read_by_curve_or_by_thing():
    # What the page's reader needs: panels with curves, a rose of values, or groups with a sentence.
    for name, svg in _pictures(SEA).items():
        root = parsed(svg)
        panels = [g for g in every(root, "g") if "data-x-low" in g.attrib]
        things = [g for g in every(root, "g") if g and g[0].tag.endswith("title")]
        rose = "data-value-at-ring" in root.attrib
        assert panels or things or rose, name
        if things and not panels:
            assert all(len(g[0].text) > 8 for g in things), name


def test_areas_and_margins_come_in_the_readers_units():
    plan, report, _ = SEA
    beam = report.beams[0]
    metric, us = (charts.wind_polar(beam=beam, system=system) for system in ("metric", "us"))
    drawn = [
        data_list(
            next(
                g
                for g in every(parsed(svg), "g")
                if g.attrib.get("data-series") == "square to the wind"
            ),
            "data-value",
        )
        for svg in (metric, us)
    ]
    assert np.allclose(drawn[0], 0.3048**2 * np.asarray(drawn[1]), atol=1e-4)
    assert "ft²" in us
    assert "m²" not in us
    told = [
        g[0].text
        for g in every(parsed(_ledger(report, system="us")[0]), "g")
        if "data-verdict" in g.attrib
    ]
    assert any(" ksi of " in text for text in told)
    assert not any(" MPa of " in text for text in told)
    assert plan.beams
