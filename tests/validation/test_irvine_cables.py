"""Hanging guys: the flat parabola against the elastic catenary, closed forms and energy."""

from __future__ import annotations

from math import cos, hypot

import numpy as np
import pytest
from structure_reference import expected, solve_guyed_mast

from boomwright.base import STANDARD_GRAVITY
from boomwright.structure import GuyLevel
from boomwright.structure.support.guy_laws import CableLaw, unstretched_length
from boomwright.structure.support.guy_solver import GuyedMast
from boomwright.structure.support.guys import STRANDS, GuyLoad, sagging_share
from boomwright.structure.support.held_beam import SideLoad
from catenary import sagging_tensions

OUT, UP = 24.0, 30.0
CHORD = hypot(OUT, UP)
WEIGHT, AXIAL = 1.76586, 4.0758e6


def law(*, load, tension, strand_load=WEIGHT * OUT / CHORD):
    one = np.ones(1)
    length = unstretched_length(
        chord=CHORD * one, axial_stiffness=AXIAL * one, load=strand_load * one,
        tension=tension * one,
    )  # fmt: skip
    return CableLaw(
        chord=CHORD * one, axial_stiffness=AXIAL * one, unstretched=length, load=load * one
    )


def test_mid_tension_of_the_sagging_guy_lies_between_the_published_ends():
    # Same guy: 24 m out, 30 m up, 1.001 times its chord; ends by elastic catenary.
    top, foot = expected("guy_catenary")
    one = np.ones(1)
    hung = CableLaw(
        chord=CHORD * one, axial_stiffness=AXIAL * one, unstretched=1.001 * CHORD * one,
        load=WEIGHT * OUT / CHORD * one,
    )  # fmt: skip
    found = float(hung.pull(np.zeros(1)).tension[0])
    # A guy of 1/4 in pulled with under a hundredth of its strength: the flat parabola is 0.7 % low.
    assert found == pytest.approx((top + foot) / 2.0, rel=8e-3)
    # Half the weight of its height more at the top.
    assert found + WEIGHT * UP / 2.0 == pytest.approx(top, rel=8e-3)


@pytest.mark.parametrize("ice", [0.0, 4.0, 15.0])
@pytest.mark.parametrize("tension", [800.0, 3000.0])
def test_ice_draws_the_guy_as_the_catenary_says(ice, tension):
    # Tensioned bare, then loaded: the same unstretched length in the independent formula.
    heavy = WEIGHT + ice
    hung = law(load=heavy * OUT / CHORD, tension=tension)
    found = float(hung.pull(np.zeros(1)).tension[0])
    ends = sagging_tensions(
        out=OUT, up=UP, unstretched=float(hung.unstretched[0]), weight_per_length=heavy,
        axial_stiffness=AXIAL,
    )  # fmt: skip
    assert found + heavy * UP / 2.0 == pytest.approx(ends[0], rel=5e-3)


@pytest.mark.parametrize("tension", [1000.0, 2960.0])
def test_its_stiffness_at_rest_is_the_softened_one(tension):
    strand = STRANDS["1/4 in EHS"]
    hung = law(load=WEIGHT * OUT / CHORD, tension=tension)
    found = float(hung.pull(np.zeros(1)).slope[0])
    share = sagging_share(
        strand=type(strand)(
            name="x", breaking_strength=1.0, mass_per_length=WEIGHT / STANDARD_GRAVITY,
            axial_stiffness=AXIAL,
        ),
        span=OUT, tension=tension,
    )  # fmt: skip
    assert found == pytest.approx(share * AXIAL / CHORD, rel=2e-3)


def test_energy_and_tension_agree():
    hung = law(load=8.0, tension=1500.0)
    step = 1e-4
    for growth in (-0.05, 0.0, 0.03):
        low, high = (hung.pull(np.array([growth + s])) for s in (-step, step))
        tension = float(hung.pull(np.array([growth])).tension[0])
        assert (high.energy - low.energy) / (2 * step) == pytest.approx(tension, rel=1e-5)
        slope = float(hung.pull(np.array([growth])).slope[0])
        rise = float(high.tension[0] - low.tension[0]) / (2 * step)
        assert rise == pytest.approx(slope, rel=1e-4)


def test_a_mast_on_hanging_guys_is_in_balance():
    level = GuyLevel(
        height=16.0, anchor_radius=12.0, strand=STRANDS["1/4 in EHS"], initial_tension=3000.0
    )
    mast = GuyedMast(
        height=18.0, levels=(level,), bending_stiffness=2e6,
        guy_loads=(GuyLoad(weight_per_length=12.0, wind_per_length=20.0),),
    )  # fmt: skip
    still = solve_guyed_mast(
        mast=GuyedMast(height=18.0, levels=(level,), bending_stiffness=2e6,
                       guy_loads=(GuyLoad(weight_per_length=12.0),)),
        loads=(), wind_deg=0.0,
    )  # fmt: skip
    # No wind: three equal pulls, and the mast carries the vertical parts of the upper ends.
    assert still.drift == pytest.approx(0.0, abs=1e-9)
    assert max(still.tensions[0]) == pytest.approx(min(still.tensions[0]), rel=1e-9)
    windy = solve_guyed_mast(mast=mast, loads=(SideLoad(height=18.0, force=2000.0),), wind_deg=40.0)
    # Moments about the pinned foot: 2000 N at 18 m and half of each guy's wind at 16 m are held
    # by the foot's shear only through the guys, so shear times height closes the balance.
    assert windy.base_shear == pytest.approx(2000.0 * (18.0 / 16.0 - 1.0), rel=1e-4)
    assert windy.moment == pytest.approx(2000.0 * 2.0, rel=1e-4)
    assert windy.compression > still.compression


def test_wind_along_a_guy_does_not_press_it():
    level = GuyLevel(
        height=1e-3, anchor_radius=10.0, strand=STRANDS["1/4 in EHS"], initial_tension=3000.0
    )
    from boomwright.structure.support.guy_rings import guys_of

    load = GuyLoad(weight_per_length=0.0, wind_per_length=50.0)
    guys = guys_of(levels=(level,), loads=(load,), heights=np.array([0.0, 1e-3]))
    wind = np.array([1.0, 0.0, 0.0])
    first, second, _ = (np.linalg.norm(guy.force_per_length(wind)) for guy in guys)
    assert first == pytest.approx(0.0, abs=1e-3)
    # 120 degrees round: sin^2 of it.
    assert second == pytest.approx(50.0 * (1.0 - cos(2.0943951) ** 2), rel=1e-4)
