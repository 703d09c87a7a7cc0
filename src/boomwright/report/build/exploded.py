"""The middle of the driven element taken apart: an oblique view of its parts, each with its mark.

Seen from behind the rear end of the boom and from above, so that left is left. Parts of one step
of the work are moved apart along one line; lengths along the element and upwards are true.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, Literal

from boomwright.base import UnitSystem
from boomwright.base.records import dataclass
from boomwright.charts.drawing import Drawing, Face, Note, Point, Shape, Stroke, Tone
from boomwright.charts.labels import text_width
from boomwright.parts import Bar, Block, Part, Solid, element_group, mount_group
from boomwright.parts import Point as Place
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop_drawings import shop_length

#: how far what lies ahead is drawn to the right and upwards, a part of its true length [-]
_AHEAD: Final = (0.42, 0.30)
#: tubes are drawn to this far from the boom, the boom to this far from the element [m]
_SHOWN, _BOOM_SHOWN = 0.26, 0.20
#: what lies further out than this is of another place [m]
_MOST = 2.0
#: corners of a round end
_ROUND: Final = 20
#: role of a part: how far it is moved along the boom, outwards along the element, and up [m]
_APART: Final[dict[str, Place]] = {
    "boom": (0.0, 0.0, 0.0),
    "boom U-bolt": (0.0, 0.0, -0.13),
    "element plate": (0.0, 0.0, 0.10),
    "saddle": (0.0, 0.0, 0.19),
    "insulator": (0.0, 0.0, 0.30),
    "element tube": (0.0, 0.17, 0.30),
    "shell": (0.0, 0.05, 0.42),
    "U-bolt": (0.0, 0.05, 0.52),
    "match": (0.10, 0.10, 0.30),
    "strap": (0.22, 0.0, 0.30),
    "block": (0.22, 0.0, 0.10),
    "capacitor": (0.10, 0.05, 0.22),
    "box": (-0.10, 0.0, -0.12),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A part as it is drawn."""

    part: Part
    solids: tuple[Solid, ...]  #: its solids, moved apart
    tone: Tone


def exploded_drawing(
    parts: Sequence[Part], *, number: int, system: UnitSystem = "metric"
) -> Drawing | None:
    """Draw the driven element's middle taken apart; None while nothing of it has a place.

    Args:
        number: number of the driven element, counted from the rear
    """
    shown = list(_shown(parts, number))
    if not any(each.part.role == "element tube" for each in shown):
        return None
    middle = next(each.solids[0].middle[0] for each in shown if each.part.role == "element tube")
    # What lies further ahead and lower is drawn first.
    shown.sort(key=lambda each: (-_mean(each, 0), _mean(each, 2), _mean(each, 1)))
    faces = [
        Face(points=points, tone=each.tone)
        for each in shown
        for solid in each.solids
        for points in _faces(solid, middle)
    ]
    spots = [(each, _spot(each, middle)) for each in shown]
    left = min(x for face in faces for x, _ in face.points)
    right = max(x for face in faces for x, _ in face.points)
    high = (right - left) / 25.0
    return Drawing(
        name="exploded",
        title=f"Driven element {number} taken apart, seen from behind and above",
        description="; ".join(_label(each.part, same, system) for each, same in _alike(shown)),
        shapes=(*_threads(shown, middle), *faces, *_callouts(spots, (left, right), high, system)),
        text_height=high,
    )


def _shown(parts: Sequence[Part], number: int) -> Iterator[_Drawn]:
    groups = {element_group(number), mount_group(number), "feed"}
    tubes = [part for part in parts if part.group == f"element {number}" and part.solids]
    place = next((part.solids[0].middle[0] for part in tubes), 0.0)
    for part in parts:
        if part.role == "boom" and part.solids:
            near = _clipped(part.solids[0], 0, place, _BOOM_SHOWN)
            if near is not None:
                yield _Drawn(part=part, solids=(near,), tone="metal")
        if part.group not in groups or not part.solids or part.role in {"tip", "sleeve"}:
            continue
        solids = part.solids
        # What sits along a second conductor, out to the tips, is not of the middle.
        far = _SHOWN if part.role == "spacer" else _MOST
        if abs(solids[0].middle[1]) > far and not _is_long(solids[0]):
            continue
        if part.role == "element tube" or (part.group == "feed" and _is_long(solids[0])):
            near = _clipped(solids[0], 1, 0.0, _SHOWN)
            if near is None or (part.cut is not None and part.cut.overlap > 0.0):
                continue
            solids = (near,)
        yield _Drawn(part=part, solids=_apart(part, solids, place), tone=_tone(part, tubes))


def _is_long(solid: Solid) -> bool:
    """Whether a conductor runs along its element further than the view reaches."""
    return isinstance(solid, Bar) and abs(solid.end[1] - solid.start[1]) > 0.5 * _MOST


def _tone(part: Part, tubes: Sequence[Part]) -> Tone:
    halves = any(tube.role == "insulator" for tube in tubes)
    if part.role == "element tube" and halves:
        return "hot" if part.solids[0].middle[1] > 0.0 else "shield"
    if part.role in {"box", "capacitor"} or not part.conductor:
        return "insulator"
    if part.role == "match" and part.form == "rod":
        if not halves:
            return "hot"
        return "hot" if part.solids[0].middle[1] > 0.0 else "shield"
    return "bolt" if part.role == "U-bolt" else "metal"


def _kind(part: Part) -> str:
    if part.role == "U-bolt" and ".V" in part.mark:
        return "boom U-bolt"
    return "strap" if part.role == "match" and part.form == "plate" else part.role


def _apart(part: Part, solids: Iterable[Solid], place: float) -> tuple[Solid, ...]:
    """Move a part away from its place, away from the element and from the boom centre line."""
    ahead, out, up = _APART.get(_kind(part), (0.0, 0.0, 0.0))
    listed = tuple(solids)
    x = sum(solid.middle[0] for solid in listed) / len(listed) - place
    y = sum(solid.middle[1] for solid in listed) / len(listed)
    across = -1.0 if y < -1e-6 else 1.0 if y > 1e-6 else 0.0
    along = -1.0 if x < -1e-6 and _kind(part) != "box" else 1.0
    step = (along * ahead, across * out, up)
    return tuple(_moved(solid, step) for solid in listed)


def _moved(solid: Solid, step: Place) -> Solid:
    def at(point: Place) -> Place:
        x, y, z = (a + b for a, b in zip(point, step, strict=True))
        return (x, y, z)

    if isinstance(solid, Bar):
        return Bar(start=at(solid.start), end=at(solid.end), diameter=solid.diameter,
                   bore=solid.bore)  # fmt: skip
    return Block(middle=at(solid.middle), size=solid.size, turn=solid.turn)


def _clipped(solid: Solid, axis: int, place: float, reach: float) -> Bar | None:
    """Cut what lies further than a reach off a straight bar along an axis."""
    if not isinstance(solid, Bar):
        return None
    low, high = sorted((solid.start[axis], solid.end[axis]))
    low, high = max(low, place - reach), min(high, place + reach)
    if high - low < 1e-6:
        return None
    start, end = list(solid.start), list(solid.end)
    start[axis], end[axis] = low, high
    return Bar(start=(start[0], start[1], start[2]), end=(end[0], end[1], end[2]),
               diameter=solid.diameter, bore=solid.bore)  # fmt: skip


def _mean(drawn: _Drawn, axis: int) -> float:
    return sum(solid.middle[axis] for solid in drawn.solids) / len(drawn.solids)


def _flat(point: Place, middle: float) -> Point:
    """Place of a point on the drawing [mm]."""
    x, y, z = point
    ahead = x - middle
    return 1e3 * (-y + _AHEAD[0] * ahead), 1e3 * (z + _AHEAD[1] * ahead)


def _faces(solid: Solid, middle: float) -> list[tuple[Point, ...]]:
    return _block_faces(solid, middle) if isinstance(solid, Block) else _bar_faces(solid, middle)


def _block_faces(block: Block, middle: float) -> list[tuple[Point, ...]]:
    (x, y, z), (a, b, c) = block.middle, (0.5 * each for each in block.size)

    def face(*corners: Place) -> tuple[Point, ...]:
        return tuple(_flat((x + i * a, y + j * b, z + k * c), middle) for i, j, k in corners)

    return [
        face((-1, -1, -1), (-1, 1, -1), (-1, 1, 1), (-1, -1, 1)),  # towards the rear
        face((-1, -1, 1), (-1, 1, 1), (1, 1, 1), (1, -1, 1)),  # upper
        face((-1, -1, -1), (1, -1, -1), (1, -1, 1), (-1, -1, 1)),  # right
    ]


def _bar_faces(bar: Bar, middle: float) -> list[tuple[Point, ...]]:
    """Outline of a round bar, and its nearer end with the bore."""
    start, end = sorted((bar.start, bar.end), key=lambda p: (p[0], -p[2], p[1]))
    rings = [list(_ring(point, bar, bar.diameter, middle)) for point in (start, end)]
    hull = _hull([*rings[0], *rings[1]])
    found = [hull, tuple(rings[0])]
    if bar.bore > 0.0:
        found.append(tuple(_ring(start, bar, bar.bore, middle)))
    return found


def _ring(point: Place, bar: Bar, diameter: float, middle: float) -> Iterator[Point]:
    along = [(b - a) / (bar.length or 1.0) for a, b in zip(bar.start, bar.end, strict=True)]
    other = (0.0, 0.0, 1.0) if abs(along[2]) < 0.9 else (1.0, 0.0, 0.0)
    first = _cross(along, other)
    long = math.sqrt(sum(each * each for each in first))
    first = [each / long for each in first]
    second = _cross(along, first)
    for k in range(_ROUND):
        c, s = (0.5 * diameter * f(2.0 * math.pi * k / _ROUND) for f in (math.cos, math.sin))
        x, y, z = (p + c * a + s * b for p, a, b in zip(point, first, second, strict=True))
        yield _flat((x, y, z), middle)


def _cross(a: Sequence[float], b: Sequence[float]) -> list[float]:
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def _hull(points: list[Point]) -> tuple[Point, ...]:
    """Outline round some points, counter-clockwise."""

    def half(ordered: Iterable[Point]) -> list[Point]:
        chain: list[Point] = []
        for point in ordered:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
        return chain[:-1]

    ordered = sorted(set(points))
    return (*half(ordered), *half(reversed(ordered)))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _spot(drawn: _Drawn, middle: float) -> Point:
    """Place on a part that its leader points at."""
    solid = drawn.solids[len(drawn.solids) // 2]
    if drawn.part.role == "element tube" and isinstance(solid, Bar):
        far = max((solid.start, solid.end), key=lambda p: abs(p[1]))
        return _flat((far[0], 0.8 * far[1], far[2]), middle)
    return _flat(solid.middle, middle)


def _threads(shown: Sequence[_Drawn], middle: float) -> Iterator[Stroke]:
    """Lines along which the parts go together: down through the plate, and along the element."""

    def line(*points: Place) -> Stroke:
        return Stroke(layer="CENTRE", points=tuple(_flat(point, middle) for point in points))

    plate = [each for each in shown if each.part.role == "element plate"]
    tubes = [each.solids[0] for each in shown if each.part.role == "element tube"]
    for each in shown:
        if each.part.role != "U-bolt" or not plate:
            continue
        (x, y, z), down = each.solids[len(each.solids) // 2].middle, plate[0].solids[0].middle[2]
        # Bow and plate stand over each other where the part is not moved sideways.
        out = _APART["U-bolt"][1] if _kind(each.part) == "U-bolt" else 0.0
        yield line((x, y, z), (x, y - math.copysign(out, y), down))
    if len(tubes) > 1:
        x, _, z = tubes[0].middle
        reach = max(max(abs(bar.middle[1]) for bar in tubes), _SHOWN)
        yield line((x, reach, z), (x, -reach, z))


def _alike(shown: Sequence[_Drawn]) -> list[tuple[_Drawn, list[str]]]:
    """Parts of one name and one length, with the marks of all."""
    found: dict[tuple[object, ...], tuple[_Drawn, list[str]]] = {}
    for each in shown:
        part = each.part
        key = (part.name, part.role, each.tone, part.cut)
        found.setdefault(key, (each, []))[1].append(part.mark)
    return list(found.values())


def _label(part: Part, marks: list[str], system: UnitSystem) -> str:
    name = part.name.split(", ", 1)[-1]
    words = f"{', '.join(sorted(marks))}: {name}"
    if part.cut is not None and part.role != "boom":
        words += f", saw to {shop_length(cut_length(part.cut.sawn), system=system)}"
    return words.replace(" mm", "\u00a0mm").replace(" in", "\u00a0in")


def _callouts(
    spots: Sequence[tuple[_Drawn, Point]], sides: tuple[float, float], high: float,
    system: UnitSystem,
) -> Iterator[Shape]:  # fmt: skip
    """Write each part's mark, name and length beside the view, with a leader to it."""
    at = {id(each): spot for each, spot in spots}
    entries = [
        (at[id(each)], _label(each.part, marks, system) + _side(each))
        for each, marks in _alike([each for each, _ in spots])
    ]
    middle = 0.5 * (sides[0] + sides[1])
    halves: dict[Literal["start", "end"], list[tuple[Point, str]]] = {"end": [], "start": []}
    for spot, text in sorted(entries, key=lambda entry: -entry[0][1]):
        wanted: Literal["start", "end"] = "end" if spot[0] < middle else "start"
        # The fuller side gives what is nearly in the middle to the other.
        if abs(spot[0] - middle) < 0.12 * (sides[1] - sides[0]):
            wanted = min(halves, key=lambda side: len(halves[side]))
        halves[wanted].append((spot, text))
    for side, mine in halves.items():
        x = sides[0] - 2.0 * high if side == "end" else sides[1] + 2.0 * high
        y = math.inf
        for spot, text in mine:
            lines = _folded(text)
            # A little higher than the part, so that no leader runs along what lies beside it.
            y = min(spot[1] + 1.6 * high, y - 0.8 * high)
            elbow = x + (1.5 * high if side == "end" else -1.5 * high)
            yield Stroke(layer="DIMENSIONS", points=((x, y), (elbow, y), spot))
            for line in lines:
                at_x = x + (-0.4 * high if side == "end" else 0.4 * high)
                yield Note(at=(at_x, y), text=line, anchor=side)
                y -= 1.7 * high


def _side(each: _Drawn) -> str:
    if each.part.role == "element tube":
        return {"hot": ", HOT: inner conductor", "shield": ", shield"}.get(each.tone, "")
    return ""


def _folded(text: str, *, widest: float = 17.0) -> list[str]:
    """Break a callout into lines that are about as wide as a column beside the view."""
    lines: list[str] = []
    for word in text.split(" "):
        wider = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(wider, size=1.0) <= widest:
            lines[-1] = wider
        else:
            lines.append(word)
    return lines
