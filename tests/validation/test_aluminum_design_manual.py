"""Aluminum Association specification: factors 1.65 on yield and 1.95 on rupture (published)."""

from __future__ import annotations

import pytest
from structure_reference import KSI, expected

from boomwright.structure import allowable_stress


def test_allowable_tension_of_6061_t6():
    by_yield = allowable_stress(yield_strength=35.0 * KSI, steel=False)
    both = allowable_stress(yield_strength=35.0 * KSI, ultimate=38.0 * KSI, steel=False)
    found = [by_yield.value / KSI, both.value / KSI]
    assert found == pytest.approx(expected("adm_allowable"), abs=0.05)
    assert by_yield.kind == both.kind == "nominal"
