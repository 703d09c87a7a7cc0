"""A workshop drawing as data: shapes in millimetres at true scale, on named layers.

One description serves every output: the picture on page and paper (``drawing_svg``) and the
CAD file (``drawing_dxf`` of the exports). Only a picture draws tubes thicker than they are, by the
factor the drawing states; a CAD file never does.
"""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap
from typing import Final, Literal

from boomwright.base.records import dataclass, replace
from boomwright.charts.labels import text_width

Layer = Literal["SOLIDS", "TUBES", "HIDDEN", "CENTRE", "HOLES", "OUTLINE", "DIMENSIONS", "TEXT"]
#: layers in the order they are drawn
LAYERS: tuple[Layer, ...] = (
    "CENTRE", "SOLIDS", "OUTLINE", "TUBES", "HIDDEN", "HOLES", "DIMENSIONS", "TEXT",
)  # fmt: skip
#: what a face of a solid is of: bare metal, an insulator, or metal on one side of the feed
Tone = Literal["metal", "bolt", "insulator", "hot", "shield"]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnTube:
    """A level tube, seen from the side."""

    start: Point  #: its end nearer to the origin, on the axis [mm]
    end: float  #: x of its other end [mm]
    diameter: float  #: outer diameter [mm]
    hidden: bool = False  #: whether it lies inside another tube


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through points."""

    layer: Layer
    points: tuple[Point, ...]  #: corners [mm] (n_points, 2)
    closed: bool = False  #: whether it returns to its start


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle."""

    layer: Layer
    centre: Point  #: its centre [mm]
    diameter: float  #: its diameter [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """A drilled hole with its diameter, or one of several alike that stand for all."""

    centre: Point  #: its centre [mm]
    diameter: float  #: its diameter [mm]
    text: str = ""  #: its diameter as it is read; empty where another hole says it
    label: Point = (0.0, 0.0)  #: where the text stands [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A reading of a tape along x, hooked at x = 0."""

    at: Point  #: place that is read [mm]
    place: float  #: y where the reading is written, upright [mm]
    text: str
    name: str = ""  #: what is there, beside the reading
    shown: float | None = (
        None  #: x of the writing where neighbours would meet; None for its own [mm]
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A filled face of a solid, drawn over those before it."""

    points: tuple[Point, ...]  #: its corners [mm] (n_points, 2)
    tone: Tone


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One line of text."""

    at: Point  #: its anchor, on its middle line [mm]
    text: str
    size: float = 1.0  #: height of the letters, over the drawing's own [-]
    anchor: Literal["start", "middle", "end"] = "start"  #: ``start``, ``middle`` or ``end``
    upright: bool = False  #: whether it reads upwards
    layer: Layer = "TEXT"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A dimension between two points, along x or along y."""

    start: Point  #: first point [mm]
    end: Point  #: second point [mm]
    place: float  #: y of a level dimension line, x of an upright one [mm]
    text: str  #: what stands on it
    below: str = ""  #: second line of text, or empty
    upright: bool = False  #: whether it measures along y


Shape = DrawnTube | Stroke | Ring | Bore | Reading | Face | Note | Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing."""

    name: str  #: short name, fit for a file
    title: str  #: what it shows
    description: str  #: one sentence with its numbers, for those who do not see it
    shapes: tuple[Shape, ...]  #: what is drawn, y upwards [mm]
    text_height: float  #: height of the letters [mm]
    thickening: float = 1.0  #: factor by which a picture draws tubes thicker [-]

    @property
    def extents(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top of everything a picture shows [mm]."""
        boxes = [_box(shape, self) for shape in self.shapes]
        return (
            min(box[0] for box in boxes),
            min(box[1] for box in boxes),
            max(box[2] for box in boxes),
            max(box[3] for box in boxes),
        )


#: least letters in a line of a heading, however narrow the drawing
_HEADING_LINE: Final = 30


def headed(drawing: Drawing, *, title: bool = False, stamps: Sequence[str] = ()) -> Drawing:
    """Write title and stamps above a drawing, as wide as the drawing is; empty ones leave it.

    Args:
        title: whether its title is written, for a file that stands alone
        stamps: what stands against building from it, each from a line of its own
    """
    left, _, right, top = drawing.extents
    across = text_width("n", size=1.2 * LETTER_OVER_CAPITAL * drawing.text_height)
    room = max(_HEADING_LINE, int((right - left) / across))
    lines = [
        line for text in (*stamps, drawing.title if title else "") for line in wrap(text, room)
    ]
    step = 2.0 * drawing.text_height
    notes = (
        Note(at=(left, top + step * (len(lines) - number)), text=line, size=1.2)
        for number, line in enumerate(lines)
    )
    return replace(drawing, shapes=(*drawing.shapes, *notes))


def scaled(drawing: Drawing, factor: float) -> Drawing:
    """Give a drawing in another unit of length.

    Args:
        factor: one millimetre in the new unit [new unit/mm]
    """

    def moved(point: Point) -> Point:
        return point[0] * factor, point[1] * factor

    def one(shape: Shape) -> Shape:
        match shape:
            case DrawnTube():
                return replace(shape, start=moved(shape.start), end=shape.end * factor,
                               diameter=shape.diameter * factor)  # fmt: skip
            case Stroke() | Face():
                return replace(shape, points=tuple(map(moved, shape.points)))
            case Ring():
                return replace(shape, centre=moved(shape.centre), diameter=shape.diameter * factor)
            case Bore():
                return replace(shape, centre=moved(shape.centre), label=moved(shape.label),
                               diameter=shape.diameter * factor)  # fmt: skip
            case Reading():
                shown = None if shape.shown is None else shape.shown * factor
                return replace(shape, at=moved(shape.at), place=shape.place * factor, shown=shown)
            case Note():
                return replace(shape, at=moved(shape.at))
            case Measure():
                return replace(shape, start=moved(shape.start), end=moved(shape.end),
                               place=shape.place * factor)  # fmt: skip

    return replace(drawing, shapes=tuple(map(one, drawing.shapes)),
                   text_height=drawing.text_height * factor)  # fmt: skip


def _box(shape: Shape, drawing: Drawing) -> tuple[float, float, float, float]:
    high = drawing.text_height
    if isinstance(shape, DrawnTube):
        half = 0.5 * shape.diameter * drawing.thickening
        ends = (shape.start[0], shape.end)
        return min(ends), shape.start[1] - half, max(ends), shape.start[1] + half
    if isinstance(shape, Ring):
        (x, y), half = shape.centre, 0.5 * shape.diameter
        return x - half, y - half, x + half, y + half
    if isinstance(shape, Bore):
        return _bore_box(shape, high)
    if isinstance(shape, Reading):
        return _reading_box(shape, high)
    if isinstance(shape, Note):
        return _note_box(shape, high)
    if isinstance(shape, Measure):
        xs, ys = (shape.start[0], shape.end[0]), (shape.start[1], shape.end[1])
        room = 1.4 * high
        if shape.upright:
            return (min(*xs, shape.place - room), min(ys), max(*xs, shape.place + room), max(ys))
        return min(xs), min(*ys, shape.place - room), max(xs), max(*ys, shape.place + room)
    return (
        min(x for x, _ in shape.points),
        min(y for _, y in shape.points),
        max(x for x, _ in shape.points),
        max(y for _, y in shape.points),
    )


def _bore_box(bore: Bore, high: float) -> tuple[float, float, float, float]:
    (x, y), half = bore.centre, 0.5 * bore.diameter
    if not bore.text:
        return x - half, y - half, x + half, y + half
    left, low, right, top = _note_box(Note(at=bore.label, text=bore.text), high)
    return min(x - half, left), min(y - half, low), max(x + half, right), max(y + half, top)


def reading_notes(reading: Reading, high: float) -> tuple[Note, ...]:
    """Writing of a reading: the figure, and beside it what is there; both away from the part.

    Args:
        high: height of the letters [unit of the drawing]
    """
    x = reading.at[0] if reading.shown is None else reading.shown
    below = reading.place < reading.at[1]
    y = reading.place + (-0.4 if below else 0.4) * high
    anchor: Literal["start", "end"] = "end" if below else "start"
    figure = Note(at=(x - (0.55 * high if reading.name else 0.0), y), text=reading.text,
                  anchor=anchor, upright=True, layer="DIMENSIONS")  # fmt: skip
    if not reading.name:
        return (figure,)
    beside = Note(at=(x + 0.75 * high, y), text=reading.name, size=0.85, anchor=anchor,
                  upright=True)  # fmt: skip
    return figure, beside


def _reading_box(reading: Reading, high: float) -> tuple[float, float, float, float]:
    (x, y) = reading.at
    boxes = [(x, min(y, reading.place), x, max(y, reading.place))]
    boxes += [_note_box(note, high) for note in reading_notes(reading, high)]
    left, low, right, top = zip(*boxes, strict=True)
    return min(left), min(low), max(right), max(top)


def _note_box(note: Note, high: float) -> tuple[float, float, float, float]:
    size = high * note.size * LETTER_OVER_CAPITAL
    long, half = text_width(note.text, size=size), 0.6 * size
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[note.anchor] * long
    x, y = note.at
    if note.upright:
        return x - half, y - before, x + half, y - before + long
    return x - before, y - half, x - before + long, y + half


#: font size over the height of a capital letter, as CAD programs count text heights [-]
LETTER_OVER_CAPITAL = 1.37
