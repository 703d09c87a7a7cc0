"""Sheets add up exactly to the plan, in both unit systems, over 500 random plans."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.cost.pieces import tube_pieces
from boomwright.parts import (
    MATERIALS,
    Assembly,
    Beam,
    BeamFrame,
    BoomTube,
    Carrier,
    Element,
    Feed,
    Hardware,
    Joints,
    LineHardware,
    TubeSection,
    boom_parts,
    element_parts,
    mast_plate_parts,
)
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.pieces import sawn_pieces
from boomwright.report.build.shop import shop_elements
from boomwright.report.build.shop_boom import shop_boom

SIXTEENTH = METRES_PER_INCH / 16.0
lengths = st.floats(min_value=0.15, max_value=4.0, allow_nan=False)


@st.composite
def jobs(draw):
    """Draw a beam of 1 to 7 elements on a boom, with its rules of joining."""
    count = draw(st.integers(1, 7))
    gaps = draw(st.lists(st.floats(0.2, 4.0), min_size=count, max_size=count))
    start = draw(st.floats(-5.0, 5.0))
    places = [start + sum(gaps[:i]) for i in range(count)]
    driven = draw(st.integers(0, count - 1))
    elements = []
    for number, place in enumerate(places):
        sections = draw(st.lists(lengths, min_size=1, max_size=6))
        half = tuple(
            TubeSection(diameter=0.04 - 0.004 * i, length=each, wall=0.0015)
            for i, each in enumerate(sections)
        )
        role = "driven" if number == driven else "reflector" if number < driven else "director"
        elements.append(Element(role=role, position=place, half=half))
    order = draw(st.permutations(range(count)))
    beam = Beam(
        name="drawn",
        band=(14.0e6, 14.35e6),
        design_frequency=14.175e6,
        height=12.0,
        heading=0.0,
        material=MATERIALS["6061-T6"],
        feed=Feed(kind=draw(st.sampled_from(["split", "gamma", "hairpin", "tee"])),
                  gap=draw(st.floats(0.01, 0.1))),
        elements=tuple(elements[i] for i in order),
    )  # fmt: skip
    over = draw(st.floats(0.05, 0.4))
    boom = BoomPlan(
        beam="drawn", diameter=0.05, wall=0.002, rear_end=places[0] - over,
        length=places[-1] - places[0] + 2 * over, material="6061-T6",
    )  # fmt: skip
    frame = BeamFrame(
        beam=beam,
        rear=boom.rear_end,
        boom_diameter=boom.diameter,
        hardware=Hardware(),
        line=LineHardware(),
        joints=Joints(least_overlap=draw(st.floats(0.03, 0.3))),
        longest_stock=draw(st.sampled_from([1.8288, 3.6576, 6.0, 6.4])),
    )
    tube = BoomTube(diameter=boom.diameter, wall=boom.wall, length=boom.length,
                    clamp=0.4 * boom.length)  # fmt: skip
    parts = (*element_parts(frame), *boom_parts(frame, tube),
             *mast_plate_parts(frame, tube, mast=0.06, beside=0.06))  # fmt: skip
    carrier = Carrier(name="drawn", origin=None)
    return beam, boom, Assembly(parts=parts, carriers=(carrier,))


def units(length):
    return length.millimetres, length.sixteenths


def exact_units(length):
    return length * 1000.0, length / SIXTEENTH


@settings(max_examples=500, deadline=None)
@given(jobs())
def test_sheets_add_up_to_the_plan_and_rounding_never_accumulates(job):
    beam, boom, station = job
    shop = shop_boom(station, beam=beam, boom=boom)
    elements = shop_elements(station.parts, beam=beam, boom=boom)
    for which in (0, 1):  # millimetres, sixteenths of an inch
        for element in elements:
            plan = beam.elements[element.cut.index]
            assert (
                sum(units(t.exposed)[which] for t in element.tubes)
                == (units(element.cut.half_length)[which])
            )
            reached, end = 0.0, 0
            for tube, section in zip(element.tubes, plan.half, strict=True):
                reached += section.length
                end += units(tube.exposed)[which]
                assert units(tube.reaches)[which] == end
                # Not more than half a unit from the plan, however many tubes came before.
                assert abs(end - exact_units(reached)[which]) <= 0.5 + 1e-6
                assert sum(units(part)[which] for part in tube.parts) == units(tube.cut)[which]
                first = tube.section == 1
                if not first:
                    assert units(tube.cut - tube.overlap)[which] == units(tube.exposed)[which]
                    assert units(tube.starts + tube.overlap)[which] == (
                        end - units(tube.exposed)[which]
                    )
                elif element.is_cut:
                    assert units(tube.cut + element.half_gap)[which] == end
                elif len(tube.marks) == 1:
                    assert units(tube.cut)[which] == 2 * end
        readings = [units(station.tape)[which] for station in shop.stations]
        assert readings == sorted(readings)
        for (low, high), station in zip(pairwise(readings), shop.stations[1:], strict=True):
            assert units(station.from_last)[which] == high - low
        assert sum(units(part)[which] for part in shop.parts) == units(shop.length)[which]
        by_name = {s.name: units(s.tape)[which] for s in shop.stations if s.kind == "element"}
        for element in elements:
            exact = beam.elements[element.cut.index].position - boom.rear_end
            shown = by_name[f"{element.cut.number} {element.cut.label}"]
            assert abs(shown - exact_units(exact)[which]) <= 0.5 + 1e-6
            first_element = by_name[f"{elements[0].cut.number} {elements[0].cut.label}"]
            assert units(element.cut.from_rear)[which] == shown - first_element


def _frame(beam, joints, longest_stock):
    return BeamFrame(
        beam=beam,
        rear=0.0,
        boom_diameter=None,
        hardware=Hardware(),
        line=LineHardware(),
        joints=joints,
        longest_stock=longest_stock,
    )


def test_a_half_that_fits_the_stock_only_without_the_gap():
    """Found by chance: the bill made two parts of it, the sheet three."""
    half = (TubeSection(diameter=0.04, length=3.6875, wall=0.0015),)
    beam = Beam(
        name="drawn",
        band=(14e6, 14.35e6),
        design_frequency=14.175e6,
        height=12.0,
        heading=0.0,
        material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.0625),
        elements=(Element(role="driven", position=0.0, half=half),),
    )
    joints = Joints(least_overlap=0.25, overlap_diameters=3.0)
    listed = tube_pieces(element_parts(_frame(beam, joints, 1.8288))).pieces
    (element,) = shop_elements(element_parts(_frame(beam, joints, 1.8288)), beam=beam)
    beside = {"1.1SL1", "1.1SR1", "1.I"}  # sleeves and the rod between the halves
    assert {piece.mark for piece in listed} == {*element.tubes[0].marks, *beside}
    assert len(element.tubes[0].parts) == 2


@settings(max_examples=100, deadline=None)
@given(jobs())
def test_the_bill_cuts_the_same_pieces_as_the_sheets(job):
    """Cost and workshop work from the same marks; lengths differ by the rounding alone."""
    beam, boom, station = job
    listed = tube_pieces(station.parts).pieces
    billed = {piece.mark: piece.length for piece in listed}
    pieces = sawn_pieces(
        station.parts,
        elements=shop_elements(station.parts, beam=beam, boom=boom),
        boom=shop_boom(station, beam=beam, boom=boom),
    )
    shown = {mark: each.sawn.millimetres / 1000.0 for each in pieces for mark in each.marks}
    assert set(billed) <= set(shown)
    assert set(shown) == {part.mark for part in station.parts if part.cut is not None}
    for mark, length in billed.items():
        assert shown[mark] == pytest.approx(length, rel=0, abs=0.0021)


@pytest.mark.parametrize("overlap", [0.05, 0.16, 0.3, 0.5])
def test_a_tube_that_slides_past_a_short_first_one_keeps_its_place(overlap):
    # Drawn once with equal lengths and an overlap of 300 mm: the second tube was read as the first.
    half = tuple(
        TubeSection(diameter=0.04 - 0.004 * i, length=length, wall=0.0015)
        for i, length in enumerate((0.15625, 0.15625, 1.0))
    )
    beam = Beam(
        name="drawn", band=(14.0e6, 14.35e6), design_frequency=14.175e6, height=12.0, heading=0.0,
        material=MATERIALS["6061-T6"], feed=Feed(kind="split", gap=0.09),
        elements=(Element(role="driven", position=0.0, half=half),),
    )  # fmt: skip
    frame = BeamFrame(
        beam=beam, rear=-0.25, boom_diameter=0.05, hardware=Hardware(), line=LineHardware(),
        joints=Joints(least_overlap=overlap), longest_stock=3.6576,
    )  # fmt: skip
    (element,) = shop_elements(element_parts(frame), beam=beam)
    assert [tube.reaches.millimetres for tube in element.tubes] == [156, 312, 1312]
