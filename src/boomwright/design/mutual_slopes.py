"""Mutual fields of parallel elements with their exact slopes in spacing and half lengths."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from itertools import combinations
from typing import Any

import numpy as np

from boomwright.base import VACUUM_IMPEDANCE, read_only
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.element_response import POLYNOMIALS, projection

#: smallest spacing in wavelengths that so many Gauss points on each half element resolve to
#: 0.003 ohm of a beam's feed-point impedance, found by trial with three to six elements
_RESOLVED = ((8, 0.10), (12, 0.07), (16, 0.055), (24, 0.045), (36, 0.028))
#: closest spacing in wavelengths that parallel elements can be searched at
CLOSEST_WL = _RESOLVED[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beside:
    """Elements of other beams, numbered behind those of an array."""

    count: int  #: how many they are
    rises: Any  #: heights of all elements, those of the array first [m] (n_elements,)
    closest_wl: float  #: smallest distance to any of them, in wavelengths, to be resolved [-]
    #: projected field between any two of them, where they keep their places among each other; None
    #: where they do not [ohm m^-2] (1, f, n_pairs, POLYNOMIALS, POLYNOMIALS)
    still: Any = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MutualSlopes:
    """Mutual blocks of all pairs first < second and how they change."""

    field: Any  #: projected field [ohm m^-2] (b, f, n_pairs, POLYNOMIALS, POLYNOMIALS)
    #: its slope in the distance of the pair; None when slopes were not wanted [ohm m^-3] (same
    #: shape)
    by_spacing: Any = None
    by_first: Any = None  #: in the half length of its first element [ohm m^-3] (same shape)
    by_second: Any = None  #: in the half length of its second element [ohm m^-3] (same shape)


def pairs_of(count: int) -> tuple[list[int], list[int]]:
    """Number all pairs of elements."""
    pairs = list(combinations(range(count), 2))
    return [first for first, _ in pairs], [second for _, second in pairs]


def points_for(*, spacing_wl: float) -> int:
    """Choose the number of Gauss points on each half of two elements.

    Args:
        spacing_wl: smallest spacing that must be resolved, in wavelengths [-]
    """
    for points, resolved in _RESOLVED:
        if spacing_wl >= resolved * (1.0 - 1e-9):
            return points
    return _RESOLVED[-1][0]


def mutual_slopes(
    *,
    wavenumbers: Any,
    positions: Any,
    half_lengths: Any,
    closest_wl: float,
    beside: Beside | None = None,
    around_first: bool = False,
    slopes: bool = True,
    xp: Any = np,
) -> MutualSlopes:
    """Project the field of each element on each other one, with slopes {balanis-2005, eq. 4-8}.

    With s the squared sine of the angle to the axis and p = k r, the axial field of an axial
    dipole is proportional to F = e^(-jp)/r (s + (2 - 3 s)/p^2 + j (2 - 3 s)/p), and
    dF/dd = e^(-jp) d/r^3 (4 - 6 s - 3 (4 - 5 s)/p^2 - j (p s + 3 (4 - 5 s)/p)) across the axis,
    dF/dz = e^(-jp) z/r^3 Q, Q = 2 - 6 s - 3 (2 - 5 s)/p^2 - j (p s + 3 (2 - 5 s)/p), along it.

    Args:
        wavenumbers: [rad/m] (f,)
        positions: places along the boom, rising [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)
        closest_wl: smallest spacing of neighbours that must be resolved, in wavelengths [-]
        beside: the last elements, of other beams; None for elements on one boom, in its order
        around_first: whether all designs have the places of the first and nearly its half lengths:
            only the first is integrated, the others follow by its second derivatives
        slopes: whether slopes are wanted, which most of the time goes to
    """
    count = positions.shape[1]
    here, there = _integrated(count, beside)
    groups: dict[int, list[int]] = {}
    for pair, (one, two) in enumerate(zip(here, there, strict=True)):
        points = _points_of(one, two, closest_wl=closest_wl, beside=beside)
        groups.setdefault(points, []).append(pair)
    higher = np.zeros(len(here)) if beside is None else beside.rises[there] - beside.rises[here]
    integrated = slice(0, 1 if around_first else None)
    parts = [
        _group(
            wavenumbers,
            positions[integrated, [there[pair] for pair in group]]
            - positions[integrated, [here[pair] for pair in group]],
            xp.asarray(higher[group]),
            half_lengths[integrated, [here[pair] for pair in group]],
            half_lengths[integrated, [there[pair] for pair in group]],
            number,
            2 if around_first else int(slopes),
            xp,
        )
        for number, group in groups.items()
    ]
    found = parts[0]
    if len(parts) > 1:
        order = xp.asarray(np.argsort(np.concatenate(list(groups.values()))))
        found = [xp.concat(each, axis=2)[:, :, order] for each in zip(*parts, strict=True)]
    if around_first:
        off = half_lengths - half_lengths[:1]
        found = _around(found, off[:, here], off[:, there], xp)
    if beside is not None and beside.still is not None:
        found = _with_still(found, beside.still, xp)
    if not slopes:
        return MutualSlopes(field=found[0])
    return MutualSlopes(field=found[0], by_spacing=found[1], by_first=found[2], by_second=found[3])


def _integrated(count: int, beside: Beside | None) -> tuple[list[int], list[int]]:
    """Pairs that are integrated: all but those whose field is known, which come last."""
    here, there = pairs_of(count)
    known = 0 if beside is None or beside.still is None else beside.still.shape[2]
    return here[: len(here) - known], there[: len(there) - known]


def _points_of(one: int, two: int, *, closest_wl: float, beside: Beside | None) -> int:
    """Gauss points for a pair: neighbours need more than two with another one between them."""
    if beside is not None and two >= len(beside.rises) - beside.count:
        return points_for(spacing_wl=beside.closest_wl)
    return points_for(spacing_wl=closest_wl if two - one == 1 else 2.0 * closest_wl)


def _with_still(found: list[Any], still: Any, xp: Any) -> list[Any]:
    """Blocks with those that never change, and do not change with anything, behind them."""
    shape = (found[0].shape[0], *still.shape[1:])
    same, none = xp.broadcast_to(xp.asarray(still), shape), xp.zeros(shape, dtype=still.dtype)
    return [
        xp.concat([each, none if number else same], axis=2) for number, each in enumerate(found)
    ]


def _group(
    wavenumbers: Any,
    along: Any,
    higher: Any,
    first: Any,
    second: Any,
    points: int,
    order: int,
    xp: Any,
) -> list[Any]:
    """Blocks and slopes of some pairs, given spacing along the boom, rise and half lengths.

    Returns:
        field; from ``order`` 1 on slopes in spacing, first and second half length; of 2 then
        the second derivatives in first, first and second, second half length, in spacing and
        first, and in spacing and second
    """
    nodes, outer = _projection(points)
    unit, outer_on = xp.asarray(nodes), xp.asarray(outer)
    here_unit, there_unit = unit[:, None], unit[None, :]
    distance = xp.sqrt(along * along + higher * higher)
    apart = distance[:, None, :, None, None]
    share = (along / distance)[:, None, :, None, None]
    here = first[:, None, :, None, None] * here_unit
    there = second[:, None, :, None, None] * there_unit
    numbers = xp.asarray(wavenumbers)[None, :, None, None, None]
    # The even current of the other half shows as a second term with the sum of the places.
    pairs = _kernel(order, xp)(apart, xp.stack([here - there, here + there]), numbers)

    def projected(combined: Callable[[Any, Any], Any], number: int) -> Any:
        real, imaginary = (
            xp.matmul(xp.reshape(combined(near, far), (-1, points**2)), outer_on)
            for near, far in pairs[number : number + 2]
        )
        shape = (along.shape[0], len(wavenumbers), along.shape[1], POLYNOMIALS, POLYNOMIALS)
        return xp.reshape(1j * real - imaginary, shape) * numbers

    found = [projected(lambda near, far: near + far, 0)]
    if order > 0:
        found += [
            projected(lambda near, far: (near + far) * share, 2),
            projected(lambda near, far: (near + far) * here_unit, 4),
            projected(lambda near, far: (far - near) * there_unit, 4),
        ]
    if order > 1:
        found += [
            projected(lambda near, far: (near + far) * here_unit**2, 6),
            projected(lambda near, far: (far - near) * (here_unit * there_unit), 6),
            projected(lambda near, far: (near + far) * there_unit**2, 6),
            projected(lambda near, far: (near + far) * (here_unit * share), 8),
            projected(lambda near, far: (far - near) * (there_unit * share), 8),
        ]
    return found


@cache
def _projection(points: int) -> tuple[Floats, Floats]:
    """Gauss points on half an element, and what projects from those on two of them."""
    nodes, weights = projection(points)
    outer = np.einsum("ai,bj->ijab", weights, weights).reshape(points**2, -1)
    return read_only(nodes), read_only(outer * (VACUUM_IMPEDANCE / (4.0 * np.pi)))


def _around(found: Sequence[Any], first: Any, second: Any, xp: Any) -> list[Any]:
    """Blocks and slopes of designs near one, from its blocks, slopes and second derivatives.

    Args:
        found: as :func:`_group` gives them, of one design
        first: how far the half lengths of the first elements are off it [m] (b, n_pairs)
        second: of the second elements [m] (b, n_pairs)
    """
    field, by_spacing, by_first, by_second, *bends = found
    one, two = (xp.permute_dims(each, (1, 0))[:, :, None] for each in (first, second))
    same = xp.ones_like(one)
    half = xp.concat([0.5 * one * one, one * two, 0.5 * two * two], axis=2)
    once = xp.concat([same, one, two], axis=2)
    terms = (
        (xp.concat([once, half], axis=2), (field, by_first, by_second, *bends[:3])),
        (once, (by_spacing, *bends[3:])),
        (once, (by_first, bends[0], bends[1])),
        (once, (by_second, bends[1], bends[2])),
    )
    frequencies = field.shape[1]

    def summed(weights: Any, blocks: Sequence[Any]) -> Any:
        pairs = field.shape[2]
        # (pair, term, frequency and polynomials), complex numbers as two real ones.
        flat = xp.permute_dims(xp.concat(blocks, axis=0), (2, 0, 1, 3, 4))
        flat = xp.reshape(flat, (pairs, len(blocks), -1))
        real, imaginary = xp.matmul(weights, flat.real), xp.matmul(weights, flat.imag)
        shape = (pairs, -1, frequencies, POLYNOMIALS, POLYNOMIALS)
        return xp.permute_dims(xp.reshape(real + 1j * imaginary, shape), (1, 2, 0, 3, 4))

    return [summed(*each) for each in terms]


@cache
def _kernel(order: int, xp: Any) -> Any:
    """Axial field of an axial dipole and its derivatives.

    A function of the spacing, the place along the axis and the wavenumber that gives real and
    imaginary part of the field, from ``order`` 1 on of the slopes across and along the axis, of 2
    of the second derivatives along it, and along and across it. One fused operation where the
    namespace can fuse.
    """

    def kernel(apart: Any, along: Any, numbers: Any) -> tuple[Any, ...]:
        across = apart * apart
        squared = across + along * along
        inverse = 1.0 / xp.sqrt(squared)
        sine = across / squared
        phase = numbers * (squared * inverse)
        near = 1.0 / phase
        near2 = near * near
        swing = phase * sine
        cosine, turned = xp.cos(phase) * inverse, xp.sin(phase) * inverse

        def wave(real: Any, imaginary: Any, factor: Any) -> tuple[Any, Any]:
            # e^(-jp)/r (real + j imaginary) times the factor.
            return (
                (cosine * real + turned * imaginary) * factor,
                (cosine * imaginary - turned * real) * factor,
            )

        middle = 2.0 - 3.0 * sine
        wide, slim = 12.0 - 15.0 * sine, 6.0 - 15.0 * sine
        field = wave(sine + near2 * middle, near * middle, 1.0)
        if order == 0:
            return field
        steep = inverse * inverse
        real, imaginary = 2.0 - 6.0 * sine - near2 * slim, -(swing + near * slim)
        found = (
            *field,
            *wave(4.0 - 6.0 * sine - near2 * wide, -(swing + near * wide), steep * apart),
            *wave(real, imaginary, steep * along),
        )
        if order == 1:
            return found
        # (-3 - jp) Q + p dQ/dp, and s dQ/ds.
        turn_real = phase * imaginary - 3.0 * real + 2.0 * near2 * slim
        turn_imaginary = -phase * real - 3.0 * imaginary - swing + near * slim
        lean_real = sine * (15.0 * near2 - 6.0)
        lean_imaginary = 15.0 * near * sine - swing
        back = 1.0 - sine
        return (
            *found,
            *wave(
                real + back * (turn_real - 2.0 * lean_real),
                imaginary + back * (turn_imaginary - 2.0 * lean_imaginary),
                steep,
            ),
            *wave(
                sine * turn_real + 2.0 * back * lean_real,
                sine * turn_imaginary + 2.0 * back * lean_imaginary,
                steep * along / apart,
            ),
        )

    fuse = getattr(xp, "fuse", None)
    return kernel if fuse is None else fuse(kernel)
