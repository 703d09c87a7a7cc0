"""A nearly antipodal line of Karney's test set for geodesics."""

from __future__ import annotations

import math

import pytest
from check_values import reach_check as check

from boomwright.reach.geodesy import Place, great_circle

VALUES = check("geo-karney-near-antipodal")


def test_distance_of_the_nearly_antipodal_line():
    given = VALUES["inputs"]
    path = great_circle(
        station=Place.from_degrees(latitude_deg=given["lat1"], longitude_deg=given["lon1"]),
        target=Place.from_degrees(latitude_deg=given["lat2"], longitude_deg=given["lon2"]),
    )
    # The azimuths of this line are ill-conditioned; only the distance is a check.
    assert path.distance == pytest.approx(VALUES["expected"]["s12_m"], abs=1e-6)


def test_meridian_and_equator_close_on_themselves():
    # The long way over the poles and along the equator are exact geodesics: lengths of the
    # meridian ellipse (40 007 862.917 m) and of the equator of WGS84.
    north = Place.from_degrees(latitude_deg=40.0, longitude_deg=5.0)
    south = Place.from_degrees(latitude_deg=-20.0, longitude_deg=5.0)
    total = sum(
        great_circle(station=north, target=south, way=way).distance for way in ("short", "long")
    )
    assert total == pytest.approx(40_007_862.917, abs=0.01)
    west = Place.from_degrees(latitude_deg=0.0, longitude_deg=-30.0)
    east = Place.from_degrees(latitude_deg=0.0, longitude_deg=40.0)
    total = sum(
        great_circle(station=west, target=east, way=way).distance for way in ("short", "long")
    )
    assert total == pytest.approx(2.0 * math.pi * 6_378_137.0, abs=0.01)
