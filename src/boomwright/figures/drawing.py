"""A workshop drawing as data: shapes in millimetres at true scale, on named layers.

One description serves every output: the picture on page and paper (``drawing_svg``) and the
CAD file (the book's ``drawing_dxf``). Only a picture draws tubes thicker than they are, by the
factor the drawing states; a CAD file never does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from textwrap import wrap
from typing import Final, Literal

from boomwright.figures.labels import text_width

Layer = Literal["TUBES", "HIDDEN", "CENTRE", "HOLES", "OUTLINE", "DIMENSIONS", "TEXT"]
#: layers in the order they are drawn
LAYERS: tuple[Layer, ...] = (
    "CENTRE", "OUTLINE", "TUBES", "HIDDEN", "HOLES", "DIMENSIONS", "TEXT",
)  # fmt: skip
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnTube:
    """A level tube, seen from the side.

    Parameters
    ----------
    start
        its end nearer to the origin, on the axis [mm]
    end
        x of its other end [mm]
    diameter
        outer diameter [mm]
    hidden
        whether it lies inside another tube
    """

    start: Point
    end: float
    diameter: float
    hidden: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through points.

    Parameters
    ----------
    points
        corners [mm] (n_points, 2)
    closed
        whether it returns to its start
    """

    layer: Layer
    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle.

    Parameters
    ----------
    centre
        its centre [mm]
    diameter
        its diameter [mm]
    """

    layer: Layer
    centre: Point
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One line of text.

    Parameters
    ----------
    at
        its anchor, on its middle line [mm]
    size
        height of the letters, over the drawing's own [-]
    anchor
        ``start``, ``middle`` or ``end``
    upright
        whether it reads upwards
    """

    at: Point
    text: str
    size: float = 1.0
    anchor: Literal["start", "middle", "end"] = "start"
    upright: bool = False
    layer: Layer = "TEXT"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A dimension between two points, along x or along y.

    Parameters
    ----------
    start
        first point [mm]
    end
        second point [mm]
    place
        y of a level dimension line, x of an upright one [mm]
    text
        what stands on it
    below
        second line of text, or empty
    upright
        whether it measures along y
    """

    start: Point
    end: Point
    place: float
    text: str
    below: str = ""
    upright: bool = False


Shape = DrawnTube | Stroke | Ring | Note | Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing.

    Parameters
    ----------
    name
        short name, fit for a file
    title
        what it shows
    description
        one sentence with its numbers, for those who do not see it
    shapes
        what is drawn, y upwards [mm]
    text_height
        height of the letters [mm]
    thickening
        factor by which a picture draws tubes thicker [-]
    """

    name: str
    title: str
    description: str
    shapes: tuple[Shape, ...]
    text_height: float
    thickening: float = 1.0

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
