"""What nobody said is asked or not checked: ice from a map or not, starting and stopping."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from station_example import GUYED

from boomwright.base.quantity import write
from boomwright.structure import IceBasis
from fakes.told import check_structure

MAP_ICE = IceBasis(thickness=0.010, concurrent_gust=18.0)
OLDER = replace(GUYED, wind=replace(GUYED.wind, edition="ASCE 7-10"), ice=MAP_ICE)


def line(inputs, name):
    (found,) = [each for each in check_structure(inputs=inputs).ledger if each.name == name]
    return found


def read_as(inputs, mapped):
    return replace(inputs, ice=replace(inputs.ice, mapped=mapped))


def notices(inputs):
    return {each.code: each for each in check_structure(inputs=inputs).notices}


def test_ice_that_may_be_a_map_value_is_taken_as_the_larger_reading():
    # By hand: t = 2 x 10 mm x (21 m / 33 ft)^0.10 {asce-7-ice-growth}, doubled by 7-10.
    grown = 2.0 * 0.010 * (21.0 / (33.0 * 0.3048)) ** 0.10
    boom = "20m: boom, ice with its wind"
    unsaid, mapped, entered = (line(read_as(OLDER, m), boom) for m in (None, True, False))
    assert unsaid.demand == mapped.demand > 2.0 * entered.demand
    assert f"ice {1e3 * grown:.1f} mm" in unsaid.basis
    assert "not said whether mapped, the larger taken" in unsaid.basis
    assert "not said" not in mapped.basis + entered.basis


def test_below_the_height_of_the_map_the_ice_as_entered_is_the_larger():
    # (3 m / 33 ft)^0.10 = 0.886 is below one, and ASCE 7-16 does not double.
    beam = replace(GUYED.beams[0].beam, height=3.0)
    low = replace(GUYED, ice=MAP_ICE, beams=(replace(GUYED.beams[0], beam=beam),))
    boom = "20m: boom, ice with its wind"
    unsaid, mapped, entered = (line(read_as(low, m), boom) for m in (None, True, False))
    assert unsaid.demand == entered.demand > mapped.demand
    assert "not said whether mapped, the larger taken" in unsaid.basis


def test_the_doubt_stays_until_it_is_answered():
    doubt = notices(OLDER)["structure.ice-mapped-unsaid"]
    assert doubt.severity == "doubt"
    assert doubt.value == "21.5 mm at the top from a map, 10.0 mm as entered"
    for answer in (True, False):
        assert "structure.ice-mapped-unsaid" not in notices(read_as(OLDER, answer))
    none = replace(OLDER, ice=IceBasis(thickness=0.0))
    assert "structure.ice-mapped-unsaid" not in notices(none)


def test_what_may_be_a_map_value_is_not_checked_without_an_edition():
    bare = replace(OLDER, wind=None)
    assert "nobody said that it is not mapped" in line(bare, "20m: ice").reason
    rated = replace(bare.tower, rating=replace(bare.tower.rating, ice=0.012))
    found = line(replace(bare, tower=rated), "tower: ice in the maker's rating")
    assert found.verdict == "not checked"
    own = read_as(bare, mapped=False)
    assert not [each for each in check_structure(inputs=own).ledger if each.name == "20m: ice"]


@pytest.mark.parametrize("holding", [None, 500.0, 1e6])
def test_starting_and_stopping_is_never_held_against_the_holding_torque(holding):
    rotator = replace(GUYED.rotator, holding_torque=holding, start_stop_torque=None)
    found = line(replace(GUYED, rotator=rotator), "rotator: start and stop torque")
    assert found.verdict == "not checked"
    assert "start and stop torque is not given" in found.reason
    assert write(found.change, system="metric") == "ask its maker whether it stands 60 N m"
    given = replace(GUYED, rotator=replace(rotator, start_stop_torque=1.0))
    # I w^2 / (2 phi), {common practice}: 6 deg/s stopped within 1 deg.
    inertia = check_structure(inputs=given).rotator.inertia
    found = line(given, "rotator: start and stop torque")
    assert found.demand == pytest.approx(inertia * (6.0 * pi / 180.0) / 2.0 * 6.0, rel=1e-12)
    assert found.verdict == "exceeded"
