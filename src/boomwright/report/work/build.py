"""The build sheets: cut list, elements, boom, plates, feed, order of assembly, care."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from boomwright.base import Notice, UnitSystem
from boomwright.base.quantity import listed, phrase, write
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
from boomwright.charts.drawing_svg import drawing_svg
from boomwright.charts.palette import Palette
from boomwright.cost import Bill
from boomwright.parts import Bar, Beam, ClampPlate, Part
from boomwright.plan import Plan
from boomwright.plan.model_station import LinePlan
from boomwright.plan.resolve import station_assembly
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop import ShopElement, ShopTube, shop_elements, shop_rules
from boomwright.report.build.shop_boom import ShopBoom, shop_boom
from boomwright.report.build.shop_drawings import (
    boom_drawing,
    element_drawing,
    shop_length,
    size_text,
    tube_size,
)
from boomwright.report.build.shop_feed import feed_drawing
from boomwright.report.build.shop_fit import fit_notices
from boomwright.report.build.shop_plates import plate_drawing
from boomwright.report.cost import cutting_table
from boomwright.report.model import Part as SheetPart
from boomwright.report.model import Said
from boomwright.report.wording import clean
from boomwright.report.work.feed import feed_blocks
from boomwright.report.work.plates import DRAWING_WIDTH, beam_plates, plate_sheets
from boomwright.report.work.steps import (
    BEFORE,
    BOOM,
    CARE,
    CUTTING,
    EVERY_ELEMENT,
    FINISH,
    JOINTS,
    TOOLS,
    torque_grid,
)

#: pieces besides the tubes of elements and boom, and what each is called in the cut list
_SHORT: Final = {"insulator": "glass fibre rod", "sleeve": "sleeve", "match": "rod"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """Everything the workshop needs for one beam."""

    beam: Beam
    elements: tuple[ShopElement, ...]  #: its elements as they are cut (n_elements,)
    boom: ShopBoom  #: its boom with stations
    parts: tuple[Part, ...]  #: all its parts (n_parts,)
    plates: tuple[ClampPlate, ...]
    line: LinePlan | None  #: its feed line; None when the plan does not say
    drawings: tuple[Drawing, ...]  #: all drawings, of boom, elements, feed and plates
    notices: tuple[Notice, ...]  #: what does not fit, is missing or in the way


def make_build(
    plan: Plan, beam: Beam, *, mast: float | None, system: UnitSystem = "metric"
) -> Build:
    """Work out everything the workshop needs.

    Args:
        mast: place of the mast clamp as elements are placed; None when not known [m]
        system: unit system shown first on the drawings
    """
    rules, tube = shop_rules(plan), plan.boom_of(beam.name)
    elements = shop_elements(beam=beam, rules=rules, boom=tube)
    boom = shop_boom(beam=beam, boom=tube, rules=rules, mast=mast)
    plates = beam_plates(plan, beam, system=system)
    parts = station_assembly(plan).of(beam.name)
    middle = feed_drawing(
        beam,
        gap=_gap(elements),
        boom=None if tube is None else tube.diameter,
        system=system,
        rearward=_rearward(parts),
    )
    return Build(
        beam=beam,
        elements=elements,
        boom=boom,
        parts=parts,
        plates=plates,
        line=plan.line,
        drawings=(
            # One element alone, and no boom said: nothing to draw, nor to place along it.
            *((boom_drawing(boom, system=system),) if boom.length.millimetres else ()),
            *(element_drawing(each, system=system) for each in elements),
            *(() if middle is None else (middle,)),
            *(plate_drawing(plate, system=system) for plate in plates),
        ),
        notices=(*fit_notices(elements), *boom.notices),
    )


def _rearward(parts: tuple[Part, ...]) -> bool:
    """Whether the rods of a match run towards the rear of the boom."""
    rods = [part.solids[0] for part in parts if part.role == "match"]
    return any(isinstance(rod, Bar) and rod.end[0] < rod.start[0] for rod in rods)


def build_blocks(
    builds: Sequence[Build], *, bills: Sequence[Bill | None], palette: Palette, system: UnitSystem
) -> tuple[SheetPart, ...]:
    """Write the build sheets of the beams of a station: what all share stands once.

    Args:
        bills: bill of each beam, for its cutting plan; None leaves that out (n_builds,)
        system: unit system shown first
    """
    several = len(builds) > 1
    blocks: list[SheetPart] = [
        Words(
            text="Everything is measured from two places only: along an element from the boom "
            "centre line, along the boom from its rear end. Hook the tape once and read every mark "
            "off it; never add one length to the next.",
            tone="loud",
        ),
        Heading(text="Tools and supplies"),
        Said(phrase("{tools}.", tools=listed(TOOLS, between="; "))),
        BEFORE,
    ]
    for build, bill in zip(builds, bills, strict=True):
        of_beam = f" of {clean(build.beam.name)}" if several else ""
        blocks += [Heading(text=f"Cut list{of_beam}"), cut_grid(build, system)]
        if bill is not None:
            blocks += [
                Heading(text=f"Cutting plan{of_beam}"),
                Words(text="Which piece comes out of which bought length, with the least waste.",
                      tone="quiet"),
                *map(cutting_table, bill.tubes),
            ]  # fmt: skip
    blocks += [NewPage(), Heading(text="Sawing and joining"), CUTTING, JOINTS, EVERY_ELEMENT]
    blocks += plate_sheets(_plates(builds), palette=palette, system=system)
    for build in builds:
        blocks += _beam_blocks(build, palette, system, several=several)
    blocks += [NewPage(), Heading(text="Order of assembly"), FINISH, torque_grid(system),
               Heading(text="Metal, water, sun"), Facts(rows=CARE),
               Blanks(labels=("Built by", "Checked by", "Date", "Weight and unit"))]  # fmt: skip
    return tuple(blocks)


def _plates(builds: Sequence[Build]) -> tuple[ClampPlate, ...]:
    """Plates of all beams, each once; one that only some beams have says whose it is."""
    owners: dict[ClampPlate, list[str]] = {}
    for build in builds:
        for plate in build.plates:
            owners.setdefault(plate, []).append(build.beam.name)
    return tuple(
        plate
        if len(names) == len(builds)
        else replace(plate, name=f"{plate.name} of {' and '.join(map(clean, names))}")
        for plate, names in owners.items()
    )


def _beam_blocks(
    build: Build, palette: Palette, system: UnitSystem, *, several: bool
) -> list[SheetPart]:
    blocks: list[SheetPart] = []
    of_beam = f" of {clean(build.beam.name)}" if several else ""
    for place, element in enumerate(build.elements):
        # Two elements share a page.
        blocks += [NewPage()] if place % 2 == 0 else []
        blocks += _element_blocks(build, element, palette, system, of_beam=of_beam)
    if build.boom.length.millimetres:
        blocks += _boom_blocks(build, palette, system, of_beam=of_beam)
    blocks += feed_blocks(
        build.beam,
        gap=_gap(build.elements),
        line=build.line,
        drawing=next((each for each in build.drawings if each.name == "feed"), None),
        palette=palette,
        system=system,
        of_beam=of_beam,
    )
    return blocks


def _gap(elements: Sequence[ShopElement]) -> CutLength:
    """Twice what each half keeps off the boom centre line: the sheets add up to it."""
    driven = next((each for each in elements if each.cut.role == "driven"), None)
    return cut_length(0.0) if driven is None else driven.half_gap + driven.half_gap


def _bare(length: CutLength, system: UnitSystem) -> str:
    return write(length.bare, system=system)


def _unit(system: UnitSystem) -> str:
    return "mm" if system == "metric" else "in"


def cut_grid(build: Build, system: UnitSystem) -> Grid:
    """List every piece to be sawn."""
    unit = _unit(system)
    rows: list[tuple[str, ...]] = []
    for element in build.elements:
        rows.append((f"Element {element.cut.number}, {element.cut.label}",))
        rows += [_cut_row(tube, system) for tube in element.tubes]
    boom = build.boom
    if boom.boom is not None:
        rows.append(("Boom",))
        for number, part in enumerate(boom.parts):
            mark = "B" if len(boom.parts) == 1 else f"B{chr(ord('a') + number)}"
            size = size_text(boom.boom.diameter, boom.boom.wall, system=system)
            rows.append((mark, size, _bare(part, system), "–", TICK, ""))
    rows += _further_rows(build.parts, system)
    return Grid(
        columns=("Marks", f"Tube, {unit}", f"Saw to, {unit}", "Ring at", "Sawn", "Initials"),
        rows=tuple(rows),
        align="llrrll",
        shares=(1.9, 2.1, 1.4, 1.2, 0.8, 1.3),
        note="Each mark is one piece: two marks, two pieces. Ring at: distance from the inner end "
        f"at which the larger tube ends, {unit}.",
        large=True,
    )  # fmt: skip


def _further_rows(parts: tuple[Part, ...], system: UnitSystem) -> list[tuple[str, ...]]:
    """Pieces that are no tube of an element or of the boom, alike ones in one row."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for part in parts:
        if part.role in _SHORT and part.cut is not None:
            kind = part.cut.kind
            size = f"{size_text(kind.diameter, kind.wall, system=system)}, {_SHORT[part.role]}"
            row = (size, _bare(cut_length(part.cut.sawn), system))
            alike.setdefault(row, []).append(part.mark)
    return [(", ".join(marks), *row, "–", TICK, "") for row, marks in alike.items()]


def _cut_row(tube: ShopTube, system: UnitSystem) -> tuple[str, ...]:
    ring = "–" if tube.overlap.millimetres == 0 else _bare(tube.overlap, system)
    marks = ", ".join(tube.marks)
    length = tube.cut if len(tube.parts) == 1 else tube.parts[0]
    return marks, tube_size(tube, system=system), _bare(length, system), ring, TICK, ""


def _drawing(build: Build, name: str) -> Drawing:
    return next(each for each in build.drawings if each.name == name)


def _picture(drawing: Drawing, palette: Palette) -> SheetPicture:
    thick = drawing.thickening
    return SheetPicture(
        name=drawing.name,
        svg=drawing_svg(drawing, palette=palette, width=DRAWING_WIDTH),
        caption=f"Lengths to scale, diameters drawn {thick:.1f} times as thick.",
        units=DRAWING_WIDTH,
    )


def _element_blocks(
    build: Build,
    element: ShopElement,
    palette: Palette,
    system: UnitSystem,
    *,
    of_beam: str,
) -> list[Block]:
    cut = element.cut
    unit = _unit(system)
    rows = tuple(
        (
            ", ".join(tube.marks),
            tube_size(tube, system=system),
            _bare(tube.exposed, system),
            _bare(tube.reaches, system),
            TICK,
        )
        for tube in element.tubes
    )
    half = shop_length(cut.half_length, system=system)
    full = shop_length(cut.full_length, system=system)
    blocks: list[Block] = [
        Heading(text=f"Element {cut.number}{of_beam}: {cut.label}"),
        Facts(rows=(("Tip to tip", f"{full}; boom centre to tip {half}"),)),
        _picture(_drawing(build, f"element-{cut.number}"), palette),
        Grid(
            columns=("Marks", "Tube", f"Shows, {unit}", f"Ends at, {unit}", "OK"),
            rows=rows,
            align="llrrl",
            shares=(1.9, 2.2, 1.5, 1.6, 0.7),
            large=True,
        ),
    ]  # fmt: skip
    if element.is_cut:
        gap = shop_length(element.half_gap + element.half_gap, system=system)
        blocks.append(
            Words(
                text=f"This element is cut in the middle: gap {gap}. Inner ends start "
                f"{shop_length(element.half_gap, system=system)} from the boom centre "
                "line.",
                tone="loud",
            )
        )
    blocks.append(Blanks(labels=("Left tip measured", "Right tip measured", "Initials")))
    return blocks


def _boom_blocks(
    build: Build, palette: Palette, system: UnitSystem, *, of_beam: str
) -> list[Block]:
    parts = build.boom.parts
    blocks: list[Block] = [NewPage(), Heading(text=f"Boom{of_beam}")]
    blocks += [
        _picture(_drawing(build, "boom"), palette),
        station_grid(build, system),
    ]
    if len(parts) > 1:
        blocks.append(
            Words(
                text=f"The boom is joined from {len(parts)} tubes: a sleeve of the same alloy, "
                "five diameters or more to either side of the joint, four through bolts.",
            )
        )
    blocks.append(BOOM)
    return blocks


def station_grid(build: Build, system: UnitSystem) -> Grid:
    """List where every clamp stands along the boom."""
    unit = _unit(system)
    rows = tuple(
        (clean(each.name), _bare(each.tape, system), _bare(each.from_last, system), TICK)
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
