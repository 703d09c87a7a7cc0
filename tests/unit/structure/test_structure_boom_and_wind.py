"""Beam wind, boom tie, torques and remedies on the example beam."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from station_example import ALLOY, BALUN, BEAM, BOOM, GUYED, HALF

from boomwright.parts import Bar, Block, Element, Wire
from boomwright.structure import BoomTie, ExposedSolid, IceBasis
from boomwright.structure.beam.boom import BoomPress, arm_bending
from boomwright.structure.beam.torque import boom_torque
from boomwright.structure.checks.remedies import (
    double_wall,
    extend_outer_tube,
    lengthen_overlap,
    remedy_effect,
)
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.beam_wind import beam_wind
from boomwright.structure.weather.ice import IceCoat
from fakes.mounted import tubes_of, weighed, wires_of
from fakes.told import check_structure

ELEMENT = BEAM.elements[0]
GIVEN = {"material": ALLOY, "pressure": 600.0}


def test_areas_from_every_direction():
    wind = beam_wind(pieces=tubes_of(BEAM), boom_diameter=0.0635, boom_length=7.4)
    elements = 3 * 2 * sum(section.diameter * section.length for section in HALF)
    assert wind.elements.projected == pytest.approx(elements, rel=1e-12)
    assert wind.boom.projected == pytest.approx(0.0635 * 7.4, rel=1e-12)
    assert wind.drag_area[0] == pytest.approx(1.2 * elements, rel=1e-12)
    assert wind.drag_area[90] == pytest.approx(1.2 * 0.0635 * 7.4, rel=1e-12)
    assert wind.drag_area[45] < wind.drag_area[0]
    assert wind.older_worst.projected > wind.worst.projected
    assert np.all(wind.older_drag_area >= wind.drag_area - 1e-12)
    assert wind.worst.flat == pytest.approx(wind.worst.projected * 2.0 / 3.0, rel=1e-12)
    with pytest.raises(ValueError, match="read-only"):
        wind.drag_area[0] = 0.0


def test_boxes_count_in_every_direction():
    bare, boxed = (
        beam_wind(pieces=tubes_of(BEAM), boom_diameter=0.06, boom_length=7.4, extra_drag_area=extra)
        for extra in (0.0, 0.1)
    )
    for angle in (0, 90, 180, 270):
        more = boxed.drag_area[angle] - bare.drag_area[angle]
        assert more == pytest.approx(0.1, rel=1e-9)


BOX = ExposedSolid(position=6.0, solid=Block(middle=(0.0, 0.0, 0.0), size=(0.16, 0.10, 0.08)))
ROD = ExposedSolid(
    position=2.0, solid=Bar(start=(0.0, 0.0, 0.0), end=(1.2, 0.0, 0.0), diameter=0.01)
)


def test_flat_parts_carry_ice_on_every_side_and_show_it_to_the_wind():
    ice = IceCoat(thickness=0.02, density=900.0)
    # ASCE 7-10, figure 29.5-1: 1.4 for a flat face, 1.2 for a round member.
    assert BOX.drag_area() == pytest.approx(1.4 * 0.08 * 0.16)
    assert BOX.drag_area(ice=ice) == pytest.approx(1.4 * 0.12 * 0.20)
    assert BOX.ice_mass(ice) == pytest.approx(900.0 * (0.20 * 0.14 * 0.12 - 0.16 * 0.10 * 0.08))
    assert ROD.drag_area(ice=ice) == pytest.approx(1.2 * 0.05 * 1.2)
    # ASCE 7-16, equation 10.4-1: pi t (D + t) on a metre.
    assert ROD.ice_mass(ice) == pytest.approx(900.0 * np.pi * 0.02 * 0.03 * 1.2)
    assert BOX.ice_mass(None) == 0.0
    plate = replace(BOX, hidden=0.05)
    assert plate.drag_area() == pytest.approx(1.4 * 0.03 * 0.16)


def test_the_larger_of_the_owners_figure_and_the_parts_counts_and_grows_with_ice():
    ice = IceCoat(thickness=0.02, density=900.0)
    bare = BOX.drag_area() + ROD.drag_area()
    beam = weighed(BEAM, BOOM, exposed=(BOX, ROD))
    assert beam.drag_area() == pytest.approx(bare)
    told = replace(beam, boom=replace(BOOM, extra_drag_area=1.0))
    assert told.drag_area() == 1.0
    grown = BOX.drag_area(ice=ice) + ROD.drag_area(ice=ice) - bare
    assert told.drag_area(ice=ice) == pytest.approx(1.0 + grown)


def test_wind_on_a_box_out_on_the_boom_turns_and_bends_it():
    given = {"pressure": 1000.0, "diameter": 0.06, "arms": (3.0, 4.0)}
    alone = 1000.0 * 1.2 * 0.06 * 7.0 / 2.0
    assert boom_torque(**given) == pytest.approx(alone)
    # 0.02 m2 two metres before the mast adds 40 N m to what the longer front arm turns by; behind
    # the mast it would relieve it, which nobody counts on.
    assert boom_torque(**given, hardware=0.04) == pytest.approx(alone + 40.0)
    assert boom_torque(**given, hardware=-0.04) == pytest.approx(alone)
    arm = arm_bending(
        shape=BOOM.shape, elastic_modulus=69e9, length=4.0, loads=(), line_weight=0.0,
        line_wind=50.0, presses=(BoomPress(place=3.0, across=20.0, couple=0.0, twist=0.0),),
    )  # fmt: skip
    assert arm.wind_moment == pytest.approx(50.0 * 8.0 + 60.0)


def test_ice_on_hardware_reaches_the_weight_of_the_beam():
    iced = replace(GUYED, ice=IceBasis(thickness=0.02, mapped=False, density=900.0))
    box = replace(iced, beams=(weighed(BEAM, BOOM, BALUN, exposed=(BOX, ROD)),))
    bare = replace(iced, beams=(weighed(BEAM, BOOM, BALUN),))
    with_, without = (check_structure(inputs=each).beams[0] for each in (box, bare))
    ice = IceCoat(thickness=0.02, density=900.0)
    more = (BOX.ice_mass(ice) + ROD.ice_mass(ice)) * 9.80665
    assert with_.weight == pytest.approx(without.weight)
    assert with_.iced_weight - without.iced_weight == pytest.approx(more)
    assert with_.iced_wind.worst.drag > without.iced_wind.worst.drag


def test_an_upright_wire_counts_fully_and_one_along_the_wind_not_at_all():
    wire = Wire(name="tail", diameter=0.01, points=np.array([[0, 0, 0], [0, 0, 2.0]]))
    along = Wire(name="tail", diameter=0.01, points=np.array([[0, 0, 0], [2.0, 0, 0]]))
    none, upright, level = (
        beam_wind(pieces=(*tubes_of(BEAM), *wires_of(replace(BEAM, wires=wires)))).drag_area[0]
        for wires in ((), (wire,), (along,))
    )
    assert upright - none == pytest.approx(1.2 * 0.02, rel=1e-9)
    assert level == pytest.approx(none)


def test_a_stiff_tie_carries_what_a_pin_would():
    # A propped cantilever with an even load, prop at its end: 3/8 w L.
    tie = BoomTie(share=1.0, rise=1.0, area=1.0, elastic_modulus=1e15)
    arm = arm_bending(
        shape=BOOM.shape, elastic_modulus=69e9, length=4.0, loads=(), line_weight=15.0,
        line_wind=0.0, tie=tie,
    )  # fmt: skip
    assert arm.tie.lift == pytest.approx(3.0 / 8.0 * 15.0 * 4.0, rel=1e-6)
    assert arm.tie.pull == pytest.approx(arm.tie.lift * np.hypot(4.0, 1.0), rel=1e-9)
    assert arm.tie.push == pytest.approx(4.0 * arm.tie.lift, rel=1e-9)
    assert arm.sag == pytest.approx(0.0, abs=1e-9)
    assert arm.moment == pytest.approx(15.0 * 16.0 / 8.0, rel=1e-3)
    assert arm.dead_moment == pytest.approx(15.0 * 16.0 / 2.0, rel=1e-12)


def test_booms_on_opposite_sides_of_the_mast_cancel():
    def torque(offset):
        second = weighed(BEAM, replace(BOOM, offset=offset), BALUN)
        report = check_structure(inputs=replace(GUYED, beams=(*GUYED.beams, second)))
        return report.rotator.survival_torque, report.beams[0].torque.offset

    (same, one), (opposite, _) = torque(0.06), torque(-0.06)
    assert same - opposite == pytest.approx(2.0 * one, rel=1e-9)


def test_each_remedy_helps_and_keeps_the_length():
    for remedy in (
        double_wall(element=ELEMENT, section=0),
        extend_outer_tube(element=ELEMENT, section=1, by=0.3),
    ):
        assert remedy.element.length == pytest.approx(ELEMENT.length, rel=1e-12)
    doubled = remedy_effect(
        element=ELEMENT, remedy=double_wall(element=ELEMENT, section=0), **GIVEN
    )
    assert doubled.after.worst_bare.bare_stress < 0.75 * doubled.before.worst_bare.bare_stress
    assert doubled.droop_change < 0.0 < doubled.weight_change
    part = remedy_effect(
        element=ELEMENT, remedy=double_wall(element=ELEMENT, section=0, length=0.6), **GIVEN
    )
    assert doubled.weight_change > part.weight_change > 0.0
    overlap = lengthen_overlap(element=ELEMENT, section=1, by=0.3)
    assert overlap.element.half[1].wall == pytest.approx(0.003, rel=1e-12)
    assert overlap.element.length == pytest.approx(ELEMENT.length, rel=1e-12)
    further = remedy_effect(
        element=ELEMENT, remedy=extend_outer_tube(element=ELEMENT, section=1, by=0.5), **GIVEN
    )
    assert further.after.sections[1].bare_stress < further.before.sections[1].bare_stress


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda: double_wall(element=ELEMENT, section=9), "does not exist"),
        (lambda: double_wall(element=ELEMENT, section=0, length=0.0), "above zero"),
        (lambda: extend_outer_tube(element=ELEMENT, section=0, by=0.1), "between two tubes"),
        (lambda: extend_outer_tube(element=ELEMENT, section=1, by=5.0), "less than"),
        (lambda: lengthen_overlap(element=ELEMENT, section=0, by=0.1), "no larger tube"),
        (
            lambda: double_wall(
                element=Element(
                    role="driven",
                    position=0.0,
                    half=(replace(HALF[0], wall=0.01),),
                ),
                section=0,
            ),
            "does not fit",
        ),
    ],
)
def test_remedies_that_cannot_be(change, words):
    with pytest.raises(StructureInputError, match=words):
        change()
