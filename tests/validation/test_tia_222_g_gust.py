"""ANSI/TIA-222-G 2.6.7: gust factors of lattice, pole and what stands on another structure."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, expected

from boomwright.structure import ON_STRUCTURE_GUST, POLE_GUST, tia_g_lattice_gust


@pytest.mark.parametrize(("row", "feet"), [("tia_g_gh_450", 450.0), ("tia_g_gh_600", 600.0)])
def test_lattice(row, feet):
    assert tia_g_lattice_gust(height=feet * FOOT) == pytest.approx(expected(row), rel=1e-9)


def test_lattice_beyond_its_ends():
    assert tia_g_lattice_gust(height=20.0) == 0.85
    assert tia_g_lattice_gust(height=250.0) == 1.0


def test_pole_and_pole_on_another_structure():
    assert expected("tia_g_pole_gh") == POLE_GUST
    assert expected("tia_g_on_structure_gh") == ON_STRUCTURE_GUST
