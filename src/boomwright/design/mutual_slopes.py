"""Mutual fields of parallel elements with their exact slopes in spacing and half lengths."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import combinations
from typing import Any

import numpy as np

from boomwright.base import VACUUM_IMPEDANCE
from boomwright.solver.element_response import POLYNOMIALS, projection

#: smallest spacing in wavelengths that so many Gauss points on each half element resolve to
#: 0.003 ohm of a beam's feed-point impedance, found by trial with three to six elements
_RESOLVED = ((8, 0.10), (12, 0.07), (16, 0.055), (24, 0.045), (36, 0.028))
#: closest spacing in wavelengths that parallel elements can be searched at
CLOSEST_WL = _RESOLVED[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MutualSlopes:
    """Mutual blocks of all pairs first < second and how they change."""

    field: Any  #: projected field [ohm m^-2] (b, f, n_pairs, POLYNOMIALS, POLYNOMIALS)
    by_spacing: Any  #: its slope in the distance of the pair [ohm m^-3] (same shape)
    by_first: Any  #: its slopes in the half lengths of the two elements [ohm m^-3] (same shape)
    by_second: Any  #: its slopes in the half lengths of the two elements [ohm m^-3] (same shape)


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
    rises: Any = None,
    xp: Any = np,
) -> MutualSlopes:
    """Project the field of each element on each other one, with slopes {balanis-2005, eq. 4-8}.

    With s the squared sine of the angle to the axis and p = k r, the axial field of an axial
    dipole is proportional to F = e^(-jp)/r (s + (2 - 3 s)/p^2 + j (2 - 3 s)/p), and
    dF/dd = e^(-jp) d/r^3 (4 - 6 s - 3 (4 - 5 s)/p^2 - j (p s + 3 (4 - 5 s)/p)) across the axis,
    dF/dz = e^(-jp) z/r^3 (2 - 6 s - 3 (2 - 5 s)/p^2 - j (p s + 3 (2 - 5 s)/p)) along it.

    Args:
        wavenumbers: [rad/m] (f,)
        positions: places along the boom, rising [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)
        closest_wl: smallest spacing of neighbours that must be resolved, in wavelengths [-]
        rises: heights of the elements against each other; None for elements on one boom, in its
            order [m]
            (n_elements,)
    """
    first, second = pairs_of(positions.shape[1])
    # Neighbours need more points than elements with another one between them.
    points = [points_for(spacing_wl=closest_wl), points_for(spacing_wl=2.0 * closest_wl)]
    groups: list[list[int]] = [[], []]
    for pair, (one, two) in enumerate(zip(first, second, strict=True)):
        near = points[0] == points[1] or two - one == 1 or rises is not None
        groups[0 if near else 1].append(pair)
    higher = np.zeros(len(first)) if rises is None else rises[second] - rises[first]
    parts = [
        _group(
            wavenumbers,
            positions[:, [second[pair] for pair in group]]
            - positions[:, [first[pair] for pair in group]],
            xp.asarray(higher[group]),
            half_lengths[:, [first[pair] for pair in group]],
            half_lengths[:, [second[pair] for pair in group]],
            count,
            xp,
        )
        for group, count in zip(groups, points, strict=True)
        if group
    ]
    if len(parts) == 1:
        return MutualSlopes(
            field=parts[0][0], by_spacing=parts[0][1], by_first=parts[0][2], by_second=parts[0][3]
        )
    order = xp.asarray(np.argsort(np.array(groups[0] + groups[1])))
    field, by_spacing, by_first, by_second = (
        xp.concat([one, two], axis=2)[:, :, order] for one, two in zip(*parts, strict=True)
    )
    return MutualSlopes(field=field, by_spacing=by_spacing, by_first=by_first, by_second=by_second)


def _group(
    wavenumbers: Any, along: Any, higher: Any, first: Any, second: Any, points: int, xp: Any
) -> tuple[Any, Any, Any, Any]:
    """Blocks and slopes of some pairs, given spacing along the boom, rise and half lengths."""
    nodes, weights = projection(points)
    unit = xp.asarray(nodes)
    here_unit, there_unit = unit[:, None], unit[None, :]
    distance = xp.sqrt(along * along + higher * higher)
    apart = distance[:, None, :, None, None]
    share = (along / distance)[:, None, :, None, None]
    here = first[:, None, :, None, None] * here_unit
    there = second[:, None, :, None, None] * there_unit
    numbers = xp.asarray(wavenumbers)[None, :, None, None, None]
    # The even current of the other half shows as a second term with the sum of the places.
    near = _kernel(xp)(apart, here - there, numbers)
    far = _kernel(xp)(apart, here + there, numbers)
    by_here = (near[2] + far[2]) * here_unit
    by_there = (far[2] - near[2]) * there_unit
    outer = np.einsum("ai,bj->ijab", weights, weights).reshape(points**2, -1)
    outer_on = xp.asarray(outer * (1j * VACUUM_IMPEDANCE / (4.0 * np.pi)))

    def projected(values: Any) -> Any:
        flat = xp.reshape(values, (-1, points**2))
        shape = (*values.shape[:3], POLYNOMIALS, POLYNOMIALS)
        return xp.reshape(xp.matmul(flat, outer_on), shape) * numbers

    return (
        projected(near[0] + far[0]),
        projected((near[1] + far[1]) * share),
        projected(by_here),
        projected(by_there),
    )


@cache
def _kernel(xp: Any) -> Any:
    """Axial field of an axial dipole with its slopes across and along the axis.

    A function of the spacing, the place along the axis and the wavenumber; one fused operation
    where the namespace can fuse.
    """

    def kernel(apart: Any, along: Any, numbers: Any) -> tuple[Any, Any, Any]:
        across = apart * apart
        squared = across + along * along
        inverse = 1.0 / xp.sqrt(squared)
        sine = across / squared
        phase = numbers * (squared * inverse)
        near = 1.0 / phase
        near2 = near * near
        wave = (xp.cos(phase) - 1j * xp.sin(phase)) * inverse
        middle = 2.0 - 3.0 * sine
        field = wave * ((sine + near2 * middle) + 1j * (near * middle))
        steep = wave * (inverse * inverse)
        swing = phase * sine
        wide = 4.0 - 5.0 * sine
        slim = 2.0 - 5.0 * sine
        by_apart = (steep * apart) * (
            (4.0 - 6.0 * sine - 3.0 * near2 * wide) - 1j * (swing + 3.0 * near * wide)
        )
        by_along = (steep * along) * (
            (2.0 - 6.0 * sine - 3.0 * near2 * slim) - 1j * (swing + 3.0 * near * slim)
        )
        return field, by_apart, by_along

    fuse = getattr(xp, "fuse", None)
    return kernel if fuse is None else fuse(kernel)
