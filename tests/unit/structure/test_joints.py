"""Joints of tubes at their own place, by statics written out here a second time."""

from dataclasses import replace
from math import asin, hypot, pi, sin

import pytest
from station_example import BALUN, BEAM, BOOM, GUYED

from boomwright.base import PlanError
from boomwright.plan import read_plan
from boomwright.plan.resolve import structure_inputs
from boomwright.structure import TubeJoint, TubeShape
from boomwright.structure.beam.joints import joint_stress
from fakes.mounted import weighed
from fakes.told import check_structure
from written import metric

GRAVITY = 9.80665  # {nist-sp-811}


def _second_moment(outer, inner):
    return pi / 64.0 * (outer**4 - inner**4)


def _line(report, name):
    return next(line for line in report.ledger if line.name == name)


def _lost(hole, wall, middle):
    """Second moment of two strips of wall as wide as a hole, by the angle that they take."""
    turn = asin(hole / 2.0 / middle)
    return 2.0 * wall * middle**3 * (turn + sin(2.0 * turn) / 2.0)


def test_a_moment_passes_over_between_two_contacts():
    # 100 N m at the mouth of a joint 0.2 m deep, 20 N of shear there: the end of the inner tube is
    # held by 100 / 0.2 = 500 N, so at a hole 0.05 m in it carries 500 x 0.15 = 75 N m and the outer
    # one what is left of 100 + 20 x 0.05 = 101 N m.
    outer, inner = TubeShape(diameter=0.04, wall=0.002), TubeShape(diameter=0.03, wall=0.002)
    joint = TubeJoint(name="2 in 1", place=1.0, outer=outer, inner=inner, reach=0.2)

    def moment(place):
        return 100.0 + 20.0 * (1.0 - place)

    gross = _second_moment(0.03, 0.026) / 0.015
    assert joint_stress(joint, moment=moment) == (pytest.approx(100.0 / gross, rel=1e-12), False)
    drilled = replace(joint, hole=0.008, holes=(0.05,))
    net = (_second_moment(0.03, 0.026) - _lost(0.008, 0.002, 0.014)) / 0.015
    assert 75.0 / net > 100.0 / gross
    assert joint_stress(drilled, moment=moment) == (pytest.approx(75.0 / net, rel=1e-12), False)
    # Deep inside a thin outer tube carries it: 101 + 2 - 25 N m at 0.15 m.
    thin = replace(drilled, outer=TubeShape(diameter=0.04, wall=0.0004), holes=(0.15,))
    left = (_second_moment(0.04, 0.0392) - _lost(0.008, 0.0004, 0.0198)) / 0.02
    around = pytest.approx((103.0 - 25.0) / left, rel=1e-12)
    assert joint_stress(thin, moment=moment) == (around, True)
    # Deeper, with its holes as far apart, it takes no more: the mouth bends as it did.
    for one in (joint, drilled, thin):
        deeper = replace(one, reach=0.4, holes=tuple(2.0 * at for at in one.holes))
        assert joint_stress(deeper, moment=moment) >= joint_stress(one, moment=moment)


def test_the_joint_of_an_element_is_held_against_its_limit_where_it_is():
    inner, outer = TubeShape(diameter=0.01905, wall=0.0015), TubeShape(diameter=0.0222, wall=0.0015)
    joint = TubeJoint(name="1.3L in 1.2L", place=3.05, outer=outer, inner=inner, reach=0.1,
                      hole=0.0049, holes=(0.025, 0.075))  # fmt: skip
    mounted = weighed(BEAM, BOOM, BALUN, joints=((joint,), (), ()))
    report = check_structure(inputs=replace(GUYED, beams=(mounted,)))
    line = _line(report, "20m: element joints in wind")
    # Beyond the joint stand 2.2 m of 19.05 mm tube: weight, and wind at drag 1.2.
    pressure = report.beams[0].force / report.beams[0].wind.worst.drag
    metal = 2700.0 * pi / 4.0 * (0.01905**2 - 0.01605**2) * GRAVITY
    wind = pressure * 1.2 * 0.01905
    at_mouth = hypot(metal, wind) * 2.2**2 / 2.0
    gross = _second_moment(0.01905, 0.01605) / 0.009525
    net = (_second_moment(0.01905, 0.01605) - _lost(0.0049, 0.0015, 0.008775)) / 0.009525
    by_hand = max(at_mouth / gross, 0.75 * at_mouth / net)
    assert line.demand == pytest.approx(by_hand / 1e6, rel=1e-6)
    assert line.demand / line.capacity == pytest.approx(line.use, rel=1e-12)
    assert "1.3L in 1.2L" in line.basis
    assert "holes of 4.9 mm counted" in line.basis
    assert _line(report, "20m: element joints, ice with its wind").verdict == "within"
    # An element of unknown walls may hold the worse joint: one line speaks for all of them.
    bare = replace(BEAM.elements[1], half=(replace(BEAM.elements[1].half[0], wall=0.0),))
    blind = replace(BEAM, elements=(BEAM.elements[0], bare, *BEAM.elements[2:]))
    report = check_structure(inputs=replace(GUYED, beams=(replace(mounted, beam=blind),)))
    line = _line(report, "20m: element joints in wind")
    assert line.verdict == "not checked"
    assert "element 2" in line.reason


def test_the_sleeve_of_a_boom_is_held_against_its_limit_where_it_is():
    sleeve = TubeJoint(name="sleeve BS1", place=5.2, sleeve=True, outer=BOOM.shape,
                       inner=TubeShape(diameter=0.0565, wall=0.003), reach=0.3,
                       hole=0.0085, holes=(0.075, 0.225))  # fmt: skip
    boom = replace(BOOM, joints=(sleeve,), clamp=3.5, held=0.1)
    report = check_structure(inputs=replace(GUYED, beams=(weighed(BEAM, boom, BALUN),)))
    line = _line(report, "20m: boom joints in wind")
    # Beyond 5.2 m stand 2.1 m of boom and the last element, 2.0 m out.
    pressure = report.beams[0].force / report.beams[0].wind.worst.drag
    tubes = ((0.0254, 1.83), (0.0222, 1.22), (0.01905, 2.2))
    element = sum(2.0 * 2700.0 * pi / 4.0 * (d**2 - (d - 0.003) ** 2) * long for d, long in tubes)
    metal = 2700.0 * pi / 4.0 * (0.0635**2 - 0.0575**2)
    dead = GRAVITY * (metal * 2.1**2 / 2.0 + element * 2.0)
    wind = pressure * 1.2 * 0.0635 * 2.1**2 / 2.0
    at_mouth = hypot(dead, wind)
    net = (_second_moment(0.0565, 0.0505) - _lost(0.0085, 0.003, 0.02675)) / 0.02825
    gross = _second_moment(0.0565, 0.0505) / 0.02825
    assert line.demand == pytest.approx(
        max(at_mouth / gross, 0.75 * at_mouth / net) / 1e6, rel=1e-3
    )
    assert not [n for n in report.notices if n.code == "structure.boom-joint-at-clamp"]


@pytest.mark.parametrize(("place", "named"), [(3.1, True), (3.89, True), (3.91, False)])
def test_a_joint_near_the_clamp_is_named_with_its_distance(place, named):
    sleeve = TubeJoint(name="sleeve BS1", place=place, sleeve=True, outer=BOOM.shape,
                       inner=TubeShape(diameter=0.0565, wall=0.003), reach=0.3)  # fmt: skip
    boom = replace(BOOM, joints=(sleeve,), clamp=3.5, held=0.1)
    report = check_structure(inputs=replace(GUYED, beams=(weighed(BEAM, boom, BALUN),)))
    found = [n for n in report.notices if n.code == "structure.boom-joint-at-clamp"]
    assert bool(found) == named
    if named:
        assert f"{1000 * abs(place - 3.5):.0f} mm from the mast clamp" in found[0].value
        assert f"{1000 * (place + 0.1):.0f} mm from the rear end" in found[0].value


PLAN = """
boomwright = 1
title = "joints"
[site]
ground = "medium dry"
[[beam]]
name = "20m"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "15 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["1 in", "1.8 m", "0.058 in"], ["0.875 in", "1.22 m", "0.058 in"], ["0.75 in", "2.2 m", "0.058 in"]]
  [[beam.element]]
  role = "driven"
  at = "2.6 m"
  half = [["1 in", "1.83 m", "0.058 in"], ["0.875 in", "3.2 m", "0.058 in"]]
  [beam.boom]
  diameter = "2 in"
  wall = "1/8 in"
  length = "6.2 m"
  rear_end = "-0.1 m"
  material = "6061-T6"
  clamp = "2.9 m"
  JOINTS
"""  # noqa: E501


def _read(joints):
    return read_plan(PLAN.replace("JOINTS", joints))


def test_the_parts_say_where_the_joints_are():
    (mounted,) = structure_inputs(_read("")).beams
    # Equal tubes would meet 100 mm from the clamp at 2.9 m along the beam's axis: they meet beside
    # it, as far as a sleeve of five diameters to either side needs, with 50 mm to spare.
    assert [joint.place for joint in mounted.boom.joints] == pytest.approx([2.9 + 0.254 + 0.05])
    reflector, driven = mounted.joints
    assert [joint.name for joint in reflector] == ["1.2L in 1.1C", "1.3L in 1.2L"]
    assert [joint.place for joint in reflector] == pytest.approx([1.8, 3.02])
    assert [joint.reach for joint in reflector] == pytest.approx([0.1, 0.1])
    # Rivets at a quarter and three quarters of the overlap.
    assert [sorted(joint.holes) for joint in reflector] == [pytest.approx([0.025, 0.075])] * 2
    assert [joint.place for joint in driven] == pytest.approx([1.83])


def test_a_sleeve_of_an_element_is_as_thick_as_its_owner_says():
    short = 'prices = { currency = "EUR", stock = ["3.4 m"] }\n' + PLAN
    used = {}
    for hardware, wall in (("", 0.058 * 0.0254), ('hardware = { element_sleeve = "3 mm" }', 0.003)):
        line, (joints, *_) = _in_a_storm(short.replace("JOINTS", hardware))
        (sleeve,) = [each for each in joints if each.sleeve]
        assert sleeve.inner.wall == pytest.approx(wall)
        assert line.change.startswith("sleeve 1.1SL1 in 1.1L governs: take a thicker sleeve (eleme")
        used[wall] = line.use
    outer, (thin, thick) = 0.884 * 0.0254, used
    stiffer = _second_moment(outer, outer - 2.0 * thick) / _second_moment(outer, outer - 2.0 * thin)
    assert used[thin] / used[thick] == pytest.approx(stiffer, rel=1e-3)
    # Without a sleeve the tube that slides in governs, and that is what is told to change.
    line, _ = _in_a_storm(PLAN.replace("JOINTS", ""))
    assert line.change.startswith("2.2L in 2.1L governs: take a thicker wall for the inner tube")


def _in_a_storm(plan):
    inputs = structure_inputs(read_plan(plan))
    wind = replace(GUYED.wind, speed=replace(GUYED.wind.speed, gust=90.0))
    report = check_structure(inputs=replace(GUYED, beams=inputs.beams, wind=wind))
    return _line(report, "20m: element joints in wind"), inputs.beams[0].joints


def test_a_joint_under_an_element_is_named_with_it():
    (mounted,) = structure_inputs(_read('joints = ["2.7 m"]')).beams
    assert mounted.boom.joints[0].under == (("driven", pytest.approx(0.1)),)
    far = replace(mounted, boom=replace(mounted.boom, clamp=0.5))
    report = check_structure(inputs=replace(GUYED, beams=(far,)))
    (found,) = [n for n in report.notices if n.code == "structure.boom-joint-at-clamp"]
    assert "meet under driven" in found.text
    assert found.value.startswith("100 mm from driven")


def test_an_owner_says_where_the_boom_is_joined_and_with_what():
    plan = _read(
        'joints = ["1.2 m", "4.6 m"]\n  hardware = { sleeve = ["44 mm", "4 mm", "800 mm"] }'
    )
    (mounted,) = structure_inputs(plan).beams
    first, second = mounted.boom.joints
    assert (first.place, second.place) == pytest.approx((1.2, 4.6))
    assert (first.inner.diameter, first.inner.wall, first.reach) == pytest.approx(
        (0.044, 0.004, 0.4)
    )
    assert "assumed" not in first.name
    assert "assumed" in structure_inputs(_read("")).beams[0].boom.joints[0].name
    assert structure_inputs(_read("joints = []")).beams[0].boom.joints == ()


@pytest.mark.parametrize(
    ("joints", "place", "words"),
    [
        ('joints = ["4 m", "2 m"]', "beam[0].boom.joints[1]", "does not lie between 4 m"),
        ('joints = ["6.2 m"]', "beam[0].boom.joints[0]", "front end"),
        ('hardware = { sleeve = ["45 mm", "3 mm", "1 m"] }', "boom.hardware.sleeve[0]", "bore"),
        ('hardware = { sleeve = ["44 mm", "30 mm", "1 m"] }', "boom.hardware.sleeve[1]", "radius"),
    ],
)
def test_a_joint_that_cannot_be_is_a_fault(joints, place, words):
    with pytest.raises(PlanError) as error:
        _read(joints)
    fault = next(each for each in error.value.faults if place in each.path)
    assert words in metric(fault.message)
    assert metric(fault.remedy)
