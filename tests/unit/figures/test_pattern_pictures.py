"""Polar pictures hold the pattern they are given, and the figures read off it are right."""

from __future__ import annotations

import dataclasses
import math
import re

import numpy as np
import pytest
from svg_reading import cut_off, data_list, every, overlaps, parsed

from boomwright.charts import azimuth_pattern, elevation_pattern, pattern_summary
from boomwright.solver import PatternCut
from fakes.readings import fake_readings

READINGS = fake_readings()
OVER = READINGS.over_ground


def cosine_cut(power: int = 1, *, closed: bool = True) -> PatternCut:
    """Make a cut whose amplitude is cos^power of the angle ahead and a tenth of it behind."""
    angle = np.arange(0.0, 361.0 if closed else 360.0, 1.0)
    field = np.abs(np.cos(np.radians(angle))) ** power
    field = np.where(np.abs(angle - 180.0) < 90.0, 0.1 * field, field)
    gain = 20.0 * np.log10(np.maximum(field, 1e-3))
    return PatternCut(plane="azimuth", at_deg=0.0, angle_deg=angle, gain_dbi=gain)


@pytest.mark.parametrize(("power", "closed"), [(1, True), (1, False), (2, True), (5, False)])
def test_half_power_width_of_a_cosine(power: int, *, closed: bool) -> None:
    """cos^n falls to half power at arccos(2^(-1/2n)): closed form."""
    summary = pattern_summary(cosine_cut(power, closed=closed))
    expected = 2.0 * math.degrees(math.acos(2.0 ** (-0.5 / power)))
    assert summary.half_power_width_deg == pytest.approx(expected, abs=0.02)
    assert summary.peak_angle_deg == 0.0
    assert summary.front_to_back_db == pytest.approx(20.0, abs=1e-9)


def test_width_of_a_half_wave_dipole() -> None:
    """A half-wave dipole is 78 degrees wide: common knowledge of the trade, any handbook."""
    angle = np.arange(0.0, 361.0)
    across = np.cos(np.radians(angle))
    along = np.sin(np.radians(angle))
    field = np.cos(0.5 * np.pi * along) / np.maximum(np.abs(across), 1e-9)
    gain = 2.15 + 20.0 * np.log10(np.maximum(np.abs(field), 1e-3))
    cut = PatternCut(plane="azimuth", at_deg=0.0, angle_deg=angle, gain_dbi=gain)
    assert pattern_summary(cut).half_power_width_deg == pytest.approx(78.0, abs=0.5)


def test_an_even_cut_has_no_width() -> None:
    angle = np.arange(0.0, 361.0)
    cut = PatternCut(plane="azimuth", at_deg=0.0, angle_deg=angle, gain_dbi=np.zeros(361))
    assert pattern_summary(cut).half_power_width_deg is None
    assert "no −3 dB width" in azimuth_pattern(cuts=[cut])


def test_front_to_back_agrees_with_the_sweep() -> None:
    free = READINGS.free_space.front_to_back_db
    for cut in (READINGS.azimuth_pattern, READINGS.elevation_pattern):
        assert pattern_summary(cut).front_to_back_db == pytest.approx(free, abs=1e-9)


@pytest.mark.parametrize("cut", [READINGS.azimuth_pattern, OVER.azimuth_pattern])
def test_the_data_are_the_input(cut: PatternCut) -> None:
    root = parsed(azimuth_pattern(cuts=[cut], labels=["one"]))
    path = next(e for e in every(root, "path") if "data-gain" in e.attrib)
    np.testing.assert_allclose(data_list(path, "data-gain"), cut.gain_dbi, rtol=0, atol=5.1e-5)
    np.testing.assert_allclose(data_list(path, "data-angle"), cut.angle_deg, rtol=0, atol=5.1e-5)
    assert path.attrib["data-series"] == "one"


@pytest.mark.parametrize("draw_and_cut", [
    (azimuth_pattern, READINGS.azimuth_pattern), (elevation_pattern, OVER.elevation_pattern),
    (elevation_pattern, READINGS.elevation_pattern),
], ids=["azimuth", "over ground", "free space"])  # fmt: skip
def test_a_ruler_on_the_paper_gives_the_gain(draw_and_cut: tuple) -> None:
    draw, cut = draw_and_cut
    root = parsed(draw(cuts=[cut]))
    path = next(e for e in every(root, "path") if "data-gain" in e.attrib)
    points = np.array(re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.attrib["d"]), dtype=float)
    centre = [float(root.attrib[f"data-centre-{a}"]) for a in "xy"]
    radius, span, top = (float(root.attrib[f"data-{n}"]) for n in ("radius", "range-db", "top-dbi"))
    away = np.hypot(points[:, 0] - centre[0], points[:, 1] - centre[1])
    gain = top - span * (1.0 - away / radius)
    shown = cut.gain_dbi > top - span + 1.0
    assert top == pytest.approx(cut.gain_dbi.max(), abs=1e-6)
    np.testing.assert_allclose(gain[shown], cut.gain_dbi[shown], rtol=0, atol=0.005)
    angle = np.degrees(np.arctan2(centre[1] - points[:, 1], points[:, 0] - centre[0])) % 360.0
    off = (angle[shown] - cut.angle_deg[shown] + 180.0) % 360.0 - 180.0
    assert np.abs(off).max() < 0.2


def test_half_a_circle_over_ground_only() -> None:
    assert "ground" in elevation_pattern(cuts=[OVER.elevation_pattern])
    assert ">ground<" not in elevation_pattern(cuts=[READINGS.elevation_pattern])


def test_several_cuts_share_the_strongest_as_outer_ring() -> None:
    cuts = [READINGS.azimuth_pattern, OVER.azimuth_pattern]
    root = parsed(azimuth_pattern(cuts=cuts, labels=["free space", "over ground"]))
    assert float(root.attrib["data-top-dbi"]) == pytest.approx(OVER.peak_gain_dbi, abs=1e-5)
    dashes = {e.get("stroke-dasharray") for e in every(root, "path") if "data-gain" in e.attrib}
    assert len(dashes) == 2


def test_what_cannot_be_drawn_is_refused() -> None:
    cut = READINGS.azimuth_pattern
    with pytest.raises(ValueError, match="at least one cut"):
        azimuth_pattern(cuts=[])
    with pytest.raises(ValueError, match="2 labels for 1"):
        azimuth_pattern(cuts=[cut], labels=["a", "b"])
    with pytest.raises(ValueError, match="elevation"):
        elevation_pattern(cuts=[cut])
    with pytest.raises(ValueError, match="as many gains as angles"):
        pattern_summary(dataclasses.replace(cut, gain_dbi=cut.gain_dbi[:-1]))


@pytest.mark.parametrize("width", [360.0, 600.0])
def test_without_notes_the_circle_takes_the_room(width: float) -> None:
    svg = azimuth_pattern(cuts=[READINGS.azimuth_pattern], width=width, notes=False)
    root = parsed(svg)
    assert float(root.attrib["data-radius"]) == pytest.approx((width - 126.0) / 2.0, abs=1e-3)
    assert "front-to-back" not in [e.text for e in every(root, "text")]
    assert overlaps(svg) == []
    assert cut_off(svg) == []
