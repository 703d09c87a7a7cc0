"""Guys: published notes and worked values, equilibrium of three guys, pulse, sagging guy."""

from __future__ import annotations

from math import cos, hypot, radians

import pytest
from structure_reference import FOOT, POUND, expected

from boomwright.structure import (
    STRANDS,
    GuyedMast,
    GuyLevel,
    SideLoad,
    Strand,
    guy_compression,
    least_pretension,
    pretensioned_change,
    sagging_share,
    sagging_tensions,
    scan_wind,
    solve_guyed_mast,
    tension_from_pulse,
    tension_straight,
    tension_worst,
)
from boomwright.structure.guys import INITIAL_SHARE

LOAD = 4448.2
QUARTER = STRANDS["1/4 in EHS"]


def _ring(**more):
    given = {"height": 10.0, "anchor_radius": 10.0, "strand": QUARTER} | more
    return GuyLevel(**given)


def test_side_force_of_a_thousand_pounds():
    # Published guy note, printed to the pound.
    found = [tension_straight(load=1000.0, angle=radians(a)) for a in (45.0, 70.0)]
    assert found == pytest.approx(expected("guy_45"), abs=0.5)


def test_compression_of_three_guys():
    found = guy_compression(tensions=(440.0, 440.0, 440.0), angle=radians(60.0))
    assert found == pytest.approx(expected("guy_vertical"), abs=0.5)


def test_worst_direction_closed_form():
    found = tension_worst(load=1.0, angle=radians(45.0)) * cos(radians(45.0))
    assert found == pytest.approx(expected("guy_worst"), abs=5e-5)
    assert tension_worst(load=LOAD, angle=radians(45.0)) == pytest.approx(7263.9, abs=0.1)


def test_worst_direction_by_the_solver_with_every_direction_scanned():
    states = scan_wind(
        mast=GuyedMast(height=10.0, levels=(_ring(),)),
        loads=(SideLoad(height=10.0, force=LOAD),),
        step_deg=15.0,
    )
    worst = max(states, key=lambda state: max(state.tensions[0]))
    assert max(worst.tensions[0]) == pytest.approx(7263.9, abs=0.1)
    assert sorted(worst.tensions[0])[1] == pytest.approx(3631.9, abs=0.1)
    # Two guys stay taut in every direction but the one straight behind a single guy.
    for state in states:
        held = sum(tension > 1.0 for tension in state.tensions[0])
        assert held == (1 if state.wind_deg % 120.0 == 60.0 else 2)
        assert max(state.tensions[0]) >= LOAD / cos(radians(45.0)) - 0.1


def test_pretensioned_ring():
    gain, loss = pretensioned_change(load=LOAD, angle=radians(45.0))
    assert [gain, loss] == pytest.approx(expected("guy_pretensioned"), abs=0.1)
    state = solve_guyed_mast(
        mast=GuyedMast(height=10.0, levels=(_ring(initial_tension=6000.0),)),
        loads=(SideLoad(height=10.0, force=LOAD),),
        wind_deg=180.0,
    )
    assert [t - 6000.0 for t in state.tensions[0]] == pytest.approx([gain, loss, loss], abs=0.1)


def test_least_pretension_is_where_the_first_guy_slackens():
    least = least_pretension(load=LOAD, angle=radians(45.0))
    slack = []
    for share in (0.99, 1.01):
        states = scan_wind(
            mast=GuyedMast(height=10.0, levels=(_ring(initial_tension=share * least),)),
            loads=(SideLoad(height=10.0, force=LOAD),),
        )
        slack.append(max(state.slack for state in states))
    assert slack == [1, 0]


def test_tension_from_a_pulse():
    # Printed 500 with a rounded divisor; exact 500.4.
    found = tension_from_pulse(
        weight_per_length=56.6 / 250.0 * POUND / FOOT, length=100.0 * FOOT, time=0.75
    )
    assert found / POUND == pytest.approx(expected("guy_pulse"), abs=0.5)


def test_strand_breaking_strengths():
    # ASTM A475 table, EHS grade, seven wires.
    found = [STRANDS[f"{size} in EHS"].breaking_strength for size in ("1/8", "3/16", "1/4", "5/16")]
    assert [f / POUND for f in found] == pytest.approx(expected("a475_ehs"), rel=1e-12)
    assert [f / 1000.0 for f in found] == pytest.approx([8.140, 17.748, 29.581, 49.820], abs=1e-3)


def test_sagging_guy():
    found = sagging_tensions(
        out=24.0, up=30.0, unstretched=1.001 * hypot(24.0, 30.0),
        weight_per_length=1.76586, axial_stiffness=4.0758e6,
    )  # fmt: skip
    assert found == pytest.approx(expected("guy_catenary"), abs=0.002)


def test_sag_softens_a_guy():
    # Derived: 0.62 at 1 kN and 0.98 at 2.96 kN for 1/4 in strand, 24 m out.
    strand = Strand(
        name="1/4 in",
        breaking_strength=29581.0,
        weight_per_length=1.76586,
        axial_stiffness=4.0758e6,
    )
    found = [sagging_share(strand=strand, span=24.0, tension=t) for t in (1000.0, 2960.0)]
    assert found == pytest.approx([0.62, 0.98], abs=0.01)


def test_initial_tension_share_is_the_usual_tenth():
    # Common practice, no source.
    low, usual, high = INITIAL_SHARE
    assert usual == expected("initial_tension")
    assert 0.05 <= low < usual < high <= 0.15
