"""Parts of wire on a frame: lengths with knots, marks at corners, poles, cords and ropes."""

from __future__ import annotations

import pytest

from bent_plans import HELD, SPREADER, hexagon, loop, vee
from boomwright.export.assembly_gltf import assembly_glb
from boomwright.parts import GROUND, KNOT, corner_marks, frame_parts
from boomwright.plan import read_plan
from boomwright.plan.resolve import beam_frame, plan_bill, station_assembly, structure_inputs
from boomwright.plan.shapes import shape_plan
from boomwright.study.clashes import clash_findings


def parts_of(text):
    plan = read_plan(text)
    return frame_parts(beam_frame(plan, plan.beams[0])), plan


def test_wire_is_cut_with_what_its_knots_take():
    parts, _ = parts_of(hexagon(spreader=SPREADER))
    wires = {part.mark: part.quantity for part in parts if part.role == "wire"}
    # The reflector is one piece, the driven element two halves.
    assert wires == pytest.approx(
        {"1.WC": 10.52 + 2.0 * KNOT, "2.WL": 5.57 + 2.0 * KNOT, "2.WR": 5.57 + 2.0 * KNOT}
    )


def test_corners_are_marked_where_the_wire_passes_them():
    reflector, driven = read_plan(hexagon()).beams[0].elements
    assert dict(corner_marks(reflector)) == pytest.approx({"rear": 1.6, "side": 4.7996}, abs=1e-3)
    ((name, place),) = corner_marks(driven)
    # From the middle: 50 mm straight across the boom, then to the front corner.
    assert name == "front"
    assert place == pytest.approx(3.2254, abs=1e-3)
    (square,) = read_plan(loop()).beams[0].elements
    assert dict(corner_marks(square)) == pytest.approx({"lower corner": 2.8, "upper corner": 8.4})


def test_poles_stand_on_both_sides_and_weigh_what_they_are():
    parts, _ = parts_of(hexagon(spreader=SPREADER))
    poles = [part for part in parts if part.role == "spreader" and part.mark != "PO"]
    assert len(poles) == 18
    inner = next(part for part in poles if part.mark == "S1.1L")
    area = 3.14159265 * 0.0025 * (0.032 - 0.0025)
    assert inner.mass == pytest.approx(1900.0 * area * 1.1, rel=1e-6)
    assert inner.cut is not None
    assert inner.cut.sawn == pytest.approx(1.1)
    # Every section but the first is clamped where it slides in; nothing is drilled.
    clamps = {part.mark: part.fasteners for part in poles}
    assert clamps["S1.1L"] == ()
    assert [each.count for each in clamps["S1.2L"]] == [1]
    assert "over 32 mm" in clamps["S1.2L"][0].name
    assert any(part.role == "cord" for part in parts)
    (hub,) = [part for part in parts if part.role == "hub"]
    assert hub.mass == 1.5


def test_the_station_knows_what_a_frame_weighs_and_sweeps():
    text = hexagon(ground="medium dry", spreader=SPREADER)
    text += (
        '[support.tube]\ndiameter = "60 mm"\nwall = "4 mm"\nheight = "10 m"\nmaterial = "A53 B"\n'
    )
    plan = read_plan(text)
    station = station_assembly(plan)
    assert all(part.mass is not None for part in station.of("20m"))
    # Its feed has a choke or balun box as every other has, below the hub.
    (box,) = station.of("20m", "box")
    assert box.solids[0].middle[2] < 0.0
    assert {each.verdict for each in clash_findings(plan)} == {"within"}
    assert station.reach("20m") == pytest.approx(3.3, abs=0.15)


def test_ropes_hold_what_has_no_poles():
    parts, _ = parts_of(vee(held=HELD))
    (rope,) = [part for part in parts if part.role == "rope"]
    assert rope.quantity == 2.0
    ends = [part.mark for part in parts if part.role == "wire insulator"]
    assert ends == ["1.EL", "1.ER"]
    assert not [part for part in parts if part.role == "spreader"]


def test_lines_between_phased_verticals_are_bought():
    parts, plan = parts_of(shape_plan("two-verticals", band="40 m"))
    lines = [part for part in parts if part.role == "phasing line"]
    assert [part.quantity for part in lines] == [
        element.phasing_line.length for element in plan.beams[0].elements
    ]
    assert {part.unit for part in lines} == {"m"}


@pytest.mark.parametrize(
    ("shape", "count"),
    [("square-loop", 4), ("triangle-loop", 3), ("dipole", 2), ("inverted-vee", 2), ("vertical", 1)],
)
def test_a_rope_holds_each_end_and_each_corner_of_a_loop(shape, count):
    (rope,) = station_assembly(read_plan(shape_plan(shape, band="20 m"))).of("20 m", "rope")
    assert rope.quantity == count


def test_buried_radials_lie_in_the_ground_and_weigh_on_nothing_above_it():
    plan = read_plan(shape_plan("vertical", band="20 m"))
    station, (beam,) = station_assembly(plan), plan.beams
    (radials,) = station.of(GROUND, "radial")
    assert len(radials.solids) == beam.radials.count == 32
    for bar in radials.solids:
        # As deep as a spade's cut, from the foot outwards.
        assert bar.start[2] == bar.end[2] == pytest.approx(-0.05)
        assert bar.length == pytest.approx(beam.radials.length)
    by_hand = 32 * beam.radials.length * 3.14159265 / 4.0 * 0.002**2 * 8930.0
    assert radials.mass == pytest.approx(by_hand, rel=1e-6)
    (wire,) = [part for part in station.of("20 m") if part.role == "wire"]
    (mounted,) = structure_inputs(plan).beams
    assert sum(each.mass for each in mounted.masses) == pytest.approx(wire.mass + 0.02)
    assert sum(bar.length for bar in mounted.strung) == pytest.approx(wire.quantity - 2.0 * KNOT)
    # Wire of the beam and of its radials is one line of the bill, 5 % over.
    lines = {line.item: line.quantity for line in plan_bill(plan).lines}
    assert lines["wire 2.00 mm"] == pytest.approx(1.05 * (wire.quantity + radials.quantity))
    assert b"20 m 1.R" in assembly_glb(station)
    # Its choke or balun box stands on the ground beside the foot, and nothing lifts it.
    (box,) = station.of(GROUND, "box")
    assert box.solids[0].middle[2] == pytest.approx(0.5 * box.solids[0].size[2])
    assert station.mass("20 m") == pytest.approx(wire.mass + 0.02)
    assert lines["choke or balun box"] == 1
    assert {each.verdict for each in clash_findings(plan)} <= {"within"}


def test_a_raised_vertical_has_its_choke_up_at_its_foot():
    plan = read_plan(shape_plan("raised-vertical", band="20 m"))
    station, (beam,) = station_assembly(plan), plan.beams
    (box,) = station.of("20 m", "box")
    # Its lid as high as the foot, beside it; it is lifted, billed and drawn with the beam.
    assert box.solids[0].middle[2] == pytest.approx(-0.5 * box.solids[0].size[2])
    assert not station.of(GROUND, "box")
    (mounted,) = structure_inputs(plan).beams
    weighed = sum(part.mass for part in station.of(beam.name) if part.role != "wire")
    assert sum(each.mass for each in mounted.masses) >= weighed - 1e-9
    assert {line.item: line.quantity for line in plan_bill(plan).lines}["choke or balun box"] == 1
    assert b'"name":"K"' in assembly_glb(station)
    assert {each.verdict for each in clash_findings(plan)} <= {"within"}


@pytest.mark.parametrize(("shape", "corners"), [("square-loop", 4), ("triangle-loop", 3)])
def test_a_loop_on_ropes_has_an_insulator_at_each_corner(shape, corners):
    station = station_assembly(read_plan(shape_plan(shape, band="20 m")))
    (held,) = [part for part in station.of("20 m") if part.name.endswith("corner insulators")]
    places = [solid.middle for solid in held.solids]
    assert held.quantity == len({*places}) == corners
    # As many on the left as on the right.
    assert sum(y for _, y, _ in places) == pytest.approx(0.0, abs=1e-9)


def test_wire_has_its_feed_block_and_its_loops():
    station = station_assembly(read_plan(shape_plan("hexagon", band="20 m")))
    names = [each.name for part in station.of("20 m") for each in part.fasteners]
    assert names.count("feed block with eyes and terminals") == 1
    assert names.count("wire loop at the end of a spreader") == 6
