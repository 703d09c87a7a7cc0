"""International Building Code 1609: nominal and fastest-mile speeds (partly from memory)."""

from __future__ import annotations

import pytest
from structure_reference import MPH, expected

from boomwright.structure import UltimateSpeed
from boomwright.structure.weather.basis import (
    fastest_mile_from_gust,
    gust_from_fastest_mile,
    nominal_from_ultimate,
    ultimate_from_nominal,
)


def test_nominal_from_ultimate():
    # 89.08 exact; the public calculation prints 90, hence one mph.
    nominal = nominal_from_ultimate(UltimateSpeed(gust=115.0 * MPH))
    assert nominal.gust / MPH == pytest.approx(89.08, abs=0.01)
    assert nominal.gust / MPH == pytest.approx(expected("wind_vasd"), abs=1.0)
    assert ultimate_from_nominal(nominal).gust == pytest.approx(115.0 * MPH, rel=1e-12)


def test_fastest_mile():
    found = fastest_mile_from_gust(90.0 * MPH)
    assert found / MPH == pytest.approx(expected("wind_fastest_mile"), abs=1.0)
    assert gust_from_fastest_mile(found) == pytest.approx(90.0 * MPH, rel=1e-12)


@pytest.mark.parametrize(
    ("row", "mile"),
    [
        ("fm_ibc_70", 70.0),
        ("fm_ibc_75", 75.0),
        ("fm_ibc_80", 80.0),
        ("fm_ibc_85", 85.0),
        ("fm_ibc_90", 90.0),
        ("fm_ibc_100", 100.0),
        ("fm_ibc_105", 105.0),
        ("fm_ibc_110", 110.0),
        ("fm_ibc_120", 120.0),
        ("fm_ibc_125", 125.0),
        ("fm_ibc_130", 130.0),
        ("fm_ibc_140", 140.0),
        ("fm_ibc_150", 150.0),
    ],
)
def test_the_table_lies_a_little_above_the_formula(row, mile):
    # Rounded to 5 mph; a rating read by the formula is the lower one, which is the safe side.
    found = gust_from_fastest_mile(mile * MPH) / MPH
    assert 0.0 <= expected(row) - found <= 5.5


@pytest.mark.parametrize(
    ("row", "gust"),
    [
        ("fm_formula_90", 90.0),
        ("fm_formula_110", 110.0),
        ("fm_formula_130", 130.0),
        ("fm_formula_150", 150.0),
    ],
)
def test_the_formula(row, gust):
    assert fastest_mile_from_gust(gust * MPH) / MPH == pytest.approx(expected(row), abs=0.05)


def test_against_the_curve_of_averaging_times():
    # 80 mph lasts 45 s: 1.28 of the hourly mean, a 3 s gust 1.53 of it.
    assert pytest.approx(expected("fm_graph_80"), abs=0.05) == 80.0 * 1.53 / 1.28
    found = gust_from_fastest_mile(80.0 * MPH) / MPH
    assert found == pytest.approx(expected("fm_graph_80"), rel=0.02)
