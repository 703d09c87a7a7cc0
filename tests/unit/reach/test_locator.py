"""Locators: lengths, edges and refusals."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.base import BoomwrightError
from boomwright.reach.geodesy import Place
from boomwright.reach.locator import cell_from_locator, locator_from_place, place_from_locator

LATITUDES = st.floats(-90.0, 90.0)
LONGITUDES = st.floats(-180.0, 179.999)


@given(latitude=LATITUDES, longitude=LONGITUDES, characters=st.sampled_from([4, 6, 8, 10]))
def test_place_lies_in_the_cell_of_its_locator(latitude, longitude, characters):
    place = Place.from_degrees(latitude_deg=latitude, longitude_deg=longitude)
    locator = locator_from_place(place, characters=characters)
    cell = cell_from_locator(locator)
    assert len(locator) == characters
    assert abs(cell.centre.latitude - place.latitude) <= cell.half_height * (1 + 1e-3)
    assert abs(cell.centre.longitude - place.longitude) <= cell.half_width * (1 + 1e-3)


@given(latitude=LATITUDES, longitude=LONGITUDES)
def test_centre_has_the_same_locator(latitude, longitude):
    place = Place.from_degrees(latitude_deg=latitude, longitude_deg=longitude)
    locator = locator_from_place(place, characters=10)
    assert locator_from_place(place_from_locator(locator), characters=10) == locator


def test_longer_locators_begin_with_shorter_ones():
    place = Place.from_degrees(latitude_deg=52.2, longitude_deg=0.1)
    texts = [locator_from_place(place, characters=n) for n in (4, 6, 8, 10)]
    assert texts[0] == "JO02"
    assert all(longer.startswith(shorter) for shorter, longer in pairwise(texts))


def test_poles_and_date_line():
    assert locator_from_place(Place.from_degrees(latitude_deg=90, longitude_deg=180)) == "AR09ax"
    assert locator_from_place(Place.from_degrees(latitude_deg=-90, longitude_deg=-180)) == "AA00aa"


def test_small_and_large_letters_are_alike():
    assert cell_from_locator("jn58TD") == cell_from_locator("JN58td")


@pytest.mark.parametrize(
    ("locator", "words"),
    [
        ("JN5", "3 characters"),
        ("ZN58td", "'Z' in pair 1"),
        ("JNA8td", "'A' in pair 2"),
        ("JN58tz", "'z' in pair 3"),
        ("JN58td999", "9 characters"),
    ],
)
def test_bad_locators_are_named(locator, words):
    with pytest.raises(BoomwrightError, match=words):
        cell_from_locator(locator)


def test_odd_number_of_characters_is_refused():
    with pytest.raises(BoomwrightError, match="ask for 4, 6, 8 or 10"):
        locator_from_place(Place(latitude=0.0, longitude=0.0), characters=5)
