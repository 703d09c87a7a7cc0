"""Without loss, what the feed takes is what the far field carries away.

Conservation of energy is the one exact reference for any shape: accepted power comes from the
current at the gap, radiated power from an integral of the far field over all directions, and
nothing in the code ties one to the other. 200 random antennas of six kinds, in free space
and over perfect ground, from 0.2 to 2 wavelengths of wire, radii up to 0.002 wavelengths.
"""

from __future__ import annotations

import numpy as np
import pytest

from antennas import radiation, solve, wire
from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import (
    FREE_SPACE,
    PERFECT_GROUND,
    GapPlace,
    radiated_power,
    wire_network,
)

#: of the accepted power
LIMIT = 1e-4
#: number of antennas of each kind; 200 in all
EACH = {"straight": 30, "bent": 35, "branched": 35, "loop": 30, "close": 30, "ground": 40}


def direction(rng):
    vector = rng.normal(size=3)
    return vector / np.linalg.norm(vector)


def turned(rng, axis, least, most):
    """Pick a direction between two angles from an axis."""
    across = np.cross(axis, direction(rng))
    across /= np.linalg.norm(across)
    angle = rng.uniform(least, most)
    return np.cos(angle) * axis + np.sin(angle) * across


def radius_of(rng):
    return 10.0 ** rng.uniform(-5.0, np.log10(2e-3))


def straight(rng):
    start, axis, length = rng.normal(size=3), direction(rng), rng.uniform(0.2, 1.8)
    radius = radius_of(rng)
    path = wire([start, start + length * axis], radius)
    return (path,), GapPlace(path=0, along=rng.uniform(0.3, 0.7) * length, width=2 * radius)


def bent(rng):
    """Three stretches in line or at up to 110 degrees from each other."""
    axis = direction(rng)
    points = [rng.normal(size=3)]
    lengths = rng.uniform(0.1, 0.5, size=3)
    for length in lengths:
        points.append(points[-1] + length * axis)
        axis = turned(rng, axis, 0.2, np.radians(110.0))
    # Ends that come back to each other are another kind.
    if np.linalg.norm(points[3] - points[0]) < 0.08:
        return bent(rng)
    radius = min(radius_of(rng), 1e-3)
    along = lengths[0] + rng.uniform(0.3, 0.7) * lengths[1]
    return (wire(points, radius),), GapPlace(path=0, along=along, width=2 * radius)


def branched(rng):
    """Three or four arms at least 50 degrees apart, fed in one of them."""
    count = int(rng.integers(3, 5))
    arms = [direction(rng)]
    while len(arms) < count:
        arm = direction(rng)
        if all(arm @ other < np.cos(np.radians(50.0)) for other in arms):
            arms.append(arm)
    centre, radius = rng.normal(size=3), min(radius_of(rng), 1e-3)
    lengths = rng.uniform(0.1, 0.45, size=count)
    paths = tuple(
        wire([centre, centre + length * arm], radius)
        for arm, length in zip(arms, lengths, strict=True)
    )
    along = rng.uniform(0.3, 0.7) * lengths[0]
    return paths, GapPlace(path=0, along=along, width=2 * radius)


def loop(rng):
    """A polygon of three to six sides with uneven corners."""
    count = int(rng.integers(3, 7))
    angle = 2.0 * np.pi * (np.arange(count) + rng.uniform(-0.2, 0.2, size=count)) / count
    first = direction(rng)
    second = np.cross(first, direction(rng))
    second /= np.linalg.norm(second)
    reach = rng.uniform(0.25, 1.5) / (2.0 * np.pi)
    corners = reach * (np.outer(np.cos(angle), first) + np.outer(np.sin(angle), second))
    radius = min(radius_of(rng), 5e-4)
    path = wire([*corners, corners[0]], radius)
    side = float(np.linalg.norm(corners[1] - corners[0]))
    return (path,), GapPlace(path=0, along=0.5 * side, width=2 * radius)


def close(rng):
    """Two or three wires side by side, axes four radii apart, one fed."""
    count, radius = int(rng.integers(2, 4)), radius_of(rng)
    axis = direction(rng)
    across = np.cross(axis, direction(rng))
    across /= np.linalg.norm(across)
    paths = []
    for number in range(count):
        length, shift = rng.uniform(0.3, 1.0), rng.uniform(-0.1, 0.1)
        middle = 4.0 * radius * number * across + shift * axis
        paths.append(wire([middle - length / 2 * axis, middle + length / 2 * axis], radius))
    length = float(np.linalg.norm(paths[0].points[1] - paths[0].points[0]))
    return tuple(paths), GapPlace(path=0, along=0.5 * length, width=2 * radius)


def over_ground(rng):
    """A post, a bent post, or a horizontal or sloping wire, over perfect ground."""
    radius = min(radius_of(rng), 1e-3)
    kind = int(rng.integers(0, 4))
    height = rng.uniform(0.08, 0.6)
    if kind == 0:
        points, along = [[0, 0, 0], [0, 0, height]], 0.0
    elif kind == 1:
        arm = turned(rng, np.array([0.0, 0.0, 1.0]), 0.8, 1.8)
        reach = min(rng.uniform(0.1, 0.4), 0.6 * height)
        points, along = [[0, 0, 0], [0, 0, height], [0, 0, height] + reach * arm], 0.0
    elif kind == 2:
        length = rng.uniform(0.3, 1.0)
        points, along = [[0, 0, height], [length, 0, height]], 0.45 * length
    else:
        length = rng.uniform(0.3, 0.7)
        arm = turned(rng, np.array([0.0, 0.0, 1.0]), 0.3, 1.4)
        points, along = [[0, 0, height], [0, 0, height] + length * arm], 0.4 * length
    return (wire(points, radius),), GapPlace(path=0, along=along, width=2 * radius)


KINDS = {
    "straight": straight,
    "bent": bent,
    "branched": branched,
    "loop": loop,
    "close": close,
    "ground": over_ground,
}


def imbalance(kind, seed):
    paths, gap = KINDS[kind](np.random.default_rng(seed))
    ground = PERFECT_GROUND if kind == "ground" else FREE_SPACE
    system = wire_network(paths=paths, gaps=(gap,), perfect_ground=kind == "ground")
    source, accepted = radiation(solve(system, frequency=SPEED_OF_LIGHT))
    return 1.0 - float(radiated_power(source=source, ground=ground)[0]) / accepted


@pytest.mark.parametrize("kind", EACH)
def test_lossless_antennas_radiate_what_they_accept(kind):
    off = {seed: imbalance(kind, seed) for seed in range(EACH[kind])}
    beyond = {seed: f"{value:.1e}" for seed, value in off.items() if abs(value) > LIMIT}
    assert not beyond


def test_two_hundred_antennas():
    assert sum(EACH.values()) == 200
