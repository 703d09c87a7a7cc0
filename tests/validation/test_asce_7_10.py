"""ASCE/SEI 7-10 chapter 29 worked notebook and tables (published), formulas by the edition."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, expected

from boomwright.structure.weather.wind import exposure_coefficient


@pytest.mark.parametrize(("row", "feet"), [(0, 15.0), (1, 20.0), (2, 25.0)])
def test_low_rows_of_the_exposure_table(row, feet):
    # The table is rounded or cut off, hence 0.006.
    for column, exposure in enumerate("BCD"):
        found = exposure_coefficient(height=feet * FOOT, exposure=exposure, edition="ASCE 7-10")
        assert found == pytest.approx(expected("kz_table_low")[row][column], abs=0.006)


def test_below_fifteen_feet_the_coefficient_stands_still():
    low, edge = (
        exposure_coefficient(height=z, exposure="C", edition="ASCE 7-10") for z in (0.0, 15 * FOOT)
    )
    assert low == edge


def test_exposure_c_at_thirty_feet():
    for edition in ("ASCE 7-10", "ASCE 7-16", "ASCE 7-22"):
        found = exposure_coefficient(height=30 * FOOT, exposure="C", edition=edition)
        assert found == pytest.approx(expected("kz_c_30"), abs=0.005)


def test_exposures_at_a_hundred_feet():
    # Derived from the constants of the table.
    for exposure, value in zip("BCD", expected("kz_formula_100"), strict=True):
        found = exposure_coefficient(height=100 * FOOT, exposure=exposure, edition="ASCE 7-10")
        assert found == pytest.approx(value, abs=5e-4)
