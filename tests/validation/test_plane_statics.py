"""Balance, torque, mast and lever: derived by plain statics, formula beside each value."""

from __future__ import annotations

from math import radians, sqrt

import pytest
from structure_reference import FOOT, INCH, POUND, PSF, expected

from boomwright.parts import MATERIALS
from boomwright.structure import Lattice, PointMass, TubeShape, braking_torque_by_time
from boomwright.structure.beam.boom import balance_point, boom_arms, boom_inertia, moment_of_inertia
from boomwright.structure.beam.torque import (
    boom_torque,
    braking_torque_by_angle,
    offset_torque,
    vane_drag_area,
)
from boomwright.structure.support.mast import MastLoad, mast_moment

ELEMENTS = tuple(
    PointMass(name=name, position=x, mass=m, span=span)
    for name, x, m, span in (
        ("reflector", 0.0, 3.6, 10.7),
        ("driven", 3.2, 3.4, 10.2),
        ("director", 7.2, 3.1, 9.7),
    )
)
LENGTH, MASS = 7.3, 9.0
BALANCE = balance_point(masses=(*ELEMENTS, PointMass(name="boom", position=LENGTH / 2, mass=MASS)))


def test_balance_point():
    assert pytest.approx(expected("boom_cg"), abs=1e-4) == BALANCE


def test_dead_moment_is_the_same_on_both_sides():
    rear, front = boom_arms(
        shape=TubeShape(diameter=0.0508, wall=0.002),
        elastic_modulus=MATERIALS["6061-T6"].elastic_modulus,
        rear_end=0.0, length=LENGTH, clamp=BALANCE, masses=ELEMENTS,
        line_weight=MASS * 9.80665 / LENGTH, line_wind=0.0,
    )  # fmt: skip
    assert [rear.dead_moment, front.dead_moment] == pytest.approx(
        expected("boom_dead_moment"), abs=0.01
    )


def test_moment_of_inertia():
    found = moment_of_inertia(masses=ELEMENTS, axis=BALANCE) + boom_inertia(
        mass=MASS, length=LENGTH, middle=LENGTH / 2, axis=BALANCE
    )
    assert found == pytest.approx(expected("boom_inertia"), abs=0.01)


def test_braking_torque():
    found = [
        braking_torque_by_angle(inertia=215.11, rate=radians(6.0), angle=radians(1.0)),
        braking_torque_by_time(inertia=215.11, rate=radians(6.0), time=0.5),
    ]
    assert found == pytest.approx(expected("boom_brake"), abs=0.01)
    assert found[0] / (POUND * INCH) == pytest.approx(598.0, abs=0.5)


def test_boom_torque_and_vane():
    arms = (BALANCE, LENGTH - BALANCE)
    torque = boom_torque(pressure=0.613 * 35.0**2, diameter=0.0508, arms=arms)
    assert torque == pytest.approx(expected("boom_wind_torque"), abs=0.01)
    vane = vane_drag_area(diameter=0.0508, arms=arms, vane_arm=2.5)
    assert vane == pytest.approx(expected("boom_vane"), abs=1e-5)
    assert 0.613 * 35.0**2 * vane * 2.5 == pytest.approx(torque, rel=1e-12)


def test_offset_torque_of_the_worked_beam():
    # Worked line: 60 mm offset gives 36 N m at 35 m/s, so the drag area is near 0.8 m2.
    torque = offset_torque(pressure=0.613 * 35.0**2, element_drag_area=0.80, offset=0.060)
    assert torque == pytest.approx(36.0, abs=0.1)


#: outer diameter and wall as printed {asme-b36-10m}
TUBES = {
    name: TubeShape(diameter=diameter * INCH, wall=wall * INCH)
    for name, diameter, wall in (
        ("2.000 x 0.250 in tube", 2.0, 0.25),
        ("2 in Sch 40", 2.375, 0.154),
        ("1-1/2 in Sch 40", 1.9, 0.145),
        ("2.000 x 0.120 in tube", 2.0, 0.12),
    )
}


def _worked_moment():
    pressure = 23.128 * PSF
    antenna = MastLoad(name="antenna", height=5.0 * FOOT, force=pressure * 6.0 * FOOT**2)
    line = pressure * 1.2 * 2.0 * INCH
    return mast_moment(loads=(antenna,), wind_per_length=line, proud=6.0 * FOOT)


def test_mast_moment():
    found = _worked_moment() / (POUND * INCH)
    assert found == pytest.approx(expected("mast_moment"), abs=0.1)


def test_mast_stress_of_four_tubes():
    names = ("2.000 x 0.250 in tube", "2 in Sch 40", "1-1/2 in Sch 40", "2.000 x 0.120 in tube")
    found = [_worked_moment() / TUBES[n].modulus / (POUND / INCH**2) for n in names]
    assert found == pytest.approx(expected("mast_stress"), abs=1.0)


def test_leg_loads_of_a_lattice():
    # Face 18 in, 12 000 lb in and 3000 lb; the far leg still presses.
    section = {"leg": 0.03, "brace": 0.01, "brace_length": 2.0, "face_width": 18.0 * INCH}
    given = {"axial": 3000.0 * POUND, "moment": 12000.0 * POUND * INCH}
    triangle = Lattice(faces=3, **section)
    most, least = (load / POUND for load in triangle.leg_loads(**given))
    assert most == pytest.approx(expected("leg_tri_max"), abs=0.05)
    assert least == pytest.approx(expected("leg_tri_min"), abs=0.05)
    # Wind along a face brings two legs the moment over the width, less than the worst side.
    parallel = expected("leg_tri_parallel")
    assert (most - 1000.0) * sqrt(3.0) / 2.0 == pytest.approx(parallel, rel=1e-3)
    square = Lattice(faces=4, **section)
    bent = square.leg_loads(axial=0.0, moment=given["moment"])
    assert bent[0] / POUND == pytest.approx(expected("leg_sq_max"), abs=0.05)
    assert bent[1] == -bent[0]
