"""The far field against the sum it stands for, node by node."""

from __future__ import annotations

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.solver import FREE_SPACE, PERFECT_GROUND
from boomwright.solver.far_field import Moments, far_field

FREQUENCY = 14.2e6


def plain_sum(source, azimuth, elevation):
    """Balanis (2005), eq. 3-58: -j k eta / (4 pi) times the transverse part of sum I dl e^(jkr)."""
    k = 2.0 * np.pi * FREQUENCY / SPEED_OF_LIGHT
    towards = np.array(
        [
            np.cos(elevation) * np.cos(azimuth),
            np.cos(elevation) * np.sin(azimuth),
            np.sin(elevation),
        ]
    )
    up = np.array(
        [
            -np.sin(elevation) * np.cos(azimuth),
            -np.sin(elevation) * np.sin(azimuth),
            np.cos(elevation),
        ]
    )
    left = np.array([-np.sin(azimuth), np.cos(azimuth), 0.0])
    total = sum(
        moment * np.exp(1j * k * point @ towards)
        for point, moment in zip(source.points, source.vectors[0], strict=True)
    )
    factor = -1j * k * VACUUM_IMPEDANCE / (4.0 * np.pi)
    return factor * (total @ up), factor * (total @ left)


def scattered(seed):
    """Nodes anywhere, some at mirrored or equal coordinates, with moments in all directions."""
    random = np.random.default_rng(seed)
    points = random.uniform(-12.0, 12.0, (9, 3))
    points[:, 2] = np.abs(points[:, 2]) + 5.0
    points = np.concatenate([points, points * [1.0, -1.0, 1.0], [[0.0, 0.0, 8.0]]])
    vectors = random.normal(size=(1, 19, 3)) + 1j * random.normal(size=(1, 19, 3))
    return Moments(points=points, vectors=vectors, frequencies=np.array([FREQUENCY]))


AZIMUTH = np.array([0.0, 0.4, 2.0, np.pi, 5.1])
ELEVATION = np.array([0.0, 0.3, 1.2, 0.7, np.pi / 2.0])


def test_free_field_is_the_sum_over_the_nodes():
    source = scattered(3)
    found = far_field(source=source, azimuth=AZIMUTH, elevation=ELEVATION, ground=FREE_SPACE)
    for at, (azimuth, elevation) in enumerate(zip(AZIMUTH, ELEVATION, strict=True)):
        wanted = plain_sum(source, azimuth, elevation)
        np.testing.assert_allclose([part[0, at] for part in found], wanted, rtol=1e-11, atol=1e-9)


def test_perfect_ground_adds_the_mirrored_moments():
    # Images: horizontal moments reversed, vertical ones kept.
    source = scattered(4)
    images = Moments(
        points=np.concatenate([source.points, source.points * [1.0, 1.0, -1.0]]),
        vectors=np.concatenate([source.vectors, source.vectors * [-1.0, -1.0, 1.0]], axis=1),
        frequencies=source.frequencies,
    )
    found = far_field(source=source, azimuth=AZIMUTH, elevation=ELEVATION, ground=PERFECT_GROUND)
    for at, (azimuth, elevation) in enumerate(zip(AZIMUTH, ELEVATION, strict=True)):
        wanted = plain_sum(images, azimuth, elevation)
        np.testing.assert_allclose([part[0, at] for part in found], wanted, rtol=1e-11, atol=1e-9)
