"""Driven earth rods (derived) and NFPA 70 section 810.58 least conductors (published)."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, INCH, expected

from boomwright.structure import REMINDERS, rod_resistance


def test_one_rod():
    given = {"resistivity": 100.0, "length": 8.0 * FOOT, "radius": 0.3125 * INCH}
    assert rod_resistance(**given) == pytest.approx(expected("rod_r")[0], abs=0.1)


def test_least_conductors():
    told = [item.text for each in REMINDERS for item in each.items if item.source == "nec-810-58"]
    assert all(f"{size} AWG" in told[0] for size in expected("nec_810_58"))
