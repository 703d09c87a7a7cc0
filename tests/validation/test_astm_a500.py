"""ASTM A500 round structural tube, minimum yields (published)."""

from __future__ import annotations

import pytest
from structure_reference import KSI, expected

from boomwright.structure import MAST_STEELS


def test_grades_b_and_c():
    found = [MAST_STEELS[f"A500 {grade} round"].yield_strength / KSI for grade in "BC"]
    assert found == pytest.approx(expected("steel_a500"), rel=1e-12)
    assert all(MAST_STEELS[f"A500 {grade} round"].known == "published" for grade in "BC")
