"""Cutting a run, its shape functions, maps, nodes and static matrices."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from boomwright.solver import Detail, RunShape, prepare_run, remembering
from boomwright.solver.gauss import graded_nodes, unit_gauss
from boomwright.solver.runs.mesh import mesh_run
from boomwright.solver.runs.nodes import run_nodes
from boomwright.solver.runs.piece_map import pieces_of
from boomwright.solver.runs.prepared_run import RunRequest
from boomwright.solver.runs.shape_functions import shape_functions
from boomwright.solver.runs.static import run_statics

DETAIL = Detail(
    first=2.5,
    ratio=20.0,
    step=3.0,
    degree=4,
    short_degree=3,
    long_piece=0.3,
    edge_degree=3,
    step_degree=2,
    longest=1.0,
)
STEPPED = RunShape(sections=((1.5, 0.02), (0.8, 0.01)), gaps=((0.5, 0.04),))


def test_gauss_integrates_polynomials_exactly():
    nodes, weights = unit_gauss(5)
    for power in range(10):
        assert weights @ nodes**power == pytest.approx(1.0 / (power + 1), rel=1e-13)


def test_graded_nodes_resolve_both_ends():
    nodes, weights = graded_nodes(scale=np.array([1e-3]), points=16)
    kernel = 1.0 / np.sqrt(nodes[0] ** 2 + 1e-6) + 1.0 / np.sqrt((1.0 - nodes[0]) ** 2 + 1e-6)
    # Both terms have the closed integral arsinh(1000).
    assert weights[0] @ kernel == pytest.approx(2.0 * np.arcsinh(1e3), rel=1e-9)


def test_bubbles_vanish_at_both_ends_and_slopes_are_legendre():
    values, slopes = shape_functions(at=np.array([0.0, 1.0]), degree=5)
    np.testing.assert_allclose(values[2:], 0.0, rtol=0.0, atol=1e-15)
    np.testing.assert_allclose(values[:2], [[1.0, 0.0], [0.0, 1.0]], rtol=0.0, atol=0.0)
    nodes, weights = unit_gauss(8)
    _, slopes = shape_functions(at=nodes, degree=5)
    product = (slopes[2:] * weights) @ slopes[2:].T
    np.testing.assert_allclose(product, np.diag(np.diag(product)), rtol=0.0, atol=1e-13)


def test_slopes_are_the_derivatives_of_the_values():
    at = np.linspace(0.1, 0.9, 5)
    above, below = (shape_functions(at=at + step, degree=5)[0] for step in (1e-6, -1e-6))
    slopes = shape_functions(at=at, degree=5)[1]
    np.testing.assert_allclose((above - below) / 2e-6, slopes, rtol=0.0, atol=1e-8)


def test_pieces_follow_the_surface_from_tip_to_tip():
    mesh = mesh_run(shape=STEPPED, detail=DETAIL)
    np.testing.assert_allclose(mesh.z0[1:], mesh.z1[:-1], rtol=0.0, atol=1e-12)
    np.testing.assert_allclose(mesh.r0[1:], mesh.r1[:-1], rtol=0.0, atol=0.0)
    assert (mesh.r0[0], mesh.r1[-1]) == (0.0, 0.0)
    assert mesh.z1[-1] == pytest.approx(STEPPED.length)
    # Tube, two caps and the ring at the step.
    assert mesh.arc_length.sum() == pytest.approx(2.3 + 0.02 + 0.01 + 0.01)


def test_gap_is_a_piece_of_its_own():
    mesh = mesh_run(shape=STEPPED, detail=DETAIL)
    piece = int(np.flatnonzero(np.isclose(mesh.z0, 0.48))[0])
    assert mesh.z1[piece] == pytest.approx(0.52)


def test_no_piece_is_longer_than_allowed():
    mesh = mesh_run(shape=STEPPED, detail=replace(DETAIL, longest=0.2))
    assert (mesh.z1 - mesh.z0).max() <= 0.2 + 1e-9


def test_ends_of_a_joint_carry_current_and_tips_do_not():
    tips = mesh_run(shape=STEPPED, detail=DETAIL)
    assert (tips.start_unknown, tips.end_unknown) == (-1, -1)
    joined = mesh_run(shape=replace(STEPPED, start="joint", end="joint"), detail=DETAIL)
    assert joined.start_unknown >= 0
    assert joined.end_unknown >= 0
    numbers = joined.unknowns[joined.unknowns >= 0]
    assert set(numbers.tolist()) == set(range(joined.count))


def test_maps_of_pieces_are_inverse_to_each_other():
    mesh = mesh_run(shape=STEPPED, detail=DETAIL)
    pieces = pieces_of(mesh, np.arange(len(mesh.z0)))
    at = np.tile(np.linspace(0.0, 1.0, 7), (len(mesh.z0), 1))
    arc, slope = pieces.arc_at(at)
    np.testing.assert_allclose(pieces.parameter_at(arc), at, rtol=0.0, atol=1e-9)
    inside = at[:, 1:-1]
    step = 1e-6
    numeric = (pieces.arc_at(inside + step)[0] - pieces.arc_at(inside - step)[0]) / (2 * step)
    np.testing.assert_allclose(slope[:, 1:-1], numeric, rtol=1e-6, atol=1e-12)


def test_nodes_keep_the_moments_of_the_current():
    """Moments against 1, z and z^2 must survive the interpolation from nodes."""
    mesh = mesh_run(shape=STEPPED, detail=DETAIL)
    few, many = (run_nodes(mesh=mesh, panels=panels) for panels in (1, 6))
    for power in range(3):
        np.testing.assert_allclose(
            few.place**power @ few.current, many.place**power @ many.current, rtol=0.0, atol=1e-10
        )
    # The charge of a run between tips adds up to nothing.
    np.testing.assert_allclose(few.charge.sum(axis=0), 0.0, rtol=0.0, atol=1e-10)


def test_static_matrices_are_symmetric_and_charge_energy_is_positive():
    mesh = mesh_run(shape=STEPPED, detail=DETAIL)
    (statics,) = run_statics(runs=[(mesh, False)])
    for name in ("current", "charge", "current_far", "charge_far"):
        matrix = getattr(statics, name)
        # Quadrature, outer and inner, is not symmetric: its error shows here.
        np.testing.assert_allclose(matrix, matrix.T, rtol=0.0, atol=1e-7 * np.abs(matrix).max())
    for name in ("current", "charge"):
        matrix = getattr(statics, name)
        assert np.linalg.eigvalsh(0.5 * (matrix + matrix.T)).min() > 0.0


def test_a_run_is_prepared_once_and_remembered():
    calls = []

    def counting(requests):
        calls.append([each.panels for each in requests])
        return prepare_run(requests)

    def wanted(*panels):
        return [RunRequest(shape=STEPPED, detail=DETAIL, panels=each) for each in panels]

    prepare = remembering(counting, most=2)
    (first,) = prepare(wanted(2))
    again, _, last = prepare(wanted(2, 3, 2))
    assert first is again is last
    assert calls == [[2], [3]]
    # What was asked for longest ago goes first.
    prepare(wanted(4))
    assert prepare(wanted(2))[0] is first
    assert calls == [[2], [3], [4]]


def test_runs_prepared_together_are_as_each_by_itself():
    other = replace(STEPPED, sections=((1.5, 0.02), (0.7, 0.01)), gaps=())
    ring = replace(other, sections=((0.1, 0.02), (0.01, 0.05), (1.0, 0.02)))
    requests = [
        RunRequest(shape=STEPPED, detail=DETAIL, panels=2),
        RunRequest(shape=other, detail=DETAIL, panels=1),
        RunRequest(shape=ring, detail=replace(DETAIL, degree=5), panels=1),
        RunRequest(shape=replace(other, start="mirror"), detail=DETAIL, panels=1, mirrored=True),
    ]
    for one, request in zip(prepare_run(requests), requests, strict=True):
        (alone,) = prepare_run([request])
        for name in ("current", "charge", "current_far", "charge_far"):
            matrix = getattr(alone.statics, name)
            np.testing.assert_allclose(
                getattr(one.statics, name), matrix, rtol=0.0, atol=1e-12 * np.abs(matrix).max()
            )


def test_loss_integral_of_a_constant_current():
    """A current of 1 A over a metre of tube meets 1/(2 pi a) squares."""
    shape = RunShape(sections=((1.0, 0.01),), start="joint", end="joint")
    (run,) = prepare_run([RunRequest(shape=shape, detail=DETAIL, panels=1)])
    mesh = run.mesh
    nodes = np.zeros(mesh.count)
    for ends in mesh.unknowns[:, :2]:
        nodes[ends] = 1.0
    assert nodes @ run.loss @ nodes == pytest.approx(1.0 / (2.0 * np.pi * 0.01), rel=1e-12)


def test_mean_over_a_gap_of_a_constant_current_is_one():
    shape = RunShape(sections=((1.0, 0.01),), gaps=((0.4, 0.02),), start="joint", end="joint")
    (run,) = prepare_run([RunRequest(shape=shape, detail=DETAIL, panels=1)])
    nodes = np.zeros(run.mesh.count)
    for ends in run.mesh.unknowns[:, :2]:
        nodes[ends] = 1.0
    assert run.gaps[0] @ nodes == pytest.approx(1.0, rel=1e-12)
