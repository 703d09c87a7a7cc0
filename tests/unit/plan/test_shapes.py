"""First plans of wire: every shape reads without a doubt, in both systems of units."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from boomwright.base import PlanError
from boomwright.parts.clashes import find_clashes
from boomwright.plan import QuantityError, plan_notices, read_plan, write_plan
from boomwright.plan.resolve import station_assembly, structure_inputs
from boomwright.plan.shapes import SHAPES, shape_plan
from boomwright.structure import check_structure
from boomwright.structure.beam.frame import spreader_bending, spreader_points


def first_plan(shape, *, band, units="metric"):
    """A shape for one band, or for that and another one where it needs two."""
    further = ("15 m",) if shape == "two-band-dipole" else ()
    return read_plan(shape_plan(shape, band=band, further=further, units=units))


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("band", ["40 m", "20 m", "6 m"])
@pytest.mark.parametrize("shape", list(SHAPES))
def test_every_shape_gives_a_complete_plan(shape, band, units):
    plan = first_plan(shape, band=band, units=units)
    assert [notice.code for notice in plan_notices(plan) if notice.severity == "doubt"] == []
    beam = plan.beams[0]
    assert all(element.bent for element in beam.elements)
    assert plan.line is not None
    hung = {"vertical", "two-verticals", "square-loop", "triangle-loop"}
    assert (plan.support is None) == (shape in hung)
    # A half wave, or a whole one for a loop, or a quarter upright: within a tenth.
    waves = beam.elements[beam.driven_index].length / beam.wavelength
    usual = 0.24 if beam.upright else 1.04 if beam.elements[-1].closed else 0.5
    assert waves == pytest.approx(usual, rel=0.1)
    lowest = min(z for element in beam.elements for _, _, z in element.corners)
    assert beam.height + lowest > (0.0 if beam.stands_on_ground else 2.4)


@pytest.mark.parametrize("shape", list(SHAPES))
def test_nothing_of_a_first_plan_runs_into_its_support(shape):
    clashes = find_clashes(station_assembly(first_plan(shape, band="20 m")))
    assert [(clash.one.role, clash.other.role) for clash in clashes] == []


def test_the_ends_of_two_bent_elements_keep_apart():
    for shape in ("hexagon", "rectangle"):
        beam = read_plan(shape_plan(shape, band="20 m")).beams[0]
        (x1, y1, _), (x2, y2, _) = (element.corners[-1] for element in beam.elements)
        assert ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 > 0.1


def test_an_unknown_shape_is_told_the_nearest():
    with pytest.raises(QuantityError) as caught:
        shape_plan("hexagonal", band="20 m")
    assert '"hexagon"' in caught.value.remedy


NESTED = ("20 m", "15 m", "10 m")


@pytest.fixture(scope="module")
def nested():
    return read_plan(shape_plan("hexagon", band="15 m", further=("10 m", "20 m")))


def test_nested_hexagons_share_hub_post_and_spreaders(nested):
    assert [beam.name for beam in nested.beams] == list(NESTED)
    large, *small = nested.beams
    assert [notice.text for notice in plan_notices(nested) if notice.severity == "doubt"] == []
    assert {beam.name for beam in large.carried} == set(NESTED[1:])
    assert all(beam.carrier.name == "20 m" and beam.frame.spreader is None for beam in small)
    assert large.frame.post.length == pytest.approx(large.frame.points[0].place[2])
    # Each on its own level, the middles a hand apart or more.
    levels = [beam.frame.points[0].place[2] for beam in nested.beams]
    assert levels == sorted(levels, reverse=True)
    assert min(a - b for a, b in pairwise(levels)) > 0.1
    assert find_clashes(station_assembly(nested)) == ()
    assert read_plan(write_plan(nested)).beams == nested.beams


def test_what_would_resonate_cut_open_is_shorted(nested):
    # The halves of the largest driven wire are half a wave long at twice its frequency.
    assert [beam.idle_feed for beam in nested.beams] == ["shorted", "open", "open"]


def test_points_between_hub_and_tip_come_down_less(nested):
    drops = []
    for beam in nested.beams:
        drawn = {point.name: point.place[2] for point in beam.frame.points}
        hung = {p.name: p.place[2] for each in beam.elements for p in each.path}
        drops.append(drawn["front"] - hung["front"])
        assert drawn["middle"] == hung["middle"]
    # Wires that pull inwards hold rising spreaders up: what is left is small.
    assert abs(drops[0]) > abs(drops[1]) > abs(drops[2]) > 0.001
    assert abs(drops[0]) < 0.2


@pytest.mark.parametrize(
    ("shape", "further", "words"),
    [
        ("dipole", ("15 m",), "not made for 2 bands"),
        ("hexagon", ("20 m",), "stands twice"),
        ("hexagon", ("17 m", "15 m", "12 m"), "not made for 4 bands"),
    ],
)
def test_bands_that_no_frame_takes_are_refused(shape, further, words):
    with pytest.raises(QuantityError, match=words):
        shape_plan(shape, band="20 m", further=further)


def test_points_off_the_spreaders_of_the_other_beam_are_faults():
    text = shape_plan("hexagon", band="20 m", further=("15 m",))
    side = '["side", "0 m", "2.147 m", "1.001 m"]'
    assert side in text
    with pytest.raises(PlanError) as caught:
        read_plan(text.replace(side, '["side", "0.4 m", "2.147 m", "1 m"]'))
    (fault,) = caught.value.faults
    assert fault.path == "beam[1].frame.points[3]"
    assert "pass this point 0.40 m away" in fault.message


def test_a_frame_that_nothing_carries_is_not_checked():
    text = shape_plan("hexagon", band="20 m", further=("15 m",))
    text = text.replace('on_boom_of = "20 m"\n', "")
    report = check_structure(inputs=structure_inputs(read_plan(text)))
    lines = {str(line.name): line.verdict for line in report.ledger}
    assert lines["15 m: what holds the wires"] == "not checked"


def test_spreaders_are_not_checked_while_a_carried_pull_is_not_given():
    text = shape_plan("hexagon", band="20 m", further=("15 m",))
    head, pull, tail = text.rpartition('  pull = "5 N"\n')
    assert pull
    assert 'name = "15 m"' in head
    report = check_structure(inputs=structure_inputs(read_plan(head + tail)))
    lines = {str(line.name): line for line in report.ledger}
    assert "pull" in str(lines["20 m: spreaders in wind"].reason)


def test_carried_wires_load_the_spreaders_of_the_other_beam(nested):
    large = nested.beams[0]
    for point in spreader_points(large.frame):
        given = {"frame": large.frame, "spreader": large.frame.spreader, "point": point}
        alone = spreader_bending(beam=large.alone, **given)
        loaded = spreader_bending(beam=large, **given)
        slack = replace(large, neighbours=tuple(_slack(each) for each in large.neighbours))
        assert spreader_bending(beam=slack, **given).droop > alone.droop + 0.004
        assert loaded.stress != pytest.approx(alone.stress, rel=0.05)


def _slack(beam):
    return replace(beam, frame=replace(beam.frame, pull=0.0))
