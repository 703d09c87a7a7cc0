"""The map: true distances and directions from the centre, and where lines are cut."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import boomwright
from boomwright.reach.geodesy import EARTH_RADIUS, Place
from boomwright.reach.world_map import project, project_polylines
from sphere import sphere_bearing, sphere_distance

CENTRE = Place.from_degrees(latitude_deg=52.2, longitude_deg=0.1)
LATITUDES = st.floats(-1.5, 1.5)
LONGITUDES = st.floats(-3.1, 3.1)


@given(latitude=LATITUDES, longitude=LONGITUDES)
def test_distance_and_direction_from_the_centre_are_true(latitude, longitude):
    place = Place(latitude=latitude, longitude=longitude)
    x, y = project(longitude=longitude, latitude=latitude, centre=CENTRE)
    distance = sphere_distance(station=CENTRE, target=place)
    # The haversine loses digits near the antipode.
    assert math.hypot(x, y) == pytest.approx(distance, rel=1e-6, abs=1.0)
    if 1e3 < distance < 19_900e3:
        bearing = sphere_bearing(station=CENTRE, target=place)
        assert math.cos(math.atan2(x, y) - bearing) == pytest.approx(1.0, abs=1e-9)


def test_snyder_numerical_example():
    # {snyder-1395}: sphere of radius 3, centre 40 N 100 W, point 20 S 100 E: x = -5.8311398,
    # y = 5.5444634 (the numerical example of the azimuthal equidistant chapter, from memory).
    centre = Place.from_degrees(latitude_deg=40.0, longitude_deg=-100.0)
    x, y = project(longitude=math.radians(100.0), latitude=math.radians(-20.0), centre=centre)
    scale = 3.0 / EARTH_RADIUS
    assert x * scale == pytest.approx(-5.8311398, abs=1e-7)
    assert y * scale == pytest.approx(5.5444634, abs=1e-7)


def test_line_through_the_far_side_is_cut():
    east = np.radians(np.column_stack((np.arange(120.0, 240.0, 1.0), np.full(120, -52.2))))
    pieces = project_polylines([east], centre=CENTRE)
    steps = [np.hypot(*np.diff(piece, axis=0).T).max() for piece in pieces]
    assert max(steps) < 0.5 * math.pi * EARTH_RADIUS
    assert sum(len(piece) for piece in pieces) >= 118


def test_points_beyond_the_radius_are_left_out():
    line = np.radians([[0.0, 50.0], [0.0, 45.0], [0.0, 0.0], [0.0, -5.0]])
    (piece,) = project_polylines([line], centre=CENTRE, radius=2000e3)
    assert len(piece) == 2


def test_coastline_file_puts_land_and_sea_where_they_are():
    # Known capes and islands lie within 15 km of the drawn coast, common geography.
    data = np.load(Path(boomwright.__file__).parent / "reach" / "data" / "coastline.npz")
    degrees = data["points"] / 100.0
    assert "public domain" in str(data["provenance"])
    assert data["starts"][-1] == len(degrees)
    capes = {
        "Finisterre": (-9.27, 42.88),
        "Agulhas": (20.0, -34.83),
        "Kap Farvel": (-43.9, 59.77),
        "Nordkapp": (25.78, 71.17),
        "Land's End": (-5.71, 50.07),
        "Byron": (153.64, -28.64),
    }
    for lon, lat in capes.values():
        x, y = project(
            longitude=np.radians(degrees[:, 0]),
            latitude=np.radians(degrees[:, 1]),
            centre=Place.from_degrees(latitude_deg=lat, longitude_deg=lon),
        )
        assert np.hypot(x, y).min() < 15e3
