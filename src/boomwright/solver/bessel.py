"""Bessel functions of orders 0 and 1 for arguments little off the real axis, quickly.

A general routine takes a microsecond for each complex argument, and the Sommerfeld integrals ask
for a million of them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]

#: below this real part the power series, from there on Taylor series from the real axis
_SERIES_BELOW = 2.0
#: terms after which the rest is rounding, for arguments of up to 2.6 and steps of up to 1.6
_SERIES_TERMS, _TAYLOR_TERMS = 20, 24


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
    from scipy.special import j0, j1

    place, step = argument.real, argument.imag
    before, here, after = np.zeros_like(place), j0(place), -j1(place)
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
