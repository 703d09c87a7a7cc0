"""Our spline against that of SciPy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from boomwright.feed.spline import spline_through


@pytest.mark.parametrize("count", [2, 3, 4, 5, 25, 201])
def test_it_is_the_spline_of_scipy(count):
    generator = np.random.default_rng(count)
    places = np.sort(generator.uniform(13.9, 14.4, count))
    values = generator.normal(size=count) + 1j * generator.normal(size=count)
    ours, theirs = spline_through(places=places, values=values), CubicSpline(places, values)
    inside = np.concatenate([places, generator.uniform(places[0], places[-1], 50)])
    size = np.abs(theirs(inside)).max()
    np.testing.assert_allclose(ours.at(inside), theirs(inside), rtol=0.0, atol=1e-9 * size)
    steep = np.abs(theirs(inside, 1)).max()
    np.testing.assert_allclose(ours.slope(inside), theirs(inside, 1), rtol=0.0, atol=1e-8 * steep)
