"""A beam of straight elements and wires on its boom, weighed and measured by hand."""

from __future__ import annotations

import math
from itertools import pairwise

from boomwright.parts import Bar
from boomwright.structure import MountedBeam, PointMass


def tubes_of(beam):
    """Tubes of both halves of every straight element (n,)."""
    found = []
    for element in beam.elements:
        reached = 0.0
        for section in () if element.bent else element.half:
            for side in (1.0, -1.0):
                ends = [(element.position, side * (reached + step), 0.0)
                        for step in (0.0, section.length)]  # fmt: skip
                found.append(Bar(start=ends[0], end=ends[1], diameter=section.diameter,
                                 bore=max(0.0, section.diameter - 2.0 * section.wall)))  # fmt: skip
            reached += section.length
    return tuple(found)


def wires_of(beam):
    """Straight pieces of the wires beside the elements (n,)."""
    return tuple(
        Bar(start=tuple(map(float, low)), end=tuple(map(float, high)), diameter=wire.diameter)
        for wire in beam.wires
        for low, high in pairwise(wire.points)
    )


def weighed(beam, boom=None, *fittings, **further):
    """Mount a beam; each tube and piece of wire is a mass of its own, unless it makes no tube."""
    tubes, strung = tubes_of(beam), wires_of(beam)
    masses = [
        PointMass(name="tube", position=bar.middle[0], mass=beam.material.density * bar.volume,
                  span=2.0 * math.sqrt(bar.start[1] ** 2 + bar.start[1] * bar.end[1]
                                       + bar.end[1] ** 2))
        for bar in (*tubes, *strung)
    ]  # fmt: skip
    masses = [each for each in masses if 0.0 <= each.mass < math.inf]
    return MountedBeam(beam=beam, boom=boom, masses=(*masses, *fittings), tubes=tubes,
                       strung=strung, **further)  # fmt: skip
