"""Clamp plates at 1:1: holes of the U-bolts that hold two crossing tubes."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from boomwright.base import UnitSystem
from boomwright.charts.drawing import Drawing, Layer, Measure, Note, Ring, Shape, Stroke
from boomwright.parts import PLATE_PLAY, ClampPlate
from boomwright.report.wording import first_upper


def plate_drawing(plate: ClampPlate, *, system: UnitSystem) -> Drawing:
    """Draw a plate at true size, with a check length for the print.

    Returns:
        the drawing; printed without scaling it is a drilling template
    """
    size, unit = partial(_size, system=system), "mm" if system == "metric" else "in"

    def holes(tube: str, hole: float, at: tuple[float, float]) -> str:
        x, y = size(2.0 * at[0]), size(2.0 * at[1])
        return f"{first_upper(tube)}: four holes of {size(hole)} {unit}, {x} by {y} {unit} apart."

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
    shapes += _measures(plate, w, h, size)
    shapes += _check_length(-h - 24.0, system)
    return Drawing(
        name=plate.name.replace(" ", "-"),
        title=f"{first_upper(plate.name)}, {size(plate.width)} x {size(plate.height)} {unit}, 1:1",
        description=(
            f"Plate {size(plate.width)} by {size(plate.height)} {unit}, {size(plate.thickness)} "
            f"{unit} thick. {holes(plate.level_tube, hole_level, plate.level_holes)} "
            f"{holes(plate.upright_tube, hole_upright, plate.upright_holes)}"
        ),
        shapes=tuple(shapes),
        text_height=3.8,
    )


def _size(millimetres: float, *, system: UnitSystem) -> str:
    """Write a size as it is measured: millimetres, or inches with three decimals [mm or in]."""
    return f"{millimetres:g}" if system == "metric" else f"{millimetres / 25.4:.3f}"


def _box(w: float, h: float, layer: Layer) -> Stroke:
    corners = ((-w, -h), (w, -h), (w, h), (-w, h))
    return Stroke(layer=layer, points=corners, closed=True)


def _measures(plate: ClampPlate, w: float, h: float, size: Callable[[float], str]) -> list[Shape]:
    (ax, ay), (bx, by) = plate.level_holes, plate.upright_holes
    return [
        Measure(start=(-ax, ay), end=(ax, ay), place=h + 13.5, text=size(2 * ax)),
        Measure(start=(-bx, by), end=(bx, by), place=h + 6.0, text=size(2 * bx)),
        Measure(start=(-w, -h), end=(w, -h), place=-h - 10.0, text=size(plate.width)),
        Measure(start=(ax, -ay), end=(ax, ay), place=w - 9.0, text=size(2 * ay), upright=True),
        Measure(start=(-bx, -by), end=(-bx, by), place=-w + 9.0, text=size(2 * by),
                upright=True),
        Note(at=(-w + 13.0, 5.0), text=plate.level_tube, size=0.9),
        Note(at=(-w + 13.0, -5.0), text=f"Ø {size(plate.level_diameter)}", size=0.9),
        Note(at=(6.0, -h + 6.0), text=f"{plate.upright_tube} Ø {size(plate.upright_diameter)}",
             size=0.9, upright=True),
    ]  # fmt: skip


def _check_length(y: float, system: UnitSystem) -> list[Shape]:
    """Give a length to hold a ruler against."""
    long, step, words = (100.0, 10.0, "100 mm") if system == "metric" else (101.6, 12.7, "4 in")
    left = -50.0
    shapes: list[Shape] = [Stroke(layer="DIMENSIONS", points=((left, y), (left + long, y)))]
    for number in range(round(long / step) + 1):
        x, tall = left + number * step, 4.0 if number % 2 == 0 else 2.4
        shapes.append(Stroke(layer="DIMENSIONS", points=((x, y), (x, y + tall))))
    return [*shapes, Note(at=(left, y - 7.5), text=f"{words}: measure it", size=0.9)]
