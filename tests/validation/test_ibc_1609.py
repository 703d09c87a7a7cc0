"""International Building Code 1609: nominal and fastest-mile speeds (partly from memory)."""

from __future__ import annotations

import pytest
from structure_reference import MPH, expected

from boomwright.structure import (
    UltimateSpeed,
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
