"""A workshop drawing as data: shapes in millimetres at true scale, on named layers.

One description serves every output: the picture on page and paper (``drawing_svg``) and the
CAD file (the book's ``drawing_dxf``). Only a picture draws tubes thicker than they are, by the
factor the drawing states; a CAD file never does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from textwrap import wrap
from typing import Final, Literal

from boomwright.charts.labels import text_width

Layer = Literal["TUBES", "HIDDEN", "CENTRE", "HOLES", "OUTLINE", "DIMENSIONS", "TEXT"]
#: layers in the order they are drawn
LAYERS: tuple[Layer, ...] = (
    "CENTRE", "OUTLINE", "TUBES", "HIDDEN", "HOLES", "DIMENSIONS", "TEXT",
)  # fmt: skip
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


Shape = DrawnTube | Stroke | Ring | Note | Measure


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


#: most letters in a line of a stamp, so that a small drawing is not dwarfed by it
_STAMP_LINE: Final = 48


def stamped(drawing: Drawing, stamp: str) -> Drawing:
    """Write a stamp above a drawing; an empty one leaves it as it is."""
    if not stamp:
        return drawing
    left, _, _, top = drawing.extents
    step = 2.0 * drawing.text_height
    lines = wrap(stamp, _STAMP_LINE)
    notes = (
        Note(at=(left, top + step * (len(lines) - number)), text=line, size=1.2)
        for number, line in enumerate(lines)
    )
    return replace(drawing, shapes=(*drawing.shapes, *notes))


def _box(shape: Shape, drawing: Drawing) -> tuple[float, float, float, float]:
    high = drawing.text_height
    if isinstance(shape, DrawnTube):
        half = 0.5 * shape.diameter * drawing.thickening
        ends = (shape.start[0], shape.end)
        return min(ends), shape.start[1] - half, max(ends), shape.start[1] + half
    if isinstance(shape, Ring):
        (x, y), half = shape.centre, 0.5 * shape.diameter
        return x - half, y - half, x + half, y + half
    if isinstance(shape, Note):
        return _note_box(shape, high)
    if isinstance(shape, Measure):
        xs, ys = (shape.start[0], shape.end[0]), (shape.start[1], shape.end[1])
        room = 1.4 * high
        if shape.upright:
            return (
                min(*xs, shape.place - room), min(ys), max(*xs, shape.place + room), max(ys)
            )  # fmt: skip
        return min(xs), min(*ys, shape.place - room), max(xs), max(*ys, shape.place + room)
    return (
        min(x for x, _ in shape.points),
        min(y for _, y in shape.points),
        max(x for x, _ in shape.points),
        max(y for _, y in shape.points),
    )


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
