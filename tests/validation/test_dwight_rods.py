"""Driven earth rods (derived) and NFPA 70 section 810.58 least conductors (published)."""

from __future__ import annotations

import pytest
from structure_reference import FOOT, INCH, expected

from boomwright.structure import (
    LEAST_OPERATING_AWG,
    LEAST_PROTECTIVE_AWG,
    REMINDERS,
    rod_pair_resistance,
    rod_resistance,
)


def test_one_rod_and_a_pair():
    given = {"resistivity": 100.0, "length": 8.0 * FOOT, "radius": 0.3125 * INCH}
    found = [rod_resistance(**given), rod_pair_resistance(**given, spacing=16.0 * FOOT)]
    assert found == pytest.approx(expected("rod_r"), abs=0.1)


def test_least_conductors():
    assert expected("nec_810_58") == [LEAST_PROTECTIVE_AWG, LEAST_OPERATING_AWG]
    told = [item.text for each in REMINDERS for item in each.items if item.source == "nec-810-58"]
    assert all(f"{size} AWG" in told[0] for size in expected("nec_810_58"))
