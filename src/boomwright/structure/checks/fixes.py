"""Fixes offered for the weak section of an element, each with what it gains."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from functools import cache, partial
from itertools import pairwise

from boomwright.base.quantity import listed
from boomwright.base.records import replace
from boomwright.parts import Element, Joints
from boomwright.structure.beam.elements import ElementStrength
from boomwright.structure.beam.joints import TubeJoint
from boomwright.structure.checks.elements import check_element, element_trouble
from boomwright.structure.checks.findings import Findings, site_loads
from boomwright.structure.checks.joints import governing_joint, joint_section
from boomwright.structure.checks.remedies import (
    THICKEST_WALL,
    Remedy,
    RemedyEffect,
    double_wall,
    extend_outer_tube,
    larger_tubes,
    lengthen_overlap,
    other_walls,
    remedy_effect,
    thicker_walls,
)
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import StructureInputs

#: gives the joints of one half of an element
JointsOf = Callable[[Element], tuple[TubeJoint, ...]]
#: wall of a section at its inner end, how far it reaches, and the wall beyond [m] (3,)
_Span = tuple[float, float, float]
#: how far the next larger tube is let out over the weak one, as a share of the weak one
REACH_SHARE = 0.25
#: tubes that slide into each other follow in steps of an eighth of an inch
#: {common-practice-stations} [m]
SIZE_STEP = 0.003175
#: steps by which all tubes are made larger at most, and all their numbers
_MOST_STEPS = 12
_STEPS = range(_MOST_STEPS + 1)


def weak_section(strength: ElementStrength) -> int:
    """Choose the section that carries the highest stress, bare or iced."""
    bare, iced = strength.worst_bare, strength.worst_iced
    return bare.index if bare.bare_stress >= iced.iced_stress else iced.index


def offered_remedies(*, element: Element, section: int) -> tuple[Remedy, ...]:
    """List the changes that fit a weak section.

    Returns:
        doubled wall, next tube pushed in over the whole section, larger tube let out; left out
        where a tube would not go into the one before it
    """
    tube = element.half[section]
    room = _room_inside(element, section, 2.0 * tube.wall)
    attempts: tuple[Callable[[], Remedy], ...] = (
        partial(double_wall, element=element, section=section, length=room),
        partial(lengthen_overlap, element=element, section=section + 1, by=tube.length),
        partial(extend_outer_tube, element=element, section=section, by=REACH_SHARE * tube.length),
    )
    found = []
    for attempt in attempts:
        with suppress(StructureInputError):
            found.append(attempt())
    return tuple(remedy for remedy in found if _goes_together(remedy.element))


def _room_inside(element: Element, section: int, wall: float) -> float | None:
    """Length of a section that a second tube may fill, clear of the next one; None for all [m].

    Args:
        wall: wall of both together [m]
    """
    tube, outwards = element.half[section], element.half[section + 1 :]
    if not outwards or replace(tube, wall=wall).takes(outwards[0]):
        return None
    return tube.length - Joints().overlap(outwards[0].diameter)


def _goes_together(element: Element) -> bool:
    return all(outer.takes(inner) for outer, inner in pairwise(element.half))


def element_fixes(
    *, inputs: StructureInputs, beam: int, element: int, joints: JointsOf
) -> tuple[RemedyEffect, ...]:
    """Work out every fix that fits the weak section, or the weak joint, of an element.

    The electrical length changes with the outer sizes: the caller gives the new element to
    the field solver.

    Args:
        joints: gives the joints of one half of an element in the place of this one

    Returns:
        fixes that lower its most used limit: those that suffice first, the lightest of them first;
        none without wind, walls or yield strength
    """
    held, beside = inputs.beams[beam].beam, inputs.beams[beam].beside(element)
    part, material = held.elements[element], held.material
    site = site_loads(inputs=inputs)
    bare, iced = (site.blow(height=held.height, iced=each) for each in (False, True))
    known = material.yield_strength > 0.0 and bare.pressure is not None
    if not known or element_trouble(element=part, material=material):
        return ()
    weigh = element_weigher(inputs=inputs, beam=beam, element=element, joints=joints)
    begun, weak = weigh(part)
    singles = offered_remedies(element=part, section=weak)
    helping = []
    for remedy in (*singles, *_sufficing(part, singles, weigh)):
        effect = remedy_effect(
            element=part,
            remedy=remedy,
            material=material,
            pressure=bare.force,
            ice=iced.coat,
            ice_pressure=iced.force,
            beside=beside,
        )
        use = weigh(remedy.element)[0]
        if use < 0.995 * begun:
            helping.append(replace(effect, use_before=begun, use_after=use))
    return tuple(sorted(helping, key=_merit))


def _merit(effect: RemedyEffect) -> tuple[bool, float]:
    """Sorts what suffices first, the lightest of it first; then the rest, the best first."""
    if effect.use_after <= 1.0:
        return False, effect.weight_change
    return True, effect.use_after


def element_weigher(
    *, inputs: StructureInputs, beam: int, element: int, joints: JointsOf
) -> Callable[[Element], tuple[float, int]]:
    """Give the most used limit of an element in the place of another, and its section, from 0."""
    mounted, site = inputs.beams[beam], site_loads(inputs=inputs)

    # Asked for again of the same changes: to choose among them, and to tell each.
    @cache
    def weigh(changed: Element) -> tuple[float, int]:
        elements = list(mounted.beam.elements)
        elements[element] = changed
        held = replace(
            mounted,
            beam=replace(mounted.beam, elements=tuple(elements)),
            joints=tuple(joints(changed) if n == element else () for n in range(len(elements))),
        )
        findings = Findings()
        report = check_element(mounted=held, index=element, site=site, findings=findings)
        use = max((line.use or 0.0 for line in findings.lines), default=0.0)
        worst = governing_joint(mounted=held, index=element, site=site)
        if worst is not None and worst.use > use:
            return worst.use, joint_section(worst, changed.half)
        return use, 0 if report is None else weak_section(report.strength)

    return weigh


def _sufficing(
    element: Element, singles: Sequence[Remedy], weigh: Callable[[Element], tuple[float, int]]
) -> Iterator[Remedy]:
    """Make all tubes larger, or walls thicker, so that it holds; none where one change will do."""
    if any(weigh(remedy.element)[0] <= 1.0 for remedy in singles):
        return

    @cache
    def thick(steps: int) -> Remedy | None:
        return _thickened(_larger(element, steps).element, weigh)

    def holds(steps: int) -> bool:
        return weigh(_larger(element, steps).element)[0] <= 1.0

    # The largest first: where that does not suffice, nothing does.
    if holds(_MOST_STEPS):
        yield _larger(element, bisect_left(_STEPS, True, key=holds))
    if thick(_MOST_STEPS) is not None:
        least = bisect_left(_STEPS, True, key=lambda steps: thick(steps) is not None)
        walls, larger = thick(least), _larger(element, least)
        if walls is not None:
            said = [each for each in (larger.text, walls.text) if each]
            yield Remedy(text=listed(said, between="; then "), element=walls.element)


def _larger(element: Element, steps: int) -> Remedy:
    unchanged = Remedy(text="", element=element)
    return larger_tubes(element=element, by=steps * SIZE_STEP) if steps else unchanged


def _thickened(element: Element, weigh: Callable[[Element], tuple[float, int]]) -> Remedy | None:
    """Take the next wall where the element governs until it holds; None where none that fit do."""
    spans: list[_Span] | None = [(tube.wall, tube.length, tube.wall) for tube in element.half]
    while spans is not None:
        remedy = other_walls(element=element, spans=spans)
        use, weak = weigh(remedy.element)
        if use <= 1.0:
            return remedy
        spans = _next_wall(element, spans, weak)
    return None


def _next_wall(element: Element, spans: Sequence[_Span], weak: int) -> list[_Span] | None:
    """Thicken the weak section, as the spans part them: by the next wall sold, else by a tube."""
    parted: list[int | None] = []
    for number, (tube, (_, length, _)) in enumerate(zip(element.half, spans, strict=True)):
        parted += [number] if length == tube.length else [number, None]
    weakest = parted[weak]
    if weakest is None:
        return None
    tube, (wall, length, _) = element.half[weakest], spans[weakest]
    if length < tube.length:
        return None
    tries = [(each, length, each) for each in thicker_walls(wall, diameter=tube.diameter)[:1]]
    room = _room_inside(element, weakest, 2.0 * wall)
    if room is not None and 2.0 * wall <= THICKEST_WALL * tube.diameter:
        tries.append((2.0 * wall, room, wall))
    for span in tries:
        found = [*spans[:weakest], span, *spans[weakest + 1 :]]
        if _goes_together(other_walls(element=element, spans=found).element):
            return found
    return None


def highest_stress(strength: ElementStrength) -> float:
    """Highest stress of an element, bare or iced [Pa]."""
    return max(strength.worst_bare.bare_stress, strength.worst_iced.iced_stress)
