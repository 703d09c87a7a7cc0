"""Clamp plates at 1:1: holes of the U-bolts that hold two crossing tubes."""

from __future__ import annotations

from boomwright.charts.drawing import Drawing, Layer, Measure, Note, Ring, Shape, Stroke
from boomwright.parts import PLATE_PLAY, ClampPlate
from boomwright.report.wording import first_upper


def plate_drawing(plate: ClampPlate) -> Drawing:
    """Draw a plate at true size, with check lengths for the print.

    Returns:
        the drawing; printed without scaling it is a drilling template
    """
    w, h = 0.5 * plate.width, 0.5 * plate.height
    hole_level = plate.level_bolt + 1000.0 * PLATE_PLAY
    hole_upright = plate.upright_bolt + 1000.0 * PLATE_PLAY
    shapes: list[Shape] = [
        _box(w, h, "OUTLINE"),
        _box(w + 6.0, 0.5 * plate.level_diameter, "HIDDEN"),
        _box(0.5 * plate.upright_diameter, h + 6.0, "HIDDEN"),
        Stroke(layer="CENTRE", points=((-w - 8.0, 0.0), (w + 8.0, 0.0))),
        Stroke(layer="CENTRE", points=((0.0, -h - 8.0), (0.0, h + 8.0))),
    ]
    for (dx, dy), hole in (
        (plate.level_holes, hole_level),
        (plate.upright_holes, hole_upright),
    ):
        for sx in (-1.0, 1.0):
            for sy in (-1.0, 1.0):
                x, y = sx * dx, sy * dy
                shapes.append(Ring(layer="HOLES", centre=(x, y), diameter=hole))
                shapes.append(Stroke(layer="CENTRE", points=((x - 7.0, y), (x + 7.0, y))))
                shapes.append(Stroke(layer="CENTRE", points=((x, y - 7.0), (x, y + 7.0))))
    shapes += _measures(plate, w, h)
    shapes += _check_lengths(-h - 24.0)
    return Drawing(
        name=plate.name.replace(" ", "-"),
        title=f"{first_upper(plate.name)}, {plate.width:g} x {plate.height:g} mm, 1:1",
        description=(
            f"Plate {plate.width:g} by {plate.height:g} mm, {plate.thickness:g} mm thick. "
            f"{first_upper(plate.level_tube)}: four holes of {hole_level:g} mm, "
            f"{2 * plate.level_holes[0]:g} by {2 * plate.level_holes[1]:g} mm apart. "
            f"{first_upper(plate.upright_tube)}: four holes of {hole_upright:g} mm, "
            f"{2 * plate.upright_holes[0]:g} by {2 * plate.upright_holes[1]:g} mm apart."
        ),
        shapes=tuple(shapes),
        text_height=3.8,
    )


def _box(w: float, h: float, layer: Layer) -> Stroke:
    corners = ((-w, -h), (w, -h), (w, h), (-w, h))
    return Stroke(layer=layer, points=corners, closed=True)


def _measures(plate: ClampPlate, w: float, h: float) -> list[Shape]:
    (ax, ay), (bx, by) = plate.level_holes, plate.upright_holes
    return [
        Measure(start=(-ax, ay), end=(ax, ay), place=h + 13.5, text=f"{2 * ax:g}"),
        Measure(start=(-bx, by), end=(bx, by), place=h + 6.0, text=f"{2 * bx:g}"),
        Measure(start=(-w, -h), end=(w, -h), place=-h - 10.0, text=f"{plate.width:g}"),
        Measure(start=(ax, -ay), end=(ax, ay), place=w - 9.0, text=f"{2 * ay:g}", upright=True),
        Measure(start=(-bx, -by), end=(-bx, by), place=-w + 9.0, text=f"{2 * by:g}",
                upright=True),
        Note(at=(-w + 13.0, 5.0), text=plate.level_tube, size=0.9),
        Note(at=(-w + 13.0, -5.0), text=f"Ø {plate.level_diameter:g}", size=0.9),
        Note(at=(6.0, -h + 6.0), text=f"{plate.upright_tube} Ø {plate.upright_diameter:g}",
             size=0.9, upright=True),
    ]  # fmt: skip


def _check_lengths(y: float) -> list[Shape]:
    """Give a metric and an inch length to hold a ruler against."""
    shapes: list[Shape] = []
    for length, step, words, way in (
        (100.0, 10.0, "100 mm and 4 in: measure them", 1.0),
        (101.6, 12.7, "", -1.0),
    ):
        left = -50.0
        shapes.append(Stroke(layer="DIMENSIONS", points=((left, y), (left + length, y))))
        for number in range(round(length / step) + 1):
            x = left + number * step
            tall = way * (4.0 if number % 2 == 0 else 2.4)
            shapes.append(Stroke(layer="DIMENSIONS", points=((x, y), (x, y + tall))))
        if words:
            shapes.append(Note(at=(left, y - 7.5), text=words, size=0.9))
    return shapes
