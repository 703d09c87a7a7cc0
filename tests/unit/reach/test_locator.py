"""Locators: lengths, edges and refusals."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st

from boomwright.base import BoomwrightError
from boomwright.reach.locator import cell_from_locator

LATITUDES = st.floats(-90.0, 90.0)
LONGITUDES = st.floats(-180.0, 179.999)


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
