"""EN 1990 and its material parts: factors on loads and strengths (published, or from memory)."""

from __future__ import annotations

import pytest
from structure_reference import expected

from boomwright.parts import EDGE_LEAST
from boomwright.structure import partial_factors
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.partial_factors import (
    ALUMINIUM_FACTOR,
    ALUMINIUM_RUPTURE,
    GUY_MATERIAL_FACTOR,
    HOLDING_FACTOR,
    STEEL_FACTOR,
    PartialFactors,
    design_strength,
    service_strength,
)
from fakes.told import told


def test_factors_on_loads():
    found = partial_factors()
    assert [found.permanent, found.wind] == expected("en_1990_factors")
    assert expected("en_1990_holding") == HOLDING_FACTOR
    assert found.holding == pytest.approx(1.5 / 0.9, rel=1e-12)


def test_classes_of_masts():
    for number, (permanent, wind) in enumerate(expected("en_1993_3_1_classes"), start=1):
        found = partial_factors(reliability_class=number)
        assert (found.permanent, found.wind) == (permanent, wind)
        assert f"class {number}, from memory (en-1993-3-1)" in told(found.source)
    assert expected("en_1993_3_1_guys") == GUY_MATERIAL_FACTOR
    with pytest.raises(StructureInputError, match="use 1, 2 or 3"):
        partial_factors(reliability_class=4)


def test_a_factor_of_a_national_annex():
    found = partial_factors(reliability_class=3, wind_factor=1.1)
    assert (found.permanent, found.wind) == (1.1, 1.1)
    with pytest.raises(StructureInputError, match="1 or more"):
        PartialFactors(wind=0.9)


def test_strengths():
    assert expected("en_1993_1_1_factors") == [STEEL_FACTOR, STEEL_FACTOR]
    assert expected("en_1999_1_1_factors") == [ALUMINIUM_FACTOR, ALUMINIUM_RUPTURE]
    # The least edge distance of a hole, from memory of its table 8.2.
    assert EDGE_LEAST >= 1.2
    steel = design_strength(yield_strength=235e6, steel=True)
    assert (steel.value, steel.kind) == (235e6, "design")
    # 6061-T6: 241 / 1.1 is 219, 262 / 1.25 is 210.
    alloy = design_strength(yield_strength=241e6, steel=False, ultimate=262e6)
    assert alloy.value == pytest.approx(262e6 / 1.25, rel=1e-12)
    assert "rupture" in told(alloy.rule)
    soft = design_strength(yield_strength=110e6, steel=False, ultimate=205e6)
    assert soft.value == pytest.approx(100e6, rel=1e-12)


def test_strengths_against_wind_without_its_factor():
    factors = partial_factors(reliability_class=2)
    below = service_strength(factors=factors, yield_strength=235e6, steel=True)
    assert below.kind == "characteristic"
    assert below.value == pytest.approx(235e6 / 1.4, rel=1e-12)
    assert "factor on wind 1.4" in told(below.rule)
