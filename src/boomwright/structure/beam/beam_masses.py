"""Masses of elements and wires along the boom, and why they may not be known."""

from __future__ import annotations

from math import isfinite

import numpy as np

from boomwright.base import STANDARD_GRAVITY
from boomwright.parts import Beam
from boomwright.structure.beam.boom import PointMass
from boomwright.structure.beam.stepped import half_segments
from boomwright.structure.checks.elements import element_trouble
from boomwright.structure.weather.ice import IceCoat


def beam_masses(*, beam: Beam, ice: IceCoat | None = None) -> tuple[PointMass, ...]:
    """Masses of elements and wires along the boom.

    Args:
        ice: ice on everything, or None
    """
    masses = []
    for number, element in enumerate(beam.elements, start=1):
        weight = sum(
            segment.weight_per_length(ice=ice) * segment.length
            for segment in half_segments(element=element, material=beam.material)
        )
        masses.append(
            PointMass(
                name=f"{element.role} {number}",
                position=element.position,
                mass=2.0 * weight / STANDARD_GRAVITY,
                span=element.length,
            )
        )
    for wire in beam.wires:
        area = np.pi * wire.diameter**2 / 4.0 * beam.material.density
        coat = 0.0 if ice is None else ice.mass_per_length(diameter=wire.diameter)
        for a, b in zip(wire.points[:-1], wire.points[1:], strict=True):
            length = float(np.linalg.norm(b - a))
            masses.append(
                PointMass(
                    name=wire.name,
                    position=float(a[0] + b[0]) / 2.0,
                    mass=(float(area) + coat) * length,
                    span=2.0 * float(max(abs(a[1]), abs(b[1]))),
                )
            )
    return tuple(masses)


def weight_trouble(*, beam: Beam) -> str:
    """Say why a beam's weight cannot be known, or nothing."""
    if not beam.elements:
        return "the beam has no elements"
    for number, element in enumerate(beam.elements, start=1):
        trouble = element_trouble(element=element, material=beam.material)
        if trouble:
            return f"the weight of element {number} is not known ({trouble})"
        if not isfinite(element.position):
            return f"the place of element {number} is no number"
    return ""
