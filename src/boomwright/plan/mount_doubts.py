"""What a boom may do to elements while the plan does not say how they are held."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import Notice
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.parts import Beam, Mount
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.tables.mount import MOUNT_EXAMPLE, MOUNT_EXAMPLE_US
from boomwright.solver import acts_longer, mount_effect

#: share of its length by which an element must be off to be worth a doubt: at a quarter of a
#: per cent the band of a three-element beam moves by a tenth {common-practice-magnitudes}
_MATTERS = 0.0025
#: boom over the thickest element where the plan gives no boom {common-practice-magnitudes}
_BOOM_OVER_ELEMENT = 2.0


def mount_doubts(beam: Beam, boom: BoomPlan | None) -> list[Notice]:
    """Say what a metal boom may do to elements whose mount is not said, where that matters."""
    unsaid = [element for element in beam.elements if element.mount is None and not element.bent]
    thickest = max(element.half[0].diameter for element in beam.elements)
    diameter = _BOOM_OVER_ELEMENT * thickest if boom is None else boom.diameter
    # Of all mounts, bonded through the boom takes most away.
    mount = Mount(kind="bonded through", boom=(max(diameter, 1.1 * thickest),))
    shifts = [
        (-acts_longer(inductance=effect.inductance, element=element), element.length)
        for element in unsaid
        if (
            effect := mount_effect(
                element=replace(element, mount=mount), wavelength=beam.wavelength
            )
        )
    ]
    if not shifts or max(shift / length for shift, length in shifts) < _MATTERS:
        return []
    thick: Value = "twice as thick as they are"
    if boom is not None:
        thick = phrase("of {diameter}", diameter=Quantity(diameter, "whole millimetres"))
    most = Quantity(max(shift for shift, _ in shifts), "whole millimetres")
    return [
        Notice(
            code="plan.mount-unsaid",
            text=phrase(
                "{beam}: the plan does not say how the elements are held, so the figures leave the "
                "boom out. On a metal boom {thick} they act up to {most} shorter than they are "
                "cut.",
                beam=beam.name,
                thick=thick,
                most=most,
            ),
            how=phrase(
                "Write mount = {mount} into [[beam]], or kind = {none}.",
                mount=PerSystem(metric=MOUNT_EXAMPLE, us=MOUNT_EXAMPLE_US),
                none='"non-conducting boom"',
            ),
            severity="doubt",
        )
    ]
