"""What a plan may say but its owner should look at again."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from itertools import pairwise
from typing import Any

from boomwright.base import Notice, both_quantities
from boomwright.parts import Beam
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_support import GuyPlan, SupportPlan
from boomwright.plan.model_work import AnswerPlan

#: least and greatest usual distance of the anchors, as a share of the height of the highest guys
#: they hold: never under half, 0.75 to 0.8 is better (common practice)
GUY_RADIUS = (0.6, 1.2)
#: usual most between two guy rings of a tower, and above its top ring, 40 and 15 ft (common
#: practice) [m]
RING_SPACING = 12.2
FREE_TOP = 4.6


def plan_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is allowed in a plan but doubtful.

    Returns
    -------
    tuple of Notice
        doubts in plan order, none when all is plain (n_notices,)
    """
    found = list(_site_notices(plan.site))
    found += support_notices(plan)
    for beam in plan.beams:
        found += _beam_notices(beam)
        found += _trap_notices(beam)
        found += _boom_notices(beam, plan.boom_of(beam.name))
        found += _mast_notices(beam, plan)
    if plan.raising is not None:
        found += _unsigned_notices(plan.raising, "raising")
        if plan.permits is not None:
            found += _unsigned_notices(plan.permits, "permits")
    return tuple(found)


def support_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is doubtful about the guys, for the structure as for the plan."""
    support = plan.support
    return () if support is None else (*_radius_notices(support.guy), *_ring_notices(support))


def _radius_notices(rings: tuple[GuyPlan, ...]) -> list[Notice]:
    low, high = GUY_RADIUS
    found = []
    for index, ring in enumerate(rings):
        # Lower rings that share the anchors of higher ones lie flatter, and may.
        if any(other.radius == ring.radius and other.height > ring.height for other in rings):
            continue
        share = ring.radius / (ring.height - ring.anchor_height)
        if low <= share <= high:
            continue
        side = (
            "close in: the guys are steep and press the support down"
            if share < low
            else ("far out: look at radius and height again")
        )
        found.append(
            Notice(
                code="plan.guy-radius",
                text=f"guy[{index}]: the anchors stand {side}. 0.75 to 0.8 of the height is "
                "usual, never under half; the maker's drawing overrules both.",
                severity="doubt",
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
        Notice(
            code=f"plan.{code}",
            text=f"{both_quantities(length, unit='m', form='.1f')} {where}: more than usual. Set "
            "the rings where its maker drew them, and enter the drawing under "
            "[support.tower.drawing].",
            severity="doubt",
            value=both_quantities(length, unit="m", form=".1f"),
            limit=f"{both_quantities(usual, unit='m', form='.1f')} (common practice)",
        )
        for code, where, length, usual in told
        if length > usual
    ]


def _unsigned_notices(table: Any, place: str) -> list[Notice]:
    """Ask who stands behind each bare answer that would let a lift go ahead."""
    found: list[Notice] = []
    for entry in fields(table):
        value, inner = getattr(table, entry.name), f"{place}.{entry.name}"
        if entry.name == "on_another_structure":
            continue
        if isinstance(value, bool) and value is (entry.name != "guys_in_the_way"):
            answer = "true" if value else "false"
            text = (
                f"{inner} is a bare {answer}: who says so, and when? Until somebody does, the "
                f'lift is no go. Write {{ answer = {answer}, by = "...", on = "2026-05-01" }}.'
            )
            found.append(Notice(code="plan.unsigned-answer", text=text, severity="doubt"))
        elif is_dataclass(value) and not isinstance(value, AnswerPlan):
            found += _unsigned_notices(value, inner)
    return found


def _trap_notices(beam: Beam) -> list[Notice]:
    numbers = [str(i) for i, element in enumerate(beam.elements) if element.traps]
    if not numbers:
        return []
    return [
        Notice(
            code="plan.traps",
            text=f"{beam.name}: element {', '.join(numbers)} has traps. Impedance, gain, patterns "
            "and losses hold them; the match in the field, the braid, weights, wind and the "
            "drawings do not, and stacks and tuning refuse them.",
            severity="doubt",
        )
    ]


def _boom_notices(beam: Beam, boom: BoomPlan | None) -> list[Notice]:
    if boom is None:
        return []
    front = boom.rear_end + boom.length
    return [
        Notice(
            code="plan.element-off-boom",
            text=f"{beam.name}: element[{index}] stands beyond the end of the boom. Check its "
            "place, and rear_end and length of the boom.",
            severity="doubt",
            value=f"{element.position:.4g} m",
            limit=f"{boom.rear_end:.4g} to {front:.4g} m",
        )
        for index, element in enumerate(beam.elements)
        if not boom.rear_end <= element.position <= front
    ]


def _mast_notices(beam: Beam, plan: Plan) -> list[Notice]:
    mast = None if plan.support is None else plan.support.mast
    if mast is None or mast.bearing <= beam.height <= mast.top:
        return []
    text = (
        f"{beam.name}: the boom hangs at a height where there is no mast. Heights of bearing, "
        "mast top and boom all count from the ground."
    )
    return [
        Notice(
            code="plan.beam-off-mast",
            text=text,
            severity="doubt",
            value=f"{beam.height:.4g} m",
            limit=f"{mast.bearing:.4g} to {mast.top:.4g} m",
        )
    ]


def _site_notices(site: Site) -> list[Notice]:
    found: list[Notice] = []
    if site.wind_speed is not None and not site.wind_basis.kind:
        text = (
            "The plan gives a wind speed but not what kind it is. Add [site.wind_basis] before any "
            'strength is judged: kind = "ultimate" or "nominal" for an American edition, '
            '"characteristic" for EN 1991-1-4.'
        )
        found.append(Notice(code="plan.wind-kind-unsaid", text=text, severity="doubt"))
    if site.ice_thickness is None and (site.ice_gust is not None or site.ice_mapped):
        text = (
            "[site.ice_basis] stands in the plan but no ice thickness, so ice is not checked. "
            'Add ice = "6 mm" to [site], or "0 mm" where there is none.'
        )
        found.append(Notice(code="plan.ice-unsaid", text=text, severity="doubt"))
    return found


def _beam_notices(beam: Beam) -> list[Notice]:
    found: list[Notice] = []
    low, high = beam.band
    if not low <= beam.design_frequency <= high:
        text = f"{beam.name}: the design frequency lies outside the band of use."
        found.append(
            Notice(
                code="plan.design-outside-band",
                text=text,
                severity="doubt",
                value=f"{beam.design_frequency / 1e6:.6g} MHz",
                limit=f"{low / 1e6:.6g} to {high / 1e6:.6g} MHz",
            )
        )
    driven = beam.elements[beam.driven_index].position
    for index, element in enumerate(beam.elements):
        behind = element.position < driven
        if (element.role == "director" and behind) or (
            element.role == "reflector" and element.position > driven
        ):
            side = "behind" if behind else "in front of"
            text = (
                f"{beam.name}: element[{index}] is a {element.role} but stands {side} the driven "
                "element. Places along the boom grow towards the heading."
            )
            found.append(Notice(code="plan.role-against-place", text=text, severity="doubt"))
    return found
