"""Spherical great-circle worked example of E. Williams' Aviation Formulary."""

from __future__ import annotations

import math

import pytest
from check_values import reach_check as check

from boomwright.reach.geodesy import Place, great_circle
from sphere import sphere_bearing, sphere_distance

PRINTED = check("geo-lax-jfk")["expected"]
STATION = Place.from_degrees(latitude_deg=33 + 57 / 60, longitude_deg=-(118 + 24 / 60))
TARGET = Place.from_degrees(latitude_deg=40 + 38 / 60, longitude_deg=-(73 + 47 / 60))


def test_distance_on_the_sphere():
    distance = sphere_distance(station=STATION, target=TARGET, radius=1.0)
    assert distance == pytest.approx(PRINTED["distance_rad"], abs=1e-6)
    minutes = math.degrees(distance) * 60.0
    assert minutes == pytest.approx(PRINTED["distance_nm"], abs=0.5)


def test_course_on_the_sphere():
    course = sphere_bearing(station=STATION, target=TARGET)
    assert course == pytest.approx(PRINTED["course_rad"], abs=1e-5)
    assert math.degrees(course) == pytest.approx(PRINTED["course_deg"], abs=0.5)


def test_ellipsoid_stays_near_the_sphere():
    # A sphere may be 0.3 % and 0.2 degrees off the ellipsoid: the stated tolerance of the check.
    path = great_circle(station=STATION, target=TARGET)
    assert path.distance == pytest.approx(sphere_distance(station=STATION, target=TARGET), rel=3e-3)
    assert path.bearing_deg == pytest.approx(
        math.degrees(sphere_bearing(station=STATION, target=TARGET)), abs=0.2
    )
