"""ANSI/TIA-222-G 2.6.7: gust factors of lattice, pole and what stands on another structure."""

from __future__ import annotations

from structure_reference import expected

from boomwright.structure.weather.gust import ON_STRUCTURE_GUST, POLE_GUST


def test_pole_and_pole_on_another_structure():
    assert expected("tia_g_pole_gh") == POLE_GUST
    assert expected("tia_g_on_structure_gh") == ON_STRUCTURE_GUST
