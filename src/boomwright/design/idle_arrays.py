"""Other beams on the mast as idle elements of a search."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.design.array_slopes import BandTables, IdleElement, with_idle
from boomwright.design.mutual_slopes import CLOSEST_WL, Beside, mutual_slopes, pairs_of
from boomwright.design.targets import IdleArray
from boomwright.parts import Beam
from boomwright.solver import (
    MATCHED_OHM,
    Detail,
    element_half,
    neighbour_reach,
    settled_feeds,
    trap_places,
)
from boomwright.solver.element_response import ElementFamily, element_family

#: stands for an open gap [ohm]
_OPEN = 1e9
#: families reach so far to both sides of the one length wanted, share of the tip
_AROUND = 0.05
#: feed gaps no narrower than this share of the centre diameter, as the solver models them
_NARROWEST_GAP = 0.25


def searched_neighbours(beam: Beam) -> tuple[Beam, ...]:
    """Neighbours that a search has beside its array: those in reach, parallel and without wires."""
    counted = {each.name for each in neighbour_reach(beam=beam) if each.counts}
    return tuple(
        other
        for other in settled_feeds(beam=beam).neighbours
        if other.name in counted
        and not other.wires
        and abs(math.remainder(other.heading - beam.heading, math.tau)) < 1e-9
    )


def idle_array(
    *, beam: Beam, tables: BandTables, frequencies: Floats, base: float, detail: Detail
) -> IdleArray | None:
    """Make the elements beside a beam; None when nothing stands beside it.

    Args:
        tables: elements of the beam
        frequencies: frequencies of the search [Hz] (f,)
        base: place on the boom that the search counts from [m]
    """
    others = searched_neighbours(beam)
    if not others:
        return None
    count = len(beam.elements)
    elements, places, rises, middle = [], [], [0.0] * count, []
    for other in others:
        shares = other.shares_boom(beam)
        for number, element in enumerate(other.elements):
            driven = number == other.driven_index
            family = _family(other, number, frequencies, detail)
            resistance = _resistance(other) if driven else 0.0
            elements.append(IdleElement(family=family, resistance=resistance))
            places.append(element.position - (base if shares else other.boom_middle))
            rises.append(other.height - beam.height)
            middle.append(0.0 if shares else 0.5)
    total = count + len(elements)
    fold = np.zeros((2 * total, 2 * count))
    fold[range(count), range(count)] = 1.0
    fold[range(total, total + count), range(count, 2 * count)] = 1.0
    # The mast holds the boom at its middle: neighbours follow the ends by half.
    fold[count:total, 0] = middle
    fold[count:total, count - 1] += middle
    half_lengths = np.array([e.half_length for other in others for e in other.elements])
    beside = Beside(
        count=len(elements), rises=np.array(rises), closest_wl=_closest_beside(beam, others)
    )
    # They may move with the mast, but then mostly all alike.
    beside = _settled(
        beside, np.array(places), half_lengths, tables, together=len(set(middle)) == 1
    )
    return IdleArray(
        tables=with_idle(tables=tables, idle=elements, beside=beside),
        places=np.array(places),
        half_lengths=half_lengths,
        fold=fold,
    )


def _family(other: Beam, number: int, frequencies: Floats, detail: Detail) -> ElementFamily:
    element = other.elements[number]
    half = element_half(element=element)
    inner, (tip, radius) = half.sections[:-1], half.sections[-1]
    gap = max(other.feed.gap, _NARROWEST_GAP * element.half[0].diameter)
    return element_family(
        inner=inner,
        tip_radius=radius,
        half_lengths=(half.length - _AROUND * tip, half.length + _AROUND * tip),
        gap=gap,
        frequencies=frequencies,
        detail=detail,
        conductivity=half.metal(other.material.conductivity),
        inductance=half.inductance,
        loads=trap_places(beam=other, number=number),
    )


def _resistance(other: Beam) -> float:
    if other.idle_feed == "shorted" or (not other.feed.cuts_element and other.idle_feed == "open"):
        return 0.0
    return MATCHED_OHM if other.idle_feed == "matched" else _OPEN


def _closest_beside(beam: Beam, others: tuple[Beam, ...]) -> float:
    """Smallest distance of an element to one of another beam [wavelengths]."""
    found = []
    for other in others:
        rise = abs(other.height - beam.height)
        if rise > 0.0:
            found.append(rise / beam.wavelength)
            continue
        found += [
            abs(one.position - two.position) / beam.wavelength
            for one, two in product(beam.elements, other.elements)
        ]
    return max(CLOSEST_WL, min(found))


def _settled(
    beside: Beside, places: Floats, half_lengths: Floats, tables: BandTables, *, together: bool
) -> Beside:
    """The same with what the others are to each other: a field, or so small a distance.

    Args:
        places: along the boom [m] (n_idle,)
        half_lengths: [m] (n_idle,)
        together: whether they keep their places among each other
    """
    if beside.count < 2:
        return beside
    rises = beside.rises[-beside.count :]
    first, second = pairs_of(beside.count)
    apart = np.hypot(places[first] - places[second], rises[first] - rises[second])
    wavelength = 2.0 * math.pi / float(np.max(tables.wavenumbers))
    closest = max(CLOSEST_WL, float(apart.min()) / wavelength)
    if not together:
        return replace(beside, closest_wl=min(beside.closest_wl, closest))
    alone = mutual_slopes(
        wavenumbers=tables.wavenumbers,
        positions=places[None],
        half_lengths=half_lengths[None],
        closest_wl=closest,
        beside=Beside(count=beside.count, rises=rises, closest_wl=closest),
        slopes=False,
    )
    return replace(beside, still=alone.field)
