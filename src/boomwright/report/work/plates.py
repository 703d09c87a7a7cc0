"""The clamp plates of a beam: which there are, their sheet and their drilling patterns."""

from __future__ import annotations

from boomwright.base import UnitSystem, inches_sixteenths
from boomwright.base.quantity import Quantity, write
from boomwright.charts.blocks import Block, Grid, Heading, NewPage, SheetPicture, Steps, Words
from boomwright.charts.drawing_svg import TRUE_SIZE_EDGE, drawing_svg
from boomwright.charts.palette import Palette
from boomwright.parts import Beam, ClampPlate, clamp_plate
from boomwright.plan import Plan
from boomwright.report.build.shop_plates import plate_drawing
from boomwright.report.wording import first_upper

#: width of a drawing on a sheet that is not printed at its true size [user units]
DRAWING_WIDTH = 600.0
#: a plate wider than this does not fit between the margins of either paper [mm]
_WIDEST_PRINT = 170.0


def beam_plates(plan: Plan, beam: Beam, *, system: UnitSystem) -> tuple[ClampPlate, ...]:
    """Work out the clamp plates of a beam.

    Returns:
        plate at the mast, then one a tube size of the elements; none without boom
    """
    tube = plan.boom_of(beam.name)
    if tube is None:
        return ()
    plates = []
    mast = None if plan.support is None else plan.support.mast
    if mast is not None:
        plates.append(
            clamp_plate(
                name="mast plate", level="boom", level_diameter=tube.diameter,
                upright="mast", upright_diameter=mast.diameter,
            )
        )  # fmt: skip
    sizes = sorted({element.half[0].diameter for element in beam.elements}, reverse=True)
    for size in sizes:
        which = "" if len(sizes) == 1 else " " + write(Quantity(size, "diameter"), system=system)
        plates.append(
            clamp_plate(
                name=f"element plate{which}", level="element", level_diameter=size,
                upright="boom", upright_diameter=tube.diameter,
            )
        )  # fmt: skip
    return tuple(plates)


def plate_sheets(
    plates: tuple[ClampPlate, ...], *, palette: Palette, system: UnitSystem
) -> tuple[Block, ...]:
    """Write the sheet of all plates and one drilling pattern for each.

    Args:
        system: unit system of the sizes

    Returns:
        the sheets; none without plates
    """
    blocks = _plate_words(plates, system)
    for plate in plates:
        blocks += _plate_blocks(plate, palette, system)
    return tuple(blocks)


def _sizes(*millimetres: float, system: UnitSystem) -> str:
    if system == "metric":
        return " x ".join(f"{each:g}" for each in millimetres) + " mm"
    inches = (inches_sixteenths(each / 1000.0).removesuffix(" in") for each in millimetres)
    return " x ".join(inches) + " in"


def _bolts(thread: float, diameter: float, system: UnitSystem) -> str:
    tube = f"{diameter:g} mm" if system == "metric" else f"{diameter / 25.4:.3f} in"
    return f"two M{thread:g} for {tube}"


def _plate_words(plates: tuple[ClampPlate, ...], system: UnitSystem) -> list[Block]:
    if not plates:
        return []
    rows = [
        (
            plate.name,
            _sizes(plate.width, plate.height, plate.thickness, system=system),
            _bolts(plate.level_bolt, plate.level_diameter, system),
            _bolts(plate.upright_bolt, plate.upright_diameter, system),
        )
        for plate in plates
    ]
    return [
        Heading(text="Clamp plates"),
        Words(
            text="Patterns by common practice for round tube: measure your own U-bolts first. What "
            "a plate and its U-bolts carry is for the clamp's maker or an engineer. For an element "
            "that is cut, its insulated mount sits on the same plate.",
        ),
        Grid(
            columns=("Plate", "Size", "U-bolts, level tube", "U-bolts, upright tube"),
            rows=tuple(rows),
            align="llll",
            shares=(1.7, 2.4, 2.0, 2.0),
            note="Aluminium 6061-T6 or hot-dip galvanized steel; every U-bolt with its cradle. One "
            "element plate for each element.",
            large=True,
        ),
        Steps(
            title="Each plate",
            items=(
                "Measure the check line of its page, glue the pattern on, centre punch every hole.",
                f"Drill {'3 mm' if system == 'metric' else '1/8 in'}, then full size; deburr; "
                "round the corners.",
                "Try the U-bolts on the real tubes before painting or galvanizing.",
            ),
        ),
    ]


def _plate_blocks(plate: ClampPlate, palette: Palette, system: UnitSystem) -> list[Block]:
    drawing = plate_drawing(plate, system=system)
    left, _, right, _ = drawing.extents
    wide = right - left + 2.0 * TRUE_SIZE_EDGE
    fits = wide <= _WIDEST_PRINT
    return [
        NewPage(),
        Heading(text=f"{first_upper(plate.name)}: drilling pattern"),
        Words(
            text="Printed at 1:1. Hold a ruler to the check line before using it."
            if fits
            else "The plate is too large for this page and is drawn smaller: use its figures.",
        ),
        SheetPicture(
            name=drawing.name,
            svg=drawing_svg(drawing, palette=palette, width=None if fits else DRAWING_WIDTH),
            caption=f"{drawing.description} Seen from the side of the nuts.",
            units=wide if fits else DRAWING_WIDTH,
            true_size=fits,
        ),
    ]
