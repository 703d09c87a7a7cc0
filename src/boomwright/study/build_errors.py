"""What befalls a beam while it is built and while it stands, as far as the plan tells."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from boomwright.design import BuildErrors
from boomwright.parts import Beam, Wire
from boomwright.plan import Plan
from boomwright.plan.resolve import beam_frame, carried_by, mast_place, station_assembly
from boomwright.structure import half_segments, weight_loads
from boomwright.structure.beam.stepped import cantilever_course


def build_errors(plan: Plan, beam: Beam) -> BuildErrors:
    """Gather droop, ice and the other antennas of a plan beside the usual care in building.

    Returns:
        droop is None where a wall is not known
    """
    ice = plan.site.ice_thickness
    others = [each for each in plan.beams if each.name != beam.name]
    return BuildErrors(
        droop=_droop(plan, beam),
        ice_thickness=ice or None,
        neighbour=tuple(wire for other in others for wire in _wires(plan, other, beam)),
    )


def _droop(plan: Plan, beam: Beam) -> float | None:
    """Tip of the element that hangs deepest, in still air [m]."""
    if any(section.wall <= 0.0 for element in beam.elements for section in element.half):
        return None
    deepest = 0.0
    carried = carried_by(station_assembly(plan), beam_frame(plan, beam))
    for element, beside in zip(beam.elements, carried.alongside, strict=True):
        segments = half_segments(element=element, material=beam.material, beside=beside)
        course = cantilever_course(
            segments=segments, loads=weight_loads(segments=segments, ice=None)
        )
        deepest = max(deepest, float(np.max(np.abs(course.deflection))))
    return deepest


def _wires(plan: Plan, other: Beam, beam: Beam) -> tuple[Wire, ...]:
    """Elements of another beam on the same mast, in the axes of this one; feeds closed."""
    turn = other.heading - beam.heading
    # Headings run clockwise, azimuths of the model the other way.
    east, north = math.cos(-turn), math.sin(-turn)
    up = other.height - beam.height
    middle, own = (_stands(plan, each) for each in (other, beam))
    wires = []
    for number, element in enumerate(other.elements, start=1):
        along = element.position - middle
        half = element.half_length
        ends = [
            (own + along * east - side * north, along * north + side * east, up)
            for side in (-half, half)
        ]
        diameter = float(np.average([s.diameter for s in element.half],
                                    weights=[s.length for s in element.half]))  # fmt: skip
        name = f"{other.name}, element {number}"
        wires.append(Wire(name=name, diameter=diameter, points=np.array(ends)))
    turned = np.array([[east, north, 0.0], [-north, east, 0.0], [0.0, 0.0, 1.0]])
    for wire in other.wires:
        moved = (wire.points - np.array([middle, 0.0, 0.0])) @ turned
        wires.append(replace(wire, points=moved + np.array([own, 0.0, up])))
    return tuple(wires)


def _stands(plan: Plan, beam: Beam) -> float:
    """Where the mast stands along the boom: as planned, else half way [m]."""
    planned = mast_place(plan, beam)
    if planned is not None:
        return planned
    places = [element.position for element in beam.elements]
    return (min(places) + max(places)) / 2.0
