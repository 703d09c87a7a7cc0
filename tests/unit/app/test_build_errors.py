"""What befalls a beam, from its plan: droop, ice, and the other antennas turned and lifted."""

from __future__ import annotations

import math
from concurrent.futures.process import BrokenProcessPool
from dataclasses import replace

import numpy as np
import pytest

from boomwright.design import Allowance, Tolerance
from boomwright.parts import Beam, Element, TubeSection
from boomwright.plan import read_plan
from boomwright.render.json.improve import tolerance_document
from boomwright.report.improve.found import Found
from boomwright.session.search_records import beam_name, find_record, keep_record, record_path
from boomwright.session.search_workers import process_pool
from boomwright.study.build_errors import build_errors
from boomwright.study.requests import RequestError
from fakes.desk import PLAN


def plan():
    return read_plan(PLAN)


def test_droop_is_that_of_a_uniform_cantilever():
    # w L^4 / (8 E I) of a tube under its own weight: any handbook of beams, from memory.
    made = plan()
    beam = made.beams[0]
    tube = TubeSection(diameter=0.0254, length=4.0, wall=1.5e-3)
    one = replace(beam, elements=tuple(replace(each, half=(tube,)) for each in beam.elements))
    outer, inner = 0.0254, 0.0254 - 3e-3
    area = math.pi / 4.0 * (outer**2 - inner**2)
    inertia = math.pi / 64.0 * (outer**4 - inner**4)
    weight = area * beam.material.density * 9.80665
    expected = weight * 4.0**4 / (8.0 * beam.material.elastic_modulus * inertia)
    assert build_errors(made, one).droop == pytest.approx(expected, rel=5e-3)


def test_without_walls_the_droop_is_not_known():
    assert build_errors(plan(), plan().beams[0]).droop is None


def second(beam: Beam) -> Beam:
    """A dipole above, its boom to the right of the first beam's heading."""
    half = (TubeSection(diameter=0.02, length=2.5),)
    return replace(
        beam,
        name="above",
        height=beam.height + 3.0,
        heading=beam.heading + math.pi / 2.0,
        elements=(Element(role="driven", position=1.0, half=half),),
    )


def test_neighbours_stand_where_the_plan_puts_them():
    made = plan()
    beam = made.beams[0]
    both = replace(made, beams=(beam, second(beam)))
    (wire,) = build_errors(both, beam).neighbour
    # Both stand half way on their booms at the mast; its element lies along the first's boom.
    places = [element.position for element in beam.elements]
    middle = (min(places) + max(places)) / 2.0
    np.testing.assert_allclose(wire.points[:, 1:], [[0.0, 3.0], [0.0, 3.0]], rtol=0.0, atol=1e-12)
    np.testing.assert_allclose(
        np.sort(wire.points[:, 0]), [middle - 2.5, middle + 2.5], rtol=0.0, atol=1e-12
    )
    assert wire.diameter == pytest.approx(0.02)
    assert build_errors(made, beam).neighbour == ()


def test_a_boom_to_the_right_puts_its_front_to_the_right():
    made = plan()
    beam = made.beams[0]
    above = second(beam)
    (driven,) = above.elements
    front = replace(driven, role="director", position=3.0)
    both = replace(made, beams=(beam, replace(above, elements=(driven, front))))
    back, ahead = build_errors(both, beam).neighbour
    # y grows to the left of the heading: what fires to the right has its front at smaller y.
    assert back.points[0, 1] == pytest.approx(1.0)
    assert ahead.points[0, 1] == pytest.approx(-1.0)


def tolerance(within):
    return Tolerance(nominal=(8.0, 20.0, 1.5), cut_within=within, allowance=Allowance(), spreads=())


def keep(path, beam, within):
    keep_record(path, beam, {"tolerance": tolerance_document(tolerance(within))})


def test_records_belong_to_the_dimensions_of_a_beam(tmp_path):
    path = tmp_path / "plan.toml"
    beam = plan().beams[0]
    assert find_record(path, beam) == Found()
    keep(path, beam, 1e-3)
    keep_record(path, beam, {"compared": []})
    assert find_record(path, beam).tolerance.cut_within == 1e-3
    first, *rest = beam.elements
    moved = replace(beam, elements=(replace(first, position=-0.01), *rest))
    assert beam_name(moved) != beam_name(beam)
    assert find_record(path, moved) == Found()
    for step in range(20):
        shifted = replace(beam, elements=(replace(first, position=-0.02 - 0.01 * step), *rest))
        keep(path, shifted, 1e-3 * step)
    # Only the newest are kept.
    assert find_record(path, beam) == Found()
    assert find_record(path, shifted).tolerance.cut_within == 19e-3


@pytest.mark.parametrize("damage", [b"", b"[1]", b"{}", b'{"boomwright_found": 1, "records": 3}'])
def test_a_damaged_record_is_as_good_as_none(tmp_path, damage):
    path = tmp_path / "plan.toml"
    record_path(path).write_bytes(damage)
    beam = plan().beams[0]
    assert find_record(path, beam) == Found()
    keep_record(path, beam, {"search": 1, "tolerance": {"cut_within_m": "wide"}})
    assert find_record(path, beam) == Found()
    keep_record(path, moved := replace(beam, name="other"), {"search": None})
    assert find_record(path, moved) == Found()


def test_a_worker_that_ends_by_itself_is_said_with_a_remedy():
    with pytest.raises(RequestError, match="ended by itself"), process_pool(2):
        raise BrokenProcessPool
