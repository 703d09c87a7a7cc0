"""Near fields against energy, Ampere's law and the far field.

Poynting's theorem: what the antenna radiates crosses any closed surface around it. Ampere's
law: close to a thin wire the magnetic field is I/(2 pi r). Both are textbook physics (J. D.
Jackson, "Classical Electrodynamics", 3rd ed. 1999, sections 5.2 and 6.7).
"""

from __future__ import annotations

import numpy as np
import pytest

from antennas import fed, radiation, solve, wire
from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import PERFECT_GROUND, far_field, near_field, near_sources

FREQUENCY = SPEED_OF_LIGHT
RADIUS = 1e-4


def bent(lift=0.0):
    points = np.array([[0.0, -0.2, 0.0], [0.0, 0.1, 0.05], [0.15, 0.2, 0.1]])
    return wire(points + np.array([0.0, 0.0, lift]), RADIUS)


def sources_of(currents, nearest):
    return near_sources(
        assembly=currents.assembly,
        unknowns=currents.unknowns[0, :, 0],
        frequency=FREQUENCY,
        nearest=nearest,
    )


def flux(sources, *, centre, radius, above=False, **ground):
    nodes, weights = np.polynomial.legendre.leggauss(24)
    if above:
        nodes, weights = (nodes + 1.0) / 2.0, weights / 2.0
    azimuth = 2.0 * np.pi * np.arange(48) / 48.0
    sine = np.sqrt(1.0 - nodes**2)
    outwards = np.stack(
        [
            np.outer(sine, np.cos(azimuth)),
            np.outer(sine, np.sin(azimuth)),
            np.outer(nodes, np.ones(48)),
        ],
        axis=-1,
    ).reshape(-1, 3)
    area = np.repeat(weights, 48) * 2.0 * np.pi / 48.0 * radius**2
    electric, magnetic = near_field(sources=sources, points=centre + radius * outwards, **ground)
    density = 0.5 * np.cross(electric, magnetic.conj()).real
    return float(((density * outwards).sum(axis=1) * area).sum())


@pytest.mark.parametrize("radius", [0.45, 1.5])
def test_power_crosses_every_sphere(radius):
    currents = solve(fed(bent(), along=0.15, width=2 * RADIUS), frequency=FREQUENCY)
    _, accepted = radiation(currents)
    found = flux(sources_of(currents, 0.1), centre=np.array([0.03, 0.0, 0.05]), radius=radius)
    assert found == pytest.approx(accepted, rel=1e-4)


def test_power_leaves_upwards_over_perfect_ground():
    system = fed(bent(0.2), along=0.15, width=2 * RADIUS, perfect_ground=True)
    currents = solve(system, frequency=FREQUENCY)
    _, accepted = radiation(currents)
    found = flux(
        sources_of(currents, 0.1), centre=np.zeros(3), radius=1.2, above=True, ground=PERFECT_GROUND
    )
    assert found == pytest.approx(accepted, rel=1e-4)


def test_magnetic_field_close_to_the_wire_is_that_of_its_current():
    rod = wire([[0.0, -0.24, 0.0], [0.0, 0.24, 0.0]], RADIUS)
    currents = solve(fed(rod, along=0.24, width=2 * RADIUS), frequency=FREQUENCY)
    away = 0.002
    _, magnetic = near_field(
        sources=sources_of(currents, away), points=np.array([[away, 0.0, 0.0]])
    )
    # A few radii from the gap the current is still that at the feed, within the wave's curvature.
    expected = abs(currents.admittance[0, 0, 0]) / (2.0 * np.pi * away)
    assert np.linalg.norm(np.abs(magnetic[0])) == pytest.approx(expected, rel=0.01)


def test_near_field_turns_into_the_far_field():
    currents = solve(fed(bent(), along=0.15, width=2 * RADIUS), frequency=FREQUENCY)
    source, _ = radiation(currents)
    azimuth, elevation, distance = 0.7, 0.4, 2000.0
    towards = np.array(
        [
            np.cos(elevation) * np.cos(azimuth),
            np.cos(elevation) * np.sin(azimuth),
            np.sin(elevation),
        ]
    )
    electric, _ = near_field(sources=sources_of(currents, 1.0), points=(distance * towards)[None])
    vertical, horizontal = far_field(
        source=source, azimuth=np.array([azimuth]), elevation=np.array([elevation])
    )
    expected = np.hypot(abs(vertical[0, 0]), abs(horizontal[0, 0])) / distance
    assert np.linalg.norm(np.abs(electric[0])) == pytest.approx(expected, rel=1e-3)
