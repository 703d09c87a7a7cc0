"""The sheet of what carries the beam: where to dig, how deep, which guy goes where, how tight.

Figures are those of the plan; order and care are common practice {common-practice-building}.
"""

from __future__ import annotations

import math

from boomwright.base import UnitSystem
from boomwright.charts.blocks import (
    Blanks,
    Block,
    Facts,
    Grid,
    Heading,
    NewPage,
    SheetPicture,
    Steps,
    Words,
)
from boomwright.charts.drawing_svg import drawing_svg
from boomwright.charts.palette import Palette
from boomwright.plan.model_ground import AnchorPlan, BasePlan
from boomwright.plan.model_support import BracketsPlan, GuyPlan, SupportPlan
from boomwright.report.build.shop_support import setting_out_drawing
from boomwright.report.wording import clean, metres_and_feet

_NEWTONS_PER_POUND = 4.4482216152605
_WIDTH = 520.0

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
        "Bond legs, guys as the local code asks, line entry and station to one earth system.",
    ),
)


def support_blocks(
    support: SupportPlan, *, palette: Palette, system: UnitSystem
) -> tuple[Block, ...]:
    """Write the sheet of support, guys and ground.

    Parameters
    ----------
    system
        unit system shown first

    Returns
    -------
    tuple of Block
        the sheet; nothing when the plan says nothing of it
    """
    rows = (*_upright_rows(support, system), *_ground_rows(support, system))
    if not rows and not support.guy:
        return ()
    blocks: list[Block] = [
        Words(
            text="The maker's drawings, the local building official and a licensed engineer "
            "overrule this sheet. It gathers the figures of the plan; the chapter on structure "
            "says what they were checked against.",
            tone="loud",
        ),
        Facts(rows=rows),
    ]
    if support.guy:
        drawing = setting_out_drawing(support.guy, system=system)
        blocks += [
            Heading(text="Guys"),
            _guy_grid(support.guy, system),
            SheetPicture(
                name=drawing.name,
                svg=drawing_svg(drawing, palette=palette, width=_WIDTH),
                caption=f"{drawing.description} To scale.",
                units=_WIDTH,
            ),
            NewPage(),
        ]
    blocks.append(Heading(text="Order of work"))
    if support.base is not None or support.anchor is not None:
        blocks.append(_DIG)
    blocks.append(_GUYS if support.guy else _without_guys())
    read = "Tensions read by" if support.guy else "Read by"
    blocks.append(Blanks(labels=("Plumb, two directions", read, "Date")))
    return tuple(blocks)


def _without_guys() -> Steps:
    return Steps(title="Support", items=(_GUYS.items[0], _GUYS.items[2], _GUYS.items[5]))


def _tube(diameter: float, wall: float, material: str, system: UnitSystem) -> str:
    metric = f"Ø {diameter * 1e3:.1f} x {wall * 1e3:.1f} mm"
    us = f"Ø {diameter / 0.0254:.3f} x {wall / 0.0254:.3f} in"
    first, second = (metric, us) if system == "metric" else (us, metric)
    return f"{first} ({second}), {clean(material)}"


def _force(newtons: float, system: UnitSystem) -> str:
    metric, us = f"{newtons / 1e3:.2f} kN", f"{newtons / _NEWTONS_PER_POUND:.0f} lbf"
    return f"{metric} ({us})" if system == "metric" else f"{us} ({metric})"


def _upright_rows(support: SupportPlan, system: UnitSystem) -> list[tuple[str, str]]:
    rows = []
    if support.tower is not None:
        tower = support.tower
        rows.append(
            ("Tower", f"{clean(tower.kind)}, {metres_and_feet(tower.height, system=system)}")
        )
    if support.tube is not None:
        tube = support.tube
        rows.append(("Support tube", _tube(tube.diameter, tube.wall, tube.material, system)))
        rows.append(("Its top", f"{metres_and_feet(tube.height, system=system)} above ground"))
        rows += [] if tube.brackets is None else _bracket_rows(tube.brackets, system)
    if support.mast is not None:
        mast = support.mast
        rows.append(("Mast", _tube(mast.diameter, mast.wall, mast.material, system)))
        rows.append(
            ("Bearing, mast top", f"{metres_and_feet(mast.bearing, system=system)}; "
             f"{metres_and_feet(mast.top, system=system)}")
        )  # fmt: skip
        if mast.rotator_below is not None:
            below = metres_and_feet(mast.rotator_below, system=system)
            rows.append(("Rotator", f"{below} below the bearing"))
    return rows


def _bracket_rows(brackets: BracketsPlan, system: UnitSystem) -> list[tuple[str, str]]:
    heights = "; ".join(metres_and_feet(height, system=system) for height in brackets.heights)
    rows = [("House brackets", f"at {heights}")]
    if brackets.foot > 0.0:
        rows.append(
            ("Its lower end", f"{metres_and_feet(brackets.foot, system=system)} above ground")
        )
    if brackets.side_force is not None:
        rows.append(("Fixings of one bracket", f"{_force(brackets.side_force, system)} sideways"))
    if brackets.said_by:
        rows.append(("Wall looked at by", clean(brackets.said_by)))
    return rows


def _ground_rows(support: SupportPlan, system: UnitSystem) -> list[tuple[str, str]]:
    rows = []
    soil = support.soil
    if soil is not None:
        rows.append(("Soil, as entered", clean(soil if isinstance(soil, str) else soil.name)))
    if support.frost_depth is not None:
        rows.append(("Frost depth", metres_and_feet(support.frost_depth, system=system)))
    if support.base is not None:
        rows.append(("Foot", _base_words(support.base, system)))
    if support.anchor is not None:
        rows.append(("Each anchor block", _anchor_words(support.anchor, system)))
    return rows


def _base_words(base: BasePlan, system: UnitSystem) -> str:
    wide = metres_and_feet(base.width, system=system)
    words = f"{clean(base.kind)}, {wide} {'across, round' if base.is_round else 'square'}"
    if base.depth is not None:
        words += f", {metres_and_feet(base.depth, system=system)} deep"
    if base.thickness is not None:
        words += f", {metres_and_feet(base.thickness, system=system)} thick"
    if base.cover:
        words += f", {metres_and_feet(base.cover, system=system)} of soil above"
    if base.stands_out:
        words += f", {metres_and_feet(base.stands_out, system=system)} out of the ground"
    return words


def _anchor_words(anchor: AnchorPlan, system: UnitSystem) -> str:
    sides = " x ".join(
        metres_and_feet(side, system=system)
        for side in (anchor.length, anchor.width, anchor.thickness)
    )
    return f"{sides}, under {metres_and_feet(anchor.cover, system=system)} of soil"


def _bearings(guy: GuyPlan) -> str:
    step = 2.0 * math.pi / guy.count
    angles = (math.degrees(guy.first + step * number) % 360.0 for number in range(guy.count))
    return ", ".join(f"{angle:.0f}°" for angle in angles)


def _two_lines(both: str) -> str:
    """Put the second unit below the first, for a narrow cell."""
    first, _, second = both.partition(" (")
    return f"{first}\n{second.rstrip(')')}"


def _guy_grid(guys: tuple[GuyPlan, ...], system: UnitSystem) -> Grid:
    def row(guy: GuyPlan) -> tuple[str, ...]:
        strand = guy.strand if isinstance(guy.strand, str) else guy.strand.name
        straight = math.hypot(guy.height - guy.anchor_height, guy.radius)
        return (
            _two_lines(metres_and_feet(guy.height, system=system)),
            _two_lines(metres_and_feet(guy.radius, system=system)),
            _bearings(guy),
            clean(strand),
            _two_lines(metres_and_feet(straight, system=system)),
            "–" if guy.tension is None else _two_lines(_force(guy.tension, system)),
            "",
        )

    return Grid(
        columns=("Held at", "Anchors out", "True bearings", "Strand", "Straight length",
                 "Tension, no wind", "Read"),
        rows=tuple(row(guy) for guy in guys),
        align="lllllll",
        shares=(1.6, 1.6, 1.5, 1.4, 1.7, 1.6, 0.9),
        note="The straight length runs from the anchor to the support's axis; grips and turnbuckle "
        "take part of it. Bearings from true north: count the declination when using a compass.",
    )  # fmt: skip
