"""Guys: published notes and worked values, equilibrium of three guys, pulse, sagging guy."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, pi, radians, sin, sqrt

import pytest
from structure_reference import FOOT, POUND, expected, solve_guyed_mast

from boomwright.plan.doubts import GUY_RADIUS, RING_SPACING
from boomwright.structure import GuyLevel, Strand
from boomwright.structure.faults import BucklesError
from boomwright.structure.support.guy_solver import (
    GuyedMast,
    guyed_course,
    scan_wind,
)
from boomwright.structure.support.guys import (
    INITIAL_SHARE,
    STRANDS,
    ring_stiffness,
    sagging_share,
    tension_worst,
)
from boomwright.structure.support.held_beam import SideLoad
from catenary import sagging_tensions

LOAD = 4448.2
QUARTER = STRANDS["1/4 in EHS"]


def _ring(**more):
    given = {"height": 10.0, "anchor_radius": 10.0, "strand": QUARTER} | more
    return GuyLevel(**given)


def test_worst_direction_closed_form():
    found = tension_worst(load=1.0, angle=radians(45.0)) * cos(radians(45.0))
    assert found == pytest.approx(expected("guy_worst"), abs=5e-5)
    assert tension_worst(load=LOAD, angle=radians(45.0)) == pytest.approx(7263.9, abs=0.1)


@pytest.mark.parametrize(
    ("lower", "upper"),
    [({}, {}), ({"count": 4}, {"count": 4}), ({}, {"first_azimuth": radians(40.0)})],
)
def test_a_scan_gives_in_each_direction_what_that_direction_alone_gives(lower, upper):
    rings = (
        _ring(height=5.0, initial_tension=900.0, **lower),
        _ring(initial_tension=900.0, **upper),
    )
    mast = GuyedMast(height=10.0, levels=rings, bending_stiffness=2e5, weight_above=lambda _: 800.0)
    given = {"mast": mast, "loads": (SideLoad(height=10.0, force=LOAD / 4.0),)}
    states = scan_wind(**given, step_deg=30.0)
    assert [state.wind_deg for state in states] == [30.0 * number for number in range(12)]
    for state in states:
        alone = solve_guyed_mast(**given, wind_deg=state.wind_deg)
        assert state.pulls == pytest.approx(alone.pulls, rel=1e-9)
        for ring, held in zip(state.tensions, alone.tensions, strict=True):
            assert ring == pytest.approx(held, rel=1e-9, abs=1e-6)


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
    gain, loss = expected("guy_pretensioned")
    state = solve_guyed_mast(
        mast=GuyedMast(height=10.0, levels=(_ring(initial_tension=6000.0),)),
        loads=(SideLoad(height=10.0, force=LOAD),),
        wind_deg=180.0,
    )
    assert [t - 6000.0 for t in state.tensions[0]] == pytest.approx([gain, loss, loss], abs=0.1)


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
        mass_per_length=0.180068,
        axial_stiffness=4.0758e6,
    )
    found = [sagging_share(strand=strand, span=24.0, tension=t) for t in (1000.0, 2960.0)]
    assert found == pytest.approx([0.62, 0.98], abs=0.01)


def _stiff(**more):
    # Guys so stiff that their points hold, tight enough to stay taut, on a pinned mast.
    return replace(
        _ring(height=10.0, anchor_radius=10.0, initial_tension=1e6), **more,
        strand=replace(QUARTER, axial_stiffness=1e12),
    )  # fmt: skip


def test_moment_and_shear_along_a_mast_with_two_rings():
    # Two spans of 10 m and a free top of 2 m, 100 N/m of wind, 500 N on top: three-moment equation.
    mast = GuyedMast(height=22.0, levels=(_stiff(), _stiff(height=20.0)), bending_stiffness=1e6)
    given = {"loads": (SideLoad(height=22.0, force=500.0),), "line_load": lambda _z: 100.0}
    states = scan_wind(mast=mast, **given)
    course = guyed_course(mast=mast, states=states, **given)
    at = {round(float(z), 6): i for i, z in enumerate(course.heights)}
    assert course.moment[at[20.0]] == pytest.approx(expected("guy_m_top"), rel=1e-6)
    assert course.moment[at[10.0]] == pytest.approx(-expected("guy_m_mid"), rel=1e-3)
    assert course.shear[0] == pytest.approx(expected("guy_r_base"), rel=1e-3)
    # Met between two nodes: up to half a percent of it is cut.
    assert course.most_moment(0.0, 9.0) == pytest.approx(expected("guy_m_span"), rel=5e-3)
    # What the rings hold, from the tensions of the guys along the wind.
    held = [
        sum(t * cos(level.angle) * -cos(a) for t, a in zip(ring, level.azimuths, strict=True))
        for ring, level in zip(states[0].tensions, mast.levels, strict=True)
    ]
    assert held == pytest.approx([expected("guy_r_mid"), expected("guy_r_top")], rel=2e-3)
    down = sum(3e6 * sin(level.angle) for level in mast.levels)
    assert course.compression[0] == pytest.approx(down, rel=1e-3)


def test_guys_that_give_are_held_against_points_that_hold():
    mast = GuyedMast(
        height=22.0,
        levels=tuple(_ring(height=h, initial_tension=4000.0) for h in (10.0, 20.0)),
        bending_stiffness=2e5,
    )
    given = {"loads": (SideLoad(height=22.0, force=500.0),), "line_load": lambda _z: 100.0}
    states = scan_wind(mast=mast, **given)
    course = guyed_course(mast=mast, states=states, **given)
    at_ring = int(abs(course.heights - 10.0).argmin())
    soft = max(float(state.moments[at_ring]) for state in states)
    assert course.moment[at_ring] == pytest.approx(max(soft, 950.0), rel=1e-3)
    assert all((course.moment >= state.moments - 1e-9).all() for state in states)


def test_the_moment_at_the_ring_of_a_long_free_top():
    """A 60 ft lattice with one ring at 30 ft, 115 mph (51.4 m/s) ultimate, 39.8 m/s nominal.

    Hand calculation: 9.144 m stand free above the ring. A beam of 1.2 m2 of drag in 960 Pa pulls
    with 1152 N, 0.25 m2 of drag a metre in 860 Pa with 215 N: 1152 x 9.144 + 215 x 9.144^2 / 2
    = 19.5 kN m, and 300 N more on a mast 0.9 m above the top 3.0 kN m: 22.5 kN m.
    """
    loads = (SideLoad(height=18.288, force=1152.0), SideLoad(height=19.188, force=300.0))
    mast = GuyedMast(
        height=18.288,
        levels=(_ring(height=9.144, anchor_radius=7.3, initial_tension=3000.0),),
    )
    given = {"loads": loads, "line_load": lambda _z: 215.0}
    course = guyed_course(mast=mast, states=scan_wind(mast=mast, **given), **given)
    assert float(max(course.moment)) == pytest.approx(22.5e3, rel=2e-3)
    assert course.heights[int(course.moment.argmax())] == pytest.approx(9.144, rel=1e-9)


def test_horizontal_stiffness_of_a_ring():
    level = _ring(
        height=30.0, anchor_radius=24.0, initial_tension=1e6,
        strand=replace(QUARTER, axial_stiffness=3.399e6),
    )  # fmt: skip
    assert ring_stiffness(level=level) / 1e3 == pytest.approx(expected("guy_ring_k3"), abs=0.05)
    soft = replace(level, initial_tension=1000.0)
    assert ring_stiffness(level=soft) < 0.8 * ring_stiffness(level=level)


def test_how_stiff_a_ring_must_be_for_a_pinned_mast():
    # pi^2 EI / L^3; a softer ring lets the mast fall over as a stiff bar at P = k L.
    ei, length = 55417.0, 12.0 * FOOT
    least = pi**2 * ei / length**3
    assert least / 1e3 == pytest.approx(expected("guy_k_min_2in"), abs=0.05)
    euler = pi**2 * ei / length**2

    def bears(weight, stiffness):
        # A ring of three at 45 degrees: 1.5 EA / L cos^2 a, almost without pull of its own.
        strand = replace(QUARTER, axial_stiffness=stiffness / 1.5 * 2.0 * length * sqrt(2.0))
        level = GuyLevel(height=length, anchor_radius=length, strand=strand, initial_tension=1e-3)
        mast = GuyedMast(
            height=length, levels=(level,), bending_stiffness=ei / 0.8,
            weight_above=lambda _z: weight / 1.6,
        )  # fmt: skip
        try:
            solve_guyed_mast(mast=mast, loads=(), wind_deg=0.0)
        except BucklesError:
            return False
        return True

    # Stiff enough: Euler's load decides. Half as stiff: the bar on its spring at half of it.
    assert bears(0.99 * euler, 1.05 * least)
    assert not bears(1.01 * euler, 1.05 * least)
    assert bears(0.49 * euler, 0.5 * least)
    assert not bears(0.51 * euler, 0.5 * least)


def test_initial_tension_share_is_the_usual_tenth():
    # Common practice, no source.
    low, usual, high = INITIAL_SHARE
    assert usual == expected("initial_tension")
    assert 0.05 <= low < usual < high <= 0.15


def test_usual_guy_radius_and_spacing():
    # An army mast and a 60 m wind mast are not doubted; half of the height and less is.
    low, high = GUY_RADIUS
    for name in ("guy_radius_army", "guy_radius_60m"):
        assert low < expected(name) < high
    assert expected("guy_radius_min") < low
    # Common practice: rings 30 to 40 ft apart, 10.5 m in the middle.
    assert expected("guy_level_spacing") < RING_SPACING
    assert pytest.approx(40.0 * FOOT, rel=1e-2) == RING_SPACING
