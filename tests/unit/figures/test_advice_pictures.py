"""Stations side by side: exact figures on every point, verdicts told by shape, nothing cut off."""

from __future__ import annotations

import pytest
from svg_reading import cut_off, every, overlaps, parsed

from boomwright.charts import LIGHT, StationPoint, advice_chart, station_profile
from boomwright.charts.palette import DARK
from boomwright.plan import read_plan
from example_stations import STATIONS, station_text


def points():
    return [
        StationPoint(number=1, name="vertical on the ground", gain_db=-4.9, along=270.0,
                     verdict="within"),
        StationPoint(number=2, name="flat dipole on two limes, 11.0 m", gain_db=1.1, along=217.0,
                     band=(190.0, 250.0), verdict="ask", unbeaten=True,
                     picked="cheapest that serves"),
        StationPoint(number=3, name="two elements on house bracket, 9.0 m", gain_db=3.9,
                     along=1655.0, band=(1570.0, 1820.0), verdict="not checked", unbeaten=True,
                     picked="knee"),
        StationPoint(number=4, name="two elements <on> tower, 17.0 m", gain_db=5.2, along=1890.0,
                     at_least=True, verdict="exceeded"),
        StationPoint(number=5, name="three elements on tilting tube, 10.5 m", gain_db=6.5,
                     along=3500.0, verdict="within", unbeaten=True),
    ]  # fmt: skip


def chart(**given):
    usual = {"x_label": "likely cost, GBP", "y_label": "dB over a dipole", "title": "Stations",
             "description": "5 stations.", "least_db": -3.0}  # fmt: skip
    return advice_chart(points=points(), **(usual | given))


def stations(svg):
    found = [each for each in every(parsed(svg), "g") if "data-station" in each.attrib]
    return {int(each.attrib["data-station"]): each for each in found}


@pytest.mark.parametrize(("width", "palette"), [(600.0, LIGHT), (340.0, DARK)])
def test_every_station_carries_its_figures(width, palette):
    svg = chart(width=width, palette=palette)
    told = stations(svg)
    assert sorted(told) == [1, 2, 3, 4, 5]
    assert float(told[3].attrib["data-gain"]) == 3.9
    assert float(told[3].attrib["data-along"]) == 1655.0
    assert {n for n, each in told.items() if "data-picked" in each.attrib} == {2, 3}
    assert cut_off(svg) == []
    assert overlaps(svg) == []


def test_verdicts_differ_by_shape_in_black_and_white():
    told = stations(chart())
    shapes = {
        each.attrib["data-verdict"]: [part.tag.rpartition("}")[2] for part in each][1:][-1]
        for each in told.values()
    }
    assert shapes == {
        "within": "circle", "ask": "path", "not checked": "circle", "exceeded": "line",
    }  # fmt: skip
    full, ring = (
        next(part for part in told[number] if part.tag.endswith("circle")) for number in (1, 3)
    )
    assert full.get("stroke") is None
    assert ring.get("fill") == LIGHT.paper
    assert all(words in chart() for words in (">within<", ">to ask<", ">not checked<"))


def test_the_line_joins_the_unbeaten_in_order_of_cost():
    root = parsed(chart())
    (joined,) = [each for each in every(root, "path") if each.get("data-part") == "unbeaten"]
    corners = [float(pair.split(",")[0]) for pair in joined.attrib["d"][1:].split()]
    assert len(corners) == 3
    assert corners == sorted(corners)
    assert "no other gives more for less" in chart()


def test_what_does_not_serve_lies_below_a_line():
    root = parsed(chart())
    (least,) = [each for each in every(root, "line") if each.get("data-part") == "least"]
    assert float(least.attrib["data-least"]) == -3.0
    assert not [
        each
        for each in every(parsed(chart(least_db=None)), "line")
        if each.get("data-part") == "least"
    ]


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize(
    "name", [path.name for path in STATIONS if path.name[:2] in
             {"02", "05", "11", "12"}],
)  # fmt: skip
def test_a_station_from_the_side_is_to_scale(name, system):
    plan = read_plan(station_text(name))
    svg = station_profile(
        plan=plan, up=32.0, out=30.0, limit=31.0, named="house and tree", description="1 station.",
        system=system,
    )  # fmt: skip
    root = parsed(svg)
    scale, ground = (float(root.attrib[f"data-{key}"]) for key in ("scale", "ground-y"))
    (limit,) = [each for each in every(root, "line") if each.get("data-part") == "limit"]
    assert ground - float(limit.attrib["y1"]) == pytest.approx(31.0 * scale, abs=0.01)
    assert ("101 ft 8 in allowed" if system == "us" else "31.00 m allowed") in svg
    assert ("Somebody 5 ft 9 in tall" if system == "us" else "Somebody 1.75 m tall") in svg
    assert cut_off(svg) == []
    assert overlaps(svg) == []
