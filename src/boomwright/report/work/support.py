"""The sheet of what carries the beam: where to dig, how deep, which guy goes where, how tight.

Figures are those of the plan; order and care are common practice {common-practice-building}.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from boomwright.base.quantity import PerSystem, Quantity, Value, listed, phrase
from boomwright.charts.blocks import Blanks, Heading, NewPage, Steps
from boomwright.charts.drawing_svg import drawing_svg
from boomwright.plan.model_ground import BasePlan
from boomwright.plan.model_support import SupportPlan
from boomwright.report.build.shop_support import setting_out_drawing
from boomwright.report.model import Canvas, Part, Picture, Said, Table, column, facts_table
from boomwright.structure import AnchorBlock, GuyLevel, HouseBrackets

_DIG = Steps(
    title="Foot and anchors",
    items=(
        "Permission is in hand; buried pipes and cables are located and marked.",
        "Peg out the foot; peg out each anchor by compass bearing and tape, then check the "
        "distance between neighbouring anchors.",
        "Dig to undisturbed soil and at least to the depths above; shore a hole that a person "
        "enters, cover every hole overnight.",
        "Whoever answers for the structure looks at the soil: soft, filled or wet ground stops "
        "the work.",
        "Reinforcing, anchor bolts and template by the maker's or engineer's drawing, with the "
        "cover it asks for.",
        "Pour in one go, vibrate, slope the top so that water runs off; set the bolts plumb.",
        "Wait 7 days before anything is stacked and 28 days before full load.",
    ),
)

_GUYS = Steps(
    title="Support and guys",
    items=(
        "Trained people raise the support by its maker's instructions; it is never without guys "
        "above the height the maker allows.",
        "Cut guys longer than the table by what the grips take; each end has a thimble and a grip.",
        "Plumb in two directions with an instrument or a long plumb line.",
        "Bring all guys of one ring to the tension of the table together, by turns, on a calm day; "
        "read it with a gauge.",
        "Safety wire through every turnbuckle; plumb again; write down the readings.",
        "Bond the support, its guys where the local code asks, the line entry and the station "
        "to one earth system.",
    ),
)


def support_parts(support: SupportPlan) -> tuple[Part, ...]:
    """Write the sheet of support, guys and ground.

    Returns:
        the sheet; nothing when the plan says nothing of it
    """
    rows = (*_upright(support), *_ground(support))
    if not rows and not support.guy:
        return ()
    parts: list[Part] = [
        Said(
            "The maker's drawings, the local building official and a licensed engineer overrule "
            "this sheet. It gathers the figures of the plan; the annex, chapter Structure, says "
            "what they were checked against.",
            tone="loud",
        ),
        facts_table("support", "", rows),
    ]
    if support.guy:
        parts += [_guys(support.guy), _setting_out(support.guy), NewPage()]
    parts.append(Heading(text="Order of work"))
    if support.base is not None or support.anchor is not None:
        parts.append(_DIG)
    parts.append(_GUYS if support.guy else _without_guys())
    read = "Tensions read by" if support.guy else "Read by"
    parts.append(Blanks(labels=("Plumb, two directions", read, "Date")))
    return tuple(parts)


def _without_guys() -> Steps:
    return Steps(title="Support", items=(_GUYS.items[0], _GUYS.items[2], _GUYS.items[5]))


def _span(length: float) -> Quantity:
    return Quantity(length, "span")


def _tube(diameter: float, wall: float, material: str) -> Value:
    return phrase(
        "Ø {diameter} x {wall}, {material}",
        diameter=Quantity(diameter, "diameter"),
        wall=Quantity(wall, "wall"),
        material=material,
    )


def _upright(support: SupportPlan) -> Iterator[tuple[Value, Value]]:
    tower, tube, mast = support.tower, support.tube, support.mast
    if tower is not None:
        yield "Tower", phrase("{kind}, {height}", kind=tower.kind, height=_span(tower.height))
    if tube is not None:
        yield "Support tube", _tube(tube.diameter, tube.wall, tube.material)
        yield "Its top", phrase("{height} above ground", height=_span(tube.height))
        if tube.brackets is not None:
            yield from _brackets(tube.brackets)
    if mast is not None:
        yield "Mast", _tube(mast.diameter, mast.wall, mast.material)
        yield "Bearing, mast top", listed([_span(mast.bearing), _span(mast.top)], between="; ")
        if mast.rotator_below is not None:
            yield "Rotator", phrase("{below} below the bearing", below=_span(mast.rotator_below))


def _brackets(brackets: HouseBrackets) -> Iterator[tuple[Value, Value]]:
    heights = listed([_span(height) for height in brackets.heights], between="; ")
    yield "House brackets", phrase("at {heights}", heights=heights)
    if brackets.foot > 0.0:
        yield "Its lower end", phrase("{foot} above ground", foot=_span(brackets.foot))
    if brackets.side_force is not None:
        force = Quantity(brackets.side_force, "large force")
        yield "Fixings of one bracket", phrase("{force} sideways", force=force)
    if brackets.said_by:
        yield "Wall looked at by", brackets.said_by


def _ground(support: SupportPlan) -> Iterator[tuple[Value, Value]]:
    soil = support.soil
    if soil is not None:
        yield "Soil, as entered", soil.name
    if support.frost_depth is not None:
        yield "Frost depth", _span(support.frost_depth)
    if support.base is not None:
        yield "Foot", _base(support.base)
    if support.anchor is not None:
        yield "Each anchor block", _anchor(support.anchor)


def _base(base: BasePlan) -> Value:
    sizes = (
        (base.width, "across, round" if base.is_round else "square"),
        (base.depth, "deep"),
        (base.thickness, "thick"),
        (base.cover or None, "of soil above"),
        (base.stands_out or None, "out of the ground"),
    )
    told = [
        phrase("{size} " + words, size=_span(size)) for size, words in sizes if size is not None
    ]
    return listed([base.kind, *told])


def _anchor(anchor: AnchorBlock) -> Value:
    sides = [_span(side) for side in (anchor.length, anchor.width, anchor.thickness)]
    return phrase(
        "{sides}, under {cover} of soil",
        sides=listed(sides, between=" x "),
        cover=_span(anchor.cover),
    )


def _bearings(guy: GuyLevel) -> Value:
    step = 2.0 * math.pi / guy.count
    angles = (
        math.degrees(guy.first_azimuth + step * number) % 360.0 for number in range(guy.count)
    )
    return listed([Quantity(angle, "whole angle") for angle in angles])


def _guys(guys: tuple[GuyLevel, ...]) -> Table[GuyLevel]:
    def tension(guy: GuyLevel) -> Value:
        return "–" if guy.initial_tension is None else Quantity(guy.initial_tension, "large force")

    return Table(
        name="guys",
        caption="Guys",
        columns=(
            column("held at", lambda guy: _span(guy.height)),
            column("anchors out", lambda guy: _span(guy.anchor_radius)),
            column("true bearings", _bearings),
            column("strand", lambda guy: guy.strand.name),
            column("straight length", lambda guy: _span(guy.length)),
            column("tension, no wind", tension),
            column("read", lambda guy: ""),
        ),
        items=guys,
        note="The straight length runs from the anchor to the support's axis; grips and turnbuckle "
        "take part of it. Bearings from true north: count the declination when using a compass.",
    )


def _setting_out(guys: tuple[GuyLevel, ...]) -> Picture:
    def draw(canvas: Canvas) -> str:
        drawing = setting_out_drawing(guys, system=canvas.system)
        return drawing_svg(drawing, palette=canvas.palette, width=canvas.width)

    return Picture(
        name="setting-out",
        title="Setting out",
        draw=draw,
        behind=_guys(guys),
        caption=phrase(
            "{pegs} To scale.",
            pegs=PerSystem(
                metric=setting_out_drawing(guys, system="metric").description,
                us=setting_out_drawing(guys, system="us").description,
            ),
        ),
    )
