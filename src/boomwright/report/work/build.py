"""The build sheets: cut list, elements, boom, plates, feed, order of assembly, care."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from boomwright.base import Notice, UnitSystem
from boomwright.base.quantity import Quantity, Value, listed, phrase, places_in, write
from boomwright.base.records import dataclass
from boomwright.charts.blocks import (
    TICK,
    Blanks,
    Block,
    Facts,
    Grid,
    Heading,
    NewPage,
    SheetPicture,
    Words,
)
from boomwright.charts.drawing import Drawing
from boomwright.charts.palette import Palette
from boomwright.cost import Bill
from boomwright.parts import Beam, Part
from boomwright.plan import Plan
from boomwright.plan.model_station import LinePlan
from boomwright.plan.resolve import station_assembly
from boomwright.report.build.assumed import Taken
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.exploded import exploded_drawing
from boomwright.report.build.lists import (
    bought_parts,
    cutting_stamp,
    fastener_list,
    hole_list,
    size_to_buy,
)
from boomwright.report.build.pieces import SawnPiece, bought_lengths, sawn_pieces
from boomwright.report.build.shop import ShopElement, shop_elements
from boomwright.report.build.shop_boom import ShopBoom, shop_boom
from boomwright.report.build.shop_drawings import (
    bare_length,
    boom_drawing,
    drill_size,
    element_drawing,
    holes_text,
    piece_drawings,
    shop_length,
    tube_size,
)
from boomwright.report.build.shop_feed import feed_drawing
from boomwright.report.build.shop_fit import fit_notices
from boomwright.report.build.shop_plates import MadePlate, made_plates, plate_drawing
from boomwright.report.model import Canvas, Said
from boomwright.report.model import Part as SheetPart
from boomwright.report.wording import clean, first_upper
from boomwright.report.work import wire_steps
from boomwright.report.work.feed import feed_blocks
from boomwright.report.work.plates import plate_lists, plate_patterns, sheet_picture
from boomwright.report.work.steps import (
    BEFORE,
    CARE,
    CUTTING,
    EVERY_ELEMENT,
    FASTENING,
    FINISH,
    JOINTS,
    SLIT,
    TOOLS,
    boom_steps,
)
from boomwright.report.work.wires import frame_blocks, wire_blocks, wire_feed_blocks

#: what a piece that is no tube of an element or of the boom is called in the cut list
_SHORT: Final = {
    "insulator": "glass fibre rod", "sleeve": "sleeve", "match": "rod", "spreader": "spreader",
}  # fmt: skip

#: rows of a table that the picture of an element, its heading and its words take on paper, and
#: that a page has
_ROWS_OF_PICTURE, _ROWS_OF_PAGE = 7, 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """Everything the workshop needs for one beam."""

    beam: Beam
    elements: tuple[ShopElement, ...]  #: its elements as they are cut (n_elements,)
    boom: ShopBoom  #: its boom with stations
    parts: tuple[Part, ...]  #: all its parts (n_parts,)
    pieces: tuple[SawnPiece, ...]  #: what is sawn, pieces that are alike together (n_rows,)
    bought: dict[str, float]  #: bought length that a mark is sawn from [m]
    plates: tuple[MadePlate, ...]
    line: LinePlan | None  #: its feed line; None when the plan does not say
    #: all drawings: boom, elements, feed, the feed taken apart, plates, pieces
    drawings: tuple[Drawing, ...]
    notices: tuple[Notice, ...]  #: what does not fit, is missing or in the way
    stamp: str  #: why nothing is to be cut from its sheets; empty when nothing is missing


def make_build(plan: Plan, beam: Beam, *, system: UnitSystem = "metric") -> Build:
    """Read everything the workshop needs off the parts of a beam."""
    station, tube = station_assembly(plan), plan.boom_of(beam.name)
    parts = station.built(beam.name)
    elements = shop_elements(parts, beam=beam, boom=tube)
    boom = shop_boom(station, beam=beam, boom=tube)
    pieces = sawn_pieces(parts, elements=elements, boom=boom)
    plates = made_plates(parts, mast=_held_by(plan))
    driven = next((each for each in elements if each.cut.role == "driven"), None)
    middles = () if driven is None else (
        feed_drawing(parts, element=driven, system=system),
        exploded_drawing(parts, number=driven.cut.number, system=system),
    )  # fmt: skip
    return Build(
        beam=beam,
        elements=elements,
        boom=boom,
        parts=parts,
        pieces=pieces,
        bought=bought_lengths(plan, beam),
        plates=plates,
        line=plan.line,
        drawings=(
            # One element alone, and no boom said: nothing to draw, nor to place along it.
            *((boom_drawing(boom, system=system),) if boom.length.millimetres else ()),
            *(element_drawing(each, system=system) for each in elements),
            *(each for each in middles if each is not None),
            *(plate_drawing(plate, system=system) for plate in plates),
            *piece_drawings(pieces, system=system),
        ),
        notices=(*fit_notices(elements), *boom.notices),
        stamp=cutting_stamp(parts),
    )


def _held_by(plan: Plan) -> float | None:
    """Diameter of the mast or tube that a boom is clamped to; None while it is not known [m]."""
    support = plan.support
    if support is None:
        return None
    if support.mast is not None:
        return support.mast.diameter
    return None if support.tube is None else support.tube.diameter


def build_blocks(
    builds: Sequence[Build],
    *,
    bills: Sequence[Bill | None],
    taken: Sequence[Taken] = (),
    palette: Palette,
    system: UnitSystem,
    forms: bool = False,
) -> tuple[SheetPart, ...]:
    """Write the build sheets of the beams of a station: what all share stands once.

    Args:
        bills: bill of each beam, for its cutting plan; None leaves that out (n_builds,)
        taken: what nobody gave of the parts of the whole station (n_taken,)
    """
    canvas = Canvas(palette=palette, system=system, forms=forms)
    several = len(builds) > 1
    named = [(build, f" of {clean(build.beam.name)}" if several else "") for build in builds]
    wire = all(build.beam.bent and not build.boom.tubes for build in builds)
    bent = [build.beam for build in builds if build.beam.bent]
    on_frame = [beam for beam in bent if not beam.hung]
    hung = [beam for beam in bent if beam.hung]
    poles = any(beam.frame is not None and beam.frame.spreader is not None for beam in bent)
    straight = len(bent) < len(builds)
    blocks: list[SheetPart] = [
        *(Words(text=f"{build.stamp}.", tone="stamp") for build in builds if build.stamp),
        Words(
            text=wire_steps.measured(boom=not wire)
            if not straight
            else "Everything is measured from two places only: along an element from the boom "
            "centre line, along the boom from its rear end. Hook the tape once and read every mark "
            "off it; never add one length to the next.",
            tone="loud",
        ),
        Heading(text="Tools and supplies"),
        Said(phrase("{}.", listed(_tools(straight, wire, poles), between="; "))),
        wire_steps.BEFORE if wire else BEFORE,
    ]
    for (build, of_beam), bill in zip(named, bills, strict=True):
        if build.pieces:
            blocks += [Heading(text=f"Cut list{of_beam}"), cut_grid(build, system)]
        if bill is not None and bill.tubes:
            blocks += [Heading(text=f"Cutting plan{of_beam}"), saw_grid(build, bill, system)]
        heading = "Bought parts" if wire else "Holes, fasteners and bought parts"
        grids = (hole_grid(build, system), fastener_grid(build, system), part_grid(build, system))
        blocks += [Heading(text=f"{heading}{of_beam}"), *(grid for grid in grids if grid.rows)]
    if not wire or poles:
        blocks.append(Heading(text="Sawing and joining"))
    blocks += [] if wire else [CUTTING, JOINTS, FASTENING, *([EVERY_ELEMENT] * straight)]
    blocks += [wire_steps.SPREADERS] if poles else []
    # Patterns take a page each: what is no pattern stands before them all.
    blocks += plate_lists([(build.plates, of_beam) for build, of_beam in named], system=system)
    if any(build.pieces or build.plates for build in builds):
        blocks.append(Blanks(labels=("Sawn and drilled by", "Checked by", "Date")))
    for build, of_beam in named:
        blocks += plate_patterns(build.plates, canvas, of_beam=of_beam)
    for build, of_beam in named:
        blocks += _beam_blocks(build, canvas, of_beam)
    blocks += [Heading(text="Order of assembly"), *([FINISH] * straight)]
    blocks += [wire_steps.frame_steps(on_frame)] if on_frame else []
    blocks += [wire_steps.rope_steps(hung)] if hung else []
    blocks += [Heading(text="Metal, water, sun"), Facts(rows=wire_steps.CARE if wire else CARE)]
    return (*blocks, *taken_blocks(taken, system=system, forms=forms))


def _tools(straight: bool, wire: bool, poles: bool) -> tuple[Value, ...]:
    """Tools for tubes, for wire and for spreaders, as far as there are any."""
    kinds = (
        (TOOLS, not wire),
        (wire_steps.TOOLS, not straight),
        (wire_steps.SPREADER_TOOLS, poles),
    )
    return tuple(dict.fromkeys(tool for tools, needed in kinds if needed for tool in tools))


def _beam_blocks(build: Build, canvas: Canvas, of_beam: str) -> Iterator[SheetPart]:
    beam = build.beam
    if beam.bent:
        yield from wire_blocks(beam, build.parts, system=canvas.system, of_beam=of_beam)
        yield from frame_blocks(beam, canvas, of_beam=of_beam)
        yield from wire_feed_blocks(beam, line=build.line, system=canvas.system, of_beam=of_beam)
    for place, element in enumerate(build.elements):
        # Three elements share a page.
        yield from [NewPage()] if place % 3 == 0 else []
        yield from _element_blocks(build, element, canvas, of_beam)
    if _fill_a_page(build.elements):
        yield NewPage()
    driven = next((each for each in build.elements if each.cut.role == "driven"), None)
    if driven is not None:
        yield from feed_blocks(
            beam,
            build.parts,
            canvas,
            element=driven,
            line=build.line,
            drawings=[each for each in build.drawings if each.name in {"feed", "exploded"}],
            of_beam=of_beam,
        )
    if build.boom.length.millimetres and (build.boom.tubes or not beam.bent):
        yield from _boom_blocks(build, canvas, of_beam)


def _fill_a_page(elements: Sequence[ShopElement]) -> bool:
    """Whether the elements of the last page fill it: what follows opens a page of its own."""
    last = elements[-((len(elements) - 1) % 3 + 1) :]
    rows = sum(len(element.tubes) + _ROWS_OF_PICTURE for element in last)
    return 2 * _ROWS_OF_PAGE <= 3 * rows <= 3 * _ROWS_OF_PAGE


def _unit(system: UnitSystem) -> str:
    return "mm" if system == "metric" else "in"


#: columns of the cut list that a sheet for the saw keeps
SAW_COLUMNS: Final = (0, 2, 3, 5, 8)


def cut_grid(build: Build, system: UnitSystem) -> Grid:
    """List every piece to be sawn, as the file of the cut list has it."""
    unit = _unit(system)
    rows: list[tuple[str, ...]] = []
    heading = ""
    for piece in build.pieces:
        wanted = _under(piece)
        if wanted != heading:
            rows.append((wanted,))
            heading = wanted
        rows.append(_cut_row(piece, build.bought, system))
    return Grid(
        columns=("Marks", "Pieces", f"Tube, {unit}", f"Saw to, {unit}", f"Shows, {unit}",
                 f"Ring at, {unit}", f"From, {unit}", f"Holes, {unit}", "Sawn"),
        rows=tuple(rows),
        align="lrlrrrrll",
        shares=(1.5, 0.75, 2.0, 1.0, 1.0, 0.9, 1.1, 3.1, 0.6),
        note="Each mark is one piece. Shows: length of the piece that is seen when it is built. "
        "Ring at: distance from the inner end at which "
        "the larger tube ends. From: bought length that the cutting plan takes it from. Holes: "
        "diameter and places from the inner end, of boom and centre tubes from the rear or right "
        f"one; with a star only after the SWR check on stands. Slits: two level ones of "
        f"{write(SLIT, system=system)} in the outer end, under the hose clamp.",
    )  # fmt: skip


def _under(piece: SawnPiece) -> str:
    if piece.element is not None:
        return f"Element {piece.element.cut.number}, {piece.element.cut.label}"
    return {"boom": "Boom", "spreader": "Spreaders", "sleeve": "Sleeves"}.get(
        piece.part.role, "Rods"
    )


def _cut_row(piece: SawnPiece, bought: dict[str, float], system: UnitSystem) -> tuple[str, ...]:
    size, short = tube_size(piece.kind, system=system), _SHORT.get(piece.part.role, "")
    lengths = dict.fromkeys(bought[mark] for mark in piece.marks if mark in bought)
    stock = [bare_length(cut_length(length), system=system) for length in lengths]
    overlap = bare_length(piece.overlap, system=system)
    slides = piece.tube is not None or piece.part.role == "spreader"
    cells = (
        ", ".join(piece.marks),
        str(len(piece.marks)),
        f"{size}, {short}" if short else size,
        bare_length(piece.sawn, system=system),
        "–" if piece.exposed is None else bare_length(piece.exposed, system=system),
        overlap if slides and piece.overlap.millimetres else "–",
        " or ".join(stock) or "–",
        holes_text(piece.part.holes, system=system) + "; slits" * piece.is_slit,
        TICK,
    )
    return tuple(map(_fractions_kept, cells))


def _fractions_kept(cell: str) -> str:
    """Keep each fraction on one line with its inches."""
    first, *others = cell.split(" ")
    return first + "".join(("\u00a0" if "/" in word else " ") + word for word in others)


def saw_grid(build: Build, bill: Bill, system: UnitSystem) -> Grid:
    """Say which piece comes out of which bought length, as the bill packs them."""
    unit = _unit(system)
    sawn = {mark: piece.sawn for piece in build.pieces for mark in piece.marks}
    rows: list[tuple[str, ...]] = []
    for order in bill.tubes:
        rows.append((first_upper(write(order.kind.told, system=system)),))
        for number, (bar, pieces) in enumerate(order.marked_bars(), start=1):
            cuts = "   ".join(
                f"{each.mark}: {bare_length(sawn[each.mark], system=system)}" for each in pieces
            )
            rows.append(
                (str(number), bare_length(cut_length(bar.stock_length), system=system), cuts,
                 bare_length(cut_length(bar.rest), system=system))
            )  # fmt: skip
    return Grid(
        columns=("Bar", f"Bought, {unit}", f"Saw in this order, {unit}, with the mark to write on",
                 f"Left over, {unit}"),
        rows=tuple(rows),
        align="rrlr",
        shares=(0.6, 1.1, 5.6, 1.3),
        note="Packed for the least waste; one saw cut is counted for each piece.",
    )  # fmt: skip


def hole_grid(build: Build, system: UnitSystem) -> Grid:
    """List every hole of a beam: size, purpose, direction, how many, in which parts."""
    unit = _unit(system)
    return Grid(
        columns=(f"Hole, {unit}", "For", "Drilled", "Holes", "In"),
        rows=tuple(
            (drill_size(each.hole.diameter, system=system), first_upper(each.hole.purpose),
             each.hole.way, str(each.count), ", ".join(each.marks))
            for each in hole_list(build.parts)
        ),
        align="lllrl",
        shares=(0.8, 2.0, 2.7, 0.7, 3.6),
        caption="Every hole",
        note="Places stand in the cut list and on the drawings of plates. Weep holes are drilled "
        "where the steps say.",
    )  # fmt: skip


def fastener_grid(build: Build, system: UnitSystem) -> Grid:
    """List every fastener of a beam: what, how many, of which parts."""
    return Grid(
        columns=("Fastener", "Count", "Goes through", "Of", "Maker's torque"),
        rows=tuple(
            (first_upper(write(each.name, system=system)).rstrip(","), str(each.count),
             write(each.through, system=system) or "–",
             ", ".join(each.marks), "")
            for each in fastener_list(build.parts)
        ),
        align="lrrll",
        shares=(3.4, 0.7, 1.2, 4.2, 1.4),
        caption="Every fastener, and the list of torques",
        note="Length to buy: what the fastener goes through, and its nut and washers. Enter the "
        "torque from its maker's sheet before the work.",
    )  # fmt: skip


def part_grid(build: Build, system: UnitSystem) -> Grid:
    """List every part of a beam that is neither sawn nor cut from plate."""
    return Grid(
        columns=("Part", "Count", "Size", "Marks", "Figures"),
        rows=tuple(
            (f"{first_upper(clean(str(each.name)))}, {each.part.material}",
             str(each.count), write(size_to_buy(each.part), system=system),
             ", ".join(each.marks), _KNOWN[each.part.known])
            for each in bought_parts(build.parts)
        ),
        align="lrlll",
        shares=(2.8, 0.7, 2.5, 3.2, 1.0),
        caption="Every bought part",
        note="Marks are those of the drawings, the 3D file, the bill and the steps. What is "
        "assumed is common practice: measure your own.",
    )  # fmt: skip


def taken_blocks(
    taken: Sequence[Taken], *, system: UnitSystem, forms: bool = False
) -> tuple[SheetPart, ...]:
    """Say what nobody gave; nothing where all is given."""
    if not taken:
        return ()
    return (Heading(text="Not given by you"), taken_grid(taken, system=system, forms=forms))


def taken_grid(taken: Sequence[Taken], *, system: UnitSystem, forms: bool = False) -> Grid:
    """List the figures of parts that nobody gave, and how each is settled."""
    return Grid(
        columns=("Part", "Count", "Taken", "Weight, all", "To settle it"),
        rows=tuple(
            (
                first_upper(each.name),
                str(len(each.parts)),
                "nothing: " * each.missing + "; ".join(each.why),
                _weight(each.mass, system),
                write(each.settle, system=system, forms=forms),
            )
            for each in taken
        ),
        align="lrlrl",
        shares=(2.4, 0.7, 2.2, 1.1, 3.4),
        caption="Figures of the whole station that are not yours",
        note="Weights, wind areas, lengths and the bill rest on these. Measure, then enter.",
        places=places_in(*(each.settle for each in taken)) if forms else (),
    )


def _weight(mass: float | None, system: UnitSystem) -> str:
    if mass is None:
        return "not known"
    # Tip plugs and caps weigh grams.
    return write(Quantity(mass, "mass" if mass >= 1.0 else "small mass"), system=system)


_KNOWN: Final = {"plan": "yours", "maker": "its maker's", "assumed": "assumed",
                 "unknown": "not known"}  # fmt: skip


def _picture(build: Build, name: str, canvas: Canvas) -> SheetPicture:
    drawing = next(each for each in build.drawings if each.name == name)
    thick = drawing.thickening
    scale = f"diameters drawn {thick:.1f} times as thick" if thick > 1.0 else "diameters too"
    return sheet_picture(drawing, canvas, caption=f"Lengths to scale, {scale}.")


def _element_blocks(
    build: Build, element: ShopElement, canvas: Canvas, of_beam: str
) -> Iterator[Block]:
    cut, system, unit = element.cut, canvas.system, _unit(canvas.system)
    rows = tuple(
        (
            ", ".join(tube.marks),
            tube_size(tube.kind, system=system),
            " + ".join(bare_length(part, system=system) for part in tube.parts),
            bare_length(tube.cut if tube.section == 1 else tube.exposed, system=system),
            bare_length(tube.reaches, system=system),
            "",
            "",
        )
        for tube in element.tubes
    )
    full = shop_length(cut.full_length, system=system)
    yield Heading(text=f"Element {cut.number}{of_beam}: {cut.label}, {full} tip to tip")
    yield _picture(build, f"element-{cut.number}", canvas)
    yield Grid(
            columns=("Marks", "Tube", f"Saw to, {unit}", f"Shows, {unit}", f"Ends at, {unit}",
                     "Left measured", "Right measured"),
            rows=rows,
            align="llrrrll",
            shares=(1.7, 2.0, 1.2, 1.1, 1.2, 1.4, 1.4),
            large=True,
        )  # fmt: skip
    if element.is_cut:
        half = element.half_gap
        gap, start = (shop_length(each, system=system) for each in (half + half, half))
        text = (
            f"This element is cut in the middle: gap {gap}. Inner ends start {start} from the boom "
            "centre line."
        )
        yield Words(text=text, tone="loud")


def _boom_blocks(build: Build, canvas: Canvas, of_beam: str) -> Iterator[Block]:
    yield Heading(text=f"Boom{of_beam}")
    yield _picture(build, "boom", canvas)
    yield station_grid(build, canvas.system)
    if len(build.boom.tubes) > 1:
        text = (
            f"The boom is joined from {len(build.boom.tubes)} tubes: a sleeve of the same alloy, "
            "five diameters or more to either side of the joint, four through bolts."
        )
        yield Words(text=text)
    plate = next((part for part in build.parts if part.role == "mast plate" and part.solids), None)
    left = plate is not None and plate.solids[0].middle[1] > 0.0
    yield boom_steps("" if plate is None else "left side" if left else "right side")


def station_grid(build: Build, system: UnitSystem) -> Grid:
    """List where every clamp stands along the boom."""
    unit = _unit(system)
    rows = tuple(
        (
            clean(each.told),
            bare_length(each.tape, system=system),
            bare_length(each.from_last, system=system),
            "" if each.kind == "balance" else TICK,
        )
        for each in build.boom.stations
    )
    return Grid(
        columns=("Station", f"Tape, {unit}", f"From the last, {unit}", "OK"),
        rows=rows,
        align="lrrl",
        shares=(3.6, 1.6, 1.8, 0.7),
        note="Tape: reading at the centre of the clamp, tape hooked over the rear end. From the "
        "last: for checking only.",
        large=True,
    )
