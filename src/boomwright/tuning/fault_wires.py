"""Beams with a fault in their metal, as wires for the field solver."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from boomwright.base import BoomwrightError
from boomwright.parts import Beam, Element
from boomwright.solver import (
    FREE_SPACE,
    ElementWires,
    EndKind,
    Ground,
    Mirror,
    PlacedRun,
    Port,
    RunShape,
    WireSystem,
    both_halves,
    element_half,
)

#: where one half of a plain element breaks, as shares of its half length
BREAKS = (0.6, 0.8)
#: gap between the halves of an element whose middle joint is open, in diameters
_OPEN_MIDDLE = 1.0
#: the braid joins the element this many diameters from the middle of the gap, at least
_BRAID_OFFSET = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalFault:
    """A fault in the metal of a beam; the plain one is no fault."""

    #: element that lost the outer part of one half, and what is left of that half [-] and [m]
    short_half: tuple[int, float] | None = None
    #: parasitic element whose halves do not touch in the middle; None for none
    open_middle: int | None = None
    #: outside of the line's braid hanging from one side of the feed; 0 for none [m]
    braid_length: float = 0.0
    braid_diameter: float = 0.01  #: its diameter [m]


def faulty_wires(*, beam: Beam, fault: MetalFault, ground: Ground = FREE_SPACE) -> WireSystem:
    """Model a beam with a fault in its metal; tubes beyond a bad joint are left out.

    Raises:
        BoomwrightError: when the braid would reach the ground
    """
    whole = fault.short_half is not None or fault.braid_length > 0.0
    if fault.braid_length >= beam.height and ground.kind != "free space":
        msg = (
            f"a braid of {fault.braid_length:.2f} m reaches the ground {beam.height:.2f} m below; "
            "give the length that hangs free"
        )
        raise BoomwrightError(msg)
    mirrors = [] if whole else [Mirror(axis=1)]
    if ground.kind == "perfect":
        mirrors.append(Mirror(axis=2, offset=-beam.height, material=True))
    runs: list[PlacedRun] = []
    joints: tuple[tuple[tuple[int, bool], ...], ...] = ()
    port = Port(run=0)
    for number, element in enumerate(beam.elements):
        fed = number == beam.driven_index
        if fed:
            port = Port(run=len(runs))
        if not whole:
            runs.append(_half(element, beam, fed=fed, open_middle=fault.open_middle == number))
        elif fed and fault.braid_length > 0.0:
            first = len(runs)
            runs.extend(_with_braid(element, beam, fault))
            port = Port(run=first + 1)
            joints = (((first, True), (first + 1, False), (first + 2, False)),)
        else:
            kept = element.half_length
            if fault.short_half is not None and fault.short_half[0] == number:
                kept = fault.short_half[1]
            runs.append(_whole(element, beam, fed=fed, kept=kept))
    return WireSystem(
        runs=tuple(runs),
        mirrors=tuple(mirrors),
        joints=joints,
        ports=(port,),
        ground_height=beam.height if ground.kind == "real" else math.inf,
    )


def swapped(beam: Beam, first: int, second: int) -> Beam:
    """Put two elements in each other's place.

    Returns:
        the beam with both exchanged; numbers stay with the elements
    """
    elements = list(beam.elements)
    places = elements[first].position, elements[second].position
    elements[first] = replace(elements[first], position=places[1])
    elements[second] = replace(elements[second], position=places[0])
    return replace(beam, elements=tuple(elements))


def half_left(*, element: Element) -> tuple[float, ...]:
    """What may be left of one half when its outer part loses contact.

    Returns:
        lengths left: up to each joint, or for a plain tube up to likely breaks [m]
    """
    if len(element.half) == 1:
        return tuple(share * element.half_length for share in BREAKS)
    left, found = 0.0, []
    for section in element.half[:-1]:
        left += section.length
        found.append(left)
    return tuple(found)


def _kept(element: Element, kept: float) -> ElementWires:
    """A half from the boom outwards, cut off at a length."""
    found = []
    left = kept
    for section in element.half:
        length = min(section.length, left)
        if length <= 1e-9:
            break
        found.append(replace(section, length=length))
        left -= length
    return element_half(element=replace(element, half=tuple(found)))


def _gap(element: Element, beam: Beam) -> float:
    # The solver's own model takes a quarter of the diameter as the narrowest gap.
    return max(beam.feed.gap, 0.25 * element.half[0].diameter)


def _run(
    wires: ElementWires,
    element: Element,
    beam: Beam,
    *,
    at: float,
    gaps: tuple[tuple[float, float], ...],
    start: EndKind,
    end: EndKind = "closed tip",
) -> PlacedRun:
    """Part of an element from its place across the boom onwards."""
    return PlacedRun(
        shape=RunShape(sections=wires.sections, gaps=gaps, start=start, end=end),
        origin=(element.position, at, 0.0),
        direction=(0.0, 1.0, 0.0),
        conductivity=wires.metal(beam.material.conductivity),
        inductance=wires.inductance,
    )


def _half(element: Element, beam: Beam, *, fed: bool, open_middle: bool) -> PlacedRun:
    half = element_half(element=element)
    gaps = ((0.0, _gap(element, beam)),) if fed else ()
    if not open_middle:
        return _run(half, element, beam, at=0.0, gaps=gaps, start="mirror")
    at = 0.5 * _OPEN_MIDDLE * element.half[0].diameter
    outer = half.part(low=at, high=half.length)
    return _run(outer, element, beam, at=at, gaps=gaps, start="closed tip")


def _whole(element: Element, beam: Beam, *, fed: bool, kept: float) -> PlacedRun:
    half = element.half_length
    whole = both_halves(left=element_half(element=element), right=_kept(element, kept))
    gaps = ((half, _gap(element, beam)),) if fed else ()
    return _run(whole, element, beam, at=-half, gaps=gaps, start="closed tip")


def _with_braid(element: Element, beam: Beam, fault: MetalFault) -> list[PlacedRun]:
    """The driven element in two runs that meet beside the gap, and the braid there."""
    gap = _gap(element, beam)
    offset = max(gap, _BRAID_OFFSET * element.half[0].diameter)
    half = element_half(element=element)
    whole = both_halves(left=half, right=half)
    joint = half.length - offset
    outer = whole.part(low=0.0, high=joint)
    inner = whole.part(low=joint, high=whole.length)
    return [
        _run(outer, element, beam, at=-half.length, gaps=(), start="closed tip", end="joint"),
        _run(inner, element, beam, at=-offset, gaps=((offset, gap),), start="joint"),
        PlacedRun(
            shape=RunShape(
                sections=((fault.braid_length, 0.5 * fault.braid_diameter),),
                start="joint",
                end="closed tip",
            ),
            origin=(element.position, -offset, 0.0),
            direction=(0.0, 0.0, -1.0),
            conductivity=beam.material.conductivity,
        ),
    ]
