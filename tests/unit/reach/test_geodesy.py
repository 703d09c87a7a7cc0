"""Paths: the long way, points along a path, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach.geodesy import Place, great_circle, path_points

HERE = Place.from_degrees(latitude_deg=52.2, longitude_deg=0.1)
THERE = Place.from_degrees(latitude_deg=-35.0, longitude_deg=149.0)


def test_path_points_start_and_end_right():
    path = great_circle(station=HERE, target=THERE)
    points = path_points(station=HERE, bearing=path.bearing, distance=path.distance, count=50)
    assert points.shape == (50, 2)
    np.testing.assert_allclose(points[0], [HERE.longitude, HERE.latitude], rtol=0, atol=1e-12)
    np.testing.assert_allclose(points[-1], [THERE.longitude, THERE.latitude], rtol=0, atol=1e-12)


def test_place_beyond_the_pole_is_refused():
    with pytest.raises(BoomwrightError, match="latitude from -90 to 90"):
        Place.from_degrees(latitude_deg=91.0, longitude_deg=0.0)
