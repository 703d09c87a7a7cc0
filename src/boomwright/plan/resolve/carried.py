"""What a boom carries besides elements and wires, as the structure room takes it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from boomwright.parts import (
    Assembly,
    Bar,
    BeamFrame,
    Block,
    Part,
    centre_of,
    element_group,
    is_cut,
)
from boomwright.structure import ExposedSolid, PointMass

#: what the structure room weighs by itself
_WEIGHED_THERE = frozenset({"boom", "wire", "hub"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """Overlaps, tips, plates, clamps, rods, box, sleeves, caps, truss and fittings of one beam."""

    masses: tuple[PointMass, ...]  #: places on the beam's x axis (n_masses,)
    exposed: tuple[ExposedSolid, ...]  #: plates, rods, boxes and truss (n_exposed,)
    offset: float  #: boom's axis to the left of what it turns about; 0 while not known [m]


def carried_by(assembly: Assembly, frame: BeamFrame) -> Carried:
    """Sum up what a boom carries, group by group.

    The structure room weighs tubes as they show, the bare boom, wires and hub itself;
    what the parts weigh beyond that is here, so that both come to one figure.
    """
    parts = [part for part in assembly.of(frame.beam.name) if part.role not in _WEIGHED_THERE]
    balance = assembly.balance(frame.beam.name)
    groups: dict[str, list[tuple[float, float, float]]] = {}
    for part in parts:
        moments = _moments(part, balance)
        if moments is not None:
            # Each fitting keeps its own name; the rest goes by what it is fastened to.
            key = part.name if part.role == "fitting" else part.group
            groups.setdefault(key, []).append(moments)
    for number, element in enumerate(frame.order, start=1):
        group, first = element_group(number), element.half[0]
        if group in groups and is_cut(frame.beam, element):
            bar = Bar(start=(0.0, 0.0, 0.0), end=(0.0, frame.beam.feed.gap, 0.0),
                      diameter=first.diameter,
                      bore=max(0.0, first.diameter - 2.0 * first.wall))  # fmt: skip
            gap = frame.beam.material.density * bar.volume
            groups[group].append((-gap, element.position - frame.rear, 0.0))
    axis = assembly.carrier(frame.beam.name).axis
    return Carried(
        offset=0.0 if axis is None else -axis[1],
        masses=tuple(
            _point(f"hardware, {name}" if "hardware" not in name else name, mine, frame.rear)
            for name, mine in groups.items()
            if sum(mass for mass, _, _ in mine) > 0.0
        ),
        exposed=tuple(
            each
            for part in parts
            for each in _exposed(part, frame.rear, frame.boom_diameter or 0.0)
        ),
    )


def _moments(part: Part, balance: float | None) -> tuple[float, float, float] | None:
    """Mass [kg], place along the boom [m] and mean square across it [m^2] of what is added."""
    if part.mass is None:
        return None
    if not part.solids:
        return None if balance is None else (part.mass, balance, 0.0)
    if part.role in {"element tube", "spreader"}:
        (solid,) = part.solids
        if part.cut is None or not part.cut.overlap or not isinstance(solid, Bar):
            return None
        share = part.cut.overlap / part.cut.sawn
        hidden = tuple(a + share * (b - a) for a, b in zip(solid.start, solid.end, strict=True))
        bar = replace(solid, end=(hidden[0], hidden[1], hidden[2]))
        return share * part.mass, bar.middle[0], _across(bar)
    whole = part.volume or 1.0
    spread = sum(solid.volume * _across(solid) for solid in part.solids) / whole
    return part.mass, centre_of(part)[0], spread


def _across(solid: Bar | Block) -> float:
    """Mean square of the distance from the boom's axis, to the sides [m^2]."""
    if isinstance(solid, Bar):
        a, b = solid.start[1], solid.end[1]
        return (a * a + a * b + b * b) / 3.0
    return solid.middle[1] ** 2 + solid.size[1] ** 2 / 12.0


def _point(name: str, moments: list[tuple[float, float, float]], rear: float) -> PointMass:
    mass = sum(each for each, _, _ in moments)
    place = sum(each * x for each, x, _ in moments) / mass
    spread = sum(each * ((x - place) ** 2 + y2) for each, x, y2 in moments) / mass
    # A rod spread evenly over its span has a twelfth of the span squared.
    return PointMass(name=name, position=rear + place, mass=mass,
                     span=math.sqrt(12.0 * max(0.0, spread)))  # fmt: skip


def _exposed(part: Part, rear: float, boom: float) -> list[ExposedSolid]:
    """Solids that wind and ice meet; those of elements, boom and fittings are counted elsewhere."""
    if part.role in {"element tube", "spreader", "fitting"} or part.drag == "none":
        return []
    # The boom across a mast plate is counted already.
    hidden = boom if part.role == "mast plate" else 0.0
    return [
        ExposedSolid(position=rear + solid.middle[0], solid=solid, hidden=hidden)
        for solid in part.solids
    ]
