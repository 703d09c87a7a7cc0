"""Elements, boom and sawn pieces as workshop drawings: one description for page, paper and CAD."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from boomwright.base import METRES_PER_INCH, UnitSystem
from boomwright.base.quantity import write
from boomwright.charts.drawing import (
    LETTER_OVER_CAPITAL,
    Bore,
    Drawing,
    DrawnTube,
    Measure,
    Note,
    Reading,
    Shape,
    Stroke,
)
from boomwright.charts.labels import spread, text_width
from boomwright.parts import TIP_JOINT, Hole, TubeKind
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.pieces import SawnPiece
from boomwright.report.build.shop import ShopElement
from boomwright.report.build.shop_boom import ShopBoom

#: lettering so large that a drawing across a page reads at arm's length [1/1 of its length]
LETTERS: Final = 1.0 / 58.0


def shop_length(length: CutLength, *, system: UnitSystem) -> str:
    """Write a length as a tape in the workshop reads it: millimetres, or inches without feet."""
    return write(length.told, system=system)


def bare_length(length: CutLength, *, system: UnitSystem) -> str:
    """Write a length as a tape reads it, without the unit that a head or a title names."""
    return write(length.bare, system=system)


def drawn(length: CutLength, *, system: UnitSystem) -> float:
    """Length that is drawn: the one that is written beside it [mm]."""
    return 1e3 * length.metres(system=system)


def drill_size(diameter: float, *, system: UnitSystem) -> str:
    """Write the diameter of a hole as a drill is marked.

    Args:
        diameter: [m]

    Returns:
        for instance ``Ø 4.9`` [mm] or ``Ø 0.193`` [in]
    """
    if system == "us":
        return f"Ø {diameter / METRES_PER_INCH:.3f}"
    return f"Ø {1e3 * diameter:g}"


def tube_size(kind: TubeKind, /, *, system: UnitSystem) -> str:
    """Write diameter and wall of a tube, without the unit that heads its column.

    Returns:
        for instance ``Ø 25.40 x 1.47`` [mm] or ``Ø 1.000 x 0.058`` [in]
    """
    wall = 0.0 if kind.is_rod else kind.wall
    if system == "us":
        thick = f" x {wall / METRES_PER_INCH:.3f}" if wall else ""
        return f"Ø {kind.diameter / METRES_PER_INCH:.3f}{thick}"
    thick = f" x {wall * 1e3:.2f}" if wall else ""
    return f"Ø {kind.diameter * 1e3:.2f}{thick}"


def element_drawing(element: ShopElement, *, system: UnitSystem = "metric") -> Drawing:
    """Draw one half of an element as it is put together."""
    long = drawn(element.cut.half_length, system=system)
    high = long * LETTERS
    thickest = max(tube.kind.diameter for tube in element.tubes) * 1000.0
    thickening = max(1.0, 3.4 * high / thickest)
    tall = thickest * thickening
    shapes: list[Shape] = [
        Stroke(layer="CENTRE", points=((0.0, 0.9 * tall), (0.0, -0.5 * tall - 4.2 * high)))
    ]
    for tube in element.tubes:
        start = drawn(tube.starts, system=system)
        if tube.overlap.millimetres:
            inner, start = start, drawn(tube.starts + tube.overlap, system=system)
            shapes.append(
                DrawnTube(start=(inner, 0.0), end=start, diameter=tube.kind.diameter * 1000.0,
                          hidden=True)
            )  # fmt: skip
        shapes.append(
            DrawnTube(start=(start, 0.0), end=drawn(tube.reaches, system=system),
                      diameter=tube.kind.diameter * 1000.0)
        )  # fmt: skip
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
) -> Iterator[Shape]:
    chain, tape = -0.5 * tall - 2.6 * high, -0.5 * tall - 5.4 * high
    ends, taken = [0.0], -math.inf
    base = 0.5 * tall
    for tube in element.tubes:
        start, end = ends[-1], drawn(tube.reaches, system=system)
        middle = 0.5 * (start + end)
        mark = " + ".join(dict.fromkeys(tube.marks[:1] + tube.marks[-1:]))
        size = tube_size(tube.kind, system=system)
        wide = text_width(mark, size=1.15 * LETTER_OVER_CAPITAL * high) + 0.8 * high
        # Above its neighbour's where both do not stand side by side.
        crowded = base == 0.5 * tall and middle - 0.5 * wide < taken
        base = 0.5 * tall + (2.9 * high if crowded else 0.0)
        taken = middle + 0.5 * wide if not crowded else taken
        yield Note(at=(middle, base + 2.6 * high), text=mark, size=1.15, anchor="middle")
        yield Note(at=(middle, base + 1.1 * high), text=size, size=0.82, anchor="middle")
        yield Measure(start=(start, -0.5 * tall), end=(end, -0.5 * tall), place=chain,
                      text=shop_length(tube.exposed, system=system))  # fmt: skip
        ends.append(end)
    wished = spread(ends, room=1.6 * high)
    shift = min(0.0, ends[-1] - wished[-1])
    texts = ["0", *(bare_length(tube.reaches, system=system) for tube in element.tubes)]
    for place, at, text in zip(ends, wished, texts, strict=True):
        yield Reading(at=(place, -0.5 * tall), place=tape, text=text, shown=at + shift)
    words = f"one tape from the boom centre line, {'mm' if system == 'metric' else 'in'}"
    longest = max(text_width(text, size=LETTER_OVER_CAPITAL * high) for text in texts)
    yield Note(at=(0.0, tape - longest - 2.0 * high), text=words, size=0.9)


def boom_drawing(shop: ShopBoom, *, system: UnitSystem = "metric") -> Drawing:
    """Draw a boom with every station along one tape.

    Returns:
        the boom to true scale; each station with its reading from the rear end
    """
    long = drawn(shop.length, system=system)
    high = long * LETTERS
    diameter = 1000.0 * (shop.boom.diameter if shop.boom else 0.01)
    thickening = max(1.0, 2.6 * high / diameter)
    tall = diameter * thickening
    shapes: list[Shape] = [
        Stroke(layer="CENTRE", points=((-2.0 * high, 0.0), (long + 2.0 * high, 0.0)))
    ]
    start = CutLength(millimetres=0, sixteenths=0, thousandths=0)
    for part in shop.parts:
        end = start + part
        shapes.append(
            DrawnTube(start=(drawn(start, system=system), 0.0), end=drawn(end, system=system),
                      diameter=diameter)
        )  # fmt: skip
        start = end
    places = [drawn(station.tape, system=system) for station in shop.stations]
    wished = spread(places, room=3.4 * high)
    # Stations that meet are moved apart; the whole row stays over the boom.
    middle = 0.5 * (wished[0] + wished[-1]) - 0.5 * (places[0] + places[-1])
    shapes += [
        Reading(at=(place, 0.5 * tall), place=0.5 * tall + 2.6 * high, name=station.told,
                text=shop_length(station.tape, system=system), shown=at - middle)
        for station, place, at in zip(shop.stations, places, wished, strict=True)
    ]  # fmt: skip
    below = -0.5 * tall - 1.6 * high
    shapes += [
        Note(at=(0.0, below), text="rear: tape hooked here at 0", size=0.9),
        Note(at=(long, below), text="front, towards the heading", size=0.9, anchor="end"),
    ]
    return Drawing(
        name="boom",
        title="Boom: stations along one tape from the rear end",
        description=f"{len(shop.stations)} stations on {shop_length(shop.length, system=system)}.",
        shapes=tuple(shapes),
        text_height=high,
        thickening=thickening,
    )


def piece_drawings(
    pieces: Sequence[SawnPiece], *, system: UnitSystem = "metric"
) -> tuple[Drawing, ...]:
    """Draw how every piece is sawn and drilled, pieces that are alike once."""
    alike: dict[tuple[object, ...], list[SawnPiece]] = {}
    for piece in pieces:
        alike.setdefault((piece.kind, piece.sawn, piece.part.holes), []).append(piece)
    return tuple(_piece(same, system) for same in alike.values())


def _piece(same: list[SawnPiece], system: UnitSystem) -> Drawing:
    piece, marks = same[0], [mark for each in same for mark in each.marks]
    long, diameter = drawn(piece.sawn, system=system), 1e3 * piece.kind.diameter
    high = max(long * LETTERS, 2.6)
    thickening = max(1.0, 3.0 * high / diameter)
    tall = diameter * thickening
    shapes: list[Shape] = [
        DrawnTube(start=(0.0, 0.0), end=long, diameter=diameter),
        Stroke(layer="CENTRE", points=((-2.0 * high, 0.0), (long + 2.0 * high, 0.0))),
        Measure(start=(0.0, 0.5 * tall), end=(long, 0.5 * tall), place=0.5 * tall + 5.0 * high,
                text=f"saw to {shop_length(piece.sawn, system=system)}"),
        *_drilled(piece, tall=tall, high=high, system=system),
    ]  # fmt: skip
    kind, unit = tube_size(piece.kind, system=system), "mm" if system == "metric" else "in"
    metal = piece.kind.material
    listed = ", ".join(marks)
    return Drawing(
        name=f"piece-{marks[0]}".replace("/", "-"),
        title=f"{listed}: {'rod' if piece.kind.is_rod else 'tube'} {kind} {unit} {metal}, "
        f"{len(marks)} off",
        description=f"Saw {len(marks)} to {shop_length(piece.sawn, system=system)}. "
        + holes_text(piece.part.holes, system=system)
        + "; two level slits in the outer end" * piece.is_slit,
        shapes=tuple(shapes),
        text_height=high,
        thickening=thickening,
    )


def holes_text(holes: Iterable[Hole], *, system: UnitSystem) -> str:
    """Say every hole of a piece, from its inner or rear end; a star: of an outermost joint."""
    places: dict[tuple[float, str], list[float]] = {}
    for hole in holes:
        star = "*" if hole.purpose == TIP_JOINT else ""
        places.setdefault((hole.diameter, star), []).extend(hole.at)
    told = [
        f"{drill_size(diameter, system=system)}{star} at "
        + ", ".join(bare_length(cut_length(at), system=system) for at in sorted(mine))
        for (diameter, star), mine in places.items()
    ]
    return "; ".join(told) if told else "no holes"


def _drilled(piece: SawnPiece, *, tall: float, high: float, system: UnitSystem) -> list[Shape]:
    """Holes of a tube on its axis and the ring at its overlap, read from its inner or rear end."""
    holes, shapes = piece.part.holes, list[Shape]()
    read = [(cut_length(at), "") for hole in holes for at in hole.at]
    if piece.overlap.millimetres and piece.exposed is not None and piece.exposed.millimetres:
        read.append((piece.overlap, "ring "))
        at = drawn(piece.overlap, system=system)
        shapes.append(Stroke(layer="OUTLINE", points=((at, -0.5 * tall), (at, 0.5 * tall))))
    read.sort(key=lambda entry: entry[0].thousandths)
    places = [drawn(at, system=system) for at, _ in read]
    wished = spread(places, room=1.6 * high)
    middle = 0.5 * (wished[0] + wished[-1]) - 0.5 * (places[0] + places[-1]) if read else 0.0
    shapes += [
        Reading(at=(place, -0.5 * tall), place=-0.5 * tall - 2.0 * high, shown=shown - middle,
                text=f"{word}{bare_length(at, system=system)}")
        for (at, word), place, shown in zip(read, places, wished, strict=True)
    ]  # fmt: skip
    for hole in holes:
        size = f"{hole.count} x {drill_size(hole.diameter, system=system)}"
        for k, at in enumerate(hole.at):
            x = drawn(cut_length(at), system=system)
            label = (x + 1.6 * high, 0.5 * tall + 2.0 * high)
            shapes.append(
                Bore(centre=(x, 0.0), diameter=1e3 * hole.diameter, text="" if k else size,
                     label=label)
            )  # fmt: skip
    return shapes
