"""Element and boom as workshop drawings: one description for page, paper and CAD."""

from __future__ import annotations

from itertools import pairwise

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.charts.drawing import Drawing, DrawnTube, Measure, Note, Shape, Stroke
from boomwright.charts.labels import spread
from boomwright.report.build.dimensions import CutLength
from boomwright.report.build.shop import ShopElement, ShopTube
from boomwright.report.build.shop_boom import ShopBoom

#: lettering so large that a drawing across a page reads at arm's length [1/1 of its length]
_LETTERS = 1.0 / 58.0


def shop_length(length: CutLength, *, system: UnitSystem) -> str:
    """Write a length as a tape in the workshop reads it: millimetres, or inches without feet."""
    return write(length.told, system=system)


def tube_size(tube: ShopTube, *, system: UnitSystem) -> str:
    """Write diameter and wall of a tube.

    Returns:
        for instance ``Ø 25.4 x 1.47`` [mm] or ``Ø 1.000 x 0.058`` [in]
    """
    return size_text(tube.diameter, tube.wall, system=system)


def size_text(diameter: float, wall: float, /, *, system: UnitSystem) -> str:
    """Write diameter and wall, without the unit that heads its column.

    Args:
        diameter: outer diameter [m]
        wall: wall thickness, 0 when not known [m]

    Returns:
        for instance ``Ø 25.40 x 1.47`` [mm] or ``Ø 1.000 x 0.058`` [in]
    """
    if system == "us":
        thick = f" x {wall / 0.0254:.3f}" if wall else ""
        return f"Ø {diameter / 0.0254:.3f}{thick}"
    thick = f" x {wall * 1e3:.2f}" if wall else ""
    return f"Ø {diameter * 1e3:.2f}{thick}"


def element_drawing(element: ShopElement, *, system: UnitSystem = "metric") -> Drawing:
    """Draw one half of an element as it is put together.

    Args:
        system: unit system of its lengths
    """
    long = float(element.cut.half_length.millimetres)
    high = long * _LETTERS
    thickest = max(tube.diameter for tube in element.tubes) * 1000.0
    thickening = max(1.0, 3.4 * high / thickest)
    tall = thickest * thickening
    shapes: list[Shape] = [
        Stroke(layer="CENTRE", points=((0.0, 0.9 * tall), (0.0, -0.5 * tall - 11.2 * high))),
    ]
    for tube in element.tubes:
        first = tube.overlap.millimetres == 0
        start = float(tube.starts.millimetres)
        if not first:
            shapes.append(
                DrawnTube(
                    start=(start, 0.0),
                    end=start + tube.overlap.millimetres,
                    diameter=tube.diameter * 1000.0,
                    hidden=True,
                )
            )
            start += tube.overlap.millimetres
        shapes.append(
            DrawnTube(
                start=(start, 0.0),
                end=float(tube.reaches.millimetres),
                diameter=tube.diameter * 1000.0,
            )
        )
    shapes += _element_rows(element, tall=tall, high=high, system=system)
    cut = element.cut
    half = shop_length(cut.half_length, system=system)
    return Drawing(
        name=f"element-{cut.number}",
        title=f"Element {cut.number}, {cut.label}: one half, from the boom centre line to the tip",
        description=f"{len(element.tubes)} tubes; the tip is {half} from the boom centre line.",
        shapes=tuple(shapes),
        text_height=high,
        thickening=thickening,
    )


def _element_rows(
    element: ShopElement, *, tall: float, high: float, system: UnitSystem
) -> list[Shape]:
    shapes: list[Shape] = []
    chain, tape = -0.5 * tall - 2.6 * high, -0.5 * tall - 6.0 * high
    ends = [0.0]
    for tube in element.tubes:
        start, end = ends[-1], float(tube.reaches.millimetres)
        middle = 0.5 * (start + end)
        mark = " + ".join(dict.fromkeys(tube.marks[:1] + tube.marks[-1:]))
        shapes += [
            Note(at=(middle, 0.5 * tall + 2.6 * high), text=mark, size=1.15, anchor="middle"),
            Note(at=(middle, 0.5 * tall + 1.1 * high), text=tube_size(tube, system=system),
                 size=0.82, anchor="middle"),
        ]  # fmt: skip
        shapes.append(
            Measure(start=(start, -0.5 * tall), end=(end, -0.5 * tall), place=chain,
                    text=shop_length(tube.exposed, system=system))
        )  # fmt: skip
        ends.append(end)
    shapes.append(Stroke(layer="DIMENSIONS", points=((0.0, tape), (ends[-1], tape))))
    labels = [shop_length(tube.reaches, system=system) for tube in element.tubes]
    room = 6.5 * high
    places = spread(ends[1:], room=room)
    shift = min(0.0, ends[-1] - places[-1])
    for place, wished, label in zip(ends[1:], places, labels, strict=True):
        at = wished + shift
        shapes += [
            Stroke(
                layer="DIMENSIONS", points=((place, tape - 0.5 * high), (place, tape + 0.5 * high))
            ),
            Note(at=(at, tape - 1.4 * high), text=label, anchor="end"),
        ]
    shapes.append(Note(at=(0.0, tape - 1.4 * high), text="0"))
    shapes.append(
        Note(
            at=(0.4 * high, tape - 3.2 * high), text="one tape from the boom centre line", size=0.9
        )
    )
    return shapes


def _upward(x: float, y: float, text: str, size: float) -> Note:
    return Note(at=(x, y), text=text, size=size, upright=True)


def boom_drawing(shop: ShopBoom, *, system: UnitSystem = "metric") -> Drawing:
    """Draw a boom with every station along one tape.

    Args:
        system: unit system of its lengths

    Returns:
        the boom to true scale; each station with its reading from the rear end
    """
    long = float(shop.length.millimetres)
    high = long * _LETTERS
    diameter = 1000.0 * (shop.boom.diameter if shop.boom else 0.01)
    thickening = max(1.0, 2.6 * high / diameter)
    tall = diameter * thickening
    shapes: list[Shape] = [
        Stroke(layer="CENTRE", points=((-2.0 * high, 0.0), (long + 2.0 * high, 0.0)))
    ]
    start = 0.0
    for part in shop.parts if shop.boom else ():
        shapes.append(
            DrawnTube(start=(start, 0.0), end=start + part.millimetres, diameter=diameter)
        )
        start += part.millimetres
    places = [float(station.tape.millimetres) for station in shop.stations]
    wished = spread(places, room=3.4 * high)
    # Stations that meet are moved apart; the whole row stays over the boom.
    middle = 0.5 * (wished[0] + wished[-1]) - 0.5 * (places[0] + places[-1])
    for station, place, at in zip(shop.stations, places, wished, strict=True):
        foot, top = 0.5 * tall, 0.5 * tall + 2.2 * high
        x = at - middle
        reading = shop_length(station.tape, system=system)
        shapes += [
            Stroke(layer="DIMENSIONS", points=((place, -foot), (place, foot), (x, top))),
            Note(at=(x - 0.55 * high, top + 0.4 * high), text=reading, upright=True),
            Note(
                at=(x + 0.75 * high, top + 0.4 * high), text=station.name, size=0.85, upright=True
            ),
        ]
    gaps = [shop_length(b.tape - a.tape, system=system) for a, b in pairwise(shop.stations)]
    shapes.append(
        Note(at=(0.0, -0.5 * tall - 1.6 * high), text="rear: tape hooked here at 0", size=0.9)
    )
    shapes.append(
        Note(at=(long, -0.5 * tall - 1.6 * high), text="front, towards the heading", size=0.9,
             anchor="end")
    )  # fmt: skip
    return Drawing(
        name="boom",
        title="Boom: stations along one tape from the rear end",
        description=f"{len(shop.stations)} stations; steps of {', '.join(gaps)}.",
        shapes=tuple(shapes),
        text_height=high,
        thickening=thickening,
    )
