"""TIA/EIA-222-F: height and gust rules (from memory), its ice case (published)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from structure_reference import FOOT, MPH, PSF, expected

from boomwright.structure import NominalSpeed, TowerRating, WindBasis
from boomwright.structure.support.tower_rating import AreaAtHeight, rated_area, rated_pressure
from boomwright.structure.weather.gust import (
    tia_f_height_coefficient,
    tia_f_ice_speed,
    tia_f_lattice_gust,
)
from boomwright.structure.weather.wind import PRESSURE_CONSTANT
from fakes.told import told

RATING = TowerRating(
    area=1.0,
    area_rule="projected",
    area_height=60.0 * FOOT,
    speed=70.0 * MPH,
    averaging="fastest mile",
    kind="nominal",
    exposure="C",
    edition="TIA-222-F",
)


@pytest.mark.parametrize(
    ("feet", "kz", "gh", "q"),
    [
        (33.0, "tia_f_kz_33", "tia_f_gh_33", "tia_f_q_33"),
        (60.0, "tia_f_kz_60", "tia_f_gh_60", "tia_f_q_60"),
        (100.0, "tia_f_kz_100", "tia_f_gh_100", "tia_f_q_100"),
        (200.0, "tia_f_kz_200", "tia_f_gh_200", "tia_f_q_200"),
    ],
)
def test_height_gust_and_pressure_at_seventy_miles_an_hour(feet, kz, gh, q):
    height = feet * FOOT
    assert tia_f_height_coefficient(height=height) == pytest.approx(expected(kz), abs=6e-4)
    assert tia_f_lattice_gust(height=height) == pytest.approx(expected(gh), abs=6e-4)
    # The standard's 0.00256 and our 0.613 differ by 0.06 %.
    pressure = PRESSURE_CONSTANT * tia_f_height_coefficient(height=height) * (70.0 * MPH) ** 2
    assert pressure / PSF == pytest.approx(expected(q), rel=1e-3)
    rated, _ = rated_pressure(rating=replace(RATING, area_height=height), structure_height=height)
    assert rated / PSF == pytest.approx(expected(q) * expected(gh), rel=2e-3)


def test_the_ice_case():
    assert tia_f_ice_speed(fastest_mile=80.0) == pytest.approx(
        expected("tia_f_ice_speed"), abs=0.005
    )
    iced, words = replace(RATING, ice=0.0127).gust_with_ice
    # 70 x 0.866 = 60.6 fastest mile, 74.2 mph as a 3 s gust.
    assert iced / MPH == pytest.approx(1.05 * 70.0 * 0.75**0.5 + 10.5, rel=1e-12)
    assert "0.75 of the pressure" in told(words)
    assert replace(RATING, ice_gust=18.0).gust_with_ice == (18.0, "")


def test_a_rating_is_read_with_its_own_rules():
    """By hand: 0.00256 x 1.1863 x 70^2 x 1.2009 is 17.87 psf, the site's 23.58 psf.

    Read as a 3 s gust of 84 mph with the later growth, the rated pressure would be 20.54 psf, and
    104 % would stand where 119 % is true.
    """
    site = WindBasis(
        speed=NominalSpeed(gust=90.0 * MPH), edition="ASCE 7-05", exposure="C", topography=1.0
    )
    later = replace(RATING, edition="TIA-222-G", speed=84.0 * MPH, averaging="3 s gust")
    share = (
        1.04
        / rated_area(
            basis=site,
            rating=later,
            areas=[AreaAtHeight(area=1.0, height=60.0 * FOOT)],
        ).pressure_ratio
    )
    found = rated_area(
        basis=site,
        rating=RATING,
        areas=[AreaAtHeight(area=share, height=60.0 * FOOT)],
        structure_height=60.0 * FOOT,
    )
    assert found.pressure_ratio == pytest.approx(23.58 / 17.87, rel=2e-3)
    assert found.demand / found.capacity == pytest.approx(1.19, abs=0.006)
    assert "31.3 m/s" in told(found.text)
    assert "GH 1.201 of TIA-222-F (from memory (tia-222-f))" in told(found.text)


def test_a_taller_tower_is_less_gusty():
    low, _ = rated_pressure(rating=RATING)
    tall, _ = rated_pressure(rating=RATING, structure_height=200.0 * FOOT)
    assert tall / low == pytest.approx(expected("tia_f_gh_200") / expected("tia_f_gh_60"), rel=1e-3)


def test_a_gust_given_for_that_edition_becomes_a_fastest_mile():
    rating = replace(RATING, speed=84.0 * MPH, averaging="3 s gust")
    mile, words = rated_pressure(rating=rating)
    assert mile == pytest.approx(rated_pressure(rating=RATING)[0], rel=1e-9)
    assert "from 37.6 m/s 3 s gust" in told(words)
