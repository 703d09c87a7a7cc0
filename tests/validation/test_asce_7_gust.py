"""ASCE 7-16 section 26.11: two printed worked sheets, and poles by own arithmetic (published)."""

from __future__ import annotations

import pytest
from structure_reference import expected

from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.gust import BARE_POLE_DAMPING, STEEL_DAMPING, flexible_gust_factor

#: printed to three figures
SHEET = 5e-4

TALL = flexible_gust_factor(
    exposure="B", gust=40.5, height=183.0, breadth=30.5, depth=30.5, frequency_hz=0.2, damping=0.01
)
WIDE = flexible_gust_factor(
    exposure="D",
    gust=57.0,
    height=11.45,
    breadth=64.0,
    depth=94.299,
    frequency_hz=1.0 / 1.51,
    damping=0.02,
)


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("gf_a_vz", TALL.mean_speed),
        ("gf_a_lz", TALL.length),
        ("gf_a_n", TALL.reduced_frequency),
        ("gf_a_rn", TALL.spectrum),
        ("gf_a_rh", TALL.height_admittance),
        ("gf_a_r", TALL.resonance),
        ("gf_a_gr", TALL.resonant_peak),
        ("gf_a_gf", TALL.value),
        ("gf_b_vz", WIDE.mean_speed),
        ("gf_b_lz", WIDE.length),
        ("gf_b_n", WIDE.reduced_frequency),
        ("gf_b_q", WIDE.background),
        ("gf_b_gr", WIDE.resonant_peak),
        ("gf_b_rn", WIDE.spectrum),
        ("gf_b_r", WIDE.resonance),
        ("gf_b_gf", WIDE.value),
    ],
)
def test_the_steps_of_two_printed_sheets(row, found):
    # Printed to three decimals.
    assert found == pytest.approx(expected(row), abs=6e-4, rel=1e-4)


@pytest.mark.parametrize(
    ("row", "damping"), [("gf_pole_5", 0.005), ("gf_pole_10", 0.01), ("gf_pole_20", 0.02)]
)
def test_a_bare_pole_of_fifteen_metres(row, damping):
    found = flexible_gust_factor(
        exposure="C",
        gust=40.0,
        height=15.0,
        breadth=0.1,
        depth=0.1,
        frequency_hz=0.7,
        damping=damping,
    )
    assert found.value == pytest.approx(expected(row), abs=SHEET)


def test_usual_damping():
    assert expected("damp_bare_pole") == BARE_POLE_DAMPING
    # 1 % of steel by the commentary.
    assert STEEL_DAMPING == 0.01


def test_no_sway_is_refused():
    with pytest.raises(StructureInputError, match="no sway"):
        flexible_gust_factor(
            exposure="C", gust=40.0, height=15.0, breadth=0.1, depth=0.1, frequency_hz=2e-4,
            damping=0.01,
        )  # fmt: skip
