"""Masses of elements and wires along the boom, and why they may not be known."""

from __future__ import annotations

from itertools import pairwise
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from boomwright.base import STANDARD_GRAVITY
from boomwright.parts import Beam
from boomwright.structure.beam.boom import PointMass
from boomwright.structure.beam.frame import frame_masses, radial_pieces
from boomwright.structure.beam.stepped import half_segments
from boomwright.structure.checks.elements import element_trouble
from boomwright.structure.weather.ice import IceCoat


def beam_masses(*, beam: Beam, ice: IceCoat | None = None) -> tuple[PointMass, ...]:
    """Masses of elements, wires and their frame along the boom.

    Args:
        ice: ice on everything, or None
    """
    masses = []
    for number, element in enumerate(beam.elements, start=1):
        if element.bent:
            name = f"{element.role} {number}"
            masses += _wire_masses(
                name, np.array(element.outline), element.half[0].diameter, beam, ice
            )
            continue
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
    for low, high, diameter in radial_pieces(beam):
        masses += _wire_masses("radial", np.array([low, high]), diameter, beam, ice)
    for wire in beam.wires:
        masses += _wire_masses(wire.name, wire.points, wire.diameter, beam, ice)
    return (*masses, *frame_masses(beam=beam, ice=ice))


def _wire_masses(
    name: str, points: NDArray[np.float64], diameter: float, beam: Beam, ice: IceCoat | None
) -> list[PointMass]:
    """Each straight piece of a wire at its middle."""
    area = np.pi * diameter**2 / 4.0 * beam.material.density
    coat = 0.0 if ice is None else ice.mass_per_length(diameter=diameter)
    return [
        PointMass(
            name=name,
            position=float(a[0] + b[0]) / 2.0,
            mass=(float(area) + coat) * float(np.linalg.norm(b - a)),
            span=2.0 * float(max(abs(a[1]), abs(b[1]))),
        )
        for a, b in pairwise(points)
    ]


def weight_trouble(*, beam: Beam) -> str:
    """Say why a beam's weight cannot be known, or nothing."""
    if not beam.elements:
        return "the beam has no elements"
    for number, element in enumerate(beam.elements, start=1):
        trouble = (
            ""
            if element.bent and beam.material.density > 0.0
            else element_trouble(element=element, material=beam.material)
        )
        if trouble:
            return f"the weight of element {number} is not known ({trouble})"
        if not isfinite(element.position):
            return f"the place of element {number} is no number"
    return ""
