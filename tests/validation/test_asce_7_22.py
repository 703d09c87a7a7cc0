"""ASCE 7-22 table 26.10-1 constants (published, as used in open code)."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, MPH, expected

from boomwright.structure import UltimateSpeed, WindBasis
from boomwright.structure.weather.wind import exposure_coefficient, velocity_pressure


def test_coefficient_at_the_gradient_height():
    found = exposure_coefficient(height=2460.0 * FOOT, exposure="C", edition="ASCE 7-22")
    assert found == pytest.approx(expected("kz_722_constants"), rel=1e-12)


def test_it_differs_from_the_older_law_by_five_percent_at_most():
    for exposure in "BCD":
        for feet in (15.0, 30.0, 60.0, 100.0, 200.0):
            old, new = (
                exposure_coefficient(height=feet * FOOT, exposure=exposure, edition=edition)
                for edition in ("ASCE 7-16", "ASCE 7-22")
            )
            assert new == pytest.approx(old, rel=0.055)


def test_directionality_multiplies_the_force_and_not_the_pressure():
    # From memory: 7-22 moves the factor out of the pressure.
    pressures = [
        velocity_pressure(
            basis=WindBasis(
                speed=UltimateSpeed(gust=115 * MPH), edition=edition, exposure="C", topography=1.0
            ),
            height=20.0,
        )
        for edition in ("ASCE 7-16", "ASCE 7-22")
    ]
    older, newer = pressures
    assert older.value == older.for_force
    assert newer.for_force == pytest.approx(0.95 * newer.value, rel=1e-12)
