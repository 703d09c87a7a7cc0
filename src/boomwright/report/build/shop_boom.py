"""The boom in the workshop: stations along one tape hooked over its rear end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from boomwright.base import Notice
from boomwright.parts import Beam, part_count
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, cut_length, cut_list
from boomwright.report.build.shop import ShopRules

StationKind = Literal["end", "element", "mast", "fitting", "joint"]
#: a joint nearer than this to a clamp gets in its way [m] {common-practice-tubing}
_ROOM_AT_JOINT = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomStation:
    """A place on the boom."""

    name: str  #: what sits there
    kind: StationKind  #: ``end``, ``element``, ``mast``, ``fitting`` or ``joint``
    tape: CutLength  #: reading of a tape hooked over the rear end
    from_last: CutLength  #: distance from the station before


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopBoom:
    """A boom as it is built."""

    #: the boom of the plan; None when it says nothing, places then count from the rear element
    boom: BoomPlan | None
    length: CutLength  #: its length, or from the rear to the front element
    #: lengths it is cut into, more than one when it is longer than the stock
    parts: tuple[CutLength, ...]
    stations: tuple[BoomStation, ...]  #: places along it, rising (n_stations,)
    notices: tuple[Notice, ...]  #: what is missing or in the way


def shop_boom(
    *, beam: Beam, boom: BoomPlan | None, rules: ShopRules, mast: float | None
) -> ShopBoom:
    """Work out the stations of a boom.

    Args:
        boom: its boom; None when the plan says nothing
        mast: place of the mast clamp as elements are placed; None when not known [m]
    """
    cuts = cut_list(beam=beam, boom=boom)
    hook = beam.elements[cuts[0].index].position if boom is None else boom.rear_end
    far = beam.elements[cuts[-1].index].position if boom is None else hook + boom.length
    length = cut_length(far - hook)
    parts = 1 if boom is None else part_count(boom.length, longest_stock=rules.longest_stock)
    # Joints are rounded as readings of the tape like all other places, so none can overtake one.
    joints = [cut_length((far - hook) * part / parts) for part in range(1, parts)]
    pieces = tuple(b - a for a, b in pairwise([cut_length(0.0), *joints, length]))
    places: list[tuple[CutLength, StationKind, str]] = []
    if boom is not None:
        places.append((cut_length(0.0), "end", "rear end, hook the tape here"))
        places.append((length, "end", "front end"))
    for cut in cuts:
        place = cut_length(beam.elements[cut.index].position - hook)
        places.append((place, "element", f"{cut.number} {cut.label}"))
    if mast is not None:
        places.append((cut_length(mast - hook), "mast", "mast plate, centre"))
    # What is spread, or is the total of other parts, is a weight and not a place to mark.
    places += [
        (cut_length(fitting.at - hook), "fitting", fitting.name)
        for fitting in (() if boom is None else boom.fitting)
        if fitting.at is not None and fitting.span == 0.0 and not fitting.stands_for
    ]
    places += [(joint, "joint", "joint of the boom, centre of the sleeve") for joint in joints]
    places.sort(key=lambda entry: entry[0].thousandths)
    stations = []
    before = places[0][0]
    for tape, kind, name in places:
        stations.append(BoomStation(name=name, kind=kind, tape=tape, from_last=tape - before))
        before = tape
    return ShopBoom(
        boom=boom,
        length=length,
        parts=pieces,
        stations=tuple(stations),
        notices=_notices(boom=boom, mast=mast, stations=stations),
    )


def _notices(
    *, boom: BoomPlan | None, mast: float | None, stations: Sequence[BoomStation]
) -> tuple[Notice, ...]:
    found = []
    if boom is None:
        found.append(
            Notice(
                code="book.boom-unsaid",
                text="The plan does not say which tube the boom is: add [beam.boom]. Until then "
                "places count from the rear element and no boom is drawn.",
                severity="doubt",
            )
        )
    if mast is None:
        found.append(
            Notice(
                code="book.mast-place-unknown",
                text="The place of the mast plate is not known: give clamp in [beam.boom], or the "
                "walls of all tubes so that the balance point can be computed.",
                severity="doubt",
            )
        )
    clamps = [each for each in stations if each.kind in {"element", "mast"}]
    for joint in (each for each in stations if each.kind == "joint"):
        near = [
            each.name
            for each in clamps
            if abs(each.tape.millimetres - joint.tape.millimetres) < 1000.0 * _ROOM_AT_JOINT
        ]
        if near:
            found.append(
                Notice(
                    code="book.joint-under-clamp",
                    text=f"The boom's joint lies under {', '.join(near)}: buy longer tube, or cut "
                    "the parts unequal so that the joint lies clear of every clamp.",
                    severity="caution",
                    value=joint.tape.told,
                )
            )
    return tuple(found)
