"""Plates and straps at 1:1, read off the parts: outline, every hole, and the tubes they hold."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from boomwright.base import METRES_PER_INCH, UnitSystem
from boomwright.base.records import dataclass
from boomwright.charts.drawing import (
    LETTER_OVER_CAPITAL,
    Bore,
    Drawing,
    Layer,
    Measure,
    Note,
    Shape,
    Stroke,
)
from boomwright.charts.labels import text_width
from boomwright.parts import Block, Hole, Part
from boomwright.report.build.shop_drawings import drill_size
from boomwright.report.wording import first_upper

#: roles of the plates that a builder makes, and along which of their own axes (x along the boom,
#: y along the element, z up) width, height and thickness of the drawing lie
_AXES: Final = {"element plate": (1, 0, 2), "mast plate": (0, 2, 1)}


@dataclass(frozen=True, slots=True, kw_only=True)
class MadePlate:
    """A plate or strap that the builder makes, with all that are alike."""

    name: str  #: what it is, e.g. ``element plate``
    marks: tuple[str, ...]  #: marks of all that are alike (n_plates,)
    width: float  #: along the tube that lies level on the drawing [m]
    height: float  #: across that [m]
    thickness: float  #: [m]
    material: str
    holes: tuple[Hole, ...]
    #: level tube and upright tube with their diameters; empty for a strap [m]
    tubes: tuple[tuple[str, float], ...]
    assumed: bool  #: whether its size is ours, from the trade

    @property
    def file_name(self) -> str:
        """Name of its drawing, fit for a file."""
        return f"{self.name.replace(' ', '-')}-{self.marks[0]}"


def made_plates(parts: Sequence[Part], *, mast: float | None) -> tuple[MadePlate, ...]:
    """Read the plates and straps of a beam off its parts, those that are alike once.

    Args:
        mast: diameter of what the boom is clamped to; None while it is not known [m]
    """
    boom = next((part.cut.kind.diameter for part in parts if part.role == "boom" and part.cut), 0.0)
    found: dict[MadePlate, list[str]] = {}
    for part in parts:
        blocks = [solid for solid in part.solids if isinstance(solid, Block)]
        if part.form != "plate" or len(blocks) != 1:
            continue
        tubes: tuple[tuple[str, float], ...] = ()
        if part.role == "element plate":
            group = part.group.replace("mount", "element")
            first = next(p.cut.kind.diameter for p in parts
                         if p.group == group and p.role == "element tube" and p.cut)  # fmt: skip
            tubes = (("element", first), ("boom", boom))
        elif part.role == "mast plate":
            tubes = (("boom", boom), ("mast", mast or 0.0))
        size = blocks[0].size
        axes = _AXES.get(part.role, (1, 0, 2) if size[1] > size[0] else (0, 1, 2))
        width, height, thick = (round(size[axis], 9) for axis in axes)
        plate = MadePlate(name=part.role if tubes else part.name, marks=(), width=width,
                          height=height, thickness=thick, material=part.material, holes=part.holes,
                          tubes=tubes, assumed=part.known == "assumed")  # fmt: skip
        found.setdefault(plate, []).append(part.mark)
    return tuple(
        MadePlate(name=each.name, marks=tuple(marks), width=each.width, height=each.height,
                  thickness=each.thickness, material=each.material, holes=each.holes,
                  tubes=each.tubes, assumed=each.assumed)
        for each, marks in found.items()
    )  # fmt: skip


def plate_length(length: float, *, system: UnitSystem) -> str:
    """Write a length on a plate, as a caliper reads it, without its unit.

    Returns:
        to half a millimetre, or to a hundredth of an inch [mm or in]
    """
    if system == "us":
        return f"{length / METRES_PER_INCH:.2f}"
    return f"{round(2e3 * length) / 2.0:g}"


def plate_size(plate: MadePlate, *, system: UnitSystem) -> str:
    """Write width, height and thickness of a plate with their unit."""
    sizes = (plate.width, plate.height, plate.thickness)
    unit = "mm" if system == "metric" else "in"
    return " x ".join(plate_length(each, system=system) for each in sizes) + f" {unit}"


def plate_holes_text(plate: MadePlate, *, system: UnitSystem) -> str:
    """Say every hole of a plate, from its middle."""
    unit = "mm" if system == "metric" else "in"
    told = []
    for hole in plate.holes:
        size = f"{hole.count} holes of {drill_size(hole.diameter, system=system)} {unit}"
        wide = plate_length(hole.at[-1] - hole.at[0], system=system)
        high = plate_length(2.0 * hole.across, system=system)
        apart = f"{wide} by {high} {unit}" if hole.across else f"{wide} {unit}"
        told.append(f"{size}, {apart} apart, for {hole.purpose}")
    return "; ".join(told) if told else "no holes"


def plate_drawing(
    plate: MadePlate, *, system: UnitSystem = "metric", true_size: bool = True
) -> Drawing:
    """Draw a plate.

    Args:
        true_size: whether it is printed so, with a length to hold a ruler against

    Returns:
        the drawing; printed without scaling it is a drilling template
    """
    w, h = 500.0 * plate.width, 500.0 * plate.height
    unit = "mm" if system == "metric" else "in"
    shapes: list[Shape] = [_box(w, h, "OUTLINE")]
    for (_, diameter), upright in zip(plate.tubes, (False, True), strict=False):
        if diameter > 0.0:
            half = 500.0 * diameter
            shapes.append(_box(half, h + 4.0, "HIDDEN") if upright else _box(w + 4.0, half,
                                                                             "HIDDEN"))  # fmt: skip
    shapes += [
        Stroke(layer="CENTRE", points=((-w - 5.0, 0.0), (w + 5.0, 0.0))),
        Stroke(layer="CENTRE", points=((0.0, -h - 8.0), (0.0, h + 8.0))),
    ]
    high = 3.8 if plate.tubes else 2.6
    # The holes nearest to the middle are told to the left, all others to the right, each from the
    # hole on that side: so no leader crosses another, a hole or a word.
    for number, hole in enumerate(sorted(plate.holes, key=lambda each: each.at[-1])):
        size = f"{hole.count} x {drill_size(hole.diameter, system=system)} {unit}"
        wide = text_width(size, size=high * LETTER_OVER_CAPITAL)
        label = (min(1e3 * hole.at[-1] - 8.0, w - wide) if number else 1.0 - w, -h - 11.0)
        shapes += _bores(hole, size, label=label)
    shapes += _measures(plate, w, h, system)
    if plate.tubes and true_size:
        shapes += _check_length(-h - 24.0, system)
    size = plate_size(plate, system=system)
    return Drawing(
        name=plate.file_name,
        title=f"{first_upper(plate.name)} {', '.join(plate.marks)}: {size}, {plate.material}"
        + (", 1:1" if true_size else ""),
        description=f"{first_upper(plate.name)}, {size}, lengths in {unit}. "
        f"{first_upper(plate_holes_text(plate, system=system))}.",
        shapes=tuple(shapes),
        text_height=high,
    )


def _box(w: float, h: float, layer: Layer) -> Stroke:
    corners = ((-w, -h), (w, -h), (w, h), (-w, h))
    return Stroke(layer=layer, points=corners, closed=True)


def _bores(hole: Hole, size: str, *, label: tuple[float, float]) -> list[Shape]:
    """Holes of one kind, the diameter written below the plate, at the lowest on that side."""
    shapes: list[Shape] = []
    for at in hole.at if label[0] < 1e3 * hole.at[0] else reversed(hole.at):
        for side in (-1.0, 1.0) if hole.across else (1.0,):
            x, y = 1e3 * at, side * 1e3 * hole.across
            shapes += [
                Bore(centre=(x, y), diameter=1e3 * hole.diameter, text="" if shapes else size,
                     label=label),
                Stroke(layer="CENTRE", points=((x - 7.0, y), (x + 7.0, y))),
                Stroke(layer="CENTRE", points=((x, y - 7.0), (x, y + 7.0))),
            ]  # fmt: skip
    return shapes


def _measures(plate: MadePlate, w: float, h: float, system: UnitSystem) -> list[Shape]:
    def level(half: float, y: float, place: float) -> Measure:
        text = plate_length(2e-3 * half, system=system)
        return Measure(start=(-half, y), end=(half, y), place=place, text=text)

    def upright(x: float, half: float, place: float) -> Measure:
        text = plate_length(2e-3 * half, system=system)
        return Measure(start=(x, -half), end=(x, half), place=place, text=text, upright=True)

    shapes: list[Shape] = [upright(-w, h, -w - 8.0)]
    place = h + 7.0 if plate.tubes else h + 5.0
    for number, hole in enumerate(plate.holes):
        x, y = 1e3 * hole.at[-1], 1e3 * hole.across
        shapes.append(level(x, y, place))
        place += 8.0
        if y:
            # Inside the plate, so that it fits the paper; one to the right, one to the left.
            shapes.append(upright(-x, y, -w + 9.0) if number else upright(x, y, w - 9.0))
    shapes.append(level(w, h, place))
    unit = "mm" if system == "metric" else "in"
    for (name, diameter), turned in zip(plate.tubes, (False, True), strict=False):
        if diameter > 0.0:
            size = f"{1e3 * diameter:g}" if system == "metric" else (
                f"{diameter / METRES_PER_INCH:.3f}")  # fmt: skip
            words = f"{name} Ø {size} {unit}"
            at = (5.0, -h + 4.0) if turned else (-w + 13.0, 5.0)
            shapes.append(Note(at=at, text=words, size=0.9, upright=turned))
    return shapes


def _check_length(y: float, system: UnitSystem) -> list[Shape]:
    """Give a length to hold a ruler against."""
    long, step, words = (100.0, 10.0, "100 mm") if system == "metric" else (101.6, 12.7, "4 in")
    left = -50.0
    shapes: list[Shape] = [Stroke(layer="DIMENSIONS", points=((left, y), (left + long, y)))]
    for number in range(round(long / step) + 1):
        x, tall = left + number * step, 4.0 if number % 2 == 0 else 2.4
        shapes.append(Stroke(layer="DIMENSIONS", points=((x, y), (x, y + tall))))
    return [*shapes, Note(at=(left, y - 7.5), text=f"{words}: measure it", size=0.9)]
