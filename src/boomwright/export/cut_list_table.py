"""The cut list as comma-separated values, one row per kind of piece {rfc-4180}."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping

from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.parts import TIP_JOINT, Beam, Hole
from boomwright.plan.model import Plan
from boomwright.plan.resolve import station_assembly
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.lists import cutting_stamp
from boomwright.report.build.pieces import SawnPiece, bought_lengths, plan_pieces

_PLACES = (
    "from_rear_end",
    "from_rear_element",
    "half_length",
    "full_length",
    "exposed_length",
    "reaches_from_boom",
)
_SAWN = ("sawn_length", "overlap", "from_stock")
_SIZES = ("diameter", "wall")


def _header() -> list[str]:
    names = ["element_number", "element", "role", "section_number", "marks", "count", "material"]
    for length in (*_PLACES, *_SAWN):
        names += [f"{length} [mm]", f"{length} [in]", f"{length} [in 1/16]"]
    for size in _SIZES:
        names += [f"{size} [mm]", f"{size} [in]"]
    return [*names, "holes from inner end [mm]", "holes from inner end [in]"]


def _length_cells(length: CutLength | None) -> list[str]:
    if length is None:
        return ["", "", ""]
    return [str(length.millimetres), length.decimal_inch_text, length.sixteenths_text]


def _size_cells(size: float) -> list[str]:
    # A wall of 0 means that the plan does not say: an empty cell, not a number.
    if size == 0.0:
        return ["", ""]
    return [f"{size * 1000.0:.2f}", f"{size / METRES_PER_INCH:.3f}"]


def _holes_cells(holes: tuple[Hole, ...]) -> list[str]:
    cells = []
    for unit, step, digits in (("mm", 1e-3, 0), ("in", METRES_PER_INCH, 2)):
        told = [
            f"{hole.diameter / step:.{digits + 1}f} {unit} at "
            + " ".join(f"{place / step:.{digits}f}" for place in hole.at)
            + (" after the check on stands" if hole.purpose == TIP_JOINT else "")
            for hole in holes
        ]
        cells.append("; ".join(told))
    return cells


def _labels(piece: SawnPiece) -> list[str]:
    if piece.element is None or piece.tube is None:
        return ["", piece.part.name, piece.part.role, ""]
    cut = piece.element.cut
    return [str(cut.number), cut.label, cut.role, str(piece.tube.section)]


def _places(piece: SawnPiece) -> list[CutLength | None]:
    if piece.element is None or piece.tube is None:
        return [None] * len(_PLACES)
    cut = piece.element.cut
    # Counted from the boom centre line, so that those of one half add up to it.
    shown = (piece.tube.exposed, piece.tube.reaches) if piece.is_first else (None, None)
    return [cut.tape, cut.from_rear, cut.half_length, cut.full_length, *shown]


def _row(piece: SawnPiece, stock: Mapping[str, float]) -> list[str]:
    row = [*_labels(piece), " ".join(piece.marks), str(len(piece.marks)), piece.part.material]
    for place in _places(piece):
        row += _length_cells(place)
    row += [*_length_cells(piece.sawn), *_length_cells(piece.overlap)]
    bought = [_length_cells(cut_length(stock[mark])) for mark in piece.marks if mark in stock]
    # One length for all, or one for each mark in their order.
    row += [" / ".join(dict.fromkeys(cells) if len(set(cells)) == 1 else cells)
            for cells in zip(*bought, strict=True)] or ["", "", ""]  # fmt: skip
    for size in (piece.kind.diameter, piece.kind.wall):
        row += _size_cells(size)
    return [*row, *_holes_cells(piece.part.holes)]


def cut_list_csv(plan: Plan, beam: Beam, *, stamp: str = "") -> bytes:
    """Write what is sawn for a beam: tubes of every element rear to front, boom, sleeves, rods.

    A row is one kind of piece, with the marks of all alike. Lengths are rounded as distances from
    the boom, so that exposed lengths of one half add up to the half length in each unit; a centre
    tube shows its exposed length twice. Holes are counted from the inner or rear end of the piece.
    ``from_stock`` is the bought length that the cutting plan takes it from, for each mark where
    they differ.

    Args:
        stamp: what stands against building from it, alone in a row above the heads, with what is
            missing before anything is cut; empty when nothing does
    """
    parts, stock = station_assembly(plan).of(beam.name), bought_lengths(plan, beam)
    stamp = ". ".join(filter(None, (cutting_stamp(parts), stamp)))
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    header = _header()
    if stamp:
        # As many fields as every other row {rfc-4180, section 2, rule 4}.
        writer.writerow([stamp, *[""] * (len(header) - 1)])
    writer.writerow(header)
    writer.writerows(_row(piece, stock) for piece in plan_pieces(plan, beam))
    return text.getvalue().encode("utf-8")
