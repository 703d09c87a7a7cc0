"""The boom in the workshop: one table of marks along one tape hooked over its rear end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from boomwright.base import Notice
from boomwright.base.quantity import InPlan, phrase
from boomwright.base.records import dataclass
from boomwright.parts import Assembly, Bar, Beam, Part, centre_of, element_group
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop import element_cuts

StationKind = Literal["end", "element", "mast", "fitting", "joint", "balance"]
_MAST_PLATE = "mast plate, centre"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomStation:
    """A place on the boom."""

    name: str  #: what sits there
    kind: StationKind
    tape: CutLength  #: reading of a tape hooked over the rear end
    from_last: CutLength  #: distance from the station before
    marks: tuple[str, ...] = ()  #: marks of the parts that sit there (n_parts,)

    @property
    def told(self) -> str:
        """What sits there, after its mark."""
        return " ".join((*self.marks[:1], self.name))


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopBoom:
    """A boom as it is built."""

    #: the boom of the plan; None when it says nothing, places then count from the rear element
    boom: BoomPlan | None
    length: CutLength  #: its length, or from the rear to the front element
    tubes: tuple[Part, ...]  #: tubes that it is joined from, rear to front (n_tubes,)
    parts: tuple[CutLength, ...]  #: lengths that they are sawn to (n_tubes,)
    stations: tuple[BoomStation, ...]  #: places along it, rising (n_stations,)
    notices: tuple[Notice, ...]  #: what is missing or in the way


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mark:
    name: str
    kind: StationKind
    at: float  #: from the rear end [m]
    marks: tuple[str, ...] = ()


def shop_boom(station: Assembly, *, beam: Beam, boom: BoomPlan | None) -> ShopBoom:
    """Read every place along a boom off its parts.

    Args:
        boom: its boom; None when the plan says nothing
    """
    parts = station.of(beam.name)
    tubes = sorted((part for part in parts if part.role == "boom" and part.solids), key=_along)
    rear = min(e.position for e in beam.elements) if boom is None else boom.rear_end
    labels = {element_group(cut.number): cut for cut in element_cuts(parts, beam=beam, boom=boom)}
    elements = [
        _Mark(name=f"{cut.number} {cut.label}", kind="element",
              at=_element_at(parts, group, beam.elements[cut.index].position - rear),
              marks=_marks(parts, group))
        for group, cut in labels.items()
    ]  # fmt: skip
    ends = [0.0, *(_span(part)[1] for part in tubes)] if tubes else []
    # Joints are rounded as readings of the tape like all other places, so none can overtake one.
    read = [cut_length(end) for end in ends]
    found = [*elements, *_ends(ends), *_sitting(parts), *_balance(station, beam)]
    if boom is not None and not any(each.kind == "mast" for each in found):
        # What holds the boom is not given, where it is held may be known all the same.
        clamp = station.balance(beam.name) if boom.clamp is None else boom.clamp - boom.rear_end
        found += [] if clamp is None else [
            _Mark(name=_MAST_PLATE, kind="mast", at=clamp,
                  marks=tuple(part.mark for part in parts if part.role == "mast plate"))
        ]  # fmt: skip
    found.sort(key=lambda each: each.at)
    stations = []
    before = cut_length(found[0].at)
    for each in found:
        tape = cut_length(each.at)
        stations.append(BoomStation(name=each.name, kind=each.kind, tape=tape,
                                    from_last=tape - before, marks=each.marks))  # fmt: skip
        before = tape
    far = max(cut_length(each.at).thousandths for each in elements)
    length = read[-1] if read else next(
        cut_length(each.at) for each in elements if cut_length(each.at).thousandths == far
    )  # fmt: skip
    return ShopBoom(
        boom=boom,
        length=length,
        tubes=tuple(tubes),
        parts=tuple(b - a for a, b in pairwise(read)),
        stations=tuple(stations),
        notices=() if beam.boomless and boom is None else tuple(_notices(boom, stations)),
    )


def _along(part: Part) -> float:
    return centre_of(part)[0]


def _span(part: Part) -> tuple[float, float]:
    (bar,) = part.solids
    if not isinstance(bar, Bar):
        return 0.0, 0.0
    return bar.start[0], bar.end[0]


def _element_at(parts: Sequence[Part], group: str, otherwise: float) -> float:
    """Place of an element by its tubes; wire with corners has none, and is where the plan says."""
    tubes = [part for part in parts if part.group == group and part.role == "element tube"]
    return _along(tubes[0]) if tubes else otherwise


def _marks(parts: Sequence[Part], group: str) -> tuple[str, ...]:
    mount = group.replace("element", "mount")
    return tuple(p.mark for p in parts if p.group == mount and p.role == "element plate")


def _ends(ends: list[float]) -> list[_Mark]:
    if not ends:
        return []
    joints = [_Mark(name="joint of the boom, centre of the sleeve", kind="joint", at=at)
              for at in ends[1:-1]]  # fmt: skip
    return [
        _Mark(name="rear end, hook the tape here", kind="end", at=0.0),
        *joints,
        _Mark(name="front end", kind="end", at=ends[-1]),
    ]


def _sitting(parts: Sequence[Part]) -> Iterator[_Mark]:
    """What sits on the boom besides elements; what is spread across it is no place to mark."""
    for part in parts:
        if not part.solids:
            continue
        at, mark = _along(part), (part.mark,)
        if part.role == "mast plate":
            yield _Mark(name=_MAST_PLATE, kind="mast", at=at, marks=mark)
        elif part.role == "box":
            yield _Mark(name=f"{part.name}, middle", kind="fitting", at=at, marks=mark)
        elif part.role == "fitting" and part.group == "boom":
            yield _Mark(name=part.name, kind="fitting", at=at, marks=mark)
        elif part.role == "truss":
            (bar,) = part.solids
            if isinstance(bar, Bar):
                yield _Mark(name="boom truss, its end on the boom", kind="fitting",
                            at=bar.end[0], marks=mark)  # fmt: skip


def _balance(station: Assembly, beam: Beam) -> list[_Mark]:
    """Balance point with the cable along the boom, and without where that is another place."""
    whole = station.balance(beam.name)
    if whole is None or any(part.mass is None for part in station.of(beam.name, "boom")):
        return []
    bare = station.balance(beam.name, without="boom cable")
    if bare is None or not station.of(beam.name, "boom cable"):
        return [_Mark(name="balance point, no cable on the boom", kind="balance", at=whole)]
    places = [cut_length(each) for each in (bare, whole)]
    if len({(each.millimetres, each.sixteenths) for each in places}) == 1:
        return [_Mark(name="balance point, with and without cable", kind="balance", at=whole)]
    return [
        _Mark(name="balance point with its cable", kind="balance", at=whole),
        _Mark(name="balance point without cable", kind="balance", at=bare),
    ]


def _notices(boom: BoomPlan | None, stations: Sequence[BoomStation]) -> Iterator[Notice]:
    if boom is None:
        yield Notice(
            code="book.boom-unsaid",
            text="The plan does not say which tube the boom is, so places count from the rear "
            "element and no boom is drawn.",
            how="Add [beam.boom].",
            severity="doubt",
        )
    if not any(each.kind == "mast" for each in stations):
        yield Notice(
            code="book.mast-place-unknown",
            text=phrase(
                "The place of the mast plate is not known: give what holds the boom{support}, "
                "and its clamp{clamp} or the walls of all tubes, so that the balance point can "
                "be computed.",
                support=InPlan("support"),
                clamp=InPlan("beam.boom", ("clamp",)),
            ),
            severity="doubt",
        )
