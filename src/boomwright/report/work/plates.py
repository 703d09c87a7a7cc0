"""The clamp plates of a beam: which there are, their sheet and their drilling patterns."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.charts.blocks import Block, Grid, Heading, NewPage, SheetPicture, Steps, Words
from boomwright.charts.drawing import Drawing
from boomwright.charts.drawing_svg import TRUE_SIZE_EDGE, drawing_svg
from boomwright.report.build.shop_plates import (
    MadePlate,
    plate_drawing,
    plate_holes_text,
    plate_size,
)
from boomwright.report.model import Canvas
from boomwright.report.wording import first_upper

#: width of a drawing on a sheet that is not printed at its true size [user units]
DRAWING_WIDTH = 540.0
#: a plate wider than this does not fit on either paper: its figures may stand in the margins [mm]
_WIDEST_PRINT = 198.0


def plate_lists(
    beams: Sequence[tuple[tuple[MadePlate, ...], str]], *, system: UnitSystem
) -> tuple[Block, ...]:
    """List all plates and straps with every hole, and how they are made; nothing without plates.

    Args:
        beams: plates of each beam, and what their caption adds where there are several
    """
    grids = [
        _plate_grid(plates, caption=f"Plates{of_beam}" if of_beam else "", system=system)
        for plates, of_beam in beams
        if plates
    ]
    if not grids:
        return ()
    drill = "3 mm" if system == "metric" else "1/8 in"
    return (
        Heading(text="Plates and straps"),
        Words(
            text="The bill prices plates and straps ready, with their clamps; whoever makes one "
            "buys its sheet and the clamps instead. Sizes that the plan does not give are common "
            "practice for round tube: measure your own U-bolts first. What a plate and its U-bolts "
            "carry is for the clamp's maker or an engineer. Holes are placed from the middle."
        ),
        *grids,
        Steps(
            title="Each plate",
            items=(
                "Measure the check line of its page, glue the pattern on, centre punch every hole. "
                "A page without a check line is drawn smaller: mark the plate by its figures.",
                f"Drill {drill}, then full size, square through the plate; deburr; round the "
                "corners.",
                "Try the U-bolts on the real tubes before painting or galvanizing.",
            ),
        ),
    )


def _plate_grid(plates: tuple[MadePlate, ...], *, caption: str, system: UnitSystem) -> Grid:
    rows = tuple(
        (
            ", ".join(plate.marks),
            first_upper(plate.name),
            f"{plate_size(plate, system=system)}, {plate.material}",
            first_upper(plate_holes_text(plate, system=system)),
        )
        for plate in plates
    )
    return Grid(
        columns=("Marks", "Plate", "Size", "Holes"),
        rows=rows,
        align="llll",
        shares=(1.3, 1.6, 2.6, 4.4),
        caption=caption,
    )


def sheet_picture(drawing: Drawing, canvas: Canvas, *, caption: str) -> SheetPicture:
    """Set a drawing on a sheet, across its width."""
    svg = drawing_svg(drawing, palette=canvas.palette, width=DRAWING_WIDTH, titled=False)
    return SheetPicture(name=drawing.name, svg=svg, caption=caption, units=DRAWING_WIDTH)


def plate_patterns(
    plates: tuple[MadePlate, ...], canvas: Canvas, *, of_beam: str = ""
) -> tuple[Block, ...]:
    """Draw a drilling pattern for each clamp plate, a page each.

    Args:
        of_beam: what the headings add where there are several beams
    """
    return tuple(
        block for plate in plates if plate.tubes for block in _pattern(plate, canvas, of_beam)
    )


def _pattern(plate: MadePlate, canvas: Canvas, of_beam: str) -> list[Block]:
    drawing = plate_drawing(plate, system=canvas.system)
    left, _, right, _ = drawing.extents
    wide = right - left + 2.0 * TRUE_SIZE_EDGE
    fits = wide <= _WIDEST_PRINT
    if not fits:
        drawing = plate_drawing(plate, system=canvas.system, true_size=False)
    return [
        NewPage(),
        Heading(
            text=f"{first_upper(plate.name)}{of_beam}, {', '.join(plate.marks)}: drilling pattern"
        ),
        Words(
            text="Printed at 1:1. Hold a ruler to the check line before using it."
            if fits
            else "Not at 1:1: the plate is too large for the page. Mark it by the figures; never "
            "glue this page on."
        ),
        SheetPicture(
            name=drawing.name,
            svg=drawing_svg(drawing, palette=canvas.palette, width=None if fits else DRAWING_WIDTH),
            caption=f"{drawing.description} Alike from both sides.",
            units=wide if fits else DRAWING_WIDTH,
            true_size=fits,
        ),
    ]
