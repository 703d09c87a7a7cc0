"""``[beam.frame]`` and ``[beam.radials]``: what bent wire runs along, what upright wire needs."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from boomwright.base.quantity import PerReader, Value, phrase
from boomwright.parts import (
    Beam,
    Element,
    Frame,
    FramePoint,
    Radials,
    Spreader,
    TubeSection,
    on_line,
)
from boomwright.plan.faults import Place, table_named, write_one, written
from boomwright.plan.fields import (
    LONGEST,
    above_zero,
    choice,
    either_sign,
    entry,
    from_zero,
    number,
    words,
)
from boomwright.plan.kinds import Text
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.boom import HARDWARE
from boomwright.plan.tables.element import check_fit, check_trap_places, tube_section

_WHERE = Quantity(dimension="length", low=-LONGEST, high=LONGEST)
_ACROSS = Quantity(dimension="length", low=0.0, high=LONGEST)
_SIZE = Quantity(dimension="length", low=0.0, high=1.0, above_low=True)
_LONG = Quantity(dimension="length", low=0.0, high=LONGEST, above_low=True)
_SECTION = Row(
    items=(_SIZE, _LONG, _SIZE),
    least=2,
    example='["32 mm", "1.6 m", "3 mm"]',
    names=("outer diameter", "exposed length", "wall"),
    makes=tube_section,
)
_POST = replace(_SECTION, names=("outer diameter", "length", "wall"))
_POINT = Row(
    items=(Text(longest=64), _WHERE, _ACROSS, _WHERE),
    least=4,
    example='["front", "2.6 m", "1.5 m", "0 m"]',
    names=("name", "along the boom", "across it", "above it"),
    makes=lambda name, *place: FramePoint(name=name, place=place),
)

#: kinds of feed that need no straight tube beside them
BENT_FEEDS = ("split", "quarter-wave", "stub", "L-section")
#: a middle off the boom axis by more is a point of its own [m]
_SAME = 1e-6
#: spreaders may end so far before their points, for a cord [m]
_SHORT = 0.05
#: spreaders that reach further than this share of the way to their last point were mistyped [-];
#: a section thinner than that share of the bore is no fit for tape or shim [-]
_BEYOND, _RATTLES = 1.3, 0.7
#: points of a frame on the spreaders of another one lie so near to them [m]
_OFF = 0.05
#: a foot over buried radials stands no higher [m]
_ON_GROUND = 1.0
#: least straight piece each side of a bent element's middle, for feed block or line [m]
_MIDDLE = 0.05


def _check_frame(values: Values, at: Place) -> None:
    seen: dict[str, int] = {}
    for index, row in enumerate(values.get("points") or []):
        name = row[0] if row else None
        if name is None:
            continue
        if name in seen:
            message = f"point {seen[name] + 1} of this frame has the same name"
            at.child("points", index, 0).fault(message, remedy="give each point its own name")
        seen.setdefault(name, index)
    _check_spreader(values, seen, at)


def _check_spreader(values: Values, points: dict[str, int], at: Place) -> None:
    spreader: Values | None = values.get("spreader")
    if spreader is None:
        if values.get("post") is not None:
            message = "a post stands on the hub of spreaders, and this frame has none"
            remedy: Value = phrase(
                "add {spreader}, or take it out", spreader=table_named("beam.frame.spreader")
            )
            at.child("post").fault(message, remedy=remedy)
        return
    _check_wall(values.get("post"), at.child("post"))
    if values.get("held") is not None:
        message = "ropes hold this frame, and spreaders too"
        at.child("held").fault(message, remedy="take out one of the two")
    rows = spreader.get("sections") or []
    for nth, row in enumerate(rows):
        _check_wall(row, at.child("spreader", "sections", nth))
    for nth, (row, inner) in enumerate(pairwise(rows), start=1):
        _check_slide(row, inner, at.child("spreader", "sections", nth))
    whole = all(row and None not in row for row in rows)
    furthest = 0.0
    long = sum(row[1] for row in rows) if whole else math.inf
    for nth, name in enumerate(spreader.get("to") or []):
        if name is None:
            continue
        place = at.child("spreader", "to", nth)
        if name not in points:
            known = ", ".join(f'"{each}"' for each in points)
            place.fault("the frame has no such point", remedy=f"write one of {known}")
            continue
        row = values["points"][points[name]]
        if None in row:
            continue
        hub = values.get("hub")
        away = math.hypot(0.0 if hub is None else row[1] - hub, row[2], row[3])
        furthest = max(furthest, away)
        if long < away - _SHORT:
            message = f"the spreader is {away - long:.2f} m too short for this point"
            place.fault(message, remedy="make a section longer, or move the point inwards")
    if furthest and math.isfinite(long) and long > _BEYOND * furthest:
        message = f"the spreaders reach {at.far(round(long - furthest, 3))} beyond their last point"
        remedy = "make a section shorter, or move the points outwards"
        at.child("spreader", "sections").fault(message, remedy=remedy)


def _check_slide(
    row: list[float | None] | None, inner: list[float | None] | None, at: Place
) -> None:
    """Report a section that does not go into the one towards the hub, or rattles in it."""
    if not row or not inner or None in (*row, *inner):
        return
    outer, _, wall = (*row, 0.0)[:3]
    size = inner[0] or 0.0
    check_fit(row, size, inner[2] if len(inner) > 2 else None, at)
    bore = (outer or 0.0) - 2.0 * (wall or 0.0)
    if wall and size < _RATTLES * bore:
        message = f"this section is loose in the bore of the one before it, {at.wide(bore)}"
        at.child(0).fault(message, remedy="write a larger diameter, or a section between the two")


def _check_wall(row: list[float | None] | None, at: Place) -> None:
    if not row or None in row[:3]:
        return
    diameter, _, wall = (*row, 0.0)[:3]
    if 2.0 * (wall or 0.0) > (diameter or 0.0):
        message = "the wall is thicker than the radius of the tube"
        remedy = "write outer diameter, exposed length, wall, in this order"
        at.child(2).fault(message, remedy=remedy)


def check_carried(values: Values, host: Values, at: Place) -> None:
    """Report points of a frame that the spreaders of another beam do not pass.

    Args:
        values: what ``BEAM`` read, without spreaders of its own [SI]
        host: what ``BEAM`` read of the beam on whose boom it sits [SI]
    """
    frame, other = values.get("frame") or {}, host.get("frame") or {}
    spreader: Values | None = other.get("spreader")
    if not frame or spreader is None or {"spreader", "held"} & frame.keys():
        return
    if frame.get("hub") != other.get("hub"):
        message = f"both frames share the spreaders of {host['name']} but their hub differs"
        at.child("frame", "hub").fault(message, remedy=f"write the hub of {host['name']}")
        return
    known = points_of(host)
    tips = [known[name] for name in spreader.get("to") or [] if name in known]
    for index, row in enumerate(frame.get("points") or []):
        if not row or None in row or row[2] == 0.0 or not tips:
            continue
        place = (row[1], row[2], row[3])
        roots = [(tip[0] if (hub := other.get("hub")) is None else hub, 0.0, 0.0) for tip in tips]
        passed = [on_line(place, *ends)[0] for ends in zip(roots, tips, strict=True)]
        off, near = min((math.dist(place, each), each) for each in passed)
        if off > _OFF:
            where = ", ".join(f"{value:.3f} m" for value in near)
            message = f"the spreaders of {host['name']} pass this point {off:.2f} m away"
            remedy = f"move it onto one, such as {where}, or give spreaders of its own"
            at.child("frame", "points", index).fault(message, remedy=remedy)


SPREADER = TableSpec(
    noun="spreader",
    model=Spreader,
    fields=(
        entry("to", "Points that the spreaders hold, one spreader to each on both sides.",
              ListOf(item=Text(longest=64), most=50, example='["front", "side", "rear"]'),
              required=True),
        entry("sections", "Tubes from the hub outwards: outer diameter, exposed length, wall; no "
              "wall for a rod.",
              ListOf(item=_SECTION, most=20, example=f"[{_SECTION.example}]"), required=True),
        above_zero("elastic_modulus", "pressure", "Young's modulus, from its maker.",
                   example="20 GPa"),
        above_zero("density", "density", "Mass density of its material.", example="1900 kg/m3"),
        above_zero("strength", "pressure", "Bending strength, from its maker.",
                   example="200 MPa"),
    ),
)  # fmt: skip

FRAME = TableSpec(
    noun="frame",
    model=Frame,
    check=_check_frame,
    fields=(
        entry("points", "Points that wire runs to: name, place along the boom, across it, above "
              "it. Each stands for its mirror image on the other side of the boom too.",
              ListOf(item=_POINT, most=200, example=f"[{_POINT.example}]"), required=True),
        either_sign("hub", "length", "Where the spreaders meet along the boom, and the mast holds "
                    "them; left out, each starts from the boom beside its point."),
        from_zero("hub_mass", "mass", "Mass of hub, clamp and feed block.", high=1e3),
        entry("post", "Post that stands on the hub and carries the middles of the wires: outer "
              "diameter, length, wall; of the material of the spreaders.", _POST),
        above_zero("pull", "force", "Pull in each wire in still air.", high=1e5, example="15 N"),
        choice("held", ("ropes",), "way to hold a frame",
               "Ropes to trees, roof or poles, when no spreaders hold its points."),
        above_zero("rope_strength", "force", "Breaking strength of each rope, its knots counted.",
                   example="4 kN"),
        words("said_by", "Who says that trees, roof or poles hold what the ropes pull, and when.",
              example="name of the owner, looked at both trees, 2026-03-01"),
        entry("hardware", "Its insulators, cord and box where there is no boom; what is left "
              "out is taken from common practice.", HARDWARE),
        entry("spreader", "Poles from the hub to points of the frame.", SPREADER),
    ),
)  # fmt: skip

RADIALS = TableSpec(
    noun="set of radials",
    model=Radials,
    fields=(
        entry("count", "How many at the foot of each upright element.",
              Number(whole=True, low=2, high=360), required=True, example="count = 32"),
        above_zero("length", "length", "Length of each.", high=LONGEST, required=True,
                   example="5 m"),
        above_zero("diameter", "length", "Diameter of their metal.", high=0.1, required=True,
                   example="1.6 mm"),
        choice("laid", ("buried", "elevated"), "way to lay radials",
               "On the ground or in it, or from the foot through the air.", required=True),
        from_zero("slope", "angle", "How far elevated ones fall below level.",
                  high=math.radians(60.0), example="30 deg"),
        number("loss_factor",
               "Loss in the ground over buried ones, measured over computed; tuning tells it.",
               low=0.05, high=20.0, example="1.3"),
        from_zero("depth", "length", "How deep buried ones lie; left out, 50 mm.", high=2.0,
                  example="50 mm"),
    ),
)  # fmt: skip


def points_of(values: Values) -> dict[str, tuple[float, float, float]]:
    """Points of a beam's frame by name, without those at fault [m] (3,)."""
    rows = (values.get("frame") or {}).get("points") or []
    return {row[0]: (row[1], row[2], row[3]) for row in rows if row and None not in row}


def feed_point(values: Values) -> tuple[float, float, float] | None:
    """Middle of a beam's driven element, its height counted from the ground; None at fault [m]."""
    driven = [each for each in values.get("element") or [] if each.get("role") == "driven"]
    height = values.get("height")
    if not driven or height is None or driven[0].get("at") is None:
        return None
    x, up = driven[0]["at"], 0.0
    names = driven[0].get("through") or [None]
    named = points_of(values).get(names[0]) if names[0] else None
    if named is not None and named[1] == 0.0:
        x, up = named[0], named[2]
    return x, 0.0, height + up


def drooped(beam: Beam) -> Beam:
    """Let the spreaders hang as they will: their points, and the wire through them, come down.

    The plan's points are those of the frame as drawn; what is solved is the shape in still air.

    Args:
        beam: with what stands beside it, as drawn
    """
    frame = beam.frame
    if frame is None or not (frame.spreader or beam.carrier):
        return beam
    from boomwright.structure.beam.frame import still_droops

    down = still_droops(beam=beam)

    def hung(point: FramePoint) -> FramePoint:
        x, y, z = point.place
        return replace(point, place=(x, y, z - down.get(point.name, 0.0)))

    elements = tuple(
        replace(element, path=tuple(hung(point) for point in element.path))
        for element in beam.elements
    )
    return replace(beam, elements=elements)


def _named(element: Values, points: dict[str, tuple[float, float, float]]) -> list[FramePoint]:
    """What one half runs through, from its middle, which is on the boom when not named."""
    found = [FramePoint(name=name, place=points[name]) for name in element["through"]]
    if found[0].place[1] > 0.0:
        found.insert(0, FramePoint(name="", place=(element["at"], 0.0, 0.0)))
    return found


def bent_element(element: Values, *, values: Values, driven: bool) -> dict[str, object]:
    """What a wire with corners has beside its role and place."""
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
    """Report faults of the wires with corners of a beam."""
    points = points_of(values)
    whole = all(row and None not in row for row in (values.get("frame") or {}).get("points") or [])
    upright: list[int] = []
    for index, element in enumerate(values.get("element") or []):
        names = element.get("through")
        if not names or None in names:
            continue
        place = at.child("element", index)
        unknown = [nth for nth, name in enumerate(names) if name not in points]
        for nth in unknown if whole else ():
            known = ", ".join(f'"{name}"' for name in points)
            remedy: Value = f"write one of {known}"
            if not known:
                remedy = PerReader(file=f"add [beam.frame] with {_POINT.example}",
                                   forms="add a frame with its points")  # fmt: skip
            place.child("through", nth).fault("the frame has no such point", remedy=remedy)
        if not unknown and None not in (element.get("at"), element.get("length")):
            _check_path(element, _named(element, points), place)
            stands = all(points[name][1] == 0.0 for name in names)
            if stands:
                upright.append(index)
            _check_wire_traps(element, place, stands=stands)
        if element.get("role") == "driven":
            _check_feed(values, at)
    _check_upright(values, upright, at)


def _check_wire_traps(element: Values, at: Place, *, stands: bool) -> None:
    """Traps in a wire: one that stands upright takes them, counted from its foot."""
    traps = element.get("traps") or []
    if traps and not stands:
        message = "a wire with corners has no traps, unless it stands upright"
        at.child("traps").fault(message, remedy="take them out")
        return
    check_trap_places(traps, element["length"], at)


def _check_feed(values: Values, at: Place) -> None:
    kind = (values.get("feed") or {}).get("kind")
    if kind is not None and kind not in BENT_FEEDS:
        options = " or ".join(f'"{name}"' for name in BENT_FEEDS)
        message = f"a {kind} needs a straight driven element, and this one has corners"
        at.child("feed", "kind").fault(message, remedy=write_one("kind", options))


def _check_path(element: Values, path: list[FramePoint], at: Place) -> None:
    if abs(path[0].place[0] - element["at"]) > _SAME:
        message = f"its middle {path[0].name} lies {at.far(path[0].place[0])} along the boom"
        remedy: Value = phrase("write {at}, or move the point",
                        at=written("at", f'"{at.far(path[0].place[0])}"'))  # fmt: skip
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
        message = f"the wire is {at.far(half - sum(pieces))} longer than the way to {path[-1].name}"
        remedy = "name a further point, move the last one outwards, or shorten the wire"
        at.child("length").fault(message, remedy=remedy)


def _check_foot(values: Values, upright: list[int], at: Place) -> None:
    """A foot over buried radials stands on the ground; elevated radials hang clear of it."""
    radials, height, points = values["radials"] or {}, values.get("height"), points_of(values)
    if height is None or None in (radials.get("laid"), radials.get("length")):
        return
    named = [values["element"][index]["through"][0] for index in upright]
    low = min((height + points[name][2] for name in named if name in points), default=None)
    if low is None:
        return
    if radials["laid"] == "buried" and low > _ON_GROUND:
        message = f"the foot stands {at.far(low)} up, and its radials lie in the ground"
        remedy: Value = phrase("lower it, or write {laid} in {radials}",
                               radials=table_named("beam.radials"),
                               laid=written("laid", '"elevated"'))  # fmt: skip
        at.child("height").fault(message, remedy=remedy)
    elif radials["laid"] == "elevated":
        end = low - radials["length"] * math.sin(radials.get("slope") or 0.0)
        if end <= 0.0:
            message = f"the ends of the radials hang {-end:.2f} m below the ground"
            remedy = "raise it, or give the radials less slope"
            at.child("radials", "slope").fault(message, remedy=remedy)


def _check_upright(values: Values, upright: list[int], at: Place) -> None:
    elements = values.get("element") or []
    if upright and len(upright) < len(elements):
        message = "upright elements stand beside others"
        remedy: Value = (
            "put them into a beam of their own, all through points with 0 across the boom"
        )
        at.child("element", upright[0], "through").fault(message, remedy=remedy)
    elif upright and "radials" not in values:
        message = "an upright element needs radials at its foot"
        remedy = phrase("add {radials} with count, length, diameter and {laid}",
                        radials=table_named("beam.radials"),
                        laid=written("laid", '"buried"'))  # fmt: skip
        at.child("radials").fault(message, remedy=remedy)
    elif upright:
        _check_foot(values, upright, at)
    elif "radials" in values and None not in [e.get("at") for e in elements]:
        message = "no element stands upright, and radials are for those"
        at.child("radials").fault(message, remedy="take the radials out")
