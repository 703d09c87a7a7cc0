"""The uniform theory over whole profiles, against a moment method written here.

Perfectly conducting hills on a perfectly conducting plain, horizontal polarisation: the
electric field integral equation for the current on the hill, pulses and point matching, the
plain by its image. Lengths in wavelengths. Transition function: table of the paper, from
memory.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.special import hankel2

from boomwright.base import SPEED_OF_LIGHT
from boomwright.reach.terrain import gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.reach.wedge import transition_function
from boomwright.solver import PERFECT_GROUND

K = 2.0 * np.pi
EULER = 1.781072417990198  # exp of Euler's constant


def _pulses(corners: np.ndarray, per_wavelength: int) -> tuple[np.ndarray, np.ndarray]:
    middles, lengths = [], []
    for start, end in pairwise(corners):
        length = float(np.hypot(*(end - start)))
        count = int(np.ceil(length * per_wavelength))
        edges = start + np.linspace(0.0, 1.0, count + 1)[:, None] * (end - start)
        middles.append((edges[1:] + edges[:-1]) / 2.0)
        lengths.append(np.full(count, length / count))
    return np.concatenate(middles), np.concatenate(lengths)


def _distance(points: np.ndarray, pulses: np.ndarray) -> np.ndarray:
    return np.hypot(*np.moveaxis(points[:, None, :] - pulses[None], -1, 0))


def _moment_method(
    corners: np.ndarray, *, antenna: np.ndarray, elevation: np.ndarray, per_wavelength: int
) -> np.ndarray:
    """Far field of the antenna by reciprocity: field of a plane wave at its place."""
    pulses, lengths = _pulses(corners, per_wavelength)
    image = pulses * [1.0, -1.0]
    direction = np.stack((np.cos(elevation), np.sin(elevation)))

    def incident(points: np.ndarray) -> np.ndarray:
        return np.exp(1j * K * points @ direction) - np.exp(
            1j * K * (points * [1.0, -1.0]) @ direction
        )

    own = np.eye(len(pulses), dtype=bool)
    distance = np.where(own, 1.0, _distance(pulses, pulses))
    # Self term: small-argument form of the Hankel function integrated over the pulse.
    self_term = 1.0 - 2j / np.pi * (np.log(EULER * K * lengths / 4.0) - 1.0)
    kernel = np.where(own, self_term[:, None], hankel2(0, K * distance))
    matrix = (kernel - hankel2(0, K * _distance(pulses, image))) * lengths
    current = np.linalg.solve(matrix, -incident(pulses))
    at = antenna[None]
    to_antenna = hankel2(0, K * _distance(at, pulses)) - hankel2(0, K * _distance(at, image))
    return (incident(at) + (to_antenna * lengths) @ current)[0]


def test_transition_function():
    # Values of the paper's figure as tabulated in textbooks (from memory).
    table = {
        0.3: 0.5717 + 0.2730j,
        0.5: 0.6768 + 0.2682j,
        1.0: 0.8095 + 0.2322j,
        5.5: 0.9797 + 0.0828j,
    }
    found = transition_function(list(table))
    np.testing.assert_allclose(found, list(table.values()), rtol=0.0, atol=1.5e-3)
    # Leading terms at either end of the argument.
    assert transition_function(1e4) == pytest.approx(1.0 + 0.5j / 1e4, abs=1e-6)
    small = 1e-8
    leading = np.sqrt(np.pi * small) * np.exp(1j * (np.pi / 4 + small))
    assert transition_function(small) == pytest.approx(leading, rel=2e-4)


# Field errors relative to the direct field. The wide plateau lies partly in the transition
# zone of its first edge, where the slope term is itself only a first order.
@pytest.mark.parametrize(
    ("hill", "height", "worst", "root_mean_square"),
    [
        pytest.param([[15, 0], [30, 4], [45, 0]], 2.0, 0.02, 0.006, id="ridge in front"),
        pytest.param([[-30, 0], [-10, 4], [10, 4], [30, 0]], 2.0, 0.05, 0.015, id="on a plateau"),
        pytest.param([[10, 0], [20, 3], [35, 3], [45, 0]], 2.0, 0.12, 0.03, id="plateau in front"),
    ],
)
def test_hill_on_a_plain(hill, height, worst, root_mean_square):
    corners = np.array(hill, dtype=float)
    elevation_deg = np.arange(0.5, 60.0, 0.5)
    foot = float(np.interp(0.0, corners[:, 0], corners[:, 1]))
    reference = _moment_method(
        corners,
        antenna=np.array([0.0, foot + height]),
        elevation=np.radians(elevation_deg),
        per_wavelength=12,
    )
    found = gain_over_terrain(
        profile=TerrainProfile(
            distance=np.concatenate(([-1000.0], corners[:, 0], [60.0])),
            height=np.concatenate(([0.0], corners[:, 1], [0.0])),
        ),
        height=height,
        frequency=SPEED_OF_LIGHT,
        ground=PERFECT_GROUND,
        elevation_deg=elevation_deg,
    )
    error = np.abs(10.0 ** (found.gain_dbi / 20.0) - np.abs(reference))
    assert error.max() < worst
    assert np.sqrt(np.mean(error**2)) < root_mean_square
