"""Pictures of reach: well formed, exact data, the same in every run, labels in sight."""

from __future__ import annotations

import json
import math

import numpy as np
import pytest
from svg_reading import data_list, every, parsed

from boomwright.charts import (
    LIGHT,
    HopBar,
    height_chart,
    height_cost_chart,
    height_map,
    hop_angles,
    line_chart,
    lobe_steps,
    people_map,
    station_map,
)
from boomwright.charts.palette import DARK
from boomwright.charts.reach.shaded_field import classes_of, refined
from boomwright.reach import Place, great_circle, scan_heights
from boomwright.reach.comparison import half_wave_dipole
from boomwright.solver import PERFECT_GROUND

DIPOLE = half_wave_dipole(frequency=14.175e6, height=12.0)
SCAN = scan_heights(beam=DIPOLE, ground=PERFECT_GROUND, heights=np.linspace(5.0, 25.0, 9))
STATION = Place.from_degrees(latitude_deg=52.2, longitude_deg=0.1)
FAR = Place.from_degrees(latitude_deg=42.4, longitude_deg=-71.1)
COSTS = {
    "heights": np.array([6.0, 12.0, 18.0, 24.0]),
    "likely": np.array([1000.0, 1300.0, 1600.0, 1900.0]),
    "low": np.array([900.0, 1200.0, 1450.0, 1700.0]),
    "high": np.array([1200.0, 1500.0, 1850.0, 2250.0]),
    "currency": "EUR",
    "description": "One metre more costs 50 EUR.",
}
COAST = (np.radians(np.array([[0.0, 50.0], [5.0, 52.0], [8.0, 54.0], [10.0, 55.0]])),)


def _people(**more):
    side = np.linspace(-10.0, 10.0, 9)
    share = np.exp(-(side[:, None] ** 2 + side[None, :] ** 2) / 40.0)
    share[4, 4] = np.nan
    given = {"plane": "level", "across": side, "up": side, "share": share, "limit_name": "limit"}
    return people_map(**given, **more)


def _map(**more):
    path = great_circle(station=STATION, target=FAR)
    return station_map(
        station=STATION, coastlines=COAST, heading=1.0, targets=[("far", FAR, path)], **more
    )


def _hops(**more):
    angle = SCAN.elevation_deg
    return hop_angles(
        elevation_deg=angle,
        curves=[("beam", SCAN.gain_dbi[3]), ("vertical", SCAN.gain_dbi[0])],
        bars=[
            HopBar(label="far, F2, 2 hops", low_deg=4.0, high_deg=11.0),
            HopBar(label="far, F2, 3 hops", low_deg=12.0, high_deg=22.0),
        ],
        **more,
    )


def _all():
    yield lambda **more: height_chart(scan=SCAN, wanted_deg=(10.0, 20.0), **more)
    yield lambda **more: height_map(scan=SCAN, **more)
    yield _people
    yield _map
    yield lambda **more: lobe_steps(scan=SCAN, **more)
    yield lambda **more: height_cost_chart(scan=SCAN, wanted_deg=(10.0, 20.0), **COSTS, **more)
    yield _hops


@pytest.mark.parametrize("draw", list(_all()))
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
def test_pictures_are_well_formed_named_and_the_same_in_every_run(draw, palette):
    svg = draw(palette=palette)
    assert svg == draw(palette=palette)
    root = parsed(svg)
    assert root.attrib["role"] == "img"
    assert len(every(root, "title")[0].text) > 5
    assert len(every(root, "desc")[0].text) > 20
    assert "style" not in root.attrib
    assert not every(root, "script")


@pytest.mark.parametrize("draw", list(_all()))
@pytest.mark.parametrize("width", [380.0, 520.0, 700.0])
def test_every_label_stays_on_the_paper(draw, width):
    root = parsed(draw(width=width))
    for node in every(root, "text"):
        assert 0.0 <= float(node.attrib["x"]) <= width
        assert 0.0 <= float(node.attrib["y"]) <= float(root.attrib["height"])


def test_the_map_of_heights_holds_the_scan():
    root = parsed(height_map(scan=SCAN))
    assert data_list(root, "data-heights") == pytest.approx(SCAN.heights, abs=1e-3)
    gains = np.array(json.loads(root.attrib["data-gains"]))
    angles = data_list(root, "data-elevations")
    wanted = [np.interp(angles, SCAN.elevation_deg, row) for row in SCAN.gain_dbi]
    assert gains == pytest.approx(np.array(wanted), abs=0.051)


def test_splits_and_the_plans_height_are_marked():
    root = parsed(height_chart(scan=SCAN, wanted_deg=(10.0,)))
    marks = [n.attrib["data-height"] for n in every(root, "line") if n.get("data-part") == "split"]
    assert len(marks) == len(SCAN.splits)
    assert any(n.get("data-part") == "own-height" for n in every(root, "line"))


def test_feet_change_the_axis_and_not_the_picture_of_the_lobes():
    metric, feet = (
        parsed(height_chart(scan=SCAN, wanted_deg=(10.0,), system=system))
        for system in ("metric", "us")
    )
    texts = [node.text for node in every(feet, "text")]
    assert "boom above ground, ft" in texts
    paths = [
        next(
            n
            for n in every(root, "path")
            if n.get("fill") == "none" and n.get("stroke-width") == "1.8"
        )
        for root in (metric, feet)
    ]
    assert paths[0].attrib["d"] == paths[1].attrib["d"]


def test_a_target_carries_bearing_and_distance():
    root = parsed(_map())
    node = next(n for n in every(root, "g") if n.get("data-target") == "far")
    path = great_circle(station=STATION, target=FAR)
    assert float(node.attrib["data-bearing"]) == pytest.approx(path.bearing_deg, abs=1e-3)
    assert float(node.attrib["data-distance"]) == pytest.approx(path.distance, abs=1.0)
    # North is up: a bearing of 288 degrees lies to the left of the middle and above it.
    circle = every(node, "circle")[0]
    assert float(circle.attrib["cx"]) < float(root.attrib["data-map-x"])
    assert float(circle.attrib["cy"]) < float(root.attrib["data-map-y"])


def test_the_share_of_the_limit_is_held_exactly_and_wires_are_marked():
    root = parsed(_people())
    shares = np.array(json.loads(root.attrib["data-shares"]))
    assert shares[4, 4] == -1.0
    assert shares[0, 0] == pytest.approx(math.exp(-5.0), abs=1e-4)


def test_names_of_places_above_each_other_stand_apart():
    root = parsed(_people(places=[("window", 4.0, 0.0), ("lawn", 4.0, 0.0)]))
    rows = {
        n.text: float(n.attrib["y"]) for n in every(root, "text") if n.text in {"window", "lawn"}
    }
    assert rows["lawn"] - rows["window"] >= 10.0


def test_classes_and_refinement():
    values = np.array([[0.0, -2.0], [np.nan, -30.0]])
    assert classes_of(values, levels=(-1.0, -3.0)).tolist() == [[0, 1], [-1, 2]]
    fine = refined(np.array([[0.0, 1.0], [2.0, 3.0]]), factor=2)
    assert fine.tolist() == [[0.0, 0.5, 1.0], [1.0, 1.5, 2.0], [2.0, 2.5, 3.0]]


def test_a_line_chart_says_what_it_was_given():
    svg = line_chart(
        kind="phase", title="Phase", description="Best at 0 degrees, truly.", x=[0.0, 1.0, 2.0],
        curves=[("one", [1.0, 2.0, 3.0]), ("two", [3.0, 2.0, 1.0])], x_label="x", y_label="y",
        x_name="turn",
    )  # fmt: skip
    root = parsed(svg)
    series = {n.get("data-series"): n for n in every(root, "g") if n.get("data-series")}
    assert data_list(series["one"], "data-turn") == [0.0, 1.0, 2.0]
    assert data_list(series["two"], "data-value") == [3.0, 2.0, 1.0]


def test_gain_and_cost_stand_over_the_same_heights():
    root = parsed(height_cost_chart(scan=SCAN, wanted_deg=(10.0, 20.0), **COSTS))
    panels = [n for n in every(root, "g") if n.get("data-panel") is not None]
    assert len(panels) == 2
    for key in ("data-x-low", "data-x-high", "data-x-start", "data-x-end"):
        assert panels[0].attrib[key] == panels[1].attrib[key]
    series = {n.get("data-series"): n for n in every(root, "g") if n.get("data-series")}
    assert data_list(series["estimate, EUR"], "data-value") == pytest.approx(COSTS["likely"])


def test_lobes_at_some_heights_hold_the_scan():
    root = parsed(lobe_steps(scan=SCAN))
    heights = data_list(root, "data-step-heights")
    gains = np.array(json.loads(root.attrib["data-gains"]))
    for height, row in zip(heights, gains, strict=True):
        number = int(np.argmin(np.abs(SCAN.heights - height)))
        assert SCAN.heights[number] == pytest.approx(height, abs=1e-3)
        assert row == pytest.approx(SCAN.gain_dbi[number], abs=0.051)
    assert len(json.loads(root.attrib["data-corners"])) == len(heights)


def test_hops_stand_as_bars_below_the_gains():
    root = parsed(_hops())
    bars = [n for n in every(root, "rect") if n.get("data-hop")]
    assert [(b.get("data-hop"), b.get("data-low"), b.get("data-high")) for b in bars] == [
        ("far, F2, 2 hops", "4", "11"),
        ("far, F2, 3 hops", "12", "22"),
    ]
    panel = next(n for n in every(root, "g") if n.get("data-panel") is not None)
    low, high, start, end = (
        float(panel.attrib[f"data-x-{key}"]) for key in ("low", "high", "start", "end")
    )
    left = start + (4.0 - low) / (high - low) * (end - start)
    assert float(bars[0].attrib["x"]) == pytest.approx(left, abs=0.01)
