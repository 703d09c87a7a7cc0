"""Minimum strengths: ASTM B221 extruded and B210 drawn aluminium (published)."""

from __future__ import annotations

import pytest
from structure_reference import INCH, KSI, expected

from boomwright.parts import MATERIALS

ROWS = ("6061-T6", "6005A-T61", "6005A-T5", "6063-T6", "6063-T5")


@pytest.mark.parametrize(("row", "name"), list(enumerate(ROWS)))
def test_extruded_minimums(row, name):
    assert len(ROWS) == len(expected("alloy_extruded"))
    material = MATERIALS[name]
    found = [material.yield_strength / KSI, material.ultimate_strength / KSI]
    assert found == pytest.approx(expected("alloy_extruded")[row], rel=5e-3)


@pytest.mark.parametrize(
    ("row", "inches"), [(0, 0.025), (0, 0.035), (0, 0.049), (1, 0.050), (1, 0.058), (1, 0.250)]
)
def test_drawn_6063_t832_by_wall(row, inches):
    found = MATERIALS["6063-T832"].minimum_yield(wall=inches * INCH)
    assert found / 1e6 == pytest.approx(expected("alloy_t832")[row], rel=1e-12)


def test_a_wall_outside_the_thin_row_takes_the_lower_figure():
    alloy = MATERIALS["6063-T832"]
    assert (
        alloy.minimum_yield(wall=0.0) == alloy.yield_strength == min(expected("alloy_t832")) * 1e6
    )
    # Drawn 6061-T6 has one row for every wall: 241 MPa.
    for wall in (0.0, 0.9e-3, 3e-3):
        assert MATERIALS["6061-T6"].minimum_yield(wall=wall) == 241e6
