"""Geodesic worked example of the GDA technical manual, Flinders Peak to Buninyong."""

from __future__ import annotations

import math

import pytest
from check_values import reach_check as check

from boomwright.reach.geodesy import Place, great_circle

VALUES = check("geo-vincenty")


def _degrees(text: str) -> float:
    sign = -1.0 if text.startswith("-") else 1.0
    degrees, minutes, seconds = (abs(float(part)) for part in text.split())
    return sign * (degrees + minutes / 60.0 + seconds / 3600.0)


def _ends() -> tuple[Place, Place]:
    given = {key: _degrees(VALUES["inputs"][key]) for key in ("lat1", "lon1", "lat2", "lon2")}
    return (
        Place.from_degrees(latitude_deg=given["lat1"], longitude_deg=given["lon1"]),
        Place.from_degrees(latitude_deg=given["lat2"], longitude_deg=given["lon2"]),
    )


def test_distance_and_both_bearings():
    station, target = _ends()
    path = great_circle(station=station, target=target)
    printed = VALUES["expected"]
    # 1 mm and 0.01 arc second: the last printed digits.
    assert path.distance == pytest.approx(printed["distance_m"], abs=1e-3)
    arc_second = 1.0 / 3600.0
    assert path.bearing_deg == pytest.approx(_degrees(printed["azimuth12"]), abs=0.01 * arc_second)
    assert math.degrees(path.arrival_bearing + math.pi) % 360.0 == pytest.approx(
        _degrees(printed["azimuth21"]), abs=0.01 * arc_second
    )
