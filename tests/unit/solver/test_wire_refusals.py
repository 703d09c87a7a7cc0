"""What the wire model cannot carry is refused with wire, place, value and remedy."""

from __future__ import annotations

import numpy as np
import pytest

from antennas import fed, wire
from boomwright.base import SolverError
from boomwright.solver import GapPlace, Mirror, wire_network
from boomwright.solver.wire_checks import segment_distance
from boomwright.solver.wire_system import images

RADIUS = 0.01
ROD = [[0.0, -2.0, 0.0], [0.0, 2.0, 0.0]]


def said(*wires, gaps=(), perfect_ground=False):
    with pytest.raises(SolverError) as caught:
        wire_network(paths=wires, gaps=gaps, perfect_ground=perfect_ground)
    return str(caught.value)


def test_crossing_wires():
    message = said(
        wire(ROD, RADIUS, name="rod"),
        wire([[-1.0, 0.5, 0.005], [1.0, 0.5, 0.005]], RADIUS, name="strut"),
    )
    for part in ("'rod'", "'strut'", "0.005 m", "(0.000, 0.500, 0.005) m", "0.02 m apart"):
        assert part in message


def test_wires_too_close_side_by_side():
    message = said(
        wire(ROD, RADIUS, name="rod"),
        wire([[0.015, -2.0, 0.0], [0.015, 2.0, 0.0]], RADIUS, name="twin"),
    )
    assert "0.015 m" in message
    assert "common point" in message


def test_wires_four_radii_apart_are_accepted():
    system = wire_network(
        paths=(
            wire(ROD, RADIUS, name="rod"),
            wire([[0.04, -2.0, 0.0], [0.04, 2.0, 0.0]], RADIUS, name="twin"),
        )
    )
    assert len(system.runs) == 2
    assert not system.joints


def test_a_piece_shorter_than_its_radius():
    message = said(wire([[0, 0, 0], [0, 0.005, 0], [0.5, 0.5, 0]], RADIUS, name="tail"))
    for part in ("'tail'", "0.005 m", "(0.000, 0.000, 0.000) m", "0.01 m", "thinner wire"):
        assert part in message


def test_points_that_coincide():
    message = said(wire([[0, 0, 0], [0, 1e-9, 0], [0.5, 0.5, 0]], RADIUS, name="tail"))
    for part in ("'tail'", "points 1 and 2", "1e-09 m apart", "leave one of them out"):
        assert part in message


def test_below_perfect_ground():
    message = said(wire([[0, 0, 1], [0, 0, -0.5]], RADIUS, name="mast"), perfect_ground=True)
    for part in ("'mast'", "below ground", "(0.000, 0.000, -0.500) m", "raise it"):
        assert part in message


def test_lying_on_perfect_ground():
    message = said(wire([[0, 0, 0.004], [3, 0, 0.004]], RADIUS, name="radial"), perfect_ground=True)
    for part in ("'radial'", "(0.000, 0.000, 0.004) m", "0.01 m", "raise it"):
        assert part in message


def test_folding_back():
    message = said(wire([[0, 0, 0], [0, 1, 0], [0.01, 0, 0]], 0.001, name="hairpin"))
    for part in ("'hairpin'", "(0.000, 1.000, 0.000) m", "open the angle"):
        assert part in message


def test_gap_across_a_corner():
    corner = wire([[0, 0, 0], [0, 1, 0], [1, 1, 0]], RADIUS, name="bent")
    message = said(corner, gaps=(GapPlace(path=0, along=0.995, width=0.04),))
    for part in ("'bent'", "0.995 m", "over an end or a corner", "0.02 m from both"):
        assert part in message


def test_gap_over_the_end_of_a_wire():
    message = said(wire(ROD, RADIUS, name="rod"), gaps=(GapPlace(path=0, along=0.01, width=0.04),))
    assert "over an end or a corner" in message


def test_gap_off_the_wire():
    message = said(wire(ROD, RADIUS, name="rod"), gaps=(GapPlace(path=0, along=7.0, width=0.04),))
    for part in ("'rod'", "7 m", "4 m long", "between 0 and 4 m"):
        assert part in message


def test_two_mirrors_on_one_axis():
    with pytest.raises(SolverError, match="one plane per axis"):
        images((Mirror(axis=1), Mirror(axis=1, offset=2.0)))


def test_stretches_in_line_are_one_run_with_their_diameters():
    paths = (
        wire([[0, 0, 0], [0, 1, 0]], 0.02, name="inner"),
        wire([[0, 1, 0], [0, 3, 0]], 0.01, name="outer"),
    )
    system = wire_network(paths=paths)
    assert [run.shape.sections for run in system.runs] == [((1.0, 0.02), (2.0, 0.01))]


def test_other_metal_in_line_is_another_run():
    paths = (
        wire([[0, 0, 0], [0, 1, 0]], 0.02, name="copper", conductivity=58e6),
        wire([[0, 1, 0], [0, 3, 0]], 0.02, name="steel", conductivity=1e6),
    )
    system = wire_network(paths=paths)
    assert sorted(run.conductivity for run in system.runs) == [1e6, 58e6]
    assert len(system.joints) == 1


def test_an_end_that_touches_a_wire_joins_it():
    paths = (wire(ROD, RADIUS, name="rod"), wire([[0, 0.5, 0], [1, 0.5, 0]], RADIUS, name="arm"))
    system = wire_network(paths=paths)
    assert len(system.runs) == 3
    assert [len(joint) for joint in system.joints] == [3]


def test_a_post_on_perfect_ground_starts_at_its_mirror():
    post = wire([[0, 0, 5], [0, 0, 0]], RADIUS)
    system = fed(post, along=5.0 - 1e-9, width=0.02, perfect_ground=True)
    (run,) = system.runs
    assert run.shape.start == "mirror"
    assert run.shape.end == "closed tip"
    assert run.direction == pytest.approx((0.0, 0.0, 1.0))


@pytest.mark.parametrize(
    ("first", "second", "distance"),
    [
        (([0, 0, 0], [1, 0, 0]), ([0.5, 1, -1], [0.5, 1, 1]), 1.0),
        (([0, 0, 0], [1, 0, 0]), ([2, 0, 0], [3, 0, 0]), 1.0),
        (([0, 0, 0], [1, 0, 0]), ([0, 2, 0], [1, 2, 0]), 2.0),
        (([0, 0, 0], [1, 0, 0]), ([4, 4, 0], [4, 9, 0]), 5.0),
    ],
)
def test_distance_of_two_stretches(first, second, distance):
    # Read off the coordinates.
    ends = tuple(tuple(np.array(point, dtype=float) for point in each) for each in (first, second))
    assert segment_distance(*ends)[0] == pytest.approx(distance)
    assert segment_distance(*reversed(ends))[0] == pytest.approx(distance)
