"""Diffraction at the edge of a wedge: the uniform geometrical theory of diffraction.

Coefficients of {kouyoumjian-pathak-1974} for a perfect conductor; the reflection coefficients
of real ground are put in after {luebbers-1984}, at angles chosen anew. Angles run from the
0-face through the open side to the n-face at n pi.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.records import dataclass

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]
Reflection = Callable[[Real], Complex]


def transition_function(x: ArrayLike) -> Complex:
    """Transition function of the uniform theory.

    Args:
        x: argument, at least 0 [-] (any shape)

    Returns:
        F(x) = 2j sqrt(x) exp(jx) int_sqrt(x)^inf exp(-j t^2) dt {kouyoumjian-pathak-1974, eq.
        26} (same
            shape)
    """
    from scipy.special import modfresnelm

    root = np.sqrt(np.asarray(x, dtype=float))
    # The modified Fresnel integral carries exp(jx) already: no cancellation at large x.
    _, scaled = modfresnelm(root)
    return np.asarray(2j * root * math.sqrt(math.pi) * np.exp(-0.25j * math.pi) * scaled)


def _from_boundary(
    *, beta: ArrayLike, sign: int, n: ArrayLike, k_length: ArrayLike
) -> tuple[Real, Real, Real, Real]:
    """Arguments of a term: n, k L, k L a(beta), and the angle of its cotangent off the pole."""
    beta, n, k_length = np.broadcast_arrays(
        np.asarray(beta, float), np.asarray(n, float), np.asarray(k_length, float)
    )
    turns = np.round((sign * math.pi + beta) / (2.0 * math.pi * n))
    a = 2.0 * np.cos((2.0 * math.pi * n * turns - beta) / 2.0) ** 2
    angle = (math.pi + sign * beta) / (2.0 * n)
    off = np.remainder(angle + math.pi / 2, math.pi) - math.pi / 2
    return n, k_length, k_length * a, off


def _term(*, beta: ArrayLike, sign: int, n: ArrayLike, k_length: ArrayLike) -> Complex:
    """cot((pi + sign beta) / 2n) F(k L a(beta)), finite through the shadow boundary."""
    n, k_length, x, off = _from_boundary(beta=beta, sign=sign, n=n, k_length=k_length)
    # At the boundary the cotangent is infinite and F is zero: the limit of the product
    # {kouyoumjian-pathak-1974, eq. 33}.
    near = np.abs(off) < 1e-6
    far_value = transition_function(x) / np.tan(np.where(near, 1.0, off))
    quarter = np.exp(0.25j * math.pi)
    side = np.where(off >= 0.0, 1.0, -1.0)
    near_value = (
        n * (np.sqrt(2.0 * math.pi * k_length) * side - 4.0 * k_length * n * off * quarter)
    ) * quarter
    return np.asarray(np.where(near, near_value, far_value))


def _term_slope(*, beta: ArrayLike, sign: int, n: ArrayLike, k_length: ArrayLike) -> Complex:
    """Derivative of the term by beta, without its jump: {hwang-kouyoumjian-1974}.

    -(sign / 2n) csc^2((pi + sign beta) / 2n) F_s(k L a), F_s(x) = 2 j x (1 - F(x)).
    """
    n, k_length, x, off = _from_boundary(beta=beta, sign=sign, n=n, k_length=k_length)
    near = np.abs(off) < 1e-6
    slope_function = 2j * x * (1.0 - transition_function(x))
    # 1 - F loses its digits where F is 1: the leading terms of its series there.
    slope_function = np.where(x > 1e5, 1.0 + 1.5j / np.maximum(x, 1.0), slope_function)
    far_value = slope_function / np.sin(np.where(near, 1.0, off)) ** 2
    near_value = 4j * k_length * n * n
    return np.asarray(-sign / (2.0 * n) * np.where(near, near_value, far_value))


def _sine(angle: Real) -> Real:
    """Sine of an angle above a face; beyond either side of the face it counts as along it."""
    return np.asarray(np.sin(np.clip(angle, 0.0, math.pi)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaceWeights:
    """Weights of the four terms of the diffraction coefficient."""

    plain_plus: Complex  #: of the term in pi + (phi - phi') (any shape)
    plain_minus: Complex  #: of the term in pi - (phi - phi') (any shape)
    face_0: Complex  #: of the term with the reflection boundary of the 0-face (any shape)
    face_n: Complex  #: of the term with the reflection boundary of the n-face (any shape)


def face_weights(
    *, n: ArrayLike, incidence: ArrayLike, departure: ArrayLike, reflection: Reflection
) -> FaceWeights:
    """Put the reflection of the faces into the terms of the diffraction coefficient.

    Args:
        n: open angle of the wedge over pi [-] (any shape)
        incidence: angle of the direction to the source, from the 0-face [rad] (any shape)
        departure: angle of the direction to the observer, from the 0-face [rad] (any shape)
        reflection: reflection coefficient of the faces by grazing angle: -1 soft, +1 hard for a
            perfect
            conductor

    Notes:
        {luebbers-1984} takes one coefficient a face, at the grazing angle of one of the rays, and
        leaves the plain terms alone. Then the field does not vanish along real ground, source
        and observer cannot be exchanged, and a wedge opened flat still diffracts. Here, departing
        from it, each coefficient is taken at the angle whose sine is the harmonic mean of the
        two rays' sines: on a reflection boundary that is the angle of the geometrical reflection,
        and it goes to 0 with either ray, in proportion. In a valley the plain terms carry the
        boundaries of the double reflections, and get the product of the two coefficients met
        there in the same way.
    """
    full = math.pi * np.asarray(n, dtype=float)
    to, out = np.asarray(incidence, dtype=float), np.asarray(departure, dtype=float)
    valley = math.pi - full

    def mean(first: Real, second: Real) -> Complex:
        one, other = np.broadcast_arrays(_sine(first), _sine(second))
        total = one + other
        sine = np.divide(2.0 * one * other, total, out=np.zeros(total.shape), where=total > 0.0)
        return reflection(np.arcsin(np.minimum(sine, 1.0)))

    return FaceWeights(
        plain_plus=mean(to, out - full + valley) * mean(full - out, valley - to),
        plain_minus=mean(full - to, valley - out) * mean(out, to - full + valley),
        face_0=mean(to, out),
        face_n=mean(full - to, full - out),
    )


def wedge_coefficient(
    *,
    wavenumber: float,
    distance: ArrayLike,
    n: ArrayLike,
    incidence: ArrayLike,
    departure: ArrayLike,
    weights: FaceWeights,
    slope_by: Literal["incidence", "departure"] | None = None,
) -> Complex:
    """Diffraction coefficient of a wedge for incidence square to its edge, or its derivative.

    For the derivative the weights are held: how real ground's reflection varies within a degree
    of it is beyond the heuristic that puts them in.

    Args:
        wavenumber: 2 pi over the wavelength [rad/m]
        distance: distance parameter L = s s' / (s + s') [m] (any shape)
        n: open angle of the wedge over pi: 2 for a half-plane, below 1 in a valley [-] (any shape)
        incidence: angle of the direction to the source, from the 0-face [rad] (any shape)
        departure: angle of the direction to the observer, from the 0-face [rad] (any shape)
        slope_by: angle by which the derivative is taken; None for the coefficient

    Returns:
        coefficient D {kouyoumjian-pathak-1974, eq. 25}, the faces after {luebbers-1984} as
        changed in :func:`face_weights` [m^0.5], or its derivative {hwang-kouyoumjian-1974}
        [m^0.5/rad] (broadcast shape)
    """
    term = _term if slope_by is None else _term_slope
    # Incidence enters the plain terms with the other sign.
    turn = -1.0 if slope_by == "incidence" else 1.0
    k_length = wavenumber * np.asarray(distance, dtype=float)
    minus = np.asarray(departure, float) - np.asarray(incidence, float)
    plus = np.asarray(departure, float) + np.asarray(incidence, float)
    total = (
        turn * weights.plain_plus * term(beta=minus, sign=1, n=n, k_length=k_length)
        + turn * weights.plain_minus * term(beta=minus, sign=-1, n=n, k_length=k_length)
        + weights.face_0 * term(beta=plus, sign=-1, n=n, k_length=k_length)
        + weights.face_n * term(beta=plus, sign=1, n=n, k_length=k_length)
    )
    front = -np.exp(-0.25j * math.pi) / (2.0 * math.sqrt(2.0 * math.pi * wavenumber))
    return np.asarray(front * total / np.asarray(n, float))
