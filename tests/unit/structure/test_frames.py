"""Wire on a frame: spreaders and wires against hand calculations, and what is not known is said."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bent_plans import HELD, SPREADER, hexagon, vee
from boomwright.base.quantity import write
from boomwright.parts import Frame, FramePoint, Spreader, TubeSection
from boomwright.plan import read_plan, write_plan
from boomwright.plan.resolve.structure import structure_inputs
from boomwright.plan.shapes import shape_plan
from boomwright.structure import check_structure
from boomwright.structure.beam.frame import (
    spreader_bending,
    spreader_points,
    still_droops,
    wire_tension,
)
from boomwright.structure.checks.clearance import swept_points
from boomwright.structure.checks.findings import site_loads
from boomwright.structure.weather.beam_wind import beam_wind
from boomwright.structure.weather.frame_wind import frame_torque

GRAVITY = 9.80665
WIND = """\
wind = "40 m/s"
ice = "6 mm"
[site.wind_basis]
kind = "ultimate"
edition = "ASCE 7-16"
exposure = "B"
topography = 1
[site.ice_basis]
gust = "18 m/s"
mapped = false
"""


def held(spreader=SPREADER):
    """The hexagon on spreaders in wind and ice."""
    text = hexagon(ground="medium dry", spreader=spreader)
    return text.replace("[[beam]]", f"{WIND}[[beam]]", 1)


@pytest.fixture(scope="module")
def ledger():
    report = check_structure(inputs=structure_inputs(read_plan(held())))
    return report, {str(line.name): line for line in report.ledger}


def test_a_frame_over_guys_hangs_lower_with_ice():
    guyed = """
[support.tower]
kind = "guyed"
height = "9 m"
[[support.guy]]
height = "8.9 m"
radius = "60 m"
strand = "3/16 in EHS"
tension = "1.8 kN"
"""
    inputs = structure_inputs(read_plan(held() + guyed))
    (mounted,), beam = inputs.beams, inputs.beams[0].beam
    (report,), site = check_structure(inputs=inputs).beams, site_loads(inputs=inputs)
    bare, iced = (
        swept_points(mounted=mounted, report=report, shape=shape, site=site)
        for shape in ("bare", "iced")
    )
    coat = site.coat(height=beam.height)
    still, heavy = still_droops(beam=beam), still_droops(beam=beam, ice=coat)
    # The corners hang in still air already, and come down by what ice adds at their tips.
    more = max(heavy[point] - still[point] for point in still)
    farthest = int(bare.reach.argmax())
    assert more > 0.01
    assert bare.height[farthest] - iced.height[farthest] == pytest.approx(more, rel=0.05)

    def room(inputs):
        name = f"{beam.name}: room to turn"
        return next(each for each in check_structure(inputs=inputs).ledger if each.name == name)

    assert room(inputs).demand > room(replace(inputs, ice=None)).demand
    loose = replace(beam.frame, spreader=replace(beam.frame.spreader, elastic_modulus=0.0))
    unknown = replace(inputs.beams[0], beam=replace(beam, frame=loose))
    assert room(replace(inputs, beams=(unknown,))).verdict == "not checked"


def test_a_straight_rod_with_a_wire_at_its_tip_bends_as_by_hand():
    """A solid rod of 20 mm, 3 m, level across the boom; one wire pulls back at a right angle."""
    beam = read_plan(vee()).beams[0]
    rod = Spreader(
        to=("end",), sections=(TubeSection(diameter=0.02, length=3.0),),
        elastic_modulus=20e9, density=1900.0,
    )  # fmt: skip
    point = FramePoint(name="end", place=(0.0, 3.0, 0.0))
    frame = Frame(points=(point,), hub=0.0, pull=10.0, spreader=rod)
    wire = replace(
        beam.elements[0],
        path=(
            FramePoint(name="", place=(-4.0, 0.0, 0.0)),
            FramePoint(name="", place=(-4.0, 3.0, 0.0)),
            point,
        ),
        half=(TubeSection(diameter=0.002, length=7.0),), position=-4.0,
    )  # fmt: skip
    beam = replace(beam, elements=(wire,), frame=frame)
    found = spreader_bending(beam=beam, frame=frame, spreader=rod, point=point, pressure=500.0)
    area, second = math.pi / 4.0 * 0.02**2, math.pi / 64.0 * 0.02**4
    own = area * 1900.0 * GRAVITY
    tip = 0.5 * 4.0 * math.pi / 4.0 * 0.002**2 * 8930.0 * GRAVITY
    down = own * 3.0**2 / 2.0 + tip * 3.0
    # Wind of 500 Pa on the rod and on half of the 4 m of wire, and 10 N of pull.
    side = 500.0 * 1.2 * 0.02 * 3.0**2 / 2.0 + (500.0 * 1.2 * 0.002 * 2.0 + 10.0) * 3.0
    assert found.stress == pytest.approx(math.hypot(down, side) * 0.01 / second, rel=1e-9)
    stiffness = 20e9 * second
    droop = own * 3.0**4 / (8.0 * stiffness) + tip * 3.0**3 / (3.0 * stiffness)
    assert found.droop == pytest.approx(droop, rel=1e-9)


def test_a_wire_that_cannot_stretch_keeps_its_length():
    """Much stiffness: the parabola keeps its length, so pull goes with load; little: it stays."""
    given = {"span": 5.0, "still": 15.0, "weight": 0.28, "load": 1.4}
    stiff = wire_tension(**given, stretch=1e12)
    assert stiff == pytest.approx(15.0 * 1.4 / 0.28, rel=1e-4)
    assert wire_tension(**given, stretch=1e-3) == pytest.approx(15.0, rel=1e-3)
    between = wire_tension(**given, stretch=3.7e5)
    grown = [
        (1.0 + (load * 5.0 / pull) ** 2 / 24.0) * 5.0
        for load, pull in ((0.28, 15.0), (1.4, between))
    ]
    # What the parabola is longer by is what the pull stretches.
    assert (grown[1] - grown[0]) / 5.0 == pytest.approx((between - 15.0) / 3.7e5, rel=1e-6)


def test_the_weight_of_a_frame_is_that_of_its_poles_hub_and_wire():
    (beam,) = structure_inputs(read_plan(held())).beams
    poles = [(0.032, 0.0025), (0.026, 0.0025), (0.019, 0.0095)]
    area = sum(math.pi * wall * (diameter - wall) for diameter, wall in poles)
    wire = math.pi / 4.0 * 0.002**2 * 8930.0 * (10.52 + 11.14)
    post = math.pi * 0.003 * 0.037 * 0.4 * 1900.0
    # Two of three tubes sit 100 mm in the next larger one.
    hidden = sum(math.pi * wall * (diameter - wall) for diameter, wall in poles[1:]) * 0.1
    mass = {each.name: each.mass for each in beam.masses}
    insulators = 4 * 0.02
    assert mass["element 1"] + mass["element 2"] == pytest.approx(wire + insulators, rel=1e-3)
    held_by = 6.0 * (area * 1.1 + hidden) * 1900.0 + 1.5 + post
    # A few metres of cord, of 7 g each.
    assert held_by < mass["frame"] < held_by + 0.06


def test_spreaders_and_wires_catch_the_wind():
    (beam,) = structure_inputs(read_plan(held())).beams
    wires = [bar for bar in beam.strung if bar.diameter == 0.002]
    # Wires alone: 2 mm over 21.66 m, turned through the hexagon; poles by far more.
    assert beam_wind(pieces=wires).worst.projected < 0.002 * 21.7
    poles = 1.1 * (0.032 + 0.026 + 0.019)
    assert 2.0 * poles < beam_wind(pieces=beam.strung).worst.projected < 6.0 * poles
    torque = frame_torque(strung=beam.strung, pressure=500.0, axis=beam.beam.boom_middle).worst
    assert 0.0 < torque < 500.0 * 1.2 * 6.0 * poles * 1.65


def test_the_shape_that_hangs_is_the_shape_that_is_solved():
    plan = read_plan(held())
    beam = plan.beams[0]
    drawn = {point.name: point.place for point in beam.frame.points}
    for element in beam.elements:
        for point in element.path:
            if point.name:
                assert 0.01 < drawn[point.name][2] - point.place[2] < 0.6
    assert read_plan(write_plan(plan)).beams == plan.beams


@pytest.mark.parametrize("shape", ["hexagon", "rectangle", "two-square-loops"])
def test_the_wires_pull_at_the_spreaders_of_the_shape_that_hangs(shape):
    """Elements of a read plan hang lower than its frame is drawn, and loops have their own size."""
    beam = read_plan(shape_plan(shape, band="20 m")).beams[0]
    spreader, tight = beam.frame.spreader, replace(beam.frame, pull=60.0)
    for point in spreader_points(beam.frame):
        given = {"spreader": spreader, "point": point}
        still = spreader_bending(beam=beam, frame=beam.frame, **given)
        bare = spreader_bending(beam=replace(beam, elements=()), frame=beam.frame, **given)
        # Half of each wire weighs on its tip, and its pull bends the spreader or pushes it.
        assert still.droop > 1.05 * bare.droop
        tugged = spreader_bending(beam=beam, frame=tight, **given)
        assert tugged.stress > 1.005 * still.stress


def test_what_hangs_is_what_is_reported():
    beam = read_plan(held()).beams[0]
    drawn = {point.name: point.place[2] for point in beam.frame.points}
    hung = {p.name: p.place[2] for element in beam.elements for p in element.path if p.name}
    for name, droop in still_droops(beam=beam).items():
        assert drawn[name] - hung[name] == pytest.approx(droop, rel=1e-9)


def test_spreaders_and_wires_stand_in_the_ledger(ledger):
    report, lines = ledger
    for name in ("spreaders in wind", "spreaders with ice and its wind", "wires in wind"):
        line = lines[f"20m: {name}"]
        assert line.use is not None
        assert 0.02 < line.use < 1.1
    assert report.beams[0].weight is not None
    codes = {notice.code for notice in report.notices}
    assert {"structure.frame-droop", "structure.wire-sag"} <= codes


@pytest.mark.parametrize(
    ("old", "new", "name", "reason"),
    [
        ('    strength = "200 MPa"\n', "", "20m: spreaders in wind", "bending strength"),
        ('  pull = "15 N"\n', "", "20m: wires in wind", "pull in the wires"),
        ('    density = "1900 kg/m3"\n', "", "20m: spreaders in wind", "density"),
        (SPREADER, "", "20m: what holds the wires", "does not say"),
    ],
)
def test_what_is_not_known_is_not_checked(old, new, name, reason):
    text = held()
    assert old in text
    report = check_structure(inputs=structure_inputs(read_plan(text.replace(old, new))))
    line = next(each for each in report.ledger if str(each.name) == name)
    assert line.verdict == "not checked"
    assert reason in str(line.reason)


def test_an_unknown_frame_leaves_what_stands_below_unchecked():
    tube = (
        '[support.tube]\ndiameter = "60 mm"\nwall = "4 mm"\nheight = "10 m"\nmaterial = "A53 B"\n'
    )
    report = check_structure(inputs=structure_inputs(read_plan(held(spreader="") + tube)))
    line = next(each for each in report.ledger if str(each.name) == "support tube: bending")
    assert line.verdict == "not checked"


def test_ropes_say_what_is_not_modelled():
    text = vee(ground="medium dry", held=HELD)
    report = check_structure(
        inputs=structure_inputs(read_plan(text.replace("[[beam]]", f"{WIND}[[beam]]")))
    )
    (ends,) = (each for each in report.notices if each.code == "structure.rope-ends")
    # A pull of 40 N is a weight of 4.08 kg on a pulley.
    assert "weight of 4.1 kg" in write(ends.text, system="metric")
    assert "weight of 9.0 lb" in write(ends.text, system="us")
    line = next(each for each in report.ledger if str(each.name) == "20m: wires in wind")
    assert line.verdict == "within"


POLE = """\
[support.tube]
diameter = "60 mm"
wall = "4 mm"
height = "10 m"
material = "A53 B"
[support.mast]
diameter = "48 mm"
wall = "4 mm"
bearing = "10 m"
top = "10.5 m"
material = "A53 B"
"""


def test_a_hub_may_stand_a_hand_above_its_mast():
    """Hung at 10.6 m on a mast that ends at 10.5 m, by its hub; 10.7 m is off the mast."""
    found = {}
    for height in ("10.6 m", "10.7 m"):
        text = held().replace('height = "10.6 m"', f'height = "{height}"') + POLE
        report = check_structure(inputs=structure_inputs(read_plan(text)))
        found[height] = next(
            line.verdict for line in report.ledger if str(line.name).startswith("mast: bending")
        )
    assert found == {"10.6 m": "within", "10.7 m": "not checked"}


def test_nobody_asks_for_the_rotator_of_wire_on_ropes():
    for text, asked in ((held() + POLE, True), (vee(ground="medium dry", held=HELD), False)):
        plan = read_plan(text if asked else text.replace("[[beam]]", f"{WIND}[[beam]]") + POLE)
        names = {str(line.name) for line in check_structure(inputs=structure_inputs(plan)).ledger}
        assert ("rotator: holding torque" in names) == asked
