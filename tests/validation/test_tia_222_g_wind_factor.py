"""ANSI/TIA-222-G: 1.2 D + 1.0 Dg + 1.6 Wo, as quoted in tower reports (published)."""

from __future__ import annotations

import pytest
from structure_reference import expected

from boomwright.structure import NominalSpeed, StructureInputs, WindBasis
from boomwright.structure.checks.findings import site_loads
from boomwright.structure.weather.gust import TIA_G_WIND_FACTOR
from boomwright.structure.weather.wind import velocity_pressure
from fakes.told import check_structure, told


def test_strength_design_with_a_nominal_speed_takes_the_factor_once():
    assert expected("tia_g_wind_factor") == TIA_G_WIND_FACTOR
    wind = WindBasis(
        speed=NominalSpeed(gust=40.0), edition="TIA-222-G", exposure="C", topography=1.0
    )
    site = site_loads(inputs=StructureInputs(wind=wind, method="strength"))
    plain = velocity_pressure(basis=wind, height=15.0)
    factored = site.pressure(height=15.0)
    assert factored.kind == "ultimate"
    assert factored.for_force == pytest.approx(1.6 * plain.for_force, rel=1e-12)
    assert site.level == pytest.approx(1.6, rel=1e-12)
    assert "wind x 1.6" in told(factored.text)
    # Allowable stresses take none of it.
    allowable = site_loads(inputs=StructureInputs(wind=wind))
    assert allowable.pressure(height=15.0).for_force == plain.for_force
    assert check_structure(inputs=StructureInputs(wind=wind, method="strength")).ledger
