"""Turning radius inside guys, g (h - a) / h, with a worked example given in public (1997)."""

from __future__ import annotations

from math import cosh, sinh

import numpy as np
import pytest
from scipy.optimize import brentq
from structure_reference import FOOT

from boomwright.structure import GuyLevel
from boomwright.structure.support.clearance import SweptPoints, guy_radius, guy_room, guy_sag
from boomwright.structure.support.guys import STRANDS


def ring(height, radius, **more):
    return GuyLevel(
        height=height * FOOT, anchor_radius=radius * FOOT, strand=STRANDS["1/4 in EHS"], **more
    )


def test_the_worked_example():
    # 100 ft tower, anchors 80 ft out, antenna at 51 ft: 39.2 ft allowable turning radius.
    allowed = guy_radius(level=ring(100.0, 80.0), height=51.0 * FOOT)
    assert allowed / FOOT == pytest.approx(39.2, rel=1e-9)


def test_a_fifteen_metre_beam_at_45_ft():
    # Guys held at 55 ft and anchored 81 ft out pass 45 ft at 81 x 10 / 55 = 14.73 ft.
    guys = ring(55.0, 81.0)
    assert guy_radius(level=guys, height=45.0 * FOOT) / FOOT == pytest.approx(14.727, abs=1e-3)
    tip = SweptPoints(names=("tip",), reach=np.array([14.5 * FOOT]), height=np.array([45.0 * FOOT]))
    room = guy_room(level=guys, boom_height=45.0 * FOOT, swept=tip)
    assert room.below
    # It needs its reach and what is kept free.
    assert room.needed == pytest.approx(14.5 * FOOT + 0.5, rel=1e-12)
    assert room.use > 1.0


def test_sag_brings_the_guy_closer_as_a_real_catenary_does():
    # A catenary between the same ends whose pull along the chord is the initial tension.
    guys = ring(100.0, 80.0, initial_tension=1500.0)
    out, up = guys.anchor_radius, guys.height
    weight, chord = guys.strand.weight_per_length, guys.length
    scale = 1500.0 * (out / chord) / weight

    def rise(start):
        return scale * (cosh((start + out) / scale) - cosh(start / scale)) - up

    start = brentq(rise, -5.0 * out, 50.0 * out)
    middle = scale * (cosh((start + out / 2.0) / scale) - cosh(start / scale))
    drop = up / 2.0 - middle
    assert scale * (sinh((start + out) / scale) - sinh(start / scale)) > chord
    sag = guy_sag(level=guys, weight_per_length=weight)
    assert sag == pytest.approx(drop * out / chord, rel=0.01)
    # At half its height the straight guy passes 40 ft; the sagging one is closer by drop / slope.
    height = up / 2.0
    closer = out / 2.0 - guy_radius(level=guys, height=height, sag=sag)
    assert closer == pytest.approx(drop * out / up, rel=0.01)
    below = scale * (cosh((start + out / 2.0 + closer) / scale) - cosh(start / scale))
    assert below == pytest.approx(height, rel=0.01)


def test_a_guy_of_unknown_tension_sags_as_the_loosest_usual_one():
    # 8 % of 6650 lbf; common practice.
    loose = guy_sag(level=ring(100.0, 80.0), weight_per_length=1.77)
    assert loose == pytest.approx(
        guy_sag(
            level=ring(100.0, 80.0, initial_tension=0.08 * 6650.0 * 4.4482216152605),
            weight_per_length=1.77,
        ),
        rel=1e-9,
    )


def test_anchors_below_the_foot_narrow_the_room():
    flat, low = ring(100.0, 80.0), ring(100.0, 80.0, anchor_height=-10.0)
    at = 51.0 * FOOT
    # 80 x 49 / (100 + 10 / 0.3048) ft, by the same similar triangles.
    expected = 80.0 * FOOT * 49.0 * FOOT / (100.0 * FOOT + 10.0)
    assert guy_radius(level=low, height=at) == pytest.approx(expected, rel=1e-12)
    assert guy_radius(level=low, height=at) < guy_radius(level=flat, height=at)
