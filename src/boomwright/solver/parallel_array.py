"""Many designs of parallel elements at once: condensed elements and their mutual fields.

The leading axis of every array counts designs. Only operations that NumPy and the array
libraries of graphics processors share are used; the namespace is an argument.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, VACUUM_PERMEABILITY
from boomwright.solver.element_response import POLYNOMIALS, ElementFamily, projection

#: Gauss points on each half element for the mutual field: enough a tenth of a wavelength apart,
#: 12 are for 0.07, 16 for 0.055, 24 for 0.035 wavelengths
USUAL_POINTS = 8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArrayTables:
    """What a batch needs of its elements at one frequency."""

    frequency: float  #: frequency [Hz]
    #: Chebyshev series of each element's condensed impedance, [ohm] for the feed and [ohm m^-2]
    #: among polynomials (n_elements, terms, POLYNOMIALS + 1, POLYNOMIALS + 1)
    series: Any
    shortest: Any  #: range of half lengths of each element [m] (n_elements,)
    longest: Any  #: range of half lengths of each element [m] (n_elements,)
    driven: int  #: number of the driven element


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArrayFigures:
    """Figures of a batch of designs."""

    impedance: Any  #: feed-point impedance [ohm] (b,)
    #: current moments against the even polynomials for one volt [A m] (b, n_elements, POLYNOMIALS)
    moments: Any
    #: directivity-like gain towards and away from the heading over isotropic, losses included (b,)
    forward: Any
    #: directivity-like gain towards and away from the heading over isotropic, losses included (b,)
    backward: Any


def array_tables(
    *, families: tuple[ElementFamily, ...], driven: int, at: int, xp: Any = np
) -> ArrayTables:
    """Gather the tables of an array's elements at one of their frequencies.

    Args:
        families: family of each element, the driven one with its feed gap (n_elements,)
    """
    return ArrayTables(
        frequency=float(families[0].frequencies[at]),
        series=xp.asarray(np.stack([family.series[at] for family in families])),
        shortest=xp.asarray(np.array([family.shortest for family in families])),
        longest=xp.asarray(np.array([family.longest for family in families])),
        driven=driven,
    )


def array_figures(
    *,
    tables: ArrayTables,
    positions: Any,
    half_lengths: Any,
    points: int = USUAL_POINTS,
    xp: Any = np,
) -> ArrayFigures:
    """Solve a batch of designs.

    Args:
        positions: places along the boom [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)
    """
    own = condensed_at(tables=tables, half_lengths=half_lengths, xp=xp)
    mutual = mutual_fields(
        frequency=tables.frequency,
        positions=positions,
        half_lengths=half_lengths,
        points=points,
        xp=xp,
    )
    moments, current = _solve(tables, own, mutual, xp)
    wavenumber = 2.0 * np.pi * tables.frequency / SPEED_OF_LIGHT
    turn = xp.exp(1j * wavenumber * positions)
    # Both halves radiate: twice the half's moment against P0.
    ahead = 2.0 * (moments[:, :, 0] * turn).sum(1)
    behind = 2.0 * (moments[:, :, 0] / turn).sum(1)
    power = 0.5 * current.real
    density = (wavenumber * VACUUM_IMPEDANCE / (4.0 * np.pi)) ** 2 / (2.0 * VACUUM_IMPEDANCE)
    scale = 4.0 * np.pi * density / power
    return ArrayFigures(
        impedance=1.0 / current,
        moments=moments,
        forward=scale * xp.abs(ahead) ** 2,
        backward=scale * xp.abs(behind) ** 2,
    )


def condensed_at(*, tables: ArrayTables, half_lengths: Any, xp: Any = np) -> Any:
    """Condensed impedances at given half lengths.

    Args:
        half_lengths: [m] (b, n_elements)

    Returns:
        condensed impedances, [ohm] for the feed and [ohm m^-2] among polynomials (b, n_elements,
            POLYNOMIALS + 1, POLYNOMIALS + 1)
    """
    span = tables.longest - tables.shortest
    place = 2.0 * (half_lengths - tables.shortest) / span - 1.0
    terms = tables.series.shape[1]
    basis = [xp.ones_like(place), place]
    for _ in range(2, terms):
        basis.append(2.0 * place * basis[-1] - basis[-2])
    weights = xp.stack(basis, 2)
    elements = tables.series.shape[0]
    size = POLYNOMIALS + 1
    flat = xp.reshape(tables.series, (elements, terms, size * size))
    mixed = xp.matmul(xp.permute_dims(weights, (1, 0, 2)) + 0.0j, flat)
    return xp.reshape(xp.permute_dims(mixed, (1, 0, 2)), (-1, elements, size, size))


def mutual_fields(
    *,
    frequency: float,
    positions: Any,
    half_lengths: Any,
    points: int = USUAL_POINTS,
    xp: Any = np,
) -> Any:
    """Field of each element on each other one, projected on the polynomials.

    Args:
        positions: places along the boom [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)

    Returns:
        blocks for pairs first < second, in that order of counting [ohm m^-2] (b, n_pairs,
        POLYNOMIALS,
            POLYNOMIALS) {balanis-2005, eq. 4-8}
    """
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    count = positions.shape[1]
    first = [i for i in range(count) for j in range(i + 1, count)]
    second = [j for i in range(count) for j in range(i + 1, count)]
    nodes, weights = projection(points)
    unit = xp.asarray(nodes)
    apart = positions[:, second] - positions[:, first]
    here = half_lengths[:, first][:, :, None, None] * unit[:, None]
    there = half_lengths[:, second][:, :, None, None] * unit[None, :]
    squared = (apart**2)[:, :, None, None]
    dipole = _dipole_field(xp)
    field = dipole(wavenumber, squared, here - there) + dipole(wavenumber, squared, here + there)
    magnetic = 2j * np.pi * frequency * VACUUM_PERMEABILITY / (4.0 * np.pi)
    outer = magnetic * np.einsum("ai,bj->ijab", weights, weights).reshape(points**2, -1)
    batch, pairs = apart.shape[0], apart.shape[1]
    flat = xp.reshape(field, (batch * pairs, points**2))
    projected = xp.matmul(flat, xp.asarray(outer))
    return xp.reshape(projected, (batch, pairs, POLYNOMIALS, POLYNOMIALS))


@cache
def _dipole_field(xp: Any) -> Any:
    """Axial field of an axial dipole, as one fused operation where the namespace can fuse."""

    def field(wavenumber: float, squared: Any, along: Any) -> Any:
        away = squared + along * along
        inverse = 1.0 / xp.sqrt(away)
        phase = wavenumber * (away * inverse)
        near = 1.0 / phase
        sine = squared / away
        # Share along the ray less twice the transverse share, with everything real kept real.
        middle = (2.0 - 3.0 * sine) * near
        wave = (xp.cos(phase) - 1j * xp.sin(phase)) * inverse
        return wave * (sine + near * middle + 1j * middle)

    fuse = getattr(xp, "fuse", None)
    return field if fuse is None else fuse(field)


def _solve(tables: ArrayTables, own: Any, mutual: Any, xp: Any) -> tuple[Any, Any]:
    """Moments and feed current for one volt at the driven element."""
    batch, count = own.shape[0], own.shape[1]
    size = count * POLYNOMIALS + 1
    matrix = xp.zeros((batch, size, size), dtype=own.dtype)
    for index in range(count):
        rows = slice(index * POLYNOMIALS, (index + 1) * POLYNOMIALS)
        block = own[:, index]
        if index == tables.driven:
            matrix[:, rows, rows] = block[:, :-1, :-1]
            matrix[:, rows, -1] = block[:, :-1, -1]
            matrix[:, -1, rows] = block[:, -1, :-1]
            matrix[:, -1, -1] = block[:, -1, -1]
        else:
            # A parasitic element's gap is closed: no voltage there, its row drops out.
            matrix[:, rows, rows] = _without_feed(block, xp)
    pair = 0
    for first in range(count):
        for second in range(first + 1, count):
            rows = slice(first * POLYNOMIALS, (first + 1) * POLYNOMIALS)
            columns = slice(second * POLYNOMIALS, (second + 1) * POLYNOMIALS)
            matrix[:, rows, columns] = mutual[:, pair]
            matrix[:, columns, rows] = xp.permute_dims(mutual[:, pair], (0, 2, 1))
            pair += 1
    right = xp.zeros((batch, size, 1), dtype=own.dtype)
    right[:, -1, 0] = 1.0
    answer = xp.linalg.solve(matrix, right)[:, :, 0]
    moments = xp.reshape(answer[:, :-1], (batch, count, POLYNOMIALS))
    # The mean over the half gap counts half the gap: the feed current is twice it.
    return moments, 2.0 * answer[:, -1]


def _without_feed(block: Any, xp: Any) -> Any:
    """Impedance over the polynomials with zero volts across the gap.

    The condensed matrix is the inverse of an admittance over polynomials and feed; with no
    voltage at the feed only the polynomial part of that admittance counts.
    """
    corner = block[:, -1:, -1:]
    return block[:, :-1, :-1] - block[:, :-1, -1:] * block[:, -1:, :-1] / corner
