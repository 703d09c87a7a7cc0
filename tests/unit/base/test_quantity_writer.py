"""A figure is written in one place: digits by kind, both unit systems, bands never to nothing."""

from __future__ import annotations

import math

import pytest

from boomwright.base.quantity import (
    KINDS,
    PerReader,
    Quantity,
    listed,
    phrase,
    sheet_in,
    unit_of,
    write,
)


@pytest.mark.parametrize(
    ("value", "kind", "metric", "us"),
    [
        # 10.9846 m is 36 ft and 0.464 in, nearest 7/16 in {nist-sp-811}
        (10.9846, "sawn length", "10985 mm", "36 ft 7/16 in"),
        # what is taped and not sawn: whole inches from a foot on
        (10.9846, "span", "10.98 m", "36 ft 0 in"),
        (0.22, "span", "0.22 m", "8-11/16 in"),
        (0.0254, "tube size", "25.4 mm", "1 in"),
        (40.0, "speed", "40.0 m/s", "89 mph"),
        (1000.0, "force", "1000 N", "225 lbf"),
        (126.6e6, "stress", "127 MPa", "18.4 ksi"),
        (0.9449, "use", "94 %", "94 %"),
        (14.175e6, "frequency", "14.175 MHz", "14.175 MHz"),
        (60e-12, "capacitance", "60 pF", "60 pF"),
        (35.0 - 2.6j, "impedance", "35.0 − j2.6 ohm", "35.0 − j2.6 ohm"),
    ],
)
def test_both_systems(value: complex, kind: str, metric: str, us: str) -> None:
    assert write(Quantity(value, kind), system="metric") == metric
    assert write(Quantity(value, kind), system="us") == us


@pytest.mark.parametrize(
    ("value", "text"),
    [(1.0712, "1.07"), (25.0, "above 20"), (math.inf, "none"), (math.nan, "none")],
)
def test_a_standing_wave_ratio_says_no_more_than_it_knows(value: float, text: str) -> None:
    assert write(Quantity(value, "swr"), system="metric") == text


@pytest.mark.parametrize(("value", "text"), [(0.04, "0.0"), (-0.04, "0.0"), (0.06, "+0.1")])
def test_what_rounds_to_nothing_has_no_sign(value: float, text: str) -> None:
    assert write(Quantity(value, "turn"), system="metric") == f"{text}°"


def test_a_band_is_rounded_up_and_never_to_nothing() -> None:
    written = [
        write(Quantity(7.523, "gain", band), system="metric") for band in (0.031, 0.03, 1e-6)
    ]
    assert written == ["7.52 ±0.04 dBi", "7.52 ±0.03 dBi", "7.52 ±0.01 dBi"]


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_band_that_is_not_known_is_said(system: str) -> None:
    figures = (Quantity(7.523, "gain", math.inf), Quantity(0.0254, "tube size", math.inf))
    for figure in figures:
        plain = write(Quantity(figure.value, figure.kind), system=system)
        assert write(figure, system=system) == f"{plain}, band unknown"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_head_and_bare_cell_say_what_the_whole_says(kind: str, system: str) -> None:
    figure = Quantity(0.5, kind)
    whole = write(figure, system=system)
    cell, unit = write(figure, system=system, unit=False), unit_of(kind, system=system)
    assert whole == f"{cell}{unit}" if unit == "°" else f"{cell} {unit}".rstrip()


def test_words_keep_their_figures_until_they_are_read() -> None:
    said = phrase("{a} of {line}", a=Quantity(3.048, "sawn length"), line="RG-213")
    assert write(said, system="metric") == "3048 mm of RG-213"
    assert write(said, system="us") == "10 ft 0 in of RG-213"
    assert write(listed([said, Quantity(0.5, "share")]), system="metric").endswith("RG-213, 50 %")


def test_a_kind_nobody_knows_is_refused_where_it_is_made() -> None:
    with pytest.raises(KeyError, match="weight"):
        Quantity(1.0, "weight")


def test_a_step_names_its_sheet_to_who_has_a_page() -> None:
    how = PerReader(file="with a command", forms="on its sheet", sheet="tuning")
    step = phrase("read the sweep {how}", how=how)
    assert sheet_in(step) == "tuning"
    assert sheet_in(phrase("order {what}", what="tube")) == ""
    assert write(step, system="metric", forms=True) == "read the sweep on its sheet"
