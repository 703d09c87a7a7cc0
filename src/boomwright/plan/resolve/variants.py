"""The same plan with one choice changed, to see what it costs."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from boomwright.parts import Element
from boomwright.plan.model import Plan
from boomwright.plan.model_support import BasePlan, SupportPlan
from boomwright.plan.surroundings import surround

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel

#: a further director is so much shorter than the one behind it [-] {common-practice-first-guess}
_SHORTER = 0.01


def taller_plan(plan: Plan, *, step: float) -> Plan:
    """Put everything higher: booms, tower or tube, mast, guys, feed line, control cable.

    Guys keep their slope, so their anchors stand further out, and about their spacing, so that a
    much taller support gets more rings. What presses and pulls on footing and anchors of a guyed
    support grows with its height, and so does their concrete. A free support has to stand against
    the moment of the wind on it, which grows with the square of its height; a footing resists with
    the cube of its size.

    Args:
        step: how much higher [m]
    """
    line = plan.line
    support = None if plan.support is None else _taller_support(plan.support, step)
    return replace(
        plan,
        beams=surround(
            [replace(beam, height=beam.height + step) for beam in plan.beams], support=support
        ),
        support=support,
        line=None
        if line is None
        else replace(
            line,
            length=line.length + step,
            control_cable=line.control_cable + step if line.control_cable else 0.0,
        ),
    )


def _taller_support(support: SupportPlan, step: float) -> SupportPlan:
    tower, tube, mast = support.tower, support.tube, support.mast
    before = max(0.0 if tower is None else tower.height, 0.0 if tube is None else tube.height, 1e-9)
    grown = 1.0 + step / before
    return replace(
        support,
        tower=None if tower is None else replace(tower, height=tower.height + step),
        tube=None if tube is None else replace(tube, height=tube.height + step),
        mast=None
        if mast is None
        else replace(mast, bearing=mast.bearing + step, top=mast.top + step),
        guy=_taller_guys(support.guy, grown),
        base=None if support.base is None else _larger_base(support.base, grown, support),
        anchor=None
        if support.anchor is None
        else replace(support.anchor, length=support.anchor.length * grown),
    )


def _taller_guys(rings: tuple[GuyLevel, ...], grown: float) -> tuple[GuyLevel, ...]:
    """Rings at their share of the height; where half a spacing more has come, one more of them."""
    count = math.floor(len(rings) * grown + 0.5)
    raised = tuple(
        replace(ring, height=ring.height * grown, anchor_radius=ring.anchor_radius * grown)
        for ring in rings
    )
    if count <= len(rings):
        return raised
    ordered = sorted(raised, key=lambda ring: ring.height)
    top = ordered[-1].height
    places = [top * number / count for number in range(1, count + 1)]
    return tuple(
        replace(min(ordered, key=lambda ring: abs(ring.height - place)), height=place)
        for place in places
    )


def _larger_base(base: BasePlan, grown: float, support: SupportPlan) -> BasePlan:
    if support.guy:
        return replace(base, width=base.width * math.sqrt(grown))
    size = grown ** (2.0 / 3.0)
    if base.depth is not None:
        return replace(base, width=base.width * size, depth=base.depth * size)
    return replace(base, width=base.width * size)


def longer_plan(plan: Plan) -> Plan:
    """Add one director to a beam, as far out as the last gap, with the boom to carry it.

    Raises:
        ValueError: when the beam has no two elements to copy from
    """
    beam = plan.beams[0]
    if len(beam.elements) < 2:
        msg = f"beam {beam.name!r} has fewer than two elements, so the next gap cannot be guessed"
        raise ValueError(msg)
    along = sorted(beam.elements, key=lambda element: element.position)
    gap = along[-1].position - along[-2].position
    longer = replace(beam, elements=(*beam.elements, _next_director(along[-1], gap)))
    return replace(
        plan,
        beams=surround([longer, *plan.beams[1:]], support=plan.support),
        booms=tuple(
            replace(boom, length=boom.length + gap) if boom.beam == beam.name else boom
            for boom in plan.booms
        ),
    )


def _next_director(last: Element, gap: float) -> Element:
    tip = last.half[-1]
    cut = min(_SHORTER * last.half_length, 0.5 * tip.length)
    half = (*last.half[:-1], replace(tip, length=tip.length - cut))
    return replace(last, role="director", position=last.position + gap, half=half)
