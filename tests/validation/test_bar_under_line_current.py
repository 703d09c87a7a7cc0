"""A line current across a round metal bar: the series behind the corrections for booms.

Magnetostatic boundary-value problem, derived for this check: the bar keeps the field of the
line current out; in axial wavenumber t and angular order m the outside answers with K_m, the
inside of a tube with I_m. Above the bar f = 1/2 int t^-2 exp(-2 t h/R) sum eps_m I_m'/|K_m'| dt
(eps_0 = 1, else 2), with 3 R/(8 h) far away, which is the polarisability of a bar, 2 pi R^2
across and pi R^2 along. Through its middle the sums run over odd orders.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import ellipe, ive, ivp, kve, kvp

from boomwright.base import VACUUM_PERMEABILITY
from boomwright.parts import Element, Mount, TubeSection
from boomwright.solver import mount_effect

RADIUS = 0.02
FAR_AWAY = 1e6  # wavelength [m]: static


def lost(mount, *, radius, length=1.0):
    """Inductance that the package takes away, in radii of the boom."""
    half = (TubeSection(diameter=2 * radius, length=length / 2),)
    element = Element(role="director", position=0.0, half=half, mount=mount)
    effect = mount_effect(element=element, wavelength=FAR_AWAY)
    return -effect.inductance / (VACUUM_PERMEABILITY * RADIUS)


def above(apart):
    def integrand(t):
        total = 0.0
        for order in range(200):
            rising, falling = ivp(order, t), abs(kvp(order, t))
            if rising == 0.0 or not np.isfinite(falling) or falling > 1e300:
                break
            term = (1 if order == 0 else 2) * rising / falling
            total += term
            if order > 2 and term < 1e-13 * total:
                break
        return total * np.exp(-2 * t * apart) / t**2

    return 0.5 * quad(integrand, 1e-8, 200 / apart, limit=400)[0]


@pytest.mark.parametrize("apart", [1.15, 1.3, 1.6, 2.0, 2.7, 4.0, 7.0])
def test_current_above_a_bar(apart):
    radius = 0.05 * RADIUS
    clearance = (apart - 1.0) * RADIUS - radius
    mount = Mount(kind="insulated above", boom=(2 * RADIUS,), clearance=clearance)
    assert lost(mount, radius=radius) == pytest.approx(above(apart), rel=5e-3)


def test_far_above_a_bar_it_is_a_polarised_one():
    mount = Mount(kind="insulated above", boom=(2 * RADIUS,), clearance=0.79)
    assert lost(mount, radius=0.19) == pytest.approx(3.0 / (8.0 * 50.0), rel=2e-3)


def turned_aside():
    """What a tube turns aside outside and inside of a current through its middle, in radii."""
    nodes, weights = np.polynomial.legendre.leggauss(400)
    angle, weights = (nodes + 1) * np.pi / 4, weights * np.pi / 4
    total = np.zeros(2)
    steps, scale = np.polynomial.legendre.leggauss(60)
    for low, high in ((-14, -2), (-2, 1), (1, 3), (3, 6)):
        for log_t, weight in zip(low + (high - low) * (steps + 1) / 2, scale, strict=True):
            t = np.exp(log_t)
            falling = np.sin(angle) * np.exp(-t * np.sin(angle)) * weights
            for order in range(1, 41, 2):
                share = 4 / np.pi * (falling * np.sin(order * angle)).sum()
                outside = 2 * kve(order, t) / (kve(order - 1, t) + kve(order + 1, t))
                inside = 2 * ive(order, t) / (ive(order - 1, t) + ive(order + 1, t))
                total += share**2 / 4 * np.array([outside, inside]) * weight * (high - low) / 2
    return total


def taken(share):
    """Field energy of the current inside the bar outside the wire, in radii of the bar."""
    whole = 2 / np.pi**2 * quad(lambda k: ellipe(k**2) / k, share, 1)[0]
    # Beyond the bar's radius from the wire only the part of the bar along its own axis is left.
    rest = quad(
        lambda r: 2 / np.pi**2 / r
        * quad(lambda q: np.sqrt(1 - (r * np.sin(q)) ** 2), 0, np.arcsin(1 / r))[0],
        1, 400, limit=200,
    )[0]  # fmt: skip
    return whole + rest + 1 / (2 * np.pi * 400)


@pytest.mark.parametrize("share", [0.1, 0.3, 0.6])
def test_current_bonded_through_a_bar(share):
    outside, _ = turned_aside()
    mount = Mount(kind="bonded through", boom=(2 * RADIUS,))
    assert lost(mount, radius=share * RADIUS) == pytest.approx(taken(share) + outside, rel=2e-3)


def test_current_insulated_through_a_thin_tube():
    mount = Mount(kind="insulated through", boom=(2 * RADIUS, 1e-7), hole=0.0081)
    assert lost(mount, radius=0.004) == pytest.approx(turned_aside().sum(), rel=2e-3)


def test_a_thick_wall_comes_near_to_bonding():
    bonded = lost(Mount(kind="bonded through", boom=(2 * RADIUS,)), radius=0.004)
    walls = [
        lost(Mount(kind="insulated through", boom=(2 * RADIUS, wall), hole=0.0084), radius=0.004)
        for wall in (0.001, 0.004, 0.01, 0.0199)
    ]
    assert walls == sorted(walls)
    assert walls[-1] < bonded
    assert walls[-1] == pytest.approx(bonded, rel=0.05)
