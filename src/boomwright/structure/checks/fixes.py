"""Fixes offered for the weak section of an element, each with what it gains."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import cache
from itertools import pairwise

from boomwright.base.quantity import listed
from boomwright.parts import Element, Joints
from boomwright.structure.beam.elements import ElementStrength, element_strength
from boomwright.structure.checks.elements import check_element, element_trouble
from boomwright.structure.checks.findings import Findings, SiteLoads, site_loads
from boomwright.structure.checks.remedies import (
    Remedy,
    RemedyEffect,
    double_wall,
    extend_outer_tube,
    larger_tubes,
    lengthen_overlap,
    remedy_effect,
)
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import StructureInputs

#: how far the next larger tube is let out over the weak one, as a share of the weak one
REACH_SHARE = 0.25
#: tubes that slide into each other follow in steps of an eighth of an inch
#: {common-practice-stations} [m]
SIZE_STEP = 0.003175
#: steps by which all tubes are made larger at most
_MOST_STEPS = 8


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
    attempts: tuple[Callable[[], Remedy], ...] = (
        lambda: double_wall(
            element=element, section=section, length=_room_inside(element, section)
        ),
        lambda: lengthen_overlap(element=element, section=section + 1, by=tube.length),
        lambda: extend_outer_tube(element=element, section=section, by=REACH_SHARE * tube.length),
    )
    found = []
    for attempt in attempts:
        with suppress(StructureInputError):
            found.append(attempt())
    return tuple(remedy for remedy in found if _goes_together(remedy.element))


def _room_inside(element: Element, section: int) -> float | None:
    """Length of a section that a second tube may fill.

    Returns:
        None for all of it; where the next tube does not go into the second one, what its end
        inside the section leaves [m]
    """
    tube, outwards = element.half[section], element.half[section + 1 :]
    if not outwards or replace(tube, wall=2.0 * tube.wall).takes(outwards[0]):
        return None
    return tube.length - Joints().overlap(outwards[0].diameter)


def _goes_together(element: Element) -> bool:
    return all(outer.takes(inner) for outer, inner in pairwise(element.half))


def element_fixes(*, inputs: StructureInputs, beam: int, element: int) -> tuple[RemedyEffect, ...]:
    """Work out every fix that fits the weak section of an element.

    The electrical length changes with the outer sizes: the caller gives the new element to
    the field solver.

    Returns:
        fixes that lower the highest stress: those that suffice first, the lightest of them first;
        none without wind, walls or yield strength
    """
    held, beside = inputs.beams[beam].beam, inputs.beams[beam].beside(element)
    part, material = held.elements[element], held.material
    site = site_loads(inputs=inputs)
    pressure = site.pressure(height=held.height)
    if pressure is None or element_trouble(element=part, material=material):
        return ()
    if not material.yield_strength > 0.0:
        return ()
    coat, iced = site.coat(height=held.height), site.ice_pressure(height=held.height)
    ice_pressure = 0.0 if iced is None else iced.for_force
    strength = element_strength(
        element=part,
        material=material,
        pressure=pressure.for_force,
        ice=coat,
        ice_pressure=ice_pressure,
        dead_factor=site.dead_factor,
        beside=beside,
    )
    use = _use_of(inputs, beam, element, site)
    begun = use(part)
    singles = offered_remedies(element=part, section=weak_section(strength))
    offered = [*singles, *_larger(part, singles, use)]
    effects = [
        replace(
            remedy_effect(
                element=part,
                remedy=remedy,
                material=material,
                pressure=pressure.for_force,
                ice=coat,
                ice_pressure=ice_pressure,
                beside=beside,
            ),
            use_before=begun,
            use_after=use(remedy.element),
        )
        for remedy in offered
    ]
    helping = [
        effect
        for effect in effects
        if highest_stress(effect.after) < 0.995 * highest_stress(effect.before)
    ]
    return tuple(sorted(helping, key=_merit))


def _merit(effect: RemedyEffect) -> tuple[bool, float]:
    """Sorts what suffices first, the lightest of it first; then the rest, the best first."""
    if effect.use_after <= 1.0:
        return False, effect.weight_change
    return True, highest_stress(effect.after)


def _use_of(
    inputs: StructureInputs, beam: int, index: int, site: SiteLoads
) -> Callable[[Element], float]:
    """Give what tells the most used limit of an element in the place of another one [-]."""
    mounted = inputs.beams[beam]

    # Asked for again of the same changes: to choose among them, and to tell each.
    @cache
    def use(element: Element) -> float:
        elements = list(mounted.beam.elements)
        elements[index] = element
        changed = replace(mounted, beam=replace(mounted.beam, elements=tuple(elements)))
        findings = Findings()
        check_element(mounted=changed, index=index, site=site, findings=findings)
        return max((line.use or 0.0 for line in findings.lines), default=0.0)

    return use


def _larger(
    element: Element, singles: Sequence[Remedy], use: Callable[[Element], float]
) -> Iterator[Remedy]:
    """Make all tubes so much larger that the element is within its limits.

    Returns:
        that alone, and after the single change that helps most; none where a single one suffices
    """
    if any(use(remedy.element) <= 1.0 for remedy in singles):
        return
    begins = [Remedy(text="", element=element)]
    if singles:
        begins.append(min(singles, key=lambda remedy: use(remedy.element)))
    for begin in begins:
        for steps in range(1, _MOST_STEPS + 1):
            larger = larger_tubes(element=begin.element, by=steps * SIZE_STEP)
            if use(larger.element) <= 1.0:
                said = [each for each in (larger.text, begin.text) if each]
                yield Remedy(text=listed(said, between="; then "), element=larger.element)
                break


def highest_stress(strength: ElementStrength) -> float:
    """Highest stress of an element, bare or iced [Pa]."""
    return max(strength.worst_bare.bare_stress, strength.worst_iced.iced_stress)
