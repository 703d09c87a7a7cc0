"""The wedge with real ground: what any diffraction coefficient must do at its limits."""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.reach.terrain import terrain_reflection
from boomwright.reach.wedge import face_weights, wedge_coefficient
from boomwright.solver import GROUND_CLASSES

K = 0.3
REAL = {
    polarisation: terrain_reflection(
        ground=GROUND_CLASSES["medium dry"], frequency=14e6, polarisation=polarisation
    )
    for polarisation in ("horizontal", "vertical")
}
POLARISATIONS = pytest.mark.parametrize("polarisation", sorted(REAL))


def _coefficient(*, n: float, incidence, departure, polarisation: str) -> np.ndarray:
    weights = face_weights(
        n=n, incidence=incidence, departure=departure, reflection=REAL[polarisation]
    )
    return wedge_coefficient(
        wavenumber=K,
        distance=200.0,
        n=n,
        incidence=incidence,
        departure=departure,
        weights=weights,
    )


@POLARISATIONS
@pytest.mark.parametrize("n", [0.9, 1.05, 1.5])
def test_field_vanishes_along_both_faces(n, polarisation):
    # In a valley not below the other face's line drawn on, where the heuristic is rougher.
    source = np.linspace(0.15, 0.85, 5) * n * np.pi
    usual = np.abs(
        _coefficient(n=n, incidence=source, departure=0.4 * n * np.pi, polarisation=polarisation)
    )
    for face in (0.0, n * np.pi):
        along = _coefficient(n=n, incidence=source, departure=face, polarisation=polarisation)
        assert np.abs(along).max() < 1e-6 * usual.max()


@POLARISATIONS
@pytest.mark.parametrize("n", [0.9, 1.05, 1.5])
def test_source_and_observer_can_be_exchanged(n, polarisation):
    one, other = np.meshgrid(np.linspace(0.05, 0.95, 9), np.linspace(0.06, 0.94, 9))
    one, other = one * n * np.pi, other * n * np.pi
    there = _coefficient(n=n, incidence=one, departure=other, polarisation=polarisation)
    back = _coefficient(n=n, incidence=other, departure=one, polarisation=polarisation)
    np.testing.assert_allclose(there, back, rtol=1e-9, atol=1e-12)


@POLARISATIONS
@pytest.mark.parametrize("n", [0.9, 1.05, 1.5])
def test_wedge_may_be_looked_at_from_behind(n, polarisation):
    source, observer = 0.2 * n * np.pi, np.linspace(0.05, 0.93, 11) * n * np.pi
    seen = _coefficient(n=n, incidence=source, departure=observer, polarisation=polarisation)
    mirrored = _coefficient(
        n=n,
        incidence=n * np.pi - source,
        departure=n * np.pi - observer,
        polarisation=polarisation,
    )
    np.testing.assert_allclose(seen, mirrored, rtol=1e-9, atol=1e-12)


@POLARISATIONS
def test_wedge_opened_flat_does_not_diffract(polarisation):
    one, other = np.meshgrid(np.linspace(0.05, 0.93, 9), np.linspace(0.0637, 0.9519, 9))
    flat = _coefficient(
        n=1.0, incidence=one * np.pi, departure=other * np.pi, polarisation=polarisation
    )
    # Next to a boundary the terms are large and cancel to rounding.
    assert np.abs(flat).max() < 1e-9


@pytest.mark.parametrize("by", ["incidence", "departure"])
@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize("n", [0.9, 1.2, 1.8])
def test_slope_is_the_derivative_away_from_the_boundaries(n, sign, by):
    angles = {"incidence": 0.31 * n * np.pi, "departure": np.array([0.4, 0.55, 0.95]) * n * np.pi}
    weights = face_weights(n=n, **angles, reflection=lambda angle: np.full(angle.shape, sign))
    given = {"wavenumber": 2.0 * np.pi, "distance": 3000.0, "n": n, "weights": weights}
    step = 1e-5
    up = wedge_coefficient(**given, **{**angles, by: angles[by] + step})
    down = wedge_coefficient(**given, **{**angles, by: angles[by] - step})
    slope = wedge_coefficient(**given, **angles, slope_by=by)
    # The published form leaves out terms of the order 1 / k L.
    np.testing.assert_allclose(slope, (up - down) / (2.0 * step), rtol=0.02)


def test_slope_does_not_jump_at_the_boundary():
    source = 0.3 * np.pi
    off = np.array([-1e-5, -1e-7, 0.0, 1e-7, 1e-5])
    angles = {"incidence": source, "departure": np.pi + source + off}
    weights = face_weights(n=1.7, **angles, reflection=lambda angle: np.full(angle.shape, -1.0))
    slope = wedge_coefficient(
        wavenumber=K, distance=200.0, n=1.7, **angles, weights=weights, slope_by="incidence"
    )
    np.testing.assert_allclose(slope, slope[2], rtol=1e-3)
