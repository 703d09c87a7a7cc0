"""The finer the cut, the smaller the error, at the rate the theory promises.

References: B. Szabo, I. Babuska, "Finite Element Analysis", 1991 (rates of p-refinement where
the solution is smooth away from graded edges: faster than any power of the number of unknowns),
and the project's own much finer solution as the limit. The tube references tie that limit to an
independent solution (``tests/validation/test_body_of_revolution_tubes.py``).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import impedance, rod, solve, stepped_rod
from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import Detail, reference_detail, working_detail

FREQUENCY = SPEED_OF_LIGHT
FINEST = Detail(
    first=0.5,
    ratio=4.0,
    step=1.0,
    degree=6,
    short_degree=6,
    long_piece=0.0,
    edge_degree=6,
    step_degree=6,
    longest=0.2,
)


def uniform():
    return rod(half=0.24, radius=0.001, gap=0.002)


def stepped():
    return stepped_rod(sections=((0.1, 0.0006), (0.08, 0.00045), (0.065, 0.0003)), gap=0.0012)


@pytest.fixture(scope="module", params=[uniform, stepped])
def case(request):
    system = request.param()
    return system, impedance(system, frequency=FREQUENCY, detail=FINEST)


def at_degree(degree):
    return replace(
        FINEST, degree=degree, short_degree=degree, edge_degree=degree, step_degree=degree
    )


def test_error_falls_exponentially_with_the_degree(case):
    system, limit = case
    errors = np.array(
        [
            abs(impedance(system, frequency=FREQUENCY, detail=at_degree(degree)) - limit)
            for degree in (1, 2, 3, 4, 5)
        ]
    )
    # Never worse, five times better a degree on the way, and three decades in all.
    assert (np.diff(errors) < 0.0).all()
    assert errors[2] < errors[0] / 5.0**2
    assert errors[4] < errors[0] / 5.0**4
    assert errors[4] < 1e-4 * abs(limit)


def test_order_of_linear_elements_on_a_refined_cut(case):
    """Halving the long pieces at degree 1 reduces the error like h^1.5 until the edges count."""
    system, limit = case
    errors = []
    for parts in (2, 4, 8):
        detail = replace(at_degree(1), longest=0.24 / parts, ratio=2.0)
        errors.append(abs(impedance(system, frequency=FREQUENCY, detail=detail) - limit))
    order = np.log2(errors[0] / errors[2]) / 2.0
    assert order > 1.5


def test_grading_closer_to_the_edges_pays(case):
    system, limit = case
    coarse = working_detail(frequency=FREQUENCY)
    errors = [
        abs(impedance(system, frequency=FREQUENCY, detail=replace(coarse, **change)) - limit)
        for change in (
            {"first": 60.0, "step": 60.0, "ratio": 40.0},
            {},
            {"first": 1.0, "step": 1.5, "ratio": 6.0, "edge_degree": 5, "step_degree": 5},
        )
    ]
    assert errors[1] < 0.4 * errors[0]
    assert errors[2] < 0.5 * errors[1]


def test_working_detail_is_off_by_less_than_a_tenth_of_an_ohm(case):
    system, limit = case
    assert abs(impedance(system, frequency=FREQUENCY) - limit) < 0.1


def test_reference_detail_is_several_times_better_than_the_working_one(case):
    system, limit = case
    working, finer = (
        abs(impedance(system, frequency=FREQUENCY, detail=detail(frequency=FREQUENCY)) - limit)
        for detail in (working_detail, reference_detail)
    )
    assert finer < 0.3 * working


def test_finest_solution_does_not_move_when_cut_finer_still(case):
    system, limit = case
    finer = replace(FINEST, first=0.3, ratio=3.0, step=0.6, longest=0.13)
    assert abs(impedance(system, frequency=FREQUENCY, detail=finer) - limit) < 2e-3


def test_count_of_unknowns_grows_with_the_degree():
    counts = [
        solve(uniform(), frequency=FREQUENCY, detail=at_degree(degree)).assembly.count
        for degree in (1, 2, 3)
    ]
    assert counts[0] < counts[1] < counts[2]
