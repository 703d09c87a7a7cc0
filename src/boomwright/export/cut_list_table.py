"""The cut list as comma-separated values, one row per kind of piece {rfc-4180}."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass

from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.parts import Beam, Hole, Part
from boomwright.plan.model import Plan
from boomwright.plan.resolve import beam_cutting, station_assembly
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop import ShopElement, ShopTube, shop_elements, shop_rules

_PLACES = (
    "position_in_plan",
    "from_rear_element",
    "half_length",
    "full_length",
    "exposed_length",
    "reaches_from_boom",
)
_SAWN = ("sawn_length", "overlap", "from_stock")
_SIZES = ("diameter", "wall")
#: pieces that belong to no element, in the order of the list
_FURTHER = ("insulator", "sleeve", "boom", "match")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """One row: pieces that are sawn and drilled alike."""

    labels: tuple[str, str, str, str]  #: element number, element, role, section number
    places: tuple[CutLength | None, ...]  #: places of the element and its tube (6,)
    marks: tuple[str, ...]
    sawn: CutLength
    overlap: CutLength
    part: Part  #: one of them


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
            for hole in holes
        ]
        cells.append("; ".join(told))
    return cells


def _row(piece: _Piece, stock: Mapping[str, float]) -> list[str]:
    row = [*piece.labels, " ".join(piece.marks), str(len(piece.marks)), piece.part.material]
    for place in piece.places:
        row += _length_cells(place)
    row += [*_length_cells(piece.sawn), *_length_cells(piece.overlap)]
    bought = [_length_cells(cut_length(stock[mark])) for mark in piece.marks if mark in stock]
    # One length for all, or one for each mark in their order.
    row += [" / ".join(dict.fromkeys(cells) if len(set(cells)) == 1 else cells)
            for cells in zip(*bought, strict=True)] or ["", "", ""]  # fmt: skip
    cut = piece.part.cut
    for size in (0.0, 0.0) if cut is None else (cut.kind.diameter, cut.kind.wall):
        row += _size_cells(size)
    return [*row, *_holes_cells(piece.part.holes)]


def _tube_pieces(element: ShopElement, tube: ShopTube, parts: Mapping[str, Part]) -> list[_Piece]:
    cut, count = element.cut, len(tube.parts)
    nothing = cut_length(0.0)
    places = (cut.plan_position, cut.from_rear, cut.half_length, cut.full_length, tube.exposed,
              tube.reaches)  # fmt: skip
    return [
        _Piece(
            labels=(str(cut.number), cut.label, cut.role, str(tube.section)),
            places=places if k == 0 else (*places[:4], None, None),
            marks=tube.marks[k::count],
            sawn=tube.parts[k],
            overlap=tube.overlap if k == 0 else nothing,
            part=parts[tube.marks[k]],
        )
        for k in range(count)
    ]


def _pieces(plan: Plan, beam: Beam, parts: tuple[Part, ...]) -> list[_Piece]:
    by_mark = {part.mark: part for part in parts}
    elements = shop_elements(beam=beam, rules=shop_rules(plan), boom=plan.boom_of(beam.name))
    pieces = [
        piece
        for element in elements
        for tube in element.tubes
        for piece in _tube_pieces(element, tube, by_mark)
    ]
    further = sorted(
        (part for part in parts if part.role in _FURTHER and part.cut is not None),
        key=lambda part: _FURTHER.index(part.role),
    )
    pieces += [
        _Piece(
            labels=("", part.name, part.role, ""),
            places=(None,) * len(_PLACES),
            marks=(part.mark,),
            sawn=cut_length(part.cut.sawn),
            overlap=cut_length(part.cut.overlap),
            part=part,
        )
        for part in further
        if part.cut is not None
    ]
    return pieces


def cut_list_csv(plan: Plan, beam: Beam, *, stamp: str = "") -> bytes:
    """Write what is sawn for a beam: tubes of every element rear to front, boom, sleeves, rods.

    A row is one kind of piece, with the marks of all alike. Lengths are rounded as distances from
    the boom, so that exposed lengths of one half add up to the half length in each unit; a centre
    tube shows its exposed length twice. Holes are counted from the inner or rear end of the piece.
    ``from_stock`` is the bought length that the cutting plan takes it from, for each mark where
    they differ.

    Args:
        stamp: what stands against building from it, alone in a row above the heads; empty when
            nothing does
    """
    parts = station_assembly(plan).of(beam.name)
    stock = {
        piece.mark: bar.stock_length
        for order in beam_cutting(plan, beam).tubes
        for bar, pieces in order.marked_bars()
        for piece in pieces
    }
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    header = _header()
    if stamp:
        # As many fields as every other row {rfc-4180, section 2, rule 4}.
        writer.writerow([stamp, *[""] * (len(header) - 1)])
    writer.writerow(header)
    writer.writerows(_row(piece, stock) for piece in _pieces(plan, beam, parts))
    return text.getvalue().encode("utf-8")
