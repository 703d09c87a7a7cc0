"""First plans of wire: every shape reads without a doubt, in both systems of units."""

from __future__ import annotations

import pytest

from boomwright.parts.clashes import find_clashes
from boomwright.plan import QuantityError, plan_notices, read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import SHAPES, shape_plan


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("band", ["40 m", "20 m", "6 m"])
@pytest.mark.parametrize("shape", list(SHAPES))
def test_every_shape_gives_a_complete_plan(shape, band, units):
    plan = read_plan(shape_plan(shape, band=band, units=units))
    assert [notice.code for notice in plan_notices(plan) if notice.severity == "doubt"] == []
    (beam,) = plan.beams
    assert all(element.bent for element in beam.elements)
    assert plan.line is not None
    assert (plan.support is None) == (shape == "vertical")
    # A half wave, or a whole one for a loop, or a quarter upright: within a tenth.
    waves = beam.elements[beam.driven_index].length / beam.wavelength
    usual = 0.24 if beam.upright else 1.04 if beam.elements[-1].closed else 0.5
    assert waves == pytest.approx(usual, rel=0.1)
    lowest = min(z for element in beam.elements for _, _, z in element.corners)
    assert beam.height + lowest > (0.0 if beam.stands_on_ground else 2.4)


@pytest.mark.parametrize("shape", list(SHAPES))
def test_nothing_of_a_first_plan_runs_into_its_support(shape):
    clashes = find_clashes(station_assembly(read_plan(shape_plan(shape, band="20 m"))))
    named = [(clash.one.role, clash.other.role) for clash in clashes]
    # A single square loop crosses its pole: the plan says to hang it from an arm.
    assert named == ([("wire", "pole")] if shape == "square-loop" else [])


def test_the_ends_of_two_bent_elements_keep_apart():
    for shape in ("hexagon", "rectangle"):
        beam = read_plan(shape_plan(shape, band="20 m")).beams[0]
        (x1, y1, _), (x2, y2, _) = (element.corners[-1] for element in beam.elements)
        assert ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 > 0.1


def test_an_unknown_shape_is_told_the_nearest():
    with pytest.raises(QuantityError) as caught:
        shape_plan("hexagonal", band="20 m")
    assert '"hexagon"' in caught.value.remedy
