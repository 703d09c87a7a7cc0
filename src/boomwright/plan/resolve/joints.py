"""Joints of elements and boom as the parts show them, for the structure room."""

from __future__ import annotations

from itertools import pairwise

from boomwright.parts import (
    JOINT,
    TIP_JOINT,
    Assembly,
    Bar,
    BeamFrame,
    Block,
    Part,
    TubeKind,
    centre_of,
    element_group,
    left_tubes,
)
from boomwright.structure import JOINT_ROOM, TubeJoint, TubeShape


def element_joints(assembly: Assembly, frame: BeamFrame) -> tuple[tuple[TubeJoint, ...], ...]:
    """List the joints of one half of every element, in the order of the plan; walls are given."""
    found: dict[int, tuple[TubeJoint, ...]] = {}
    halves = left_tubes(assembly.of(frame.beam.name))
    sleeves = assembly.of(frame.beam.name, "sleeve")
    for number, element in enumerate(frame.order, start=1):
        # A bent element is wire in one piece.
        if not element.path and all(section.wall > 0.0 for section in element.half):
            group = element_group(number)
            mine = [part for part in sleeves if part.group == group]
            found[id(element)] = (*_slid_in(halves[group]), *_sleeved(halves[group], mine))
    return tuple(found.get(id(element), ()) for element in frame.beam.elements)


def _slid_in(left: list[Part]) -> list[TubeJoint]:
    """Joints of tubes that sit in the next larger one."""
    joints = []
    for outer, part in pairwise(left):
        if part.cut is not None and part.cut.overlap > 0.0 and outer.cut is not None:
            bar, reach = _bar(part), part.cut.overlap
            hole = next((each for each in part.holes if each.purpose in {JOINT, TIP_JOINT}), None)
            joints.append(
                TubeJoint(
                    name=f"{part.mark} in {outer.mark}", place=bar.start[1] + reach,
                    outer=_shape(outer.cut.kind), inner=_shape(part.cut.kind), reach=reach,
                    hole=0.0 if hole is None else hole.diameter,
                    holes=() if hole is None else tuple(reach - at for at in hole.at
                                                        if at < reach),
                )
            )  # fmt: skip
    return joints


def _sleeved(left: list[Part], sleeves: list[Part]) -> list[TubeJoint]:
    """Joints of tubes that meet on a sleeve."""
    joints = []
    for part in sleeves:
        middle = _bar(part).middle[1]
        outer = next((tube for tube in left if _meets(tube, middle)), None)
        if middle < -1e-9 or outer is None:
            continue
        if part.cut is not None and outer.cut is not None:
            joints.append(
                TubeJoint(
                    name=f"sleeve {part.mark} in {outer.mark}", place=middle, sleeve=True,
                    outer=_shape(outer.cut.kind), inner=_shape(part.cut.kind),
                    reach=0.5 * part.cut.sawn,
                )
            )  # fmt: skip
    return joints


def _meets(tube: Part, place: float) -> bool:
    bar = _bar(tube)
    return min(abs(bar.start[1] - place), abs(bar.end[1] - place)) < 1e-9


def boom_joints(assembly: Assembly, frame: BeamFrame) -> tuple[TubeJoint, ...]:
    """List the joints of a boom, on the beam's x axis."""
    sleeves = [part for part in assembly.of(frame.beam.name, "sleeve") if part.group == "boom"]
    tube = next(iter(assembly.of(frame.beam.name, "boom")), None)
    plates = [(part.name.removesuffix(", element plate"), centre_of(part)[0])
              for part in assembly.of(frame.beam.name, "element plate")]  # fmt: skip
    joints = []
    for part in sleeves:
        if tube is None or tube.cut is None or part.cut is None or tube.cut.kind.wall <= 0.0:
            continue
        reach = 0.5 * part.cut.sawn
        (hole,) = part.holes
        middle = _bar(part).middle[0]
        joints.append(
            TubeJoint(
                name=f"sleeve {part.mark}" + (", assumed" if part.known == "assumed" else ""),
                place=frame.rear + middle, sleeve=True,
                outer=_shape(tube.cut.kind), inner=_shape(part.cut.kind), reach=reach,
                hole=hole.diameter, holes=tuple(sorted({abs(at - reach) for at in hole.at})),
                under=tuple((name, abs(at - middle)) for name, at in plates
                            if abs(at - middle) < JOINT_ROOM),
            )
        )  # fmt: skip
    return tuple(joints)


def held_half(assembly: Assembly, beam: str) -> float:
    """Half the length along the boom of the plate that holds it; 0 while it has no place [m]."""
    for part in assembly.of(beam, "mast plate"):
        for solid in part.solids:
            if isinstance(solid, Block):
                return 0.5 * solid.size[0]
    return 0.0


def _bar(part: Part) -> Bar:
    (solid,) = part.solids
    if not isinstance(solid, Bar):
        msg = f"{part.mark} is no tube"
        raise TypeError(msg)
    return solid


def _shape(kind: TubeKind) -> TubeShape:
    return TubeShape(diameter=kind.diameter, wall=0.5 * kind.diameter if kind.is_rod else kind.wall)
