"""The middle of the driven element from above, read off its parts: gap, rods, which side is hot.

An element fed across its gap is drawn with the heading to the right; one whose rods run along it
lies level, the heading upwards. Left is the left half seen from behind the rear end of the boom.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Final, Literal

from boomwright.base import UnitSystem
from boomwright.charts.drawing import Drawing, Layer, Measure, Note, Point, Shape, Stroke
from boomwright.parts import Bar, Block, Part, element_group, mount_group
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop import ShopElement
from boomwright.report.build.shop_drawings import shop_length
from boomwright.report.wording import first_upper

#: lettering over the width drawn [-]
_LETTERS: Final = 1.0 / 50.0
#: what is drawn to either side of the boom of an element without rods [mm]
_PLAIN: Final = 110.0
#: rods longer than this are drawn in their middle only, so far to either side [mm]
_MOST, _MIDDLE = 2000.0, 350.0
#: roles of what lies under others, seen from above
_BELOW: Final = frozenset({"element plate", "box", "capacitor", "block"})
#: place along the boom and across it, from the driven element's middle, to a place on the drawing
_View = Callable[[float, float], Point]


def feed_drawing(
    parts: Sequence[Part], *, element: ShopElement, system: UnitSystem
) -> Drawing | None:
    """Draw how the driven element is fed.

    Returns:
        to true scale, from above; None when nothing is fed there, or the plan lacks its rods
    """
    tubes = [part for part in parts if part.group == element_group(element.cut.number)
             and part.role == "element tube" and part.solids]  # fmt: skip
    feed = [part for part in parts if part.group == "feed" and part.solids]
    if not tubes or not (element.is_cut or any(part.role == "match" for part in feed)):
        return None
    place = tubes[0].solids[0].middle[0]
    rods = [part for part in feed if part.role == "match"]
    along = [solid for part in rods for solid in part.solids
             if isinstance(solid, Bar) and abs(solid.end[1] - solid.start[1]) > 1e-6]  # fmt: skip
    reach = max((1e3 * max(abs(bar.start[1]), abs(bar.end[1])) for bar in along), default=_PLAIN)
    # A second conductor runs to the tips: its middle is drawn.
    whole = reach <= _MOST
    reach = reach if whole else _MIDDLE

    def view(x: float, y: float) -> Point:
        return (-y, x) if along else (x, y)

    plates = [part for part in parts if part.role == "element plate"
              and part.group == mount_group(element.cut.number)]  # fmt: skip
    shapes = list(_shapes([*plates, *tubes, *feed], place, 1.12 * reach, view))
    flat = [point for shape in shapes for point in shape.points]
    wide = max(x for x, _ in flat) - min(x for x, _ in flat)
    high = max(wide, 1.2 * _PLAIN) * _LETTERS
    boom = [part for part in parts if part.role == "boom" and part.cut is not None]
    half = 500.0 * boom[0].cut.kind.diameter if boom and boom[0].cut is not None else 0.0
    lines: list[Shape] = [*_boom(half, flat, view, high), *shapes]
    lines += _names(
        [*tubes, *feed, *(plates if not along else ())],
        place,
        1.0 * reach,
        view,
        high,
        cut=element.is_cut,
    )
    measures, words = _measures(element, rods, whole, place, view, high, system=system)
    return Drawing(
        name="feed",
        title=f"Driven element {element.cut.number} from above: middle and match",
        description=f"{first_upper('; '.join(words)) or 'One piece'}. "
        f"Seen from above, heading {'up' if along else 'to the right'}.",
        shapes=(*lines, *measures),
        text_height=high,
    )


def _shapes(parts: Sequence[Part], place: float, reach: float, view: _View) -> Iterator[Stroke]:
    """Outlines of parts from above; tubes are open where they go on."""
    for part in parts:
        layer: Layer = "HIDDEN" if part.role in _BELOW else "TUBES"
        for solid in part.solids:
            low, high = _span(solid, place)
            (x0, y0), (x1, y1) = low, high
            open_ended = part.role == "element tube" or max(-y0, y1) > reach
            if y0 > reach or y1 < -reach:
                continue
            y0, y1 = max(y0, -reach), min(y1, reach)
            sides: list[tuple[Point, ...]] = [((x0, y0), (x0, y1), (x1, y1), (x1, y0), (x0, y0))]
            if open_ended and y0 <= -reach and y1 >= reach:
                sides = [((x0, y0), (x0, y1)), ((x1, y0), (x1, y1))]
            elif open_ended and y0 > 0.0:
                sides = [((x0, y1), (x0, y0), (x1, y0), (x1, y1))]
            elif open_ended:
                sides = [((x0, y0), (x0, y1), (x1, y1), (x1, y0))]
            yield from [
                Stroke(layer=layer, points=tuple(view(x, y) for x, y in side)) for side in sides
            ]


def _span(solid: Bar | Block, place: float) -> tuple[Point, Point]:
    """Two corners of a solid from above, from the driven element's middle [mm]."""
    if isinstance(solid, Block):
        (x, y, _), (a, b, _) = solid.middle, solid.size
        low, high = (x - place - 0.5 * a, y - 0.5 * b), (x - place + 0.5 * a, y + 0.5 * b)
    else:
        radius = 0.5 * solid.diameter
        xs = sorted((solid.start[0] - place, solid.end[0] - place))
        ys = sorted((solid.start[1], solid.end[1]))
        thick = (0.0, radius) if xs[1] - xs[0] > ys[1] - ys[0] else (radius, 0.0)
        low, high = (xs[0] - thick[0], ys[0] - thick[1]), (xs[1] + thick[0], ys[1] + thick[1])
    return (1e3 * low[0], 1e3 * low[1]), (1e3 * high[0], 1e3 * high[1])


def _boom(half: float, flat: list[Point], view: _View, high: float) -> Iterator[Shape]:
    level = view(1.0, 0.0)[0] != 0.0
    along = [point[0 if level else 1] for point in flat]
    low, far = min(along) - 2.0 * high, max(along) + 2.0 * high
    yield Stroke(layer="CENTRE", points=(view(low, 0.0), view(far, 0.0)))
    if half > 0.0:
        for side in (1.0, -1.0):
            yield Stroke(layer="HIDDEN", points=(view(low, side * half), view(far, side * half)))
        x, y = view(far if abs(far) < abs(low) else low, half)
        longer = low if abs(low) > abs(far) else far
        anchor: Literal["start", "middle", "end"] = "end"
        if level and abs(longer) > 2.0 * _PLAIN:
            at, anchor = view(0.5 * longer, 0.5 * half), "middle"  # between its side and its axis
        elif level:
            at, anchor = (x, y + 0.9 * high), "end" if abs(far) < abs(low) else "start"
        else:
            at = (x - 0.6 * high, y + 0.8 * high)
        yield Note(at=at, text="boom", anchor=anchor)


def _names(
    parts: Sequence[Part], place: float, reach: float, view: _View, high: float, *, cut: bool
) -> Iterator[Shape]:
    level = view(1.0, 0.0)[0] != 0.0
    for part in parts:
        low, far = _span(part.solids[0], place)
        if low[1] > reach or far[1] < -reach:
            continue
        low, far = (low[0], max(low[1], -reach)), (far[0], min(far[1], reach))
        if part.role == "element tube":
            if part.cut is None or part.cut.overlap > 0.0 or min(abs(low[1]), abs(far[1])) > reach:
                continue
            left = 0.5 * (low[1] + far[1]) > -1e-6
            half = ("left half, hot: inner conductor" if left else "right half: shield") if cut \
                else "driven element, one piece"  # fmt: skip
            # Past the plate, where the tube still shows.
            y = math.copysign((0.98 if level else 0.75) * reach, 1.0 if left else -1.0)
            x, v = view(far[0], y)
            at = (x + 0.8 * high, v) if level else (x, v + 1.2 * high)
            yield Note(at=at, text=f"{part.mark}  {half}", anchor="start" if level else "middle")
            continue
        middle = (0.5 * (low[0] + far[0]), 0.5 * (low[1] + far[1]))
        x, v = view(*middle)
        if part.role in {"box", "capacitor"}:
            up = view(0.0, far[1])[1] + 0.9 * high if level else v  # clear of what lies over it
            yield Note(at=(x, up), text=part.mark, anchor="middle")
        elif part.role == "element plate":
            yield Note(at=(low[0] + 0.5 * high, low[1] + 0.9 * high), text=part.mark)
        elif part.form == "rod":
            out = 1.3 * high * (1.0 if middle[1] > 0.0 else -1.0) if level else -1.4 * high
            yield Note(at=(x, v + out), text=part.mark, anchor="middle")
        else:
            edge = view(far[0], low[1])
            at = (edge[0] + 1.3 * high, edge[1] - 1.2 * high) if level \
                else (edge[0], v + 1.6 * high)  # fmt: skip
            yield Note(at=at, text=part.mark, anchor="middle")


def _measures(
    element: ShopElement, match: Sequence[Part], whole: bool, place: float, view: _View,
    high: float, *, system: UnitSystem,
) -> tuple[list[Measure], list[str]]:  # fmt: skip
    """Gap, and how the rods of a match stand to the element."""
    told = partial(_told, system=system)
    found, words = list[Measure](), list[str]()
    if element.is_cut:
        half = 1e3 * element.half_gap.metres(system=system)
        text = told(2.0 * half)
        # On the side where no rod runs.
        ahead = any(_span(part.solids[0], place)[1][0] > 2.0 * _PLAIN for part in match)
        found.append(
            Measure(start=view(0.0, -half), end=view(0.0, half), text=text, upright=True,
                    place=(-1.0 if ahead else 1.0) * (0.8 * _PLAIN + 2.0 * high))
        )  # fmt: skip
        words.append(f"gap {text} between the halves")
    bars = [part.solids[0] for part in match if isinstance(part.solids[0], Bar)]
    straps = [part.solids[0] for part in match if isinstance(part.solids[0], Block)]
    if not bars or not straps:
        return found, words
    rod, strap = bars[0], straps[0]
    thick = told(1e3 * rod.diameter)
    if abs(rod.end[1] - rod.start[1]) > 1e-6:
        end, away = 1e3 * strap.middle[1], 1e3 * (rod.start[0] - place)
        if not whole:
            half = 1e3 * abs(rod.start[1])
            out = away + math.copysign(4.5 * high, away)
            found += [
                Measure(start=view(away, half), end=view(away, -half), text=told(2.0 * half),
                        place=out),
                Measure(start=view(0.0, _MIDDLE), end=view(away, _MIDDLE), text=told(away),
                        place=view(0.0, _MIDDLE)[0] - 3.0 * high, upright=True),
            ]  # fmt: skip
            words.append(
                f"second conductor Ø {thick}, {told(away)} from the element between axes, gap "
                f"{told(2.0 * half)}, end bars {told(end)} from the middle"
            )
            return found, words
        sign = -1.0 if away < 0.0 else 1.0
        out = sign * (abs(away) + 4.5 * high)
        found += [
            Measure(start=view(away, end), end=view(0.0, 0.0), place=out, text=told(end)),
            Measure(start=view(0.0, end), end=view(away, end), place=view(0.0, end)[0] - 3.0 * high,
                    text=told(away), upright=True),
        ]  # fmt: skip
        words.append(f"rod Ø {thick}, {told(away)} from the element between axes, strap "
                     f"{told(end)} from the middle")  # fmt: skip
        return found, words
    measures, said = _hairpin_measures(bars, strap, place, view, high, system=system)
    return [*found, *measures], [*words, said]


def _hairpin_measures(
    bars: Sequence[Bar], strap: Block, place: float, view: _View, high: float, *, system: UnitSystem
) -> tuple[list[Measure], str]:
    """How far apart the rods of a hairpin stand, where its short is, and how far they run past."""
    told, rod = partial(_told, system=system), bars[0]
    thick = told(1e3 * rod.diameter)
    end = 1e3 * (strap.middle[0] - place)
    ys = sorted(1e3 * bar.start[1] for bar in bars)
    past = 1e3 * (rod.end[0] - place)
    beyond = past + (3.5 * high if end > 0.0 else -3.5 * high)
    measures = [
        Measure(start=view(0.0, ys[0]), end=view(end, ys[0]), place=ys[0] - 5.0 * high,
                text=told(end)),
        Measure(start=view(end, ys[0]), end=view(end, ys[-1]), place=beyond,
                text=told(ys[-1] - ys[0]), upright=True),
    ]  # fmt: skip
    words = (
        f"rods Ø {thick}, {told(ys[-1] - ys[0])} between axes, {told(end)} from the element's "
        f"axis to the middle of the short, {told(past - end)} past it so that it slides"
    )
    return measures, words


def _told(millimetres: float, *, system: UnitSystem) -> str:
    return shop_length(cut_length(abs(millimetres) / 1e3), system=system)
