"""The cut list as comma-separated values, one row per tube {rfc-4180}."""

from __future__ import annotations

import csv
import io

from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.parts import Beam
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, ElementCut, SectionCut, cut_list

_LENGTHS = (
    "position_in_plan",
    "from_rear_element",
    "half_length",
    "full_length",
    "exposed_length",
    "reaches_from_boom",
)
_SIZES = ("diameter", "wall")


def _header() -> list[str]:
    names = ["element_number", "element", "role", "section_number"]
    for length in _LENGTHS:
        names += [f"{length} [mm]", f"{length} [in]", f"{length} [in 1/16]"]
    for size in _SIZES:
        names += [f"{size} [mm]", f"{size} [in]"]
    return names


def _length_cells(length: CutLength) -> list[str]:
    return [str(length.millimetres), length.decimal_inch_text, length.sixteenths_text]


def _size_cells(size: float) -> list[str]:
    # A wall of 0 means that the plan does not say: an empty cell, not a number.
    if size == 0.0:
        return ["", ""]
    return [f"{size * 1000.0:.2f}", f"{size / METRES_PER_INCH:.3f}"]


def _row(element: ElementCut, section: SectionCut) -> list[str]:
    row = [str(element.number), element.label, element.role, str(section.number)]
    for length in (
        element.plan_position,
        element.from_rear,
        element.half_length,
        element.full_length,
        section.exposed,
        section.reaches,
    ):
        row += _length_cells(length)
    for size in (section.diameter, section.wall):
        row += _size_cells(size)
    return row


def cut_list_csv(*, beam: Beam, boom: BoomPlan | None = None, stamp: str = "") -> bytes:
    """Write the cut list of one half of every element, rear to front, boom to tip.

    Every tube is needed twice, once for each half. Lengths are rounded as distances from
    the boom, so that exposed lengths add up to the half length in each unit.

    Parameters
    ----------
    boom
        its boom, where the tape is hooked; None counts from the rear element
    stamp
        what stands against building from it, alone in a row above the heads; empty when nothing
        does
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    header = _header()
    if stamp:
        # As many fields as every other row {rfc-4180, section 2, rule 4}.
        writer.writerow([stamp, *[""] * (len(header) - 1)])
    writer.writerow(header)
    for element in cut_list(beam=beam, boom=boom):
        writer.writerows(_row(element, section) for section in element.sections)
    return text.getvalue().encode("utf-8")
