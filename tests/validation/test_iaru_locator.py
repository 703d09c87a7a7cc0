"""Locator squares against the definition in the IARU Region 1 VHF Managers Handbook (from memory).

Worked by hand from the definition: 20 by 10 degree fields from 180 W, 90 S; then tenths;
then 24ths (5 by 2.5 minutes); then tenths. Landmarks: positions of common knowledge.
"""

from __future__ import annotations

import math

import pytest

from boomwright.plan.directions import locator_centre, locator_square


@pytest.mark.parametrize(
    ("locator", "latitude", "longitude"),
    [
        ("AA", -85.0, -170.0),
        ("RR", 85.0, 170.0),
        ("JJ00", 0.5, 1.0),
        ("JJ00aa", 1.25 / 60, 2.5 / 60),
        ("JO02be", 52 + 11.25 / 60, 7.5 / 60),
        ("jo02BE", 52 + 11.25 / 60, 7.5 / 60),
        ("JJ00aa00", 0.125 / 60, 0.25 / 60),
    ],
)
def test_centre_by_hand(locator: str, latitude: float, longitude: float) -> None:
    centre = [math.degrees(angle) for angle in locator_centre(locator)]
    assert centre == pytest.approx([latitude, longitude], abs=1e-10)


@pytest.mark.parametrize(
    ("locator", "latitude", "longitude"),
    [
        ("IO91xl", 51.4779, -0.0015),  # old observatory, Greenwich
        ("JN58td", 48.137, 11.60),  # centre of Munich
        ("FN20xr", 40.7128, -74.0060),  # lower Manhattan
        ("QF56od", -33.8568, 151.2153),  # opera house, Sydney
        ("PM95vq", 35.6852, 139.7528),  # palace, Tokyo
    ],
)
def test_landmark_lies_in_its_square(locator: str, latitude: float, longitude: float) -> None:
    south, west, north, east = (math.degrees(edge) for edge in locator_square(locator))
    assert south <= latitude < north
    assert west <= longitude < east
