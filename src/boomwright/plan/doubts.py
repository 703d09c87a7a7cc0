"""What a plan may say but its owner should look at again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from itertools import combinations, pairwise
from typing import TYPE_CHECKING, Any

from boomwright.base import Notice
from boomwright.base.quantity import InPlan, PerSystem, Phrase, Quantity, Value, phrase, settled
from boomwright.parts import Beam, Mount
from boomwright.plan.beam_doubts import beam_doubts, between, doubt
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_support import SupportPlan
from boomwright.plan.quantity import RECORD_GUST
from boomwright.plan.surroundings import unsaid_guys
from boomwright.plan.tables.mount import MOUNT_EXAMPLE, MOUNT_EXAMPLE_US
from boomwright.raising.answers import UNSIGNED
from boomwright.solver import acts_longer, mount_effect

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel

#: share of its length by which an element must be off to be worth a doubt: at a quarter of a
#: per cent the band of a three-element beam moves by a tenth {common-practice-magnitudes}
_MATTERS = 0.0025
#: boom over the thickest element where the plan gives no boom {common-practice-magnitudes}
_BOOM_OVER_ELEMENT = 2.0


def mount_doubts(beam: Beam, boom: BoomPlan | None) -> list[Notice]:
    """Say what a metal boom may do to elements whose mount is not said, where that matters."""
    unsaid = [element for element in beam.elements if element.mount is None and not element.bent]
    thickest = max(element.half[0].diameter for element in beam.elements)
    diameter = _BOOM_OVER_ELEMENT * thickest if boom is None else boom.diameter
    # Of all mounts, bonded through the boom takes most away.
    mount = Mount(kind="bonded through", boom=(max(diameter, 1.1 * thickest),))
    shifts = [
        (-acts_longer(inductance=effect.inductance, element=element), element.length)
        for element in unsaid
        if (
            effect := mount_effect(
                element=replace(element, mount=mount), wavelength=beam.wavelength
            )
        )
    ]
    if not shifts or max(shift / length for shift, length in shifts) < _MATTERS:
        return []
    thick: Value = "twice as thick as they are"
    if boom is not None:
        thick = phrase("of {diameter}", diameter=Quantity(diameter, "whole millimetres"))
    most = Quantity(max(shift for shift, _ in shifts), "whole millimetres")
    return [
        doubt(
            "mount-unsaid",
            phrase(
                "{beam}: the plan does not say how the elements are held, so the figures leave the "
                "boom out. On a metal boom {thick} they act up to {most} shorter than they are "
                "cut.",
                beam=beam.name,
                thick=thick,
                most=most,
            ),
            how=phrase(
                "Write mount = {mount} into [[beam]], or kind = {none}.",
                mount=PerSystem(metric=MOUNT_EXAMPLE, us=MOUNT_EXAMPLE_US),
                none='"non-conducting boom"',
            ),
        )
    ]


#: common practice {common-practice-plan-doubts}: gusts that a code asks for anywhere [m/s]
_DESIGN_GUSTS = (20.0, 95.0)
#: thickest glaze on any code map [m]
_THICKEST_ICE = 0.08
#: room over the heads of people below a boom [m]
_HEAD_ROOM = 2.5
#: two beams closer than this above each other catch each other's elements [m]
_CLOSEST_BEAMS = 0.5

#: least and greatest usual distance of the anchors, as a share of the height of the highest guys
#: they hold: never under half, 0.75 to 0.8 is better (common practice)
GUY_RADIUS = (0.6, 1.2)
#: usual most between two guy rings of a tower, and above its top ring, 40 and 15 ft (common
#: practice) [m]
RING_SPACING = 12.2
FREE_TOP = 4.6
#: least usual distance of the two uppermost house brackets, as a share of what is free above them
#: up to the highest beam (common practice)
BRACKET_SHARE = 1.0 / 3.0


def plan_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is allowed in a plan but doubtful, in plan order (n_notices,)."""
    found = [*_wind_doubts(plan.site), *_ice_doubts(plan.site), *support_notices(plan)]
    for beam in plan.beams:
        found += beam_doubts(beam, boom=plan.boom_of(beam.name), ground=plan.site.ground)
        found += mount_doubts(beam, plan.boom_of(beam.name))
        found += _height_doubts(beam, plan)
    found += [*_bracket_doubts(plan), *_mast_doubts(plan), *_line_doubts(plan)]
    found += [*_beside_doubts(plan), *_assumed_doubts(plan)]
    if plan.raising is not None:
        found += _unsigned_doubts(plan.raising, "raising")
        if plan.permits is not None:
            found += _unsigned_doubts(plan.permits, "permits")
    return tuple(found)


def _assumed_doubts(plan: Plan) -> list[Notice]:
    """Name the usual values that nobody has confirmed, all at once."""
    if not plan.assumed:
        return []
    places = "; ".join(each.where for each in plan.assumed)
    return [
        doubt(
            "assumed",
            f"Usual values stand in for what nobody has confirmed: {places}. Measure or look them "
            "up.",
            how='Then take "# assumed" away behind each of them.',
        )
    ]


def support_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is doubtful about the guys, for the structure as for the plan."""
    return (*_radius_notices(plan.stand.guy), *_ring_notices(plan.stand))


def _radius_notices(rings: tuple[GuyLevel, ...]) -> list[Notice]:
    low, high = GUY_RADIUS
    found = []
    for index, ring in enumerate(rings):
        # Lower rings that share the anchors of higher ones lie flatter, and may.
        if any(
            other.anchor_radius == ring.anchor_radius and other.height > ring.height
            for other in rings
        ):
            continue
        share = ring.anchor_radius / (ring.height - ring.anchor_height)
        if low <= share <= high:
            continue
        side = (
            "close in: the guys are steep and press the support down"
            if share < low
            else ("far out: look at radius and height again")
        )
        found.append(
            doubt(
                "guy-radius",
                f"Guy ring {index + 1}: the anchors stand {side}. 0.75 to 0.8 of the height "
                "is usual, never under half; the maker's drawing overrules both.",
                value=f"{share:.2f} of the height",
                limit=f"{low:g} to {high:g} (common practice)",
            )
        )
    return found


def _ring_notices(support: SupportPlan) -> list[Notice]:
    tower = support.tower
    if tower is None or not support.guy or tower.drawing is not None:
        return []
    rings = sorted({0.0, *(ring.height for ring in support.guy)})
    widest = max(high - low for low, high in pairwise(rings))
    told = (
        ("guy-spacing", "between two guy rings of the tower", widest, RING_SPACING),
        ("free-top", "of tower above its top guys", tower.height - rings[-1], FREE_TOP),
    )
    return [
        doubt(
            code,
            phrase(
                f"{{length}} {where}: more than usual. Set the rings where its maker drew them, "
                "and enter the drawing{place}.",
                place=InPlan("support.tower.drawing"),
                length=Quantity(length, "height"),
            ),
            value=Quantity(length, "height"),
            limit=_usual(Quantity(usual, "height")),
        )
        for code, where, length, usual in told
        if length > usual
    ]


def _high(height: float) -> Quantity:
    return Quantity(height, "clearance")


def _fast(speed: float) -> Quantity:
    return Quantity(speed, "gust")


def _usual(limit: Value) -> Phrase:
    return phrase("{limit} (common practice)", limit=limit)


def _wind_doubts(site: Site) -> Iterator[Notice]:
    speed, (low, high) = site.wind_speed, _DESIGN_GUSTS
    if speed is None:
        return
    if not site.wind_basis.kind:
        yield doubt(
            "wind-kind-unsaid",
            settled(
                "The plan gives a wind speed but not what kind it is. Name it before any strength "
                'is judged: "ultimate" or "nominal" for an American edition, "characteristic" for '
                "EN 1991-1-4.",
                "site.wind_basis",
                "kind",
            ),
        )
    if speed > RECORD_GUST:
        yield doubt(
            "wind-fast",
            "No gust as fast as this wind has ever been measured outside a tornado. Was another "
            "unit meant?",
            value=_fast(speed),
            limit=_fast(RECORD_GUST),
            source="wmo-gust-record",
        )
    elif not site.wind_basis.european and not low <= speed <= high:
        yield doubt(
            "wind-fast" if speed > high else "wind-slow",
            "No code is known to ask for such a wind anywhere. Was another unit meant?",
            value=_fast(speed),
            limit=_usual(between(_fast(low), _fast(high))),
        )


def _ice_doubts(site: Site) -> Iterator[Notice]:
    ice, gust = site.ice_thickness, site.ice_gust
    if ice is None and (gust is not None or site.ice_mapped is not None):
        yield doubt(
            "ice-unsaid",
            settled(
                "The plan gives a basis of the ice but no thickness, so ice is not checked. Enter "
                "it, or 0 where there is none.",
                "site",
                "ice",
            ),
        )
    if ice and site.ice_mapped is None:
        yield doubt(
            "ice-mapped-unsaid",
            "The plan gives an ice thickness but not whether it is read from a code map. A map "
            "value still grows with height, and some editions double it; until you say, the "
            "larger reading is taken.",
            how="Add mapped = true to [site.ice_basis], or mapped = false for the ice expected on "
            "the beam itself.",
        )
    if ice is not None and ice > _THICKEST_ICE:
        yield doubt(
            "ice-thick",
            "The ice is thicker than on any code map. Is it the radial thickness?",
            value=Quantity(ice, "ice"),
            limit=Quantity(_THICKEST_ICE, "ice"),
        )
    # The basic speed of EN 1991-1-4 is a mean over ten minutes, below any gust.
    mean, speed = site.wind_basis.european, site.wind_speed
    if gust is not None and speed is not None and gust > speed and not mean:
        yield doubt(
            "ice-gust-fast",
            "The gust that comes with the ice is faster than the wind without it. Are the two "
            "exchanged?",
            value=_fast(gust),
            limit=_fast(speed),
        )


def _height_doubts(beam: Beam, plan: Plan) -> Iterator[Notice]:
    if beam.stands_on_ground and len(plan.beams) > 1:
        yield doubt(
            "vertical-apart",
            f"{beam.name} stands on the ground, and the plan does not say how far from the other "
            "beams: each is computed without the other. Keep them a quarter wave apart or more.",
        )
    low = beam.height < _HEAD_ROOM and not beam.stands_on_ground
    if plan.site.ground.kind != "free space" and low:
        yield doubt(
            "beam-low",
            f"{beam.name}: the boom hangs so low that people walk into it. Heights count from "
            "the ground.",
            value=_high(beam.height),
            limit=_usual(_high(_HEAD_ROOM)),
        )


def _bracket_doubts(plan: Plan) -> Iterator[Notice]:
    tube = plan.stand.tube
    brackets = None if tube is None else tube.brackets
    if tube is None or brackets is None:
        return
    top = brackets.heights[-1]
    below = brackets.heights[-2] if len(brackets.heights) > 1 else brackets.foot
    free, apart = max(tube.height, *(beam.height for beam in plan.beams)) - top, top - below
    if apart < BRACKET_SHARE * free:
        yield doubt(
            "brackets-close",
            phrase(
                "The uppermost house brackets stand {apart} apart and {free} stands free above "
                "them: the wind pulls on the wall like a long lever. A third of the free length "
                "is usual, half is better.",
                apart=_high(apart),
                free=_high(free),
            ),
            value=f"{apart / free:.2f} of the free length",
            limit=f"{BRACKET_SHARE:.2f} (common practice)",
        )
    if len(brackets.heights) > 1 and brackets.foot == 0.0 and below > 0.0 and free > top:
        yield doubt(
            "brackets-low",
            "More of the tube stands free than its brackets hold. Set them higher, or guy it as "
            "a pole without brackets.",
            value=_high(free),
            limit=_usual(_high(top)),
        )


#: a hub or insulator carries wire at most so far above the mast's top [m]
_ON_HUB = 0.1


def _mast_doubts(plan: Plan) -> Iterator[Notice]:
    support, mast = plan.stand, plan.stand.mast
    if mast is None:
        return
    riding = {ring.beam for ring in plan.rings}
    on_mast = [beam for beam in plan.beams if beam.name not in riding]
    for beam in on_mast:
        # Wire on a frame hangs above the mast's top, by its insulator or hub.
        top = mast.top + (_ON_HUB if beam.bent else 0.0)
        if not mast.bearing <= beam.height <= top:
            yield doubt(
                "beam-off-mast",
                f"{beam.name}: the boom hangs at a height where there is no mast. Heights of "
                "bearing, mast top and boom all count from the ground; a beam that turns on a "
                "ring around the support is named with its ring.",
                how="It stands under [[support.ring]].",
                value=_high(beam.height),
                limit=between(_high(mast.bearing), _high(mast.top)),
            )
    for first, second in combinations(on_mast, 2):
        apart = abs(first.height - second.height)
        # Beams on one boom, frame or feed point are drawn, and looked at for clashes, wire by wire.
        together = first.shares_boom(second) or first.shares_feed(second)
        if apart < _CLOSEST_BEAMS and not together:
            yield doubt(
                "beams-close",
                f"{first.name} and {second.name} hang on one mast so close above each other that "
                "their elements touch.",
                value=_high(apart),
                limit=_usual(_high(_CLOSEST_BEAMS)),
            )
    from boomwright.structure.support.mast import BEARING_ABOVE

    stands = support.tower or support.tube
    if stands is not None and mast.bearing > stands.height + BEARING_ABOVE:
        yield doubt(
            "bearing-above-support",
            "The top bearing of the mast stands above the support that shall hold it.",
            value=_high(mast.bearing),
            limit=_high(stands.height),
        )


def _line_doubts(plan: Plan) -> Iterator[Notice]:
    lowest = min(beam.height for beam in plan.beams)
    if plan.line is not None and plan.line.length < lowest:
        yield doubt(
            "line-short",
            "The feed line is shorter than the lowest beam is high.",
            value=_high(plan.line.length),
            limit=_high(lowest),
        )


def stack_without_band(plan: Plan) -> bool:
    """Whether the plan stacks beams that no one frequency serves."""
    names = plan.reach.stack if plan.reach else ()
    bands = [beam.band for beam in plan.beams if beam.name in names]
    return len(bands) > 1 and max(low for low, _ in bands) > min(high for _, high in bands)


def _beside_doubts(plan: Plan) -> Iterator[Notice]:
    if stack_without_band(plan):
        yield doubt(
            "stack-bands",
            "The stack has beams of different bands, which cannot be fed together: "
            "no stack is computed. Name beams of one band. Beams on one mast are computed "
            "together anyway.",
        )
    if unsaid_guys(plan.support):
        yield doubt(
            "guys-unsaid",
            "The plan does not say how the guys are broken up, so no guy is in the figures of the "
            "beams.",
            how='Write longest_piece = "3 m" into each [[support.guy]], or "0 m" for guys that do '
            "not conduct.",
        )


def _unsigned_doubts(table: Any, place: str) -> Iterator[Notice]:
    """Ask who stands behind each bare answer that would let a lift go ahead."""
    for entry in fields(table):
        value, inner = getattr(table, entry.name), f"{place}.{entry.name}"
        if value in UNSIGNED.values() and value.yes is (entry.name != "guys_in_the_way"):
            answer = "true" if value.yes else "false"
            yield doubt(
                "unsigned-answer",
                f"{inner} is a bare {answer}: who says so, and when? Until somebody does, the "
                "lift is no go.",
                how=f'Write {{ answer = {answer}, by = "...", on = "2026-05-01" }}.',
            )
        elif is_dataclass(value):
            yield from _unsigned_doubts(value, inner)
