"""``[beam.frame]`` and ``[beam.radials]``: what bent wire runs along, what upright wire needs."""

from __future__ import annotations

import math
from itertools import pairwise

from boomwright.parts import Element, FramePoint, Radials, TubeSection
from boomwright.plan.faults import Place
from boomwright.plan.fields import LONGEST, above_zero, choice
from boomwright.plan.kinds import Text
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import Field, TableSpec, Values

_WHERE = Quantity(dimension="length", low=-LONGEST, high=LONGEST)
_ACROSS = Quantity(dimension="length", low=0.0, high=LONGEST)
_POINT_EXAMPLE = '["front", "2.6 m", "1.5 m", "0 m"]'

#: kinds of feed that need no straight tube beside them
BENT_FEEDS = ("split", "quarter-wave", "stub", "L-section")
#: a middle off the boom axis by more is a point of its own [m]
_SAME = 1e-6
#: least straight piece each side of a bent element's middle, for feed block or line [m]
_MIDDLE = 0.05


def _check_frame(values: Values, at: Place) -> None:
    seen: dict[str, int] = {}
    for index, row in enumerate(values.get("points") or []):
        name = row[0] if row else None
        if name is None:
            continue
        if name in seen:
            message = f"points[{seen[name]}] has the same name"
            at.child("points", index, 0).fault(message, remedy="give each point its own name")
        seen.setdefault(name, index)


FRAME = TableSpec(
    noun="frame",
    check=_check_frame,
    fields=(
        Field(
            key="points",
            kind=ListOf(
                item=Row(
                    items=(Text(longest=64), _WHERE, _ACROSS, _WHERE),
                    least=4,
                    example=_POINT_EXAMPLE,
                ),
                most=200,
                example=f"[{_POINT_EXAMPLE}]",
            ),
            help="Points that wire runs to: name, place along the boom, across it, above it. Each "
            "stands for its mirror image on the other side of the boom too.",
            required=True,
            example=f"points = [{_POINT_EXAMPLE}]",
        ),
    ),
)

RADIALS = TableSpec(
    noun="set of radials",
    model=Radials,
    fields=(
        Field(
            key="count",
            kind=Number(whole=True, low=2, high=360),
            help="How many at the foot of each upright element.",
            required=True,
            example="count = 32",
        ),
        above_zero("length", "length", "Length of each.", high=LONGEST, required=True,
                   example="5 m"),
        above_zero("diameter", "length", "Diameter of their metal.", high=0.1, required=True,
                   example="1.6 mm"),
        choice("laid", ("buried", "elevated"), "way to lay radials",
               "On the ground or in it, or from the foot through the air.", required=True),
        Field(
            key="slope",
            kind=Quantity(dimension="angle", low=0.0, high=math.radians(60.0)),
            help="How far elevated ones fall below level.",
            example='slope = "30 deg"',
        ),
    ),
)  # fmt: skip


def points_of(values: Values) -> dict[str, tuple[float, float, float]]:
    """Points of a beam's frame by name, without those at fault [m] (3,).

    Args:
        values: what ``BEAM`` read [SI]
    """
    rows = (values.get("frame") or {}).get("points") or []
    return {row[0]: (row[1], row[2], row[3]) for row in rows if row and None not in row}


def _named(element: Values, points: dict[str, tuple[float, float, float]]) -> list[FramePoint]:
    """What one half runs through, from its middle, which is on the boom when not named."""
    found = [FramePoint(name=name, place=points[name]) for name in element["through"]]
    if found[0].place[1] > 0.0:
        found.insert(0, FramePoint(name="", place=(element["at"], 0.0, 0.0)))
    return found


def bent_element(element: Values, *, values: Values, driven: bool) -> dict[str, object]:
    """What a wire with corners has beside its role and place.

    Args:
        element: what ``ELEMENT`` read [SI]
        values: what ``BEAM`` read [SI]
    """
    path = tuple(_named(element, points_of(values)))
    upright = all(point.place[1] == 0.0 for point in path)
    half = element["length"] if upright else element["length"] / 2.0
    gap = values["feed"].get("gap", 0.0) if driven else 0.0
    return {
        "half": (TubeSection(diameter=element["diameter"], length=half),),
        "path": path,
        "middle": max(_MIDDLE, gap),
    }


def through_names(element: Element) -> list[str]:
    """Names of the points that an element runs through, as the plan writes them."""
    return [point.name for point in element.path if point.name]


def check_bent(values: Values, at: Place) -> None:
    """Report faults of the wires with corners of a beam.

    Args:
        values: what ``BEAM`` read [SI]
    """
    points = points_of(values)
    whole = all(row and None not in row for row in (values.get("frame") or {}).get("points") or [])
    upright: list[int] = []
    for index, element in enumerate(values.get("element") or []):
        names = element.get("through")
        if not names or None in names:
            continue
        place = at.child("element", index)
        unknown = [number for number, name in enumerate(names) if name not in points]
        for number in unknown if whole else ():
            known = ", ".join(f'"{name}"' for name in points)
            remedy = f"write one of {known}" if known else f"add [beam.frame] with {_POINT_EXAMPLE}"
            place.child("through", number).fault("the frame has no such point", remedy=remedy)
        if not unknown and None not in (element.get("at"), element.get("length")):
            _check_path(element, _named(element, points), place)
            if all(points[name][1] == 0.0 for name in names):
                upright.append(index)
        if element.get("role") == "driven":
            _check_feed(values, at)
    _check_upright(values, upright, at)


def _check_feed(values: Values, at: Place) -> None:
    kind = (values.get("feed") or {}).get("kind")
    if kind is not None and kind not in BENT_FEEDS:
        options = " or ".join(f'"{name}"' for name in BENT_FEEDS)
        message = f"a {kind} needs a straight driven element, and this one has corners"
        at.child("feed", "kind").fault(message, remedy=f"write kind = {options}")


def _check_path(element: Values, path: list[FramePoint], at: Place) -> None:
    if abs(path[0].place[0] - element["at"]) > _SAME:
        message = f"its middle {path[0].name} lies {path[0].place[0]:.3f} m along the boom"
        remedy = f'write at = "{path[0].place[0]:g} m", or move the point'
        at.child("at").fault(message, remedy=remedy)
        return
    places = [point.place for point in path]
    pieces = [math.dist(low, high) for low, high in pairwise(places)]
    if len(places) < 2 or min(pieces) <= _SAME:
        message = "it needs two points or more, each apart from the next"
        at.child("through").fault(message, remedy="name a further point, or take one out")
        return
    if any(y == 0.0 for _, y, _ in places[1:-1]) and any(y > 0.0 for _, y, _ in places):
        message = "a half may touch the plane through the boom at its ends only"
        at.child("through").fault(message, remedy="move the point aside, or take it out")
        return
    upright = all(y == 0.0 for _, y, _ in places)
    closed = len(places) > 2 and places[-1][1] == 0.0 and not upright
    half = element["length"] if upright else element["length"] / 2.0
    if not closed and half > sum(pieces) + _SAME:
        message = f"the wire is {half - sum(pieces):.3f} m longer than the way to {path[-1].name}"
        remedy = "name a further point, move the last one outwards, or shorten the wire"
        at.child("length").fault(message, remedy=remedy)


def _check_upright(values: Values, upright: list[int], at: Place) -> None:
    elements = values.get("element") or []
    if upright and len(upright) < len(elements):
        message = "upright elements stand beside others"
        remedy = "put them into a beam of their own, all through points with 0 across the boom"
        at.child("element", upright[0], "through").fault(message, remedy=remedy)
    elif upright and "radials" not in values:
        message = "an upright element needs radials at its foot"
        remedy = 'add [beam.radials] with count, length, diameter and laid = "buried"'
        at.child("radials").fault(message, remedy=remedy)
    elif not upright and "radials" in values and None not in [e.get("at") for e in elements]:
        message = "no element stands upright, and radials are for those"
        at.child("radials").fault(message, remedy="take the radials out")
