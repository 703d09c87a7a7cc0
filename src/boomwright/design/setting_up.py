"""From a beam and a wish to a search problem, and back to a beam."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.array_slopes import band_tables
from boomwright.design.idle_arrays import idle_array
from boomwright.design.limits import cost_limit, mass_limit, wind_area_limit
from boomwright.design.search import Ground
from boomwright.design.space import Freedom, LinearLimit, WishError, design_space
from boomwright.design.starts import resonant_half_length
from boomwright.design.stock import stock_limits
from boomwright.design.targets import Problem
from boomwright.design.wish import Wish
from boomwright.parts import Beam, Element
from boomwright.solver import element_half, working_detail
from boomwright.solver.element_response import ElementFamily, element_family

#: the time of a search grows with the square of its elements
_MOST_ELEMENTS = 30
#: half lengths that tables cover, in wavelengths: resonance lies at 0.21 to 0.25
_SHORTEST_WL, _LONGEST_WL = 0.17, 0.285
#: a parasitic element this much shorter than resonance hardly acts any more
_SHORTEST_DIRECTOR = 0.80
_LONGEST_REFLECTOR = 1.13
_DRIVEN_RANGE = (0.93, 1.09)
#: feed gaps no narrower than this share of the centre diameter, as the solver models them
_NARROWEST_GAP = 0.25
#: widest band over its middle, and where a search looks at it from middle to edge: with fewer
#: points the figures of long arrays fall between them (own trial)
_LOOKS = ((0.015, (0.7, 1.0)), (0.04, (0.4, 0.8, 1.0)), (math.inf, (0.2, 0.4, 0.6, 0.8, 1.0)))
#: frequencies over the band at which a finished beam is checked
_CHECKED = 21


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setting:
    """A search problem with the beam it stands for."""

    beam: Beam  #: beam with as many elements as the problem
    problem: Problem  #: the search problem
    ground: Ground  #: what starts are drawn from
    families: tuple[ElementFamily, ...]  #: tables of the elements (n_elements,)


def search_frequencies(*, beam: Beam) -> tuple[Floats, int]:
    """Choose the frequencies at which a search looks at a beam."""
    low, high = beam.band
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    wide = 2.0 * half / middle
    outwards = next(shares for widest, shares in _LOOKS if wide < widest)
    shares = (0.0,) if half <= 1e-9 * middle else (*(-s for s in outwards), *outwards)
    spread = [middle + half * share for share in shares]
    near = [f for f in spread if abs(f - beam.design_frequency) > 0.05 * half]
    frequencies = np.unique([*near, beam.design_frequency])
    return frequencies, int(np.searchsorted(frequencies, beam.design_frequency))


def check_frequencies(*, beam: Beam) -> Floats:
    """Choose the frequencies at which a finished beam is checked, more than a search looks at.

    Returns:
        frequencies, the design frequency among them [Hz] (f,)
    """
    low, high = beam.band
    spread = np.linspace(low, high, _CHECKED)
    near = spread[np.abs(spread - beam.design_frequency) > 0.02 * (high - low)]
    return np.unique([*near, beam.design_frequency])


def with_count(*, beam: Beam, count: int) -> Beam:
    """Give a beam another number of elements: directors are added or taken off at the front.

    Raises:
        WishError: when it would lose its driven element
    """
    elements = sorted(beam.elements, key=lambda element: element.position)
    driven = next(i for i, element in enumerate(elements) if element.role == "driven")
    if count <= driven:
        raise WishError(
            f"{count} elements leave no driven element", remedy=f"ask for {driven + 1} or more"
        )
    elements = elements[:count]
    while len(elements) < count:
        last = elements[-1]
        step = 0.2 * beam.wavelength
        elements.append(replace(last, role="director", position=last.position + step))
    return replace(beam, elements=tuple(elements))


def _refuse_count(beam: Beam, count: int) -> None:
    """Refuse a search of one element, or of so many that it would not end."""
    if count < 2:
        raise WishError(
            f"beam {beam.name} has one element, and the search sets several against each other",
            remedy="ask for 2 or more: elements = [2, 3] in [wish]",
        )
    if count > _MOST_ELEMENTS:
        raise WishError(
            f"{count} elements are too many for the search, which would take hours",
            remedy=f"ask for {_MOST_ELEMENTS} or fewer",
        )


def set_up(*, beam: Beam, wish: Wish, count: int) -> Setting:
    """Make a search problem.

    Raises:
        WishError: when the wish contradicts itself or the beam cannot be searched
    """
    if beam.bent:
        raise WishError(
            f"beam {beam.name} is bent wire, which the tables of straight elements do not know",
            remedy="use improve, without comparing spacings, tolerance or further bands",
        )
    if beam.wires:
        raise WishError(
            f"beam {beam.name} has further wires, which the search does not move",
            remedy="take them out of the plan for the search",
        )
    if any(element.traps for element in beam.elements):
        raise WishError(
            f"beam {beam.name} has traps, which serve several bands",
            remedy="search all its bands at once, with search_bands",
        )
    trimmed = with_count(beam=beam, count=count)
    _refuse_count(beam, count)
    frequencies, design = search_frequencies(beam=beam)
    ranges = [_half_range(element, trimmed, wish) for element in trimmed.elements]
    families = _families(trimmed, ranges, frequencies)
    resonances = np.array([resonant_half_length(family=one, at=design) for one in families])
    closest = wish.closest_in(wavelength=beam.wavelength)
    boom = beam.boom_length if wish.boom_limit is None else wish.boom_limit
    driven = trimmed.driven_index
    freedom = _freedom(trimmed, wish, ranges, resonances, boom, closest)
    space = design_space(freedom=freedom, driven=driven, wavelength=beam.wavelength)
    tables = band_tables(families=families, driven=driven, closest_wl=closest / beam.wavelength)
    places = np.array([element.position for element in trimmed.elements])
    base = 0.0 if wish.keep_positions else places[0]
    problem = Problem(
        tables=tables,
        space=space,
        idle=idle_array(
            beam=trimmed,
            tables=tables,
            frequencies=frequencies,
            base=base,
            detail=working_detail(frequency=float(frequencies.max())),
        ),
        targets=wish.targets,
        design_number=design,
        shifts=_shifts(count, driven, wish.length_error),
    )
    halves = np.array([element.half_length for element in trimmed.elements])
    present = space.nearest(positions=places - base, half_lengths=halves)
    ground = Ground(resonances=resonances, boom=boom, wavelength=beam.wavelength, given=(present,))
    return Setting(beam=trimmed, problem=problem, ground=ground, families=families)


def built(*, setting: Setting, free: Floats, places: float) -> Beam:
    """Turn free numbers into a beam with rounded dimensions.

    Args:
        free: free numbers (m,)
        places: dimensions are rounded to whole multiples of this [m]
    """
    positions, half_lengths = setting.problem.space.dimensions(free)
    elements = []
    for element, place, half in zip(setting.beam.elements, positions, half_lengths, strict=True):
        fixed = sum(section.length for section in element.half[:-1])
        tip = round(round((half - fixed) / places) * places, 9)
        sections = (*element.half[:-1], replace(element.half[-1], length=tip))
        at = round(round(place / places) * places, 9)
        elements.append(replace(element, position=at, half=sections))
    return replace(setting.beam, elements=tuple(elements))


def _half_range(element: Element, beam: Beam, wish: Wish) -> tuple[float, float]:
    """Range of the half length that tubing and limits allow."""
    low, high = _SHORTEST_WL * beam.wavelength, _LONGEST_WL * beam.wavelength
    fixed = sum(section.length for section in element.half[:-1])
    if fixed > 0.0:
        low = max(low, fixed + wish.tips.least)
        high = min(high, fixed + wish.tips.most)
    if wish.longest_element is not None:
        high = min(high, wish.longest_element / 2.0)
    if low >= high:
        raise WishError(
            f"the {element.role} at {element.position:.3f} m cannot be made between "
            f"{2.0 * low:.3f} m and {2.0 * high:.3f} m long",
            remedy="change its tubes, the range of its tips or the length limit",
        )
    return low, high


def gap_width(beam: Beam) -> float:
    """Feed gap as the solver models it [m]."""
    driven = beam.elements[beam.driven_index].half[0]
    return max(beam.feed.gap, _NARROWEST_GAP * driven.diameter)


def _families(
    beam: Beam, ranges: list[tuple[float, float]], frequencies: Floats
) -> tuple[ElementFamily, ...]:
    """Tables of all elements, each kind of tubing solved once."""
    known: dict[tuple[object, ...], ElementFamily] = {}
    detail = working_detail(frequency=float(frequencies.max()))
    families = []
    for element, (low, high) in zip(beam.elements, ranges, strict=True):
        half = element_half(element=element)
        inner, tip = half.sections[:-1], half.sections[-1][1]
        # Tables reach a little further than the search, which then need not mind rounding.
        fixed = sum(length for length, _ in inner)
        span = (max(0.995 * low, fixed + 0.3 * (low - fixed)), 1.005 * high)
        key = (inner, tip, span, half.inductance)
        if key not in known:
            known[key] = element_family(
                inner=inner,
                tip_radius=tip,
                half_lengths=span,
                gap=gap_width(beam),
                frequencies=frequencies,
                detail=detail,
                conductivity=half.metal(beam.material.conductivity),
                inductance=half.inductance,
            )
        families.append(known[key])
    return tuple(families)


def _freedom(
    beam: Beam,
    wish: Wish,
    ranges: list[tuple[float, float]],
    resonances: Floats,
    boom: float,
    closest: float,
) -> Freedom:
    """What may change, element by element."""
    shortest, longest = [], []
    driven = beam.driven_index
    for number, ((low, high), middle) in enumerate(zip(ranges, resonances, strict=True)):
        if number == driven:
            low, high = max(low, _DRIVEN_RANGE[0] * middle), min(high, _DRIVEN_RANGE[1] * middle)
        elif wish.keep_roles and number < driven:
            low, high = max(low, middle), min(high, _LONGEST_REFLECTOR * middle)
        elif wish.keep_roles:
            low, high = max(low, _SHORTEST_DIRECTOR * middle), min(high, middle)
        shortest.append(low)
        longest.append(high)
    count = len(beam.elements)
    for number in (*wish.keep_positions, *wish.keep_lengths):
        if not 0 <= number < count:
            raise WishError(
                f"element {number} is to be kept, but elements are 0 to {count - 1}",
                remedy="correct the number",
            )
    return Freedom(
        shortest=tuple(shortest),
        longest=tuple(longest),
        boom_limit=boom,
        closest=closest,
        even=wish.even,
        even_directors=wish.even_directors,
        spacing=wish.spacing,
        kept_positions=tuple((i, beam.elements[i].position) for i in wish.keep_positions),
        kept_half_lengths=tuple((i, beam.elements[i].half_length) for i in wish.keep_lengths),
        limits=(*_own_limits(beam, wish, shortest), *wish.limits),
        resonances=tuple(resonances.tolist()) if wish.driven_between else None,
    )


def _own_limits(beam: Beam, wish: Wish, shortest: list[float]) -> list[LinearLimit]:
    """Limits of the wish that follow from the tubes."""
    limits = []
    if wish.most_wind_area is not None:
        limits.append(wind_area_limit(beam=beam, most=wish.most_wind_area))
    if wish.most_mass is not None:
        limits.append(mass_limit(beam=beam, most=wish.most_mass))
    overlap = wish.tips.overlap
    if wish.most_cost is not None:
        limits.append(
            cost_limit(beam=beam, most=wish.most_cost, prices=wish.tube_prices, overlap=overlap)
        )
    limits += stock_limits(beam=beam, stock=wish.stock, overlap=overlap)
    for limit in limits:
        _refuse_unreachable(limit, shortest)
    return limits


def _refuse_unreachable(limit: LinearLimit, shortest: list[float]) -> None:
    """Refuse a limit that even the shortest elements break."""
    rates = zip(limit.per_half_length, shortest, strict=True)
    least = limit.constant + sum(rate * half for rate, half in rates)
    if least > limit.most * (1.0 + 1e-9):
        raise WishError(
            f"even the shortest elements break the limit of {limit.name}: {least:.3g} instead of "
            f"{limit.most:.3g} at most",
            remedy="relax it, or take thinner tubes or fewer elements",
        )


def _shifts(count: int, driven: int, error: float) -> Floats:
    """Changes of lengths a design must bear: all together, and every role for itself."""
    if error <= 0.0:
        return np.zeros((1, 2 * count))
    rows = [np.zeros(2 * count)]
    groups = [range(count), range(driven), range(driven, driven + 1), range(driven + 1, count)]
    for group in groups:
        for sign in (-1.0, 1.0):
            row = np.zeros(2 * count)
            row[[count + number for number in group]] = sign * error
            if row.any():
                rows.append(row)
    return np.array(rows)
