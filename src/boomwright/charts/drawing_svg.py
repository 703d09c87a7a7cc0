"""A workshop drawing as a picture."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from boomwright.charts.canvas import (
    arrow_head,
    document,
    group,
    line,
    number,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.drawing import (
    LAYERS,
    LETTER_OVER_CAPITAL,
    Bore,
    Drawing,
    DrawnTube,
    Face,
    Layer,
    Measure,
    Note,
    Reading,
    Ring,
    Shape,
    Stroke,
    reading_notes,
)
from boomwright.charts.labels import text_width
from boomwright.charts.palette import LIGHT, Palette

_HEAD, _EDGE = 30.0, 10.0
#: edge around a drawing printed at 1:1 [mm]
TRUE_SIZE_EDGE = 3.0


class _Sheet:
    """Places of one drawing on the paper."""

    def __init__(
        self,
        drawing: Drawing,
        *,
        scale: float,
        palette: Palette,
        head: float,
        edge: float,
        true_size: bool,
    ) -> None:
        left, _, _, top = drawing.extents
        self.scale, self.palette, self.drawing = scale, palette, drawing
        self._left, self._top, self._head = left, top, head
        self._edge = edge
        # A unit printed at 1:1 is a millimetre: lines are drawn as fine as on any drawing, and
        # thicker where a long part is looked at from further away.
        self._pen = max(0.3, 0.06 * drawing.text_height) if true_size else 1.0

    def x(self, value: float) -> float:
        return self._edge + (value - self._left) * self.scale

    def y(self, value: float) -> float:
        return self._head + (self._top - value) * self.scale

    @property
    def letters(self) -> float:
        return self.drawing.text_height * LETTER_OVER_CAPITAL * self.scale

    def _dash(self, layer: Layer) -> str | None:
        lengths = {"CENTRE": (9.0, 2.5, 2.0, 2.5), "HIDDEN": (3.0, 2.0)}.get(layer)
        if lengths is None:
            return None
        return " ".join(number(each * self._pen**0.6) for each in lengths)

    def shape(self, shape: Shape) -> str:
        if isinstance(shape, DrawnTube):
            return self._tube(shape)
        if isinstance(shape, Stroke):
            return self._stroke(shape)
        if isinstance(shape, Ring):
            return self._ring(shape)
        if isinstance(shape, Bore):
            return self._bore(shape)
        if isinstance(shape, Reading):
            return self._reading(shape)
        if isinstance(shape, Face):
            return self._face(shape)
        if isinstance(shape, Note):
            return self._note(shape)
        return self._measure(shape)

    def _bore(self, bore: Bore) -> str:
        ring = Ring(layer="HOLES", centre=bore.centre, diameter=bore.diameter)
        if not bore.text:
            return self._ring(ring)
        note = Note(at=bore.label, text=bore.text, layer="DIMENSIONS")
        x, y = (self.x(bore.centre[0]), self.y(bore.centre[1]))
        to = (self.x(bore.label[0]) - 0.3 * self.letters, self.y(bore.label[1]))
        long = math.hypot(to[0] - x, to[1] - y) or 1.0
        out = 0.5 * bore.diameter * self.scale / long
        edge = (x + out * (to[0] - x), y + out * (to[1] - y))
        thin = pen(self.palette.quiet, 0.7 * self._pen)
        return self._ring(ring) + line(*edge, *to, **thin) + self._note(note)

    def _reading(self, reading: Reading) -> str:
        x = reading.at[0] if reading.shown is None else reading.shown
        turn = reading.place + 0.35 * (reading.at[1] - reading.place)
        points = (reading.at, (reading.at[0], turn), (x, reading.place))
        made = self._stroke(Stroke(layer="DIMENSIONS", points=points))
        notes = reading_notes(reading, self.drawing.text_height)
        return made + "".join(self._note(note) for note in notes)

    def _face(self, face: Face) -> str:
        colour, opacity = {
            "metal": (self.palette.metal, 1.0),
            "bolt": (self.palette.grid, 1.0),
            "insulator": (self.palette.series[2], 0.45),
            "hot": (self.palette.accent, 0.55),
            "shield": (self.palette.series[0], 0.5),
        }[face.tone]
        shape = path_data([self.x(x) for x, _ in face.points], [self.y(y) for _, y in face.points],
                          closed=True)  # fmt: skip
        # What lies behind does not show through.
        behind = "" if opacity == 1.0 else tag("path", d=shape, fill=self.palette.paper)
        return behind + tag(
            "path", d=shape, fill=colour, fill_opacity=number(opacity),
            **pen(self.palette.ink, 0.7 * self._pen), stroke_linejoin="round",
        )  # fmt: skip

    def _tube(self, tube: DrawnTube) -> str:
        high = tube.diameter * self.drawing.thickening * self.scale
        low, far = sorted((self.x(tube.start[0]), self.x(tube.end)))
        return tag(
            "rect",
            x=low,
            y=self.y(tube.start[1]) - 0.5 * high,
            width=far - low,
            height=high,
            fill="none" if tube.hidden else self.palette.metal,
            **pen(self.palette.ink, 0.8 * self._pen, self._dash("HIDDEN") if tube.hidden else ""),
        )

    def _stroke(self, stroke: Stroke) -> str:
        centre = stroke.layer == "CENTRE"
        return tag(
            "path",
            d=path_data(
                [self.x(x) for x, _ in stroke.points],
                [self.y(y) for _, y in stroke.points],
                closed=stroke.closed,
            ),
            fill="none",
            **pen(
                self.palette.quiet if centre else self.palette.ink,
                (0.7 if stroke.layer in {"CENTRE", "DIMENSIONS"} else 1.1) * self._pen,
                self._dash(stroke.layer),
            ),
        )

    def _ring(self, ring: Ring) -> str:
        x, y = self.x(ring.centre[0]), self.y(ring.centre[1])
        return tag(
            "circle", cx=x, cy=y, r=0.5 * ring.diameter * self.scale, fill="none",
            **pen(self.palette.ink, 1.0 * self._pen, self._dash(ring.layer)),
        )  # fmt: skip

    def _note(self, note: Note) -> str:
        return self._halo(
            self.x(note.at[0]), self.y(note.at[1]), note.text, self.letters * note.size,
            upright=note.upright, anchor=note.anchor,
        )  # fmt: skip

    def _measure(self, measure: Measure) -> str:
        ink, thin = (self.palette.ink, pen(self.palette.quiet, 0.6 * self._pen))
        size = self.letters
        (ax, ay), (bx, by) = measure.start, measure.end
        if measure.upright:
            place, low, high = self.x(measure.place), self.y(ay), self.y(by)
            made = [line(self.x(ax), low, place, low, **thin)]
            made += [line(self.x(bx), high, place, high, **thin)]
            made += [line(place, low, place, high, **pen(ink, 0.7 * self._pen))]
            made += self._ends((place, low), (place, high))
            made.append(self._halo(place, 0.5 * (low + high), measure.text, size, upright=True))
            return "".join(made)
        place, low, high = self.y(measure.place), self.x(ax), self.x(bx)
        made = [line(low, self.y(ay), low, place, **thin)]
        made += [line(high, self.y(by), high, place, **thin)]
        made += [line(low, place, high, place, **pen(ink, 0.7 * self._pen))]
        made += self._ends((low, place), (high, place))
        middle = 0.5 * (low + high)
        made.append(self._halo(middle, place - 0.72 * size, measure.text, size, upright=False))
        if measure.below:
            made.append(
                self._halo(middle, place + 0.78 * size, measure.below, 0.86 * size, upright=False)
            )
        return "".join(made)

    def _ends(self, start: tuple[float, float], end: tuple[float, float]) -> list[str]:
        # The page's y runs downwards, an arrow head's angle counts upwards.
        outwards = math.atan2(end[1] - start[1], start[0] - end[0])
        return [
            arrow_head(*start, angle=outwards, fill=self.palette.ink, size=6.0 * self._pen**0.6),
            arrow_head(
                *end, angle=outwards + math.pi, fill=self.palette.ink, size=6.0 * self._pen**0.6
            ),
        ]

    def _halo(
        self, x: float, y: float, content: str, size: float, *, upright: bool,
        anchor: Literal["start", "middle", "end"] = "middle",
    ) -> str:  # fmt: skip
        """Text that no line strikes through, its own ground behind it."""
        long, high = text_width(content, size=size), 1.15 * size
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * long + 0.15 * size
        wide = long + 0.3 * size
        box = (x - 0.5 * high, y + before - wide, high, wide) if upright else (
            x - before, y - 0.5 * high, wide, high)  # fmt: skip
        back = tag(
            "rect", x=box[0], y=box[1], width=box[2], height=box[3],
            fill=self.palette.paper, fill_opacity="0.92",
        )  # fmt: skip
        return back + text(
            x, y, content, fill=self.palette.ink, size=size, anchor=anchor, upright=upright
        )


def _layer_of(shape: Shape) -> Layer:
    if isinstance(shape, DrawnTube):
        return "HIDDEN" if shape.hidden else "TUBES"
    if isinstance(shape, Measure | Reading):
        return "DIMENSIONS"
    if isinstance(shape, Face):
        return "SOLIDS"
    return "HOLES" if isinstance(shape, Bore) else shape.layer


def drawing_svg(
    drawing: Drawing, *, palette: Palette = LIGHT, width: float | None = 600.0, titled: bool = True
) -> str:
    """Draw a workshop drawing.

    Args:
        titled: whether its title stands above it; without where a heading says so already
        width: width of the picture; None draws one unit a millimetre, without a title, and says
            so in its size, so that it prints at 1:1 wherever it is opened [user units]

    Returns:
        SVG text; ``data-scale`` of the root is user units per millimetre
    """
    drawing = replace(drawing, thickening=1.0) if width is None else drawing
    left, bottom, right, top = drawing.extents
    edge = TRUE_SIZE_EDGE if width is None else _EDGE
    scale = 1.0 if width is None else (width - 2.0 * edge) / (right - left)
    bare = width is None or not titled
    head = edge if bare else _HEAD
    wide = right - left + 2.0 * edge if width is None else width
    sheet = _Sheet(
        drawing, scale=scale, palette=palette, head=head, edge=edge, true_size=width is None
    )
    body = [
        group(
            [sheet.shape(shape) for shape in drawing.shapes if _layer_of(shape) == layer],
            data_layer=layer.lower(),
        )
        for layer in LAYERS
    ]
    return document(
        kind=f"drawing-{drawing.name}",
        title="" if bare else drawing.title,
        description=drawing.description,
        width=wide,
        height=head + (top - bottom) * scale + edge,
        palette=palette,
        body=body,
        unit="mm" if width is None else "",
        data={"scale": number(scale, decimals=6), "thickening": number(drawing.thickening)},
    )
