"""What must not change the result: order, place, turning, scale, mirrors, cuts without meaning.

No reference but logic: reciprocity (R. F. Harrington, "Time-Harmonic Electromagnetic Fields",
1961, section 3-8) and the symmetries of Maxwell's equations in free space.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from antennas import fed, impedance, rod, solve, wire
from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import (
    GapPlace,
    PlacedRun,
    Port,
    RunShape,
    WirePath,
    WireSystem,
    wire_network,
    working_detail,
)

FREQUENCY = SPEED_OF_LIGHT
RADIUS = 0.001


def crooked(*, order=(0, 1, 2), turn=None, shift=(0.0, 0.0, 0.0), scale=1.0):
    """A bent driven wire with a branch, and a skew wire near it, each with a port."""
    shapes = [
        [[0.0, 0.0, 0.0], [0.0, 0.22, 0.0], [0.1, 0.3, 0.05]],
        [[0.0, 0.22, 0.0], [-0.15, 0.25, 0.1]],
        [[0.2, -0.1, 0.1], [0.25, 0.35, -0.05]],
    ]
    turn = turn or Rotation.identity()
    paths = [
        wire(scale * turn.apply(points) + np.array(shift), scale * RADIUS, name=f"wire {number}")
        for number, points in enumerate(shapes)
    ]
    gaps = [(0, 0.1), (2, 0.2)]
    return wire_network(
        paths=tuple(paths[number] for number in order),
        gaps=tuple(
            GapPlace(path=order.index(path), along=scale * along, width=scale * 2 * RADIUS)
            for path, along in gaps
        ),
    )


@pytest.fixture(scope="module")
def plain():
    return solve(crooked(), frequency=FREQUENCY).admittance[0]


def test_admittance_matrix_is_symmetric(plain):
    assert abs(plain[0, 1] - plain[1, 0]) < 1e-6 * abs(plain[0, 1])


def test_open_circuit_voltages_are_reciprocal(plain):
    transfer = np.linalg.inv(plain)
    assert abs(transfer[0, 1] - transfer[1, 0]) < 1e-6 * abs(transfer[0, 1])


@pytest.mark.parametrize("order", [(2, 1, 0), (1, 2, 0), (0, 2, 1)])
def test_order_of_the_wires_does_not_matter(plain, order):
    found = solve(crooked(order=order), frequency=FREQUENCY).admittance[0]
    np.testing.assert_allclose(found, plain, rtol=1e-8, atol=0.0)


def test_turning_and_moving_does_not_matter(plain):
    turn = Rotation.from_euler("zyx", [0.7, -1.1, 0.4])
    found = solve(crooked(turn=turn, shift=(3.0, -1.0, 2.0)), frequency=FREQUENCY).admittance[0]
    np.testing.assert_allclose(found, plain, rtol=1e-7, atol=0.0)


@pytest.mark.parametrize("scale", [2.0, 0.1])
def test_scaling_lengths_and_wavelength_together_does_not_matter(plain, scale):
    system = crooked(scale=scale)
    found = solve(system, frequency=FREQUENCY / scale).admittance[0]
    np.testing.assert_allclose(found, plain, rtol=1e-9, atol=0.0)


def test_a_wire_given_backwards_is_the_same_wire():
    points = np.array([[0.0, 0.0, 0.0], [0.0, 0.25, 0.0], [0.15, 0.4, 0.0]])
    length = 0.25 + np.hypot(0.15, 0.15)
    forwards = fed(wire(points, RADIUS), along=0.1, width=2 * RADIUS)
    backwards = fed(wire(points[::-1], RADIUS), along=length - 0.1, width=2 * RADIUS)
    found, same = (impedance(each, frequency=FREQUENCY) for each in (forwards, backwards))
    # Where runs meet, one is integrated along, the other across: they trade places here.
    assert abs(found - same) < 2e-6 * abs(same)


def whole_rod(*, half, radius, gap):
    shape = RunShape(sections=((2.0 * half, radius),), gaps=((half, gap),))
    run = PlacedRun(shape=shape, origin=(0.0, -half, 0.0), direction=(0.0, 1.0, 0.0))
    return WireSystem(runs=(run,), ports=(Port(run=0),))


def test_half_with_a_mirror_equals_the_whole():
    given = {"half": 0.24, "radius": RADIUS, "gap": 2.0 * RADIUS}
    # Fine enough for the one difference, the gap in one piece or two, to vanish.
    detail = replace(
        working_detail(frequency=FREQUENCY), edge_degree=6, degree=6, short_degree=6, longest=0.12
    )
    halved = impedance(rod(**given), frequency=FREQUENCY, detail=detail)
    whole = impedance(whole_rod(**given), frequency=FREQUENCY, detail=detail)
    assert abs(halved - whole) < 1e-5 * abs(whole)


def test_two_parallel_rods_with_a_mirror_equal_the_whole():
    paths = tuple(wire([[x, -0.23, 0.0], [x, 0.23, 0.0]], RADIUS) for x in (0.0, 0.2))
    whole = fed(*paths, along=0.23, width=2 * RADIUS)
    half = rod(half=0.23, radius=RADIUS, gap=2 * RADIUS)
    other = replace(
        half.runs[0],
        shape=replace(half.runs[0].shape, gaps=()),
        origin=(0.2, 0.0, 0.0),
    )
    halved = replace(half, runs=(half.runs[0], other))
    found, same = (impedance(each, frequency=FREQUENCY) for each in (halved, whole))
    # 1e-4: the whole rod's gap and middle are cut differently.
    assert abs(found - same) < 1e-4 * abs(same)


def test_a_cut_without_meaning_changes_nothing():
    plain = wire([[0.0, -0.24, 0.0], [0.0, 0.24, 0.0]], RADIUS)
    cut = wire([[0.0, y, 0.0] for y in (-0.24, -0.11, 0.07, 0.13, 0.24)], RADIUS)
    found, same = (
        impedance(fed(each, along=0.24, width=2 * RADIUS), frequency=FREQUENCY)
        for each in (cut, plain)
    )
    assert abs(found - same) < 1e-9 * abs(same)


def test_wires_meeting_in_line_are_one_wire():
    one = wire([[0.0, -0.24, 0.0], [0.0, 0.24, 0.0]], RADIUS)
    first = wire([[0.0, 0.1, 0.0], [0.0, -0.24, 0.0]], RADIUS, name="first")
    second = wire([[0.0, 0.1, 0.0], [0.0, 0.24, 0.0]], RADIUS, name="second")
    same = impedance(fed(one, along=0.24, width=2 * RADIUS), frequency=FREQUENCY)
    found = impedance(fed(first, second, along=0.1, width=2 * RADIUS), frequency=FREQUENCY)
    assert abs(found - same) < 1e-9 * abs(same)


def test_a_wire_far_away_changes_nothing():
    near = wire([[0.0, -0.24, 0.0], [0.0, 0.24, 0.0]], RADIUS)
    far = wire([[400.0, 0.0, 0.0], [400.0, 0.2, 0.0]], RADIUS, name="far")
    alone = impedance(fed(near, along=0.24, width=2 * RADIUS), frequency=FREQUENCY)
    together = impedance(fed(near, far, along=0.24, width=2 * RADIUS), frequency=FREQUENCY)
    assert abs(together - alone) < 1e-4 * abs(alone)
    assert together != alone


def test_a_step_of_vanishing_size_is_no_step():
    sections = ((0.12, RADIUS), (0.12, RADIUS * (1.0 - 1e-6)))
    points = np.array([[0.0, 0.0, 0.0], [0.0, 0.12, 0.0], [0.0, 0.24, 0.0]])
    path = WirePath(
        name="almost even", points=points, radii=np.array([radius for _, radius in sections])
    )
    even = wire(points, RADIUS)
    found, same = (
        impedance(fed(each, along=0.1, width=2 * RADIUS), frequency=FREQUENCY)
        for each in (path, even)
    )
    assert abs(found - same) < 1e-3 * abs(same)
