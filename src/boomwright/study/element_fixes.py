"""Fixes for weak elements, with what the field solver says about their electrical length."""

from __future__ import annotations

import numpy as np

from boomwright import plan as plans
from boomwright.base import UnitSystem, length_text
from boomwright.base.quantity import Value
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Element, Feed, TubeSection
from boomwright.plan import Plan
from boomwright.solver import Preparer, prepare_run, solve_beam, working_detail
from boomwright.structure import (
    StructureInputs,
    TubeJoint,
    element_fixes,
    element_label,
    element_weigher,
    highest_stress,
)

#: length step that gives the slope of the reactance [m]
_STEP = 0.01
#: steps towards the trim that restores the reactance
_TURNS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ElectricalEffect:
    """What a fix does to an element as an antenna, alone in free space."""

    reactance_change: float  #: reactance after less before, at the design frequency [ohm]
    trim: float  #: added to each tip to bring the reactance back; negative to cut [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixOffer:
    """One fix of one element, ready to be taken into the plan."""

    beam: int  #: number of the beam, from 0
    element: int  #: number of the element, from 0
    number: int  #: number of the fix among those of the element, best first, from 0
    label: str  #: beam, role and number of the element
    text: Value  #: what to do
    use_before: float  #: most used of the element's limits, joints too [-]
    use_after: float  #: the same after the fix [-]
    stress_before: float  #: highest stress, bare or iced [Pa]
    stress_after: float  #: the same after the fix [Pa]
    weight_change: float  #: of the whole element [N]
    droop_change: float  #: of the tip in still air, bare [m]
    #: effect on the electrical length; None when the outer sizes stay, so that there is none
    electrical: ElectricalEffect | None
    before: Element
    changed: Element  #: the element after fix and trim


def fix_offers(
    *, plan: Plan, inputs: StructureInputs, beam: int, element: int, prepare: Preparer = prepare_run
) -> tuple[FixOffer, ...]:
    """Offer the fixes of one element past a limit: those that suffice first."""
    from boomwright.plan.resolve import joints_of

    held = plan.beams[beam]
    part = held.elements[element]
    offers = []

    def joints(changed: Element) -> tuple[TubeJoint, ...]:
        return joints_of(plan, beam=beam, index=element, element=changed)

    weigh = element_weigher(inputs=inputs, beam=beam, element=element, joints=joints)
    if weigh(part)[0] <= 1.0:
        return ()
    for effect in element_fixes(inputs=inputs, beam=beam, element=element, joints=joints):
        changed, electrical, use_after = effect.remedy.element, None, effect.use_after
        if _outline(changed) != _outline(part):
            electrical, changed = _electrical(held, element, changed, prepare)
            use_after, _ = weigh(changed)
        offers.append(
            FixOffer(
                beam=beam,
                element=element,
                number=0,
                label=element_label(beam=held, index=element),
                text=effect.remedy.text,
                use_before=effect.use_before,
                use_after=use_after,
                stress_before=highest_stress(effect.before),
                stress_after=highest_stress(effect.after),
                weight_change=2.0 * effect.weight_change,
                droop_change=effect.droop_change,
                electrical=electrical,
                before=part,
                changed=changed,
            )
        )
    # What brings the reactance back may lengthen the tips.
    offers.sort(key=lambda offer: offer.use_after > 1.0)
    return tuple(replace(offer, number=number) for number, offer in enumerate(offers))


def take_fix(text: str, offer: FixOffer) -> str:
    """Write a fix into a plan text; comments stay, sizes are in the units of the plan."""
    place = f"beam[{offer.beam}].element[{offer.element}].half"
    system = plans.written_system(text)
    rows = [
        [_fine(s.diameter, system), _cut(s.length, system), _fine(s.wall, system)]
        for s in offer.changed.half
    ]
    before = offer.before.half
    if len(rows) != len(before):
        return plans.rewrite(text, {place: rows})
    changes = {
        f"{place}[{number}][{cell}]": rows[number][cell]
        for number, (old, new) in enumerate(zip(before, offer.changed.half, strict=True))
        for cell, name in enumerate(("diameter", "length", "wall"))
        if getattr(old, name) != getattr(new, name)
    }
    return plans.rewrite(text, changes)


def _fine(size: float, system: UnitSystem) -> str:
    """Write a tube's size to a hundredth of a millimetre, or a thousandth of an inch."""
    if system == "us":
        return f"{round(size / 0.0254, 3):.10g} in"
    return f"{round(size * 1000.0, 2):.10g} mm"


def _cut(length: float, system: UnitSystem) -> str:
    """Write what is cut: as finely as a tube's size, in feet to a sixteenth of an inch."""
    return length_text(length, system=system) if system == "us" else _fine(length, system)


def _outline(element: Element) -> tuple[tuple[float, float], ...]:
    """Outer sizes from the boom out, neighbours of one diameter joined."""
    joined: list[tuple[float, float]] = []
    for section in element.half:
        if joined and joined[-1][0] == section.diameter:
            joined[-1] = (section.diameter, joined[-1][1] + section.length)
        else:
            joined.append((section.diameter, section.length))
    return tuple((round(diameter, 9), round(length, 9)) for diameter, length in joined)


def _longer(element: Element, by: float) -> Element:
    tip = element.half[-1]
    return replace(element, half=(*element.half[:-1], replace(tip, length=tip.length + by)))


def _reactance(beam: Beam, element: Element, prepare: Preparer) -> float:
    """Reactance of an element alone, as the field solver sees it: outer sizes only [ohm]."""
    bare = tuple(TubeSection(diameter=d, length=long, wall=0.0) for d, long in _outline(element))
    alone = replace(element, half=bare, role="driven", position=0.0)
    frequency = beam.design_frequency
    solution = solve_beam(
        beam=replace(beam, elements=(alone,), wires=(), feed=Feed(kind="split", gap=0.02)),
        frequencies=np.array([frequency]),
        detail=working_detail(frequency=frequency),
        prepare=prepare,
    )
    return float(solution.impedance[0].imag)


def _electrical(
    beam: Beam, index: int, changed: Element, prepare: Preparer
) -> tuple[ElectricalEffect, Element]:
    before = beam.elements[index]
    wanted = _reactance(beam, before, prepare)
    trimmed, reactance = changed, _reactance(beam, changed, prepare)
    change = reactance - wanted
    trim = 0.0
    slope = (_reactance(beam, _longer(changed, _STEP), prepare) - reactance) / _STEP
    for _ in range(_TURNS):
        trim -= (reactance - wanted) / slope
        trimmed = _longer(changed, trim)
        reactance = _reactance(beam, trimmed, prepare)
    return ElectricalEffect(reactance_change=change, trim=trim), trimmed
