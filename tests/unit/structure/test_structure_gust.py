"""The gust factor in the checks: from the first frequency, and never silently one."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
from station_example import BALUN, BEAM, BOOM, GUYED, ON_PIPE, STANDING

from boomwright.structure import (
    IceBasis,
    Lattice,
    NominalSpeed,
    StatedWind,
    TubularSupport,
    WindBasis,
)
from boomwright.structure.checks.findings import site_loads
from boomwright.structure.weather.gust import flexible_gust_factor
from boomwright.structure.weather.wind import velocity_pressure
from fakes.mounted import weighed
from fakes.told import check_structure, told

OPEN = WindBasis(speed=NominalSpeed(gust=40.0), edition="ASCE 7-05", exposure="C", topography=1.0)
#: the 20 m beam on a steel tube of twelve metres, set in the ground
TALL = replace(
    ON_PIPE,
    wind=OPEN,
    ice=IceBasis(thickness=0.0),
    beams=(weighed(replace(BEAM, height=12.0), BOOM, BALUN),),
    tube=TubularSupport(diameter=0.1143, wall=0.0054, height=12.0, yield_strength=240e6),
)


def lines(report, words):
    return [each for each in report.ledger if words in each.name]


def line(report, words):
    (found,) = [each for each in report.ledger if words in each.name]
    return found


def test_a_tube_of_twelve_metres_by_hand():
    """F = sqrt(3 EI / ((M + 0.236 m L) L^3)) / 2 pi, softened by P / Pcr, then 26.11.5."""
    report = check_structure(inputs=TALL)
    tube, mass = TALL.tube, report.beams[0].weight / 9.80665
    line_mass = tube.weight / 9.80665 / 12.0
    quick = sqrt(3.0 * tube.stiffness / ((mass + 0.236 * line_mass * 12.0) * 12.0**3)) / (2.0 * pi)
    pressed = (report.beams[0].weight + tube.weight / 3.0) * 4.0 * 12.0**2
    quick *= sqrt(1.0 - pressed / (pi**2 * tube.stiffness))
    assert report.gusts.frequency_hz == pytest.approx(quick, rel=0.01)
    by_hand = flexible_gust_factor(
        exposure="C", gust=40.0, height=12.0, breadth=0.1143, depth=0.1143, frequency_hz=quick,
        damping=0.01,
    )  # fmt: skip
    assert report.gusts.factor == pytest.approx(by_hand.value, rel=0.01)
    assert report.gusts.factor > 1.5
    stiff = check_structure(inputs=replace(TALL, tube=replace(TALL.tube, elastic_modulus=200e12)))
    assert stiff.gusts.factor == 1.0
    assert report.tube.moment == pytest.approx(report.gusts.factor * stiff.tube.moment, rel=1e-9)
    basis = line(report, "support tube: bending").basis
    for words in ("ASCE 7 26.11.5", "first sway 0.6", "damping 1 %", "at half of it"):
        assert words in basis


def test_the_effect_of_damping_is_shown_and_can_be_entered():
    usual, damped, bare = (
        check_structure(inputs=inputs).gusts
        for inputs in (TALL, replace(TALL, damping=0.02), replace(TALL, beams=()))
    )
    assert f"{damped.factor:.2f} at twice" in usual.text
    assert f"{usual.factor:.2f} at half of it" in damped.text
    assert "as entered" in damped.text
    assert damped.factor < usual.factor
    # Nothing on it: half the damping, and a faster sway.
    assert "bare pole, from memory (bare-pole-damping)" in bare.text


def test_ice_slows_the_sway_and_its_gust_counts():
    iced = check_structure(inputs=replace(TALL, ice=IceBasis(thickness=0.02, concurrent_gust=20.0)))
    assert iced.iced.gusts.frequency_hz < iced.gusts.frequency_hz
    by_hand = flexible_gust_factor(
        exposure="C", gust=20.0, height=12.0, breadth=0.1143, depth=0.1143,
        frequency_hz=iced.iced.gusts.frequency_hz, damping=0.01,
    )  # fmt: skip
    assert iced.iced.gusts.factor == pytest.approx(by_hand.value, rel=1e-9)


#: a self-supporting tower stiff enough to sway faster than once a second
STIFF = replace(STANDING, tower=replace(STANDING.tower, bending_stiffness=3e7, top_drift=None))
#: the same with legs and braces, so that its ice has a weight
ICY = replace(
    STIFF,
    tower=replace(
        STIFF.tower,
        lattice=Lattice(faces=3, face_width=0.4, leg=0.03, brace=0.01, brace_length=2.0),
    ),
    ice=IceBasis(thickness=0.02, concurrent_gust=20.0),
)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"bending_stiffness": None}, "count the sways in a calm"),
        ({"mass": None}, "the tower's weight is not given"),
    ],
)
def test_an_unknown_frequency_is_not_checked_and_never_one(more, words):
    known = check_structure(inputs=ICY)
    assert known.gusts.frequency_hz > 1.0
    assert known.gusts.factor == 1.0
    assert line(known, "tower: base moment, ice").demand is not None
    report = check_structure(inputs=replace(ICY, tower=replace(ICY.tower, **more)))
    found = [*lines(report, "tower: base moment"), *lines(report, "base: overturning")]
    assert len(found) > 2
    assert {each.verdict for each in found} == {"not checked"}
    assert words in line(report, "tower: base moment, ice").reason
    assert words in report.gusts.text
    # What has its gusts in it on both sides is held against the maker's as before.
    assert lines(report, "antenna area") == lines(known, "antenna area")


def test_an_unknown_weight_of_a_beam_is_an_unknown_frequency():
    heavy = replace(BEAM.elements[0].half[0], wall=0.0)
    beam = replace(
        BEAM, elements=(replace(BEAM.elements[0], half=(heavy, *BEAM.elements[0].half[1:])),)
    )
    report = check_structure(inputs=replace(STIFF, beams=(weighed(beam, BOOM, BALUN),)))
    assert "weight of 20m is not known" in report.gusts.missing
    assert all(each.verdict == "not checked" for each in lines(report, "base moment"))
    assert "weight of 20m is not known" in line(report, "mast: bending at the top").reason


def test_a_frequency_that_was_counted_stands_for_stiffness():
    unknown = replace(STIFF.tower, bending_stiffness=None)
    counted = check_structure(
        inputs=replace(STIFF, tower=unknown, sway_hz=0.6, ice=IceBasis(thickness=0.0))
    )
    assert counted.gusts.frequency_hz == 0.6
    assert counted.gusts.factor > 1.35
    iced = replace(ICY, tower=replace(ICY.tower, bending_stiffness=None), sway_hz=0.6)
    report = check_structure(inputs=iced)
    (beam,) = report.beams
    # At least as slow as the share of bare weight in the iced beam makes it.
    assert report.iced.gusts.frequency_hz <= 0.6 * sqrt(beam.weight / beam.iced_weight) + 1e-12


def test_a_soft_tower_moves_its_foot_by_its_factor():
    soft = replace(STIFF, tower=replace(STIFF.tower, bending_stiffness=2e6))
    found, stiff = (check_structure(inputs=each) for each in (soft, STIFF))
    assert found.gusts.frequency_hz < 1.0 < stiff.gusts.frequency_hz
    for what in ("tower: base moment", "tower: base shear"):
        here, there = (
            next(each for each in report.ledger if each.name == what).demand
            for report in (found, stiff)
        )
        assert here == pytest.approx(found.gusts.factor * there, rel=1e-9)
    loads = [report.base.reactions.moment for report in (found, stiff)]
    assert loads[0] == pytest.approx(found.gusts.factor * loads[1], rel=1e-9)


def test_joints_of_a_lattice_are_its_damping():
    soft = replace(STIFF.tower, bending_stiffness=2e6)
    usual, welded = (
        check_structure(inputs=replace(STIFF, tower=replace(soft, joints=joints))).gusts
        for joints in (None, "welded")
    )
    assert "lattice with welded, EN 1991-1-4 table F.2" in welded.text
    assert welded.factor > usual.factor


def test_a_mast_is_a_pole_on_another_structure():
    mast = check_structure(inputs=replace(GUYED, ice=IceBasis(thickness=0.0)))
    basis = line(mast, "mast: bending at the top bearing").basis
    assert "gust factor 1.35, pole on another structure (from memory (tia-222-g-gust))" in basis
    assert "the mast's own first sway" in basis
    # By hand: 1.35 q (CdA h + 1.2 d h^2 / 2) at the bearing.
    site = site_loads(inputs=GUYED)
    on_beam = site.pressure(height=21.0).for_force
    on_tube = site.pressure(height=20.75).for_force
    moment = 1.35 * (
        on_beam * mast.beams[0].wind.worst.drag * 1.0 + on_tube * 1.2 * 0.0508 * 1.5**2 / 2.0
    )
    assert mast.mast.moment == pytest.approx(moment, rel=1e-9)
    assert mast.rotator.side_force == pytest.approx(moment / 1.5, rel=1e-9)


def test_a_mast_goes_along_with_a_soft_tube():
    mast = replace(GUYED.mast, bearing_height=12.0, top_height=13.0, rotator_below=0.6)
    beams = (weighed(replace(BEAM, height=12.5), BOOM, BALUN),)
    report = check_structure(inputs=replace(TALL, mast=mast, beams=beams))
    assert report.gusts.factor > 1.35
    basis = line(report, "mast: bending at the top bearing").basis
    assert f"gust factor {report.gusts.factor:.2f} (ASCE 7 26.11.5)" in basis
    # Where the rotator sits nobody said: then it is taken as far below as the mast stands out.
    unsaid = check_structure(
        inputs=replace(TALL, mast=replace(mast, rotator_below=None), beams=beams)
    )
    assert unsaid.gusts.frequency_hz < report.gusts.frequency_hz


def test_a_tube_near_buckling_is_said_to_be():
    thin = replace(TALL, tube=replace(TALL.tube, diameter=0.04, wall=0.003))
    report = check_structure(inputs=thin)
    assert report.gusts.frequency_hz == 0.0
    assert "close to buckling" in report.gusts.text
    assert line(report, "support tube: bending").verdict == "exceeded"


def test_pressures_of_an_engineer_sway_in_the_gustiest_exposure():
    stated = StatedWind(points=((12.0, 900.0),), by="an engineer", code="SIA 261")
    report = check_structure(inputs=replace(TALL, wind=stated))
    gust = sqrt(2.0 * 900.0 / 1.25)
    factors = [
        flexible_gust_factor(
            exposure=exposure, gust=gust, height=12.0, breadth=0.1143, depth=0.1143,
            frequency_hz=report.gusts.frequency_hz, damping=0.01,
        ).value
        for exposure in ("B", "C", "D")
    ]  # fmt: skip
    assert report.gusts.factor == pytest.approx(max(factors), rel=1e-9)


def test_the_factor_stands_in_every_pressure_of_the_case():
    pressure = velocity_pressure(basis=OPEN, height=12.0)
    report = check_structure(inputs=TALL)
    swayed = pressure.with_gusts(report.gusts)
    assert swayed.for_force == pytest.approx(report.gusts.factor * pressure.for_force, rel=1e-12)
    assert swayed.value == pressure.value
    assert told(swayed.text).startswith(told(pressure.text))


def test_sizes_of_a_lattice_give_its_breadth():
    lattice = Lattice(faces=3, face_width=0.4, leg=0.03, brace=0.01, brace_length=2.0)
    soft = replace(STIFF.tower, bending_stiffness=2e6)
    narrow, wide = (
        check_structure(inputs=replace(STIFF, tower=tower)).gusts.factor
        for tower in (soft, replace(soft, lattice=lattice))
    )
    # A broad structure is never wholly inside one gust.
    assert wide < narrow


def test_a_bracket_shows_its_pull_with_the_largest_factor():
    held = replace(STIFF, tower=replace(STIFF.tower, kind="bracketed", bracket_height=6.0))
    report = check_structure(inputs=held)
    assert report.gusts.factor == 1.35
    assert all(each.verdict == "not checked" for each in lines(report, "house bracket"))
