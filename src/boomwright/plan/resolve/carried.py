"""What the parts of a beam weigh and show to the wind, as the structure room takes it."""

from __future__ import annotations

import math

from boomwright.base.records import replace
from boomwright.parts import (
    Assembly,
    Bar,
    BeamFrame,
    Block,
    Carrier,
    Element,
    Part,
    centre_of,
    element_group,
    mount_group,
)
from boomwright.structure import Alongside, ExposedSolid, MountedBeam, PointMass, SweptSolid

#: what is strung between points, or holds them
_STRUNG = frozenset({"wire", "radial", "cord", "spreader"})


def carried_by(assembly: Assembly, frame: BeamFrame) -> MountedBeam:
    """Sum up the parts of a beam, group by group, without those of its boom's tubes and joints."""
    parts = [part for part in assembly.of(frame.beam.name) if part.role != "boom"]
    balance = assembly.balance(frame.beam.name)
    groups: dict[str, list[tuple[float, float, float]]] = {}
    for part in parts:
        moments = _moments(part, balance)
        if moments is not None:
            # Each fitting keeps its own name; the rest goes by what it is fastened to.
            key = part.name if part.role == "fitting" else part.group
            groups.setdefault(key, []).append(moments)
    second = _second_conductor(frame, parts)
    tubes = [part for part in parts if part.role == "element tube"]
    strung = [part for part in parts if part.role in _STRUNG and part not in second]
    axes = assembly.carrier(frame.beam.name).axes
    return MountedBeam(
        beam=frame.beam,
        axes=tuple((x + frame.rear, y) for x, y in axes),
        masses=tuple(
            _point(name, mine, frame.rear)
            for name, mine in groups.items()
            if sum(mass for mass, _, _ in mine) > 0.0
        ),
        tubes=(*_showing([*tubes, *second], frame.rear), *_in_gaps(parts, frame.rear)),
        strung=_showing(strung, frame.rear),
        alongside=tuple(
            _alongside(parts, second, each) if second and each.role == "driven" else None
            for each in frame.beam.elements
        ),
        exposed=tuple(
            each
            for part in parts
            if part not in (*tubes, *second, *strung)
            for each in _exposed(part, frame.rear, frame.boom_diameter or 0.0)
        ),
        swept=_swept(assembly, frame),
    )


def _swept(assembly: Assembly, frame: BeamFrame) -> tuple[SweptSolid, ...]:
    """Everything that turns with a beam, each with the element that lets it hang."""
    beam = frame.beam
    order = [(n, beam.elements.index(each)) for n, each in enumerate(frame.order, start=1)]
    own = {element_group(number): index for number, index in order}
    hung = own | {mount_group(number): index for number, index in order}
    if beam.elements:
        hung["feed"] = beam.driven_index
    axes = Carrier(name=beam.name, origin=(frame.rear, 0.0, 0.0))
    return tuple(
        SweptSolid(
            name="" if part.group in own else f"{part.name} of {beam.name}",
            solid=axes.solid_at_foot(solid),
            element=hung.get(part.group),
        )
        for part in assembly.of(beam.name)
        for solid in part.solids
    )


def _second_conductor(frame: BeamFrame, parts: list[Part]) -> list[Part]:
    """Rods or wire beside a folded element; the rods of any other match run off it."""
    if frame.beam.feed.kind != "folded":
        return []
    return [part for part in parts if part.group == "feed" and part.drag == "round"]


def _alongside(parts: list[Part], second: list[Part], element: Element) -> Alongside:
    """What the left half of a second conductor hangs on its element: both halves are alike."""
    mine = [part for part in parts if part.group == "feed" and part.solids]
    left = [part for part in mine if centre_of(part)[1] > 0.0]
    bars = [part for part in left if part.form == "plate"]
    wide = [solid.size[1] for part in bars for solid in part.solids if isinstance(solid, Block)]
    return Alongside(
        mass=sum(part.mass or 0.0 for part in left if part not in bars) / element.half_length,
        diameter=max(solid.diameter for part in second for solid in part.solids
                     if isinstance(solid, Bar)),
        bar=sum(part.mass or 0.0 for part in bars),
        wide=max(wide),
    )  # fmt: skip


def _moments(part: Part, balance: float | None) -> tuple[float, float, float] | None:
    """Mass [kg], place along the boom [m] and mean square across it [m^2] of what is added."""
    if part.mass is None:
        return None
    if not part.solids:
        return None if balance is None else (part.mass, balance, 0.0)
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


def _showing(parts: list[Part], rear: float) -> tuple[Bar, ...]:
    """Round pieces without what lies in the next larger tube, on the beam's axes."""
    found = []
    for part in parts:
        share = 0.0 if part.cut is None else part.cut.overlap / part.cut.sawn
        for bar in part.solids if part.drag == "round" else ():
            if isinstance(bar, Bar):
                a, b = ((x + rear, y, z) for x, y, z in (bar.start, bar.end))
                x, y, z = (low + share * (high - low) for low, high in zip(a, b, strict=True))
                found.append(replace(bar, start=(x, y, z), end=b))
    return tuple(found)


def _in_gaps(parts: list[Part], rear: float) -> list[Bar]:
    """What shows of the rods in the gaps of cut elements."""
    found = []
    for part in parts:
        for bar in part.solids if part.role == "insulator" else ():
            if part.cut is not None and isinstance(bar, Bar):
                x, _, z = bar.middle
                half = 0.5 * part.cut.exposed
                ends = (x + rear, -half, z), (x + rear, half, z)
                found.append(replace(bar, start=ends[0], end=ends[1]))
    return found


def _exposed(part: Part, rear: float, boom: float) -> list[ExposedSolid]:
    """Solids that wind and ice meet; a fitting has no shape of its own."""
    if part.role == "fitting" or part.drag == "none":
        return []
    # The boom across a mast plate is counted already.
    hidden = boom if part.role == "mast plate" else 0.0
    return [
        ExposedSolid(position=rear + solid.middle[0], solid=solid, hidden=hidden)
        for solid in part.solids
    ]
