"""Positions, locators and headings."""

from __future__ import annotations

import math

import pytest

from boomwright.plan import QuantityError
from boomwright.plan.directions import locator_centre, locator_square, parse_heading, parse_position


@pytest.mark.parametrize(
    ("text", "latitude", "longitude"),
    [
        ("52.20 N, 0.10 E", 52.2, 0.1),
        ("52.20N 0.10W", 52.2, -0.1),
        ("33.9 s; 151.2 e", -33.9, 151.2),
        ("52\u00b012'00\" N, 0\u00b006'00\" E", 52.2, 0.1),
        ("52 12 N, 0 6 E", 52.2, 0.1),
        ("90 S, 180 W", -90.0, -180.0),
    ],
)
def test_positions(text: str, latitude: float, longitude: float) -> None:
    read = parse_position(text)
    assert [math.degrees(angle) for angle in read] == pytest.approx(
        [latitude, longitude], abs=1e-12
    )


@pytest.mark.parametrize(
    "text",
    ["52.20, 0.10", "0.10 E, 52.20 N", "91 N, 0 E", "52 N, 181 E", "52 61 N, 0 E", "52.5 30 N, 0 E",
     "", "N, E", "52 N", "\u0665\u0662 N, 0 E", "5" * 500],
)  # fmt: skip
def test_positions_refused(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_position(text)
    assert "52.20 N, 0.10 E" in caught.value.remedy


def test_locator_squares_nest() -> None:
    outer = locator_square("JO02")
    inner = locator_square("JO02be")
    assert outer[0] <= inner[0] < inner[2] <= outer[2]
    assert outer[1] <= inner[1] < inner[3] <= outer[3]


@pytest.mark.parametrize("text", ["", "J", "JO0", "SO02", "JO02by", "JO02be0", "02JO", "\u017fO02"])
def test_locators_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="not a locator"):
        locator_centre(text)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("300 deg", 300),
        ("N", 0),
        ("wnw", 292.5),
        ("SE", 135),
        ("360 deg", 0),
        ("-60 deg", 300),
        ("-1e-30 deg", 0),
    ],
)
def test_headings(text: str, degrees: float) -> None:
    heading = parse_heading(text)
    assert 0 <= heading < math.tau
    assert math.degrees(heading) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize("text", ["north-ish", "NWN", "370 deg", "300", "5 m", ""])
def test_headings_refused(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_heading(text)
    assert caught.value.remedy
