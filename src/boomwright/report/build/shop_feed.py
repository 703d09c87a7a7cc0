"""The middle of the driven element as a workshop drawing: gap, rods, which side goes where.

A cut element is seen from above with the heading to the right, as in the plan view, or to the
left where its rods run rearward. One in a single piece with its rods below it is seen from behind
the rear end of the boom, so that left is left in both.
"""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.charts.drawing import (
    Drawing,
    DrawnTube,
    Layer,
    Measure,
    Note,
    Point,
    Shape,
    Stroke,
)
from boomwright.parts import Beam
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop_drawings import shop_length

#: lettering over the width drawn [-]
_LETTERS = 1.0 / 62.0
#: what is drawn along the boom of an element without rods [mm]
_PLAIN = 320.0


def feed_drawing(
    beam: Beam, *, gap: CutLength, boom: float | None, system: UnitSystem, rearward: bool = False
) -> Drawing | None:
    """Draw how the driven element is fed.

    Args:
        boom: diameter of its boom; None leaves the boom out [m]
        system: unit system shown first
        rearward: whether the rods of its match run towards the rear of the boom

    Returns:
        to true scale; None when nothing is fed, or the plan lacks what is to be drawn
    """
    driven = next((each for each in beam.elements if each.role == "driven"), None)
    if driven is None or not driven.half:
        return None
    diameter = driven.half[0].diameter * 1000.0
    if beam.feed.cuts_element:
        return _cut_view(
            beam, gap=gap, diameter=diameter, boom=boom, system=system, rearward=rearward
        )
    return _rod_view(beam, diameter=diameter, system=system)


def _length(millimetres: float, system: UnitSystem) -> str:
    return shop_length(cut_length(millimetres / 1000.0), system=system)


def _measure(
    start: Point, end: Point, *, place: float, system: UnitSystem, upright: bool = False
) -> Measure:
    long = abs(end[1] - start[1]) if upright else abs(end[0] - start[0])
    return Measure(start=start, end=end, place=place, text=_length(long, system), upright=upright)


def _box(left: float, low: float, right: float, high: float, layer: Layer) -> Stroke:
    corners = ((left, low), (right, low), (right, high), (left, high))
    return Stroke(layer=layer, points=corners, closed=True)


def _rods(beam: Beam) -> tuple[float, float, float] | None:
    feed = beam.feed
    if feed.rod_diameter is None or feed.rod_spacing is None or feed.rod_length is None:
        return None
    return feed.rod_diameter * 1000.0, feed.rod_spacing * 1000.0, feed.rod_length * 1000.0


def _cut_view(
    beam: Beam, *, gap: CutLength, diameter: float, boom: float | None, system: UnitSystem,
    rearward: bool,
) -> Drawing:  # fmt: skip
    rods, wide = _rods(beam), float(gap.millimetres)
    reach = _PLAIN if rods is None else rods[2]
    # To the right of the short stands its spacing, in letters of a 62nd of the whole width.
    left = -0.52 * reach
    high = (reach - left) * _LETTERS / (1.0 - 19.0 * _LETTERS)
    right = reach + 19.0 * high
    tip = 0.5 * (wide if rods is None else max(wide, rods[1])) + 7.5 * high
    tube, name = 0.5 * diameter, -0.5 * diameter - 0.8 * high
    shapes: list[Shape] = [
        Stroke(layer="CENTRE", points=((0.0, -tip - high), (0.0, tip + high))),
    ]
    if boom is not None:
        shapes.append(_box(left - high, -500.0 * boom, right, 500.0 * boom, "HIDDEN"))
        shapes.append(Note(at=(left, -500.0 * boom - 1.4 * high), text="boom, below", size=0.9))
    for side in (1.0, -1.0):
        inner, outer = side * 0.5 * wide, side * tip
        # Open at its outer end: the tube goes on.
        shapes.append(
            Stroke(
                layer="TUBES",
                points=((-tube, outer), (-tube, inner), (tube, inner), (tube, outer)),
            )
        )
    shapes += _choke(left, tube=tube, gap=wide, high=high)
    # Seen from above with the rear to the right, the left half lies below.
    left_half = (2.0 * high - tip) if rearward else (tip - 2.0 * high)
    point, back = (right - 4.4 * high, -1.0) if rearward else (right, 1.0)
    gap_text = shop_length(gap, system=system)
    shapes += [
        Note(at=(name, left_half), text="left half L: inner conductor", anchor="end"),
        Note(at=(name, -left_half), text="right half R: shield", anchor="end"),
        Note(at=(right - 5.0 * high, tip), text="heading", anchor="end"),
        Stroke(layer="DIMENSIONS", points=((right - 4.4 * high, tip), (right, tip))),
        Stroke(
            layer="DIMENSIONS",
            points=(
                (point - back * high, tip + 0.5 * high),
                (point, tip),
                (point - back * high, tip - 0.5 * high),
            ),
        ),
        Note(at=(tube + 0.9 * high, 0.0), text=f"gap {gap_text}", size=0.9),
    ]
    words = f"Gap {gap_text}"
    if rods is not None:
        shapes += _hairpin(*rods, tip=tip, high=high, system=system)
        words += (
            f"; rods Ø {_length(rods[0], system)}, {_length(rods[1], system)} between axes, "
            f"{_length(rods[2], system)} from the element's axis to the short's"
        )
    way = "left" if rearward else "right"
    return _drawing(f"{words}. Seen from above, heading to the {way}.", shapes, high)


def _choke(left: float, *, tube: float, gap: float, high: float) -> list[Shape]:
    """Box under the boom, a wire from it to the inner end of each half."""
    start, end = left + 2.5 * high, left + 8.5 * high
    half = 1.7 * high
    return [
        _box(start, -half, end, half, "HIDDEN"),
        Note(at=(0.5 * (start + end), 0.0), text="choke", size=0.9, anchor="middle"),
        *(
            Stroke(
                layer="OUTLINE",
                points=((end, side * 0.5 * half), (-tube, side * (0.5 * gap + 0.4 * tube))),
            )
            for side in (1.0, -1.0)
        ),
    ]


def _hairpin(
    diameter: float, spacing: float, length: float, *, tip: float, high: float,
    system: UnitSystem,
) -> list[Shape]:  # fmt: skip
    half, rod, beside = 0.5 * spacing, 0.5 * diameter, length + 2.6 * high
    return [
        *(_box(0.0, side * half - rod, length, side * half + rod, "OUTLINE") for side in (1, -1)),
        _box(length - rod, -half, length + rod, half, "OUTLINE"),
        _measure((0.0, -half), (length, -half), place=-tip + 1.0 * high, system=system),
        Stroke(layer="DIMENSIONS", points=((beside, -half), (beside, half))),
        *(
            Stroke(
                layer="DIMENSIONS",
                points=((length + rod, side * half), (beside + 0.6 * high, side * half)),
            )
            for side in (1.0, -1.0)
        ),
        Note(at=(beside + 0.9 * high, 0.0), text=_length(spacing, system)),
        Note(at=(0.5 * length, half + 1.6 * high), text=f"rods Ø {_length(diameter, system)}",
             anchor="middle"),
        Note(at=(length, half + 1.6 * high), text="short", size=0.9, anchor="middle"),
    ]  # fmt: skip


def _rod_view(beam: Beam, *, diameter: float, system: UnitSystem) -> Drawing | None:
    rods = _rods(beam)
    if rods is None:
        return None
    rod, spacing, length = rods
    both = beam.feed.kind == "tee"
    left, right = -1.15 * length, (1.15 if both else 0.35) * length
    high = (right - left) * _LETTERS
    shapes: list[Shape] = [
        DrawnTube(start=(left, 0.0), end=right, diameter=diameter),
        Stroke(layer="CENTRE", points=((0.0, 3.0 * high), (0.0, -spacing - 4.0 * high))),
        Note(at=(0.0, 4.0 * high), text="boom", size=0.9, anchor="middle"),
        Note(at=(left, 0.5 * diameter + 1.6 * high), text="left half"),
        Note(at=(right, 0.5 * diameter + 1.6 * high), text="right half", anchor="end"),
    ]
    for side in (-1.0, 1.0) if both else (-1.0,):
        low, far = sorted((side * 0.02 * length, side * length))
        shapes.append(DrawnTube(start=(low, -spacing), end=far, diameter=rod))
        strap = side * length
        shapes.append(_box(strap - 0.5 * rod, -spacing, strap + 0.5 * rod, 0.0, "OUTLINE"))
    shapes += [
        _measure((-length, -spacing), (0.0, -spacing), place=-spacing - 4.0 * high, system=system),
        _measure((-length, -spacing), (-length, 0.0), place=-length - 2.4 * high, system=system,
                 upright=True),
        Note(at=(-0.5 * length, -spacing - 0.5 * rod - 1.4 * high),
             text=f"rod Ø {_length(rod, system)}", anchor="middle"),
    ]  # fmt: skip
    sides = "a rod along each half" if both else "one rod, along the left half"
    return _drawing(
        f"{sides[0].upper()}{sides[1:]}: Ø {_length(rod, system)}, {_length(spacing, system)} "
        f"below the element between axes, strap {_length(length, system)} from the middle. "
        "Seen from behind the rear end.",
        shapes,
        high,
    )


def _drawing(description: str, shapes: list[Shape], high: float) -> Drawing:
    return Drawing(
        name="feed",
        title="Driven element: middle and match",
        description=description,
        shapes=tuple(shapes),
        text_height=high,
    )
