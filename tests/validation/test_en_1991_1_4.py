"""EN 1991-1-4: worked examples of pressure and of annex B, damping, and 7.9 (published)."""

from __future__ import annotations

from math import sqrt

import pytest
from structure_reference import expected

from boomwright.structure import EnWind
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.en_wind import (
    TERRAIN_LAWS,
    aerodynamic_decrement,
    structural_factor,
    turbulence_length,
)
from boomwright.structure.weather.gust import LATTICE_DAMPING
from boomwright.structure.weather.wind import velocity_pressure


def wind(speed: float, terrain: str, **more) -> EnWind:
    """Wind over flat ground."""
    return EnWind(**{"basic_speed": speed, "terrain": terrain, "orography": 1.0} | more)


#: the example of a single-storey building, and of a multi-storey one at the same place
SUBURB = wind(26.0, "III")


def test_worked_example_of_a_single_storey_building():
    assert TERRAIN_LAWS["III"].factor == pytest.approx(expected("en_ssb_kr"), abs=5e-4)
    assert SUBURB.mean_speed(8.0) / 26.0 == pytest.approx(expected("en_ssb_cr"), rel=2e-3)
    assert 0.5 * SUBURB.air_density * SUBURB.speed**2 == pytest.approx(
        expected("en_ssb_qb"), rel=1e-12
    )
    assert SUBURB.pressure(8.0) == pytest.approx(expected("en_ssb_qp"), rel=5e-3)


def test_printed_sheets_of_sea_lake_and_suburb():
    sea = wind(25.0, "0")
    assert sea.mean_speed(77.36) / 25.0 == pytest.approx(expected("en_sheet_sea_cr"), abs=6e-4)
    assert sea.mean_speed(77.36) == pytest.approx(expected("en_sheet_sea_vm"), rel=5e-4)
    assert sea.turbulence(77.36) == pytest.approx(expected("en_sheet_sea_iv"), abs=6e-4)
    assert sea.pressure(77.36) / 1e3 == pytest.approx(expected("en_sheet_sea_qp"), abs=6e-4)
    assert sea.pressure(28.0) / 1e3 == pytest.approx(expected("en_sheet_sea_qp_low"), abs=6e-4)
    lake = wind(27.0, "I")
    assert lake.pressure(3.5) / 1e3 == pytest.approx(expected("en_sheet_lake_qp"), abs=6e-4)
    suburb = wind(22.0, "III")
    assert suburb.mean_speed(7.02) == pytest.approx(expected("en_sheet_suburb_vm"), rel=1e-4)
    assert suburb.turbulence(7.02) == pytest.approx(expected("en_sheet_suburb_iv"), abs=1e-8)
    assert suburb.pressure(7.02) / 1e3 == pytest.approx(expected("en_sheet_suburb_qp"), abs=6e-4)
    assert suburb.pressure(13.48) / 1e3 == pytest.approx(
        expected("en_sheet_suburb_qp_high"), abs=6e-3
    )


def test_the_town_by_hand():
    assert wind(25.0, "IV").pressure(20.0) == pytest.approx(expected("en_hand_town_qp"), rel=1e-5)
    # Below its least height the profile stands still.
    assert wind(25.0, "IV").pressure(2.0) == wind(25.0, "IV").pressure(10.0)


def test_worked_example_of_annex_b():
    assert SUBURB.mean_speed(21.0) == pytest.approx(expected("en_msb_vm"), abs=0.05)
    assert turbulence_length(terrain="III", height=21.0) == pytest.approx(
        expected("en_msb_length"), abs=0.05
    )
    found = structural_factor(
        wind=SUBURB, height=35.0, breadth=10.0, frequency_hz=3.1, decrement=0.0503
    )
    assert found.frequency == pytest.approx(expected("en_msb_fl"), abs=0.005)
    assert found.spectrum == pytest.approx(expected("en_msb_sl"), abs=1e-4)
    assert found.admittances == pytest.approx(
        (expected("en_msb_rh"), expected("en_msb_rb")), abs=5e-4
    )
    assert found.resonance == pytest.approx(expected("en_msb_r2"), abs=5e-5)
    air = aerodynamic_decrement(
        drag_per_length=0.9 * 10.0, mass_per_length=150e3, mean_speed=23.8, frequency_hz=3.1
    )
    assert air == pytest.approx(expected("en_msb_da"), abs=5e-5)
    # The last steps by hand from those above: nu 3.1 sqrt(R2/(B2 + R2)), kp, cs cd.
    background = 1.0 / (1.0 + 0.9 * (45.0 / 75.9) ** 0.63)
    assert found.background == pytest.approx(background, rel=1e-4)
    assert found.peak == pytest.approx(3.591, abs=2e-3)
    turbulence = 1.0 / 4.24850
    swayed = sqrt(background + 0.0211)
    by_hand = (1.0 + 2.0 * 3.591 * turbulence * swayed) / (1.0 + 7.0 * turbulence)
    assert found.value == pytest.approx(by_hand, rel=1e-3)


@pytest.mark.parametrize(
    ("row", "joints"),
    [("damp_weld", "welded"), ("damp_hsb", "preloaded bolts"), ("damp_bolt", "bolts")],
)
def test_damping_of_a_lattice(row, joints):
    assert LATTICE_DAMPING[joints] == pytest.approx(expected(row), rel=0.01)


def test_factors_of_the_basic_speed_and_hills():
    plain = wind(24.0, "II")
    turned = wind(24.0, "II", direction=0.9, season=0.95, probability=1.04)
    assert turned.speed == pytest.approx(24.0 * 0.9 * 0.95 * 1.04, rel=1e-12)
    assert turned.pressure(10.0) / plain.pressure(10.0) == pytest.approx(
        (0.9 * 0.95 * 1.04) ** 2, rel=1e-12
    )
    # A hill speeds up the mean and thins out the turbulence: co^2 (1 + 7 Iv/co) / (1 + 7 Iv).
    level = plain.turbulence(10.0)
    hill = wind(24.0, "II", orography=1.3)
    assert hill.pressure(10.0) / plain.pressure(10.0) == pytest.approx(
        1.69 * (1.0 + 7.0 * level / 1.3) / (1.0 + 7.0 * level), rel=1e-12
    )
    thin = wind(24.0, "II", air_density=1.0)
    assert thin.pressure(10.0) == pytest.approx(0.8 * plain.pressure(10.0), rel=1e-12)


def test_another_gust_blows_with_the_same_profile():
    basis = wind(24.0, "III")
    usual, with_ice = (
        velocity_pressure(basis=basis, height=12.0, gust=gust) for gust in (None, 18.0)
    )
    assert with_ice.value / usual.value == pytest.approx((18.0 / basis.gust) ** 2, rel=1e-12)
    # Over open country at 10 m the gust is the one entered: 0.5 x 1.25 x 18^2.
    open_country = velocity_pressure(basis=wind(24.0, "II"), height=10.0, gust=18.0)
    assert open_country.value == pytest.approx(0.625 * 18.0**2, rel=1e-12)


def test_where_the_profile_ends():
    with pytest.raises(StructureInputError, match="ends at 200 m"):
        wind(24.0, "II").pressure(201.0)
