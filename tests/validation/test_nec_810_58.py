"""NFPA 70 section 810.58: least conductors of earthing (published)."""

from __future__ import annotations

from structure_reference import expected

from boomwright.structure.reminders import REMINDERS


def test_least_conductors():
    told = [item.text for each in REMINDERS for item in each.items if item.source == "nec-810-58"]
    assert all(f"{size} AWG" in told[0] for size in expected("nec_810_58"))
