"""Bessel functions of orders 0 and 1 for arguments little off the real axis, quickly.

A general routine takes a microsecond for each complex argument, and the Sommerfeld integrals ask
for a million of them.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from boomwright.base.array_types import Complexes, Floats

#: below this real part the power series, from there on Taylor series from the real axis
_SERIES_BELOW = 2.0
#: terms after which the rest is rounding, for arguments of up to 2.6 and steps of up to 1.6
_SERIES_TERMS, _TAYLOR_TERMS = 20, 24
#: width of the cells whose middles series start from on the real axis, and terms from there
_GRID, _REAL_TERMS = 0.5, 14
#: from here on Hankel's expansions, of so many terms
_FAR, _HANKEL_TERMS = 30.0, 17


def bessel_pair(argument: Complexes) -> tuple[Complexes, Complexes]:
    """J0 and J1, within some units of the last place of one.

    Args:
        argument: real part from 0 on, imaginary part from -1.6 to 1.6 (any shape)
    """
    zero, one = np.empty_like(argument), np.empty_like(argument)
    small = argument.real < _SERIES_BELOW
    zero[small], one[small] = _power_series(argument[small])
    zero[~small], one[~small] = _from_real_axis(argument[~small])
    return zero, one


def _power_series(argument: Complexes) -> tuple[Complexes, Complexes]:
    """Sums of (-z^2/4)^k / k!^2, and z/2 times those over k! (k + 1)! {dlmf-10, eq. 10.2.2}."""
    square = -0.25 * argument**2
    term = np.ones_like(argument)
    zero, one = term.copy(), term.copy()
    for k in range(1, _SERIES_TERMS):
        term = term * square / k**2
        zero += term
        one += term / (k + 1)
    return zero, 0.5 * argument * one


def _from_real_axis(argument: Complexes) -> tuple[Complexes, Complexes]:
    """Taylor series of J0 and of J1 = -J0' along the imaginary direction.

    Bessel's equation, differentiated, gives each derivative from the three before it
    {dlmf-10, eq. 10.2.1}: x f(n+2) = -(n+1) f(n+1) - x f(n) - n f(n-1). Rounding grows no faster
    than the factors of the series fall, as long as the step is shorter than x.
    """
    place, step = argument.real, argument.imag
    here, fall = real_bessel_pair(place)
    before, after = np.zeros_like(place), -fall
    # Powers of i times step go round real, imaginary, minus real, minus imaginary.
    sums = np.zeros((2, 4, *place.shape))
    factor = np.ones_like(place)
    for order in range(_TAYLOR_TERMS):
        sums[0, order % 4] += factor * here
        sums[1, order % 4] += factor * after
        following = -((order + 1) * after + order * before) / place - here
        before, here, after = here, after, following
        factor = factor * step / (order + 1)
    zero, slope = ((each[0] - each[2]) + 1j * (each[1] - each[3]) for each in sums)
    return zero, -slope


def real_bessel_pair(argument: Floats) -> tuple[Floats, Floats]:
    """J0 and J1 of real arguments from 0 on, to some units of the last place of one (any shape).

    Taylor series from the nearest place of a grid, and far out Hankel's expansions {dlmf-10,
    eq. 10.17.5}.
    """
    near = argument < _FAR
    zero, one = np.empty_like(argument), np.empty_like(argument)
    series = _near_series()
    cell = (argument[near] / _GRID).astype(int)
    step = argument[near] - _GRID * (cell + 0.5)
    value, slope = series[-1][cell], np.zeros_like(step)
    for coefficients in series[-2::-1]:
        slope = slope * step + value
        value = value * step + coefficients[cell]
    zero[near], one[near] = value, -slope
    far = argument[~near]
    inverse, phase = 1.0 / far, far - 0.25 * np.pi
    level, cosine, sine = np.sqrt(2.0 / (np.pi * far)), np.cos(phase), np.sin(phase)
    for order, found, ahead, aside in ((0, zero, cosine, sine), (1, one, sine, -cosine)):
        term = np.ones_like(far)
        sums = [term.copy(), np.zeros_like(far)]
        for k in range(1, _HANKEL_TERMS):
            # Powers of i go round; each step of the product has the sign of its own.
            ratio = (4 * order**2 - (2 * k - 1) ** 2) / (8 * k) * (-1 if k % 2 == 0 else 1)
            term = term * (ratio * inverse)
            sums[k % 2] += term
        found[~near] = level * (ahead * sums[0] - aside * sums[1])
    return zero, one


@lru_cache(maxsize=1)
def _near_series() -> Floats:
    """Taylor coefficients of J0 about the middles of the grid (n_terms, n_cells).

    The first two by Bessel's integral {dlmf-10, eq. 10.9.1}, in as many steps as leave out nothing.
    """
    place = _GRID * (np.arange(int(_FAR / _GRID)) + 0.5)
    sines = np.sin((np.arange(32) + 0.5) * (np.pi / 64.0))
    phase = place[:, None] * sines
    here, after = np.cos(phase).mean(axis=1), -np.sin(phase) @ sines / 32.0
    before, factor, found = np.zeros_like(place), 1.0, []
    for order in range(_REAL_TERMS):
        found.append(here / factor)
        before, here, after = here, after, -((order + 1) * after + order * before) / place - here
        factor *= order + 1
    return np.array(found)
