"""Figures of many designs over a band with exact slopes, by one adjoint solution each.

The condensed system of an array is symmetric, M x = e. A figure linear in x, a = c x, then
changes by da = dc x - y dM x with M y = c: one more right-hand side a figure, whatever the number
of dimensions.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.base.records import dataclass, replace
from boomwright.design.aims import Directions, moment_weights
from boomwright.design.mutual_slopes import Beside, MutualSlopes, mutual_slopes, pairs_of
from boomwright.solver.element_response import POLYNOMIALS, ElementFamily

_SIZE = POLYNOMIALS + 1
_DECIBEL = 10.0 / np.log(10.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandTables:
    """What a batch needs of its elements over a band."""

    wavenumbers: Any  #: wavenumbers [rad/m] (f,)
    #: Chebyshev series of each element's condensed impedance, the gaps of parasitic elements
    #: closed, [ohm] for the feed and [ohm m^-2] among polynomials (n_elements, terms, f,
    #: (POLYNOMIALS + 1)^2)
    series: Any
    shortest: Any  #: range of half lengths of each element [m] (n_elements,)
    longest: Any  #: range of half lengths of each element [m] (n_elements,)
    driven: int  #: number of the driven element
    closest_wl: float  #: smallest spacing of neighbours, in wavelengths, that must be resolved [-]
    #: elements of other beams behind those of the array; None without
    beside: Beside | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class IdleElement:
    """An element of another beam, which nobody drives."""

    family: ElementFamily  #: its own length within it
    resistance: float  #: what closes its gap, 0 for metal, very large for an open one [ohm]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ArraySlopes:
    """Figures of a batch of designs, with slopes in positions and half lengths."""

    impedance: Any  #: feed-point impedance [ohm] (b, f)
    gain_db: Any  #: gain towards each direction, losses included [dBi] (b, f, d)
    #: sum of the squared element moments over the square of what they add up to towards the first
    #: direction: how much currents of opposite sign cancel (b, f)
    strain: Any
    #: slopes of the impedance, positions first; None when not wanted [ohm/m] (b, f, 2 n_elements)
    impedance_slopes: Any = None
    #: slopes of the gain, positions first; None when not wanted [dB/m] (b, f, d, 2 n_elements)
    gain_slopes: Any = None


def band_tables(
    *,
    families: tuple[ElementFamily, ...],
    driven: int,
    closest_wl: float = 0.07,
    xp: Any = np,
) -> BandTables:
    """Gather the tables of an array's elements over all their frequencies.

    Args:
        families: family of each element, the driven one with its feed gap (n_elements,)
        closest_wl: smallest spacing of neighbours, in wavelengths, that must be resolved [-]
    """
    closed: dict[int, Any] = {}
    series = []
    for number, family in enumerate(families):
        if number != driven and id(family) not in closed:
            closed[id(family)] = _closed_gap(family.series)
        series.append(_by_terms(family.series if number == driven else closed[id(family)]))
    wavenumbers = 2.0 * np.pi * families[0].frequencies / SPEED_OF_LIGHT
    return BandTables(
        wavenumbers=xp.asarray(wavenumbers),
        series=xp.asarray(np.stack(series)),
        shortest=xp.asarray(np.array([family.shortest for family in families])),
        longest=xp.asarray(np.array([family.longest for family in families])),
        driven=driven,
        closest_wl=closest_wl,
    )


def at_one_frequency(*, tables: BandTables, number: int) -> BandTables:
    """Keep one frequency of the tables."""
    rows = slice(number, number + 1)
    beside = tables.beside
    if beside is not None and beside.still is not None:
        beside = replace(beside, still=beside.still[:, rows])
    return replace(
        tables,
        wavenumbers=tables.wavenumbers[rows],
        series=tables.series[:, :, rows],
        beside=beside,
    )


def with_idle(*, tables: BandTables, idle: Sequence[IdleElement], beside: Beside) -> BandTables:
    """Put elements that nobody drives behind those of an array.

    Args:
        beside: where they are
    """
    series = [_by_terms(_closed_gap(one.family.series, one.resistance)) for one in idle]
    return replace(
        tables,
        series=np.concatenate([tables.series, np.stack(series)]),
        shortest=np.append(tables.shortest, [one.family.shortest for one in idle]),
        longest=np.append(tables.longest, [one.family.longest for one in idle]),
        beside=beside,
    )


def _by_terms(series: Any) -> Any:
    frequencies, terms = series.shape[:2]
    return series.transpose(1, 0, 2, 3).reshape(terms, frequencies, _SIZE**2)


def _closed_gap(series: Any, resistance: float = 0.0) -> Any:
    """Series of an element whose gap is closed by metal or a resistor: the feed drops out."""
    terms = series.shape[1]
    nodes = np.cos(np.pi * (np.arange(terms) + 0.5) / terms)
    basis = np.cos(np.arccos(nodes)[:, None] * np.arange(terms))
    full = np.einsum("nt,ftab->fnab", basis, series)
    short = np.zeros_like(full)
    # The state's feed current is half of that in the gap.
    short[..., :-1, :-1] = full[..., :-1, :-1] - full[..., :-1, -1:] * full[..., -1:, :-1] / (
        full[..., -1:, -1:] + 2.0 * resistance
    )
    back = basis.T * 2.0 / terms
    back[0] /= 2.0
    return np.einsum("tn,fnab->ftab", back, short)


def array_slopes(
    *,
    tables: BandTables,
    positions: Any,
    half_lengths: Any,
    towards: Directions,
    around_first: bool = False,
    slopes: bool = True,
    xp: Any = np,
) -> ArraySlopes:
    """Solve a batch of designs over a band, slopes included.

    Args:
        positions: places along the boom, rising [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)
        towards: directions in which the gain is watched (d,)
        around_first: whether all designs have the places of the first and nearly its half lengths
    """
    own, own_slopes = _own(tables, half_lengths, xp)
    mutual = mutual_slopes(
        wavenumbers=tables.wavenumbers,
        positions=positions,
        half_lengths=half_lengths,
        closest_wl=tables.closest_wl,
        beside=tables.beside,
        around_first=around_first,
        slopes=slopes,
        xp=xp,
    )
    matrix = _system(own, mutual.field, tables.driven, xp)
    weights = _towards(tables, positions, half_lengths, towards, xp)
    right = _unit_like(weights[0], xp)
    if slopes:
        right = xp.concat([right, weights[0]], axis=2)
    # Rows of the answer: the state first, then one adjoint state a direction.
    states = xp.permute_dims(
        xp.linalg.solve(matrix, xp.permute_dims(right, (0, 1, 3, 2))), (0, 1, 3, 2)
    )
    state = states[:, :, 0]
    current = 2.0 * state[:, :, -1]
    impedance = 1.0 / current
    field = (weights[0] * state[:, :, None]).sum(3)
    # Twice: both halves radiate. Density over isotropic density of the power 0.5 Re I.
    density = (tables.wavenumbers * VACUUM_IMPEDANCE / (4.0 * np.pi)) ** 2
    scale = (4.0 * 4.0 * np.pi / VACUUM_IMPEDANCE) * density[None, :] / current.real
    single = xp.reshape(state[:, :, :-1], (*state.shape[:2], -1, POLYNOMIALS))[..., 0]
    across = xp.asarray(1.0 - towards.along_elements**2)
    level = xp.abs(field) ** 2 * scale[:, :, None] * across
    figures = ArraySlopes(
        impedance=impedance,
        gain_db=10.0 * xp.log10(xp.maximum(level, 1e-30)),
        strain=(xp.abs(single) ** 2).sum(2) / xp.abs(field[:, :, 0]) ** 2,
    )
    if not slopes:
        return figures
    changes = _changes(states, own_slopes, mutual, tables.driven, xp)
    current_slopes = -2.0 * changes[:, :, 0]
    moments = xp.reshape(state[:, :, :-1], (*state.shape[:2], 1, -1, POLYNOMIALS))
    explicit = xp.concat([(part * moments).sum(4) for part in weights[1:]], axis=3)
    field_slopes = explicit - changes[:, :, 1:]
    share = current_slopes.real / current.real[:, :, None]
    return replace(
        figures,
        impedance_slopes=-current_slopes * impedance[:, :, None] ** 2,
        gain_slopes=_DECIBEL
        * (2.0 * (field_slopes / field[:, :, :, None]).real - share[:, :, None]),
    )


def _own(tables: BandTables, half_lengths: Any, xp: Any) -> tuple[Any, Any]:
    """Condensed impedances and slopes (b, f, n, size, size)."""
    span = tables.longest - tables.shortest
    place = 2.0 * (half_lengths - tables.shortest) / span - 1.0
    elements, terms, frequencies, square = tables.series.shape
    basis = [xp.ones_like(place), place]
    # Slopes of the first kind are multiples of the second kind: T_n' = n U_(n-1).
    second = [xp.ones_like(place), 2.0 * place]
    for _ in range(2, terms):
        basis.append(2.0 * place * basis[-1] - basis[-2])
        second.append(2.0 * place * second[-1] - second[-2])
    slopes = [xp.zeros_like(place)]
    slopes += [order * second[order - 1] for order in range(1, terms)]
    both = xp.stack([xp.stack(basis, 2), xp.stack(slopes, 2) * (2.0 / span)[:, None]])
    flat = xp.reshape(tables.series, (elements, terms, frequencies * square))
    mixed = xp.matmul(xp.permute_dims(both, (0, 2, 1, 3)) + 0.0j, flat)
    shaped = xp.reshape(mixed, (2, elements, -1, frequencies, _SIZE, _SIZE))
    turned = xp.permute_dims(shaped, (0, 2, 3, 1, 4, 5))
    return turned[0], turned[1]


def _system(own: Any, mutual: Any, driven: int, xp: Any) -> Any:
    """Impedance matrices of the arrays (b, f, s, s)."""
    batch, frequencies, count = own.shape[:3]
    size = count * POLYNOMIALS + 1
    matrix = xp.zeros((batch, frequencies, size, size), dtype=own.dtype)
    for index in range(count):
        rows = slice(index * POLYNOMIALS, (index + 1) * POLYNOMIALS)
        matrix[:, :, rows, rows] = own[:, :, index, :-1, :-1]
    rows = slice(driven * POLYNOMIALS, (driven + 1) * POLYNOMIALS)
    matrix[:, :, rows, -1] = own[:, :, driven, :-1, -1]
    matrix[:, :, -1, rows] = own[:, :, driven, -1, :-1]
    matrix[:, :, -1, -1] = own[:, :, driven, -1, -1]
    for pair, (first, second) in enumerate(zip(*pairs_of(count), strict=True)):
        rows = slice(first * POLYNOMIALS, (first + 1) * POLYNOMIALS)
        columns = slice(second * POLYNOMIALS, (second + 1) * POLYNOMIALS)
        matrix[:, :, rows, columns] = mutual[:, :, pair]
        matrix[:, :, columns, rows] = xp.permute_dims(mutual[:, :, pair], (0, 1, 3, 2))
    return matrix


def _unit_like(weights: Any, xp: Any) -> Any:
    """One volt at the feed, as a row (b, f, 1, s)."""
    row = xp.zeros_like(weights[:, :, :1])
    row[..., -1] = 1.0
    return row


def _towards(
    tables: BandTables, positions: Any, half_lengths: Any, towards: Directions, xp: Any
) -> tuple[Any, Any, Any]:
    """Weights of the state towards each direction (b, f, d, s) and their slopes by element.

    The slopes are (b, f, d, n, POLYNOMIALS): first in the positions, then in the half lengths.
    """
    along = tables.wavenumbers[:, None] * xp.asarray(towards.along_boom)
    sideways = tables.wavenumbers[:, None] * xp.asarray(towards.along_elements)
    turn = along[None, :, :, None] * positions[:, None, None, :]
    if tables.beside is not None:
        upward = tables.wavenumbers[:, None] * xp.asarray(towards.upward)
        turn = turn + upward[None, :, :, None] * xp.asarray(tables.beside.rises)
    phasor = (xp.cos(turn) + 1j * xp.sin(turn))[..., None]
    argument = sideways[None, :, :, None] * half_lengths[:, None, None, :]
    weights, slopes = moment_weights(argument, xp)
    shaped = xp.permute_dims(weights, (1, 2, 3, 4, 0)) * phasor
    by_length = xp.permute_dims(slopes, (1, 2, 3, 4, 0)) * phasor
    flat = xp.reshape(shaped, (*shaped.shape[:3], -1))
    padded = xp.concat([flat, xp.zeros_like(flat[..., :1])], axis=3)
    return (
        padded,
        1j * along[None, :, :, None, None] * shaped,
        sideways[None, :, :, None, None] * by_length,
    )


def _changes(states: Any, own_slopes: Any, mutual: MutualSlopes, driven: int, xp: Any) -> Any:
    """Products y dM x for every left state and dimension (b, f, 1 + d, 2 n).

    The vectors dM x of all dimensions come first, then one matrix product with all left states.
    """
    batch, frequencies = states.shape[:2]
    count = own_slopes.shape[2]
    state = xp.reshape(states[:, :, 0, :-1], (batch, frequencies, count, POLYNOMIALS))
    feed = xp.zeros_like(state[..., :1])
    feed[:, :, driven, 0] = states[:, :, 0, -1]
    own = (own_slopes * xp.concat([state, feed], axis=3)[:, :, :, None]).sum(4)
    first, second = pairs_of(count)
    one, two = _incidence(first, second, count, xp)
    here, there = state[:, :, first, :, None], state[:, :, second, None]
    moved = xp.zeros((batch, frequencies, 2, count, count, POLYNOMIALS), dtype=states.dtype)
    places, lengths = moved[:, :, 0], moved[:, :, 1]
    onto_first, onto_second = _both_ways(mutual.by_spacing, here, there)
    places[:, :, first, second] = -onto_second
    places[:, :, second, first] = onto_first
    diagonal = list(range(count))
    places[:, :, diagonal, diagonal] = xp.matmul(two.T, onto_second) - xp.matmul(one.T, onto_first)
    onto_first, onto_second = _both_ways(mutual.by_first, here, there)
    lengths[:, :, first, second] = onto_second
    own_block = own[..., :-1] + xp.matmul(one.T, onto_first)
    onto_first, onto_second = _both_ways(mutual.by_second, here, there)
    lengths[:, :, second, first] = onto_first
    lengths[:, :, diagonal, diagonal] = own_block + xp.matmul(two.T, onto_second)
    flat = xp.reshape(moved, (batch, frequencies, 2 * count, count * POLYNOMIALS))
    changes = xp.matmul(states[..., :-1], xp.permute_dims(flat, (0, 1, 3, 2)))
    changes[..., count + driven] += states[..., -1] * own[:, :, driven, -1][:, :, None]
    return changes


def _both_ways(block: Any, here: Any, there: Any) -> tuple[Any, Any]:
    """Block times the state of the second of each pair, and its transpose times the first's."""
    return (block * there).sum(4), (block * here).sum(3)


def _incidence(first: list[int], second: list[int], count: int, xp: Any) -> tuple[Any, Any]:
    """Which element is the first and the second of each pair (n_pairs, n)."""
    eye = np.eye(count, dtype=complex)
    return xp.asarray(eye[first]), xp.asarray(eye[second])
