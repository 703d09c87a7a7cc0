"""Charts over frequency, elevation and element length hold the readings they are given."""

from __future__ import annotations

import cmath
import dataclasses
import math
import re
from xml.etree import ElementTree

import numpy as np
import pytest
from svg_reading import SVG, data_list, every, parsed

from boomwright.charts import (
    current_chart,
    current_phasors,
    gain_chart,
    impedance_chart,
    lobe_chart,
    sweep_chart,
)
from boomwright.charts.sentences import summary_sentence
from boomwright.render.rows import text_table
from boomwright.report.beam.readings import (
    current_table,
    cut_table,
    lobe_table,
    size_table,
    sweep_table,
)
from boomwright.report.model import Table
from fakes.readings import fake_beam, fake_readings

READINGS = fake_readings()
CLOSE = {"rtol": 0, "atol": 5.1e-5}


def series(svg: str) -> dict[str, ElementTree.Element]:
    return {
        g.attrib["data-series"]: g for g in every(parsed(svg), "g") if "data-series" in g.attrib
    }


def column(name: str) -> list[float]:
    return [getattr(point, name) for point in READINGS.sweep]


def test_sweep_data_are_the_readings() -> None:
    group = series(sweep_chart(readings=READINGS))["20m"]
    np.testing.assert_allclose(data_list(group, "data-value"), column("swr"), **CLOSE)
    np.testing.assert_allclose(data_list(group, "data-frequency"), column("frequency"), **CLOSE)


def test_impedance_and_gain_data_are_the_readings() -> None:
    parts = series(impedance_chart(readings=READINGS))
    impedance = np.array(column("impedance"))
    np.testing.assert_allclose(
        data_list(parts["resistance"], "data-value"), impedance.real, **CLOSE
    )
    np.testing.assert_allclose(data_list(parts["reactance"], "data-value"), impedance.imag, **CLOSE)
    parts = series(gain_chart(readings=READINGS))
    for label, name in (
        ("gain", "gain_dbi"),
        ("front-to-back", "front_to_back_db"),
        ("front-to-rear", "front_to_rear_db"),
    ):
        np.testing.assert_allclose(data_list(parts[label], "data-value"), column(name), **CLOSE)


def test_curve_and_strip_stand_where_the_scale_says() -> None:
    root = parsed(sweep_chart(readings=READINGS))
    frame = next(g for g in every(root, "g") if "data-panel" in g.attrib).attrib
    low, high, start, end = (float(frame[f"data-y-{n}"]) for n in ("low", "high", "start", "end"))
    band = next(p for p in every(root, "path") if p.get("data-part") == "error-band")
    ys = [float(y) for y in re.findall(r",(-?[\d.]+)", band.attrib["d"])]
    values = low + (np.array(ys) - start) / (end - start) * (high - low)
    swr, error = np.array(column("swr")), np.array(column("swr_error"))
    count = len(swr)
    np.testing.assert_allclose(values[:count], swr + error, rtol=0, atol=1e-3)
    np.testing.assert_allclose(
        values[count:][::-1], np.maximum(swr - error, 1.0), rtol=0, atol=1e-3
    )


def test_band_edges_and_design_frequency_are_marked() -> None:
    svg = sweep_chart(readings=READINGS)
    parts = [e.attrib.get("data-part") for e in parsed(svg).iter()]
    assert parts.count("band-edge") == 2
    assert parts.count("design-frequency") == 1
    assert "design 14.175 MHz" in svg
    assert "SWR against 50 ohm" in svg


def test_a_very_high_ratio_stays_on_the_paper() -> None:
    wild = tuple(dataclasses.replace(p, swr=p.swr * 40.0) for p in READINGS.sweep)
    svg = sweep_chart(readings=dataclasses.replace(READINGS, sweep=wild))
    path = series(svg)["20m"].find(SVG + "path").attrib["d"]
    ys = [float(y) for y in re.findall(r",(-?[\d.]+)", path)]
    frame = next(g for g in every(parsed(svg), "g") if "data-panel" in g.attrib).attrib
    assert min(ys) == pytest.approx(float(frame["data-y-end"]), abs=0.01)
    assert float(frame["data-y-high"]) == 10.0


@pytest.mark.parametrize("draw", [sweep_chart, impedance_chart, gain_chart])
def test_one_frequency_alone_can_be_drawn(draw: object) -> None:
    alone = dataclasses.replace(
        READINGS,
        sweep=READINGS.sweep[:1],
        beam=dataclasses.replace(fake_beam(), band=(14.0e6, 14.0e6)),
    )
    parsed(draw(readings=alone))


def test_no_readings_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one frequency"):
        sweep_chart(readings=dataclasses.replace(READINGS, sweep=()))
    with pytest.raises(ValueError, match="at least one element"):
        current_chart(currents=[])


def test_current_data_are_the_readings() -> None:
    parts = series(current_chart(currents=READINGS.currents))
    for item in READINGS.currents:
        magnitude, phase = parts[f"{item.label}: magnitude"], parts[f"{item.label}: phase"]
        np.testing.assert_allclose(
            data_list(magnitude, "data-value"), np.abs(item.current), **CLOSE
        )
        np.testing.assert_allclose(
            data_list(phase, "data-value"), np.degrees(np.angle(item.current)), **CLOSE
        )
        np.testing.assert_allclose(data_list(magnitude, "data-along"), item.along, **CLOSE)


def test_phase_is_not_drawn_across_its_jump() -> None:
    current = READINGS.currents[0]
    phase = np.linspace(170.0, 190.0, len(current.along))
    turned = dataclasses.replace(current, current=np.exp(1j * np.radians(phase)))
    group = series(current_chart(currents=[turned]))[f"{current.label}: phase"]
    runs = group.findall(SVG + "path")
    assert len(runs) == 2
    for run in runs:
        ys = [float(y) for y in re.findall(r",(-?[\d.]+)", run.attrib["d"])]
        assert max(ys) - min(ys) < 10.0


def test_phasors_point_where_the_currents_do() -> None:
    root = parsed(current_phasors(currents=READINGS.currents))
    x0, y0, scale = (float(root.attrib[f"data-{n}"]) for n in ("centre-x", "centre-y", "scale"))
    groups = {g.attrib["data-label"]: g for g in every(root, "g") if "data-label" in g.attrib}
    for item in READINGS.currents:
        centre = item.current[len(item.current) // 2]
        arrow = groups[item.label].find(SVG + "line").attrib
        tip = complex((float(arrow["x2"]) - x0) / scale, (y0 - float(arrow["y2"])) / scale)
        assert abs(tip - centre) < 1e-4
        shown = groups[item.label].attrib
        assert float(shown["data-magnitude"]) == pytest.approx(abs(centre), abs=1e-6)
        assert float(shown["data-phase"]) == pytest.approx(
            math.degrees(cmath.phase(centre)), abs=1e-3
        )


def test_lobes_and_nulls_are_marked_with_their_values() -> None:
    over = READINGS.over_ground
    svg = lobe_chart(over_ground=over)
    marks = [g.attrib for g in every(parsed(svg), "g") if "data-part" in g.attrib]
    lobes = sorted(
        (float(m["data-elevation"]), float(m["data-gain"]))
        for m in marks
        if m["data-part"] == "lobe"
    )
    expected = sorted((lobe.elevation_deg, lobe.gain_dbi) for lobe in over.lobes)
    np.testing.assert_allclose(lobes, expected, rtol=0, atol=1e-6)
    nulls = [float(m["data-elevation"]) for m in marks if m["data-part"] == "null"]
    np.testing.assert_allclose(nulls, over.nulls_deg, rtol=0, atol=1e-6)
    assert "13.2 dBi at 18°" in svg
    assert ">41°<" in svg


@pytest.mark.parametrize(
    ("reading", "wanted"),
    [
        (READINGS.beam, "3 elements on a boom of 5900 mm: reflector 10800 mm long at 0 mm"),
        (READINGS.azimuth_pattern, "Azimuth cut: peak 8.3 dBi at 0 degrees, half-power width 62"),
        (READINGS.sweep, "From 14.000 to 14.350 MHz the SWR runs from 1.05 at 14.150 MHz"),
        (READINGS.currents, "reflector 0.62 A at 133 degrees, driven 1.00 A at 0 degrees and"),
        (READINGS.over_ground, "strongest lobe has 13.2 dBi at 18 degrees"),
    ],
    ids=["beam", "cut", "sweep", "currents", "lobes"],
)
def test_sentences_say_the_numbers(reading: object, wanted: str) -> None:
    sentence = summary_sentence(reading)
    assert wanted in sentence
    assert sentence.endswith(".")


@pytest.mark.parametrize(
    ("table", "count", "first"),
    [
        (size_table(READINGS.beam), 3, ("reflector", "0 mm", "5400 mm", "10800 mm")),
        (cut_table(READINGS.azimuth_pattern), 73, ("0.0", "8.25")),
        (current_table(READINGS.currents), 3, ("reflector", "0 mm", "0.620", "133.1")),
        (lobe_table(READINGS.over_ground), 3, ("18.0", "lobe", "13.19")),
    ],
    ids=["beam", "cut", "currents", "lobes"],
)
def test_tables_hold_the_numbers(table: Table, count: int, first: tuple[str, ...]) -> None:
    written = text_table(table, system="metric")
    assert len(written.rows) == count
    assert written.rows[0] == first
    assert all(len(row) == len(written.header) for row in written.rows)


def test_sweep_table_has_a_row_for_each_frequency() -> None:
    table = text_table(sweep_table(READINGS.sweep, reference=50.0), system="metric")
    assert [float(row[0]) for row in table.rows] == pytest.approx(
        [f / 1e6 for f in column("frequency")], abs=5e-4
    )
    assert [float(row[2].split()[0]) for row in table.rows] == pytest.approx(
        column("swr"), abs=5e-3
    )
