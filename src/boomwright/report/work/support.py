"""The sheet of what carries the beam: where to dig, how deep, which guy goes where, how tight.

Figures are those of the plan; order and care are common practice {common-practice-building}.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import Any, Final

from boomwright.base.quantity import PerSystem, Quantity, Value, listed, phrase
from boomwright.charts.blocks import Blanks, Heading, Steps
from boomwright.charts.drawing_svg import drawing_svg
from boomwright.parts import SupportHardware
from boomwright.parts.hardware import GUY_RING, given_or
from boomwright.plan.model_support import BasePlan, SupportPlan
from boomwright.plan.resolve.assembly import buried_length
from boomwright.raising import Said as Answer
from boomwright.raising import SupportRaising
from boomwright.report.build.shop_support import setting_out_drawing
from boomwright.report.model import Canvas, Part, Picture, Said, Table, column, facts_table
from boomwright.report.raising.place import holds
from boomwright.structure import AnchorBlock, GuyLevel, HouseBrackets
from boomwright.study.declination import Declination


def _dig(*, embedded: bool) -> Steps:
    """Order of the ground works, of a pole set in its foot or of a support bolted to it."""
    steel = "Reinforcing" if embedded else "Reinforcing, anchor bolts and template"
    pour = "slope the top so that water runs off"
    stands = (
        ("The anchors first. The foot once the pole stands in its hole, plumb and guyed.",)
        if embedded
        else ("Set the bolts plumb by the template.",)
    )
    return Steps(
        title="Foot and anchors",
        items=(
            "Permission is in hand; buried pipes and cables are located and marked.",
            "Peg out the foot and each anchor by tape and by the compass bearing of the table, a "
            "dozen paces from steel and cars; check the distance between neighbouring anchors.",
            "Dig to undisturbed soil and at least to the depths above; shore a hole that a person "
            "enters, cover every hole overnight.",
            "Whoever answers for the structure looks at the soil: soft, filled or wet ground stops "
            "the work.",
            f"{steel} by the maker's or engineer's drawing, with the cover it asks for.",
            *stands,
            f"Pour in one go, vibrate, {pour}.",
            "Wait 7 days before guys are drawn tight, 28 days before full load and the beam.",
        ),
    )


_RAISE: Final = (
    "Trained people raise the support by its maker's instructions; it is never without guys above "
    "the height the maker allows."
)
_FINISH: Final = (
    "Plumb in two directions with an instrument or a long plumb line.",
    "Bring all guys of one ring to the tension of the table together, by turns, on a calm day; "
    "read it with a gauge.",
    "Safety wire through every turnbuckle; plumb again; write down the readings.",
    "Bond the support, its guys where the local code asks, the line entry and the station to one "
    "earth system.",
)


def support_parts(
    support: SupportPlan,
    *,
    raised: SupportRaising | None = None,
    declination: Declination | None = None,
) -> tuple[Part, ...]:
    """Write the sheet of support, guys and ground.

    Args:
        raised: how the support gets up; None while no raising is planned
        declination: magnetic declination at the place; None while not known

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
        parts += [_guys(support, declination), _setting_out(support, declination)]
    parts.append(Heading(text="Order of work"))
    if support.base is not None or support.anchor is not None:
        parts.append(_dig(embedded=buried_length(support) > 0.0))
    parts += _raising(raised)
    finish = _FINISH if support.guy else (_FINISH[0], _FINISH[3])
    raise_ = () if raised is not None and raised.sequence else (_RAISE,)
    title = "Support and guys" if support.guy else "Support"
    parts.append(Steps(title=title, items=(*raise_, *finish)))
    read = "Tensions read by" if support.guy else "Read by"
    parts.append(Blanks(labels=("Plumb, two directions", read, "Date")))
    return tuple(parts)


def _raising(raised: SupportRaising | None) -> Iterator[Part]:
    """How the support gets up, with what stands against it."""
    if raised is None or not (raised.sequence or raised.reasons):
        return
    for reason in raised.reasons:
        yield Said(phrase("ASK before the support is raised: {reason}.", reason=reason),
                   tone="loud")  # fmt: skip
    if not raised.sequence:
        return
    yield facts_table("support-lift", "Raising the pole", raised.facts)
    yield Steps(title="Order of the day", items=raised.sequence)
    yield holds(raised.hold_points, name="support-holds", tick=True)


def _span(length: float) -> Quantity:
    return Quantity(length, "span")


def _tube(diameter: float, wall: float, material: str) -> Value:
    return phrase("Ø {:diameter} x {:wall}, {}", diameter, wall, material)


def _upright(support: SupportPlan) -> Iterator[tuple[Value, Value]]:
    tower, tube, mast = support.tower, support.tube, support.mast
    if tower is not None:
        yield "Tower", phrase("{kind}, {height}", kind=tower.kind, height=_span(tower.height))
    if tube is not None:
        yield "Support tube", _tube(tube.diameter, tube.wall, tube.material)
        low = tube.brackets.foot if tube.brackets is not None else -buried_length(support)
        within = phrase(", {low} of it in the foot, no bolts", low=_span(-low)) if low < 0.0 else ""
        top = tube.height - (0.0 if tube.cage is None else tube.cage.height)
        yield (
            "Its length, top",
            phrase("{}{}; {} above ground", _span(top - low), within, _span(top)),
        )
        if tube.cage is not None:
            told = "{high} on top of it, bearing on its upper plate, rotator inside, cable past it"
            yield "Cage", phrase(told, high=_span(tube.cage.height))
            yield (
                "Cage to tube",
                "ASK its maker: sleeve or flange, bolts, the moment they carry, room at the ring",
            )
        yield "Its joints", _joints(tube.whole)
        if tube.brackets is not None:
            yield from _brackets(tube.brackets)
    if mast is not None:
        yield "Mast", _tube(mast.diameter, mast.wall, mast.material)
        places: Value = phrase("{bearing}; {top}", bearing=_span(mast.bearing), top=_span(mast.top))
        if mast.rotator_below is not None:
            places = phrase("{}; rotator {} below the bearing", places, _span(mast.rotator_below))
        yield "Bearing, mast top", places


def _joints(whole: Answer | None) -> str:
    """Whether the tube is one piece, as dealers sell shorter ones."""
    if whole is None or not whole.yes or not whole.signed:
        return "ASK: one piece, or joints that an engineer or maker lets carry its full bending"
    return f"one piece, or joints that carry its full bending ({whole.whose})"


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
    if support.guy:
        yield "Each anchor rod", _anchor_rod(support)


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
    return phrase(
        "{} across, {} along the guys, {} high, under {} of soil, below the eye",
        _span(anchor.length),
        _span(anchor.width),
        _span(anchor.thickness),
        _span(anchor.cover),
    )


def _anchor_rod(support: SupportPlan) -> Value:
    """What is known of rod and eye; how many guys the fullest eye holds."""
    own = support.hardware or SupportHardware()
    eyes = Counter(
        (guy.anchor_radius, guy.anchor_height, azimuth)
        for guy in support.guy
        for azimuth in guy.azimuths
    )
    most = max(eyes.values())
    plate = f"eye plate for {most} turnbuckles" if most > 1 else "eye"
    size = "size, " if own.anchor_rod is None else ""
    return f"ASK an engineer or its maker: {size}slope, hold in the block, {plate}"


def _bearings(guy: GuyLevel, declination: Declination | None = None) -> Value:
    found = guy.azimuths if declination is None else map(declination.compass, guy.azimuths)
    kind = "whole angle" if declination is None else "angle"
    return listed([Quantity(math.degrees(angle) % 360.0, kind) for angle in found])


def _eye_to_ring(support: SupportPlan, guy: GuyLevel) -> float:
    """From the eye of an anchor to the hole of the ring on the support [m]."""
    own = support.hardware or SupportHardware()
    wide, _ = given_or(own.guy_ring, GUY_RING)
    out = 0.0 if support.tube is None else 0.5 * support.tube.diameter + 0.5 * wide
    return math.hypot(guy.height - guy.anchor_height, guy.anchor_radius - out)


def _guys(support: SupportPlan, declination: Declination | None = None) -> Table[GuyLevel]:
    def tension(guy: GuyLevel) -> Value:
        return "–" if guy.initial_tension is None else Quantity(guy.initial_tension, "large force")

    def slope(guy: GuyLevel) -> float:
        return math.degrees(math.atan2(guy.height - guy.anchor_height, guy.anchor_radius))

    compass: list[Any] = (
        []
        if declination is None
        else [column("by compass", lambda guy: _bearings(guy, declination))]
    )
    return Table(
        name="guys",
        caption="Guys",
        columns=(
            column("held at", lambda guy: _span(guy.height)),
            column("anchor eyes out; up", lambda guy: listed(
                [_span(guy.anchor_radius), _span(guy.anchor_height)], between="; ")),
            column("true bearings", _bearings),
            *compass,
            column("slope", slope, kind="whole angle"),
            column("strand", lambda guy: guy.strand.name),
            column("eye to ring", lambda guy: _span(_eye_to_ring(support, guy))),
            column("tension, no wind", tension),
            column("read", lambda guy: ""),
        ),
        items=support.guy,
        note="Cut length: eye to ring, less the turnbuckle at half its travel with its shackles, "
        "plus what the grips of both ends take by their maker. A thimble in each end.",
    )  # fmt: skip


def _setting_out(support: SupportPlan, declination: Declination | None) -> Picture:
    guys = support.guy

    def draw(canvas: Canvas) -> str:
        drawing = setting_out_drawing(guys, system=canvas.system)
        return drawing_svg(drawing, palette=canvas.palette, width=canvas.width)

    return Picture(
        name="setting-out",
        title="Setting out",
        draw=draw,
        behind=_guys(support, declination),
        caption=phrase(
            "{pegs} To scale.",
            pegs=PerSystem(
                metric=setting_out_drawing(guys, system="metric").description,
                us=setting_out_drawing(guys, system="us").description,
            ),
        ),
    )
