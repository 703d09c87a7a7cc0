"""Minimum strengths: ASTM B221 extruded and B210 drawn aluminium (published)."""

from __future__ import annotations

import pytest
from structure_reference import KSI, expected

from boomwright.parts import MATERIALS


@pytest.mark.parametrize(
    ("row", "name"), [(0, "6061-T6"), (1, "6005A-T61"), (3, "6063-T6"), (4, "6063-T5")]
)
def test_extruded_minimums(row, name):
    material = MATERIALS[name]
    found = [material.yield_strength / KSI, material.ultimate_strength / KSI]
    assert found == pytest.approx(expected("alloy_extruded")[row], rel=5e-3)


def test_drawn_6063_t832_takes_the_lower_of_both_walls():
    assert MATERIALS["6063-T832"].yield_strength / 1e6 == pytest.approx(
        min(expected("alloy_t832")), rel=1e-12
    )
