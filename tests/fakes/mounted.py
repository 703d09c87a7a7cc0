"""A beam of straight elements and wires on its boom, weighed and measured by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from boomwright.parts import Bar
from boomwright.structure import MountedBeam, PointMass, SweptSolid


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
    masses += fittings
    return MountedBeam(beam=beam, boom=boom, masses=tuple(masses), tubes=tubes,
                       strung=strung, **further, **turning(beam, boom, masses))  # fmt: skip


def turning(beam, boom, masses=()):
    """What turns with a beam and about what: tubes, wires, boom and the tie over its clamp.

    Without a clamp it is held where it balances; while not all tubes are known, at either end.
    """
    places = [element.position for element in beam.elements] or [0.0]
    ends = (min(places), max(places))
    swept = [SweptSolid(name="", solid=bar, element=places.index(bar.start[0]))
             for bar in tubes_of(beam)]  # fmt: skip
    swept += [SweptSolid(name=wire.name, solid=bar)
              for wire in beam.wires for bar in wires_of(replace(beam, wires=(wire,)))]  # fmt: skip
    if boom is None:
        return {"swept": tuple(swept), "axes": tuple((x, 0.0) for x in ends)}
    ends = (boom.rear_end, boom.rear_end + boom.length)
    tube = Bar(start=(ends[0], 0.0, 0.0), end=(ends[1], 0.0, 0.0), diameter=boom.diameter)
    swept.append(SweptSolid(name=f"boom of {beam.name}", solid=tube))
    known = all(0.0 < tube.bore < tube.diameter for tube in tubes_of(beam))
    whole = boom.mass + sum(each.mass for each in masses)
    moment = boom.mass * boom.middle + sum(each.mass * each.position for each in masses)
    at = moment / whole if boom.clamp is None else boom.clamp
    stands = (at,) if known or boom.clamp is not None else ends
    if boom.tie is not None:
        over = Bar(start=(at, 0.0, 0.0), end=(at, 0.0, boom.tie.rise), diameter=0.006)
        swept.append(SweptSolid(name=f"tie of {beam.name}", solid=over))
    return {"swept": tuple(swept), "axes": tuple((x, -boom.offset) for x in stands)}
