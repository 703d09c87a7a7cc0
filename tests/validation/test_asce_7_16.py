"""ASCE/SEI 7-16 chapter 10: ice. The density is published, the growth with height from memory."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, INCH, POUND, expected

from boomwright.structure import IceBasis
from boomwright.structure.weather.ice import LEAST_ICE_DENSITY, IceCoat, design_ice_thickness


def test_least_density():
    assert (
        pytest.approx(expected("ice_density_min"), rel=1e-6)
        == LEAST_ICE_DENSITY * FOOT**3 * 9.80665 / POUND
    )
    assert IceBasis(thickness=0.01).density == pytest.approx(LEAST_ICE_DENSITY, rel=1e-3)


def test_half_an_inch_on_a_one_inch_tube():
    coat = IceCoat(thickness=0.5 * INCH, density=LEAST_ICE_DENSITY)
    pounds_per_foot = coat.mass_per_length(diameter=INCH) * 9.80665 / POUND * FOOT
    assert pounds_per_foot == pytest.approx(expected("ice_1in_tube"), abs=1e-4)


def test_growth_with_height():
    # From memory; 50-year maps of 7-05 and 7-10 double it.
    found = {
        edition: design_ice_thickness(map_thickness=0.5 * INCH, height=70.0 * FOOT, edition=edition)
        / INCH
        for edition in ("ASCE 7-16", "ASCE 7-22", "ASCE 7-10", "ASCE 7-05")
    }
    assert found["ASCE 7-16"] == pytest.approx(expected("ice_height"), abs=1e-3)
    assert found["ASCE 7-22"] == found["ASCE 7-16"]
    assert found["ASCE 7-10"] == pytest.approx(1.078, abs=1e-3)
    assert found["ASCE 7-05"] == found["ASCE 7-10"]
