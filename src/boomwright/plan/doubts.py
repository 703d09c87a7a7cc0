"""What a plan may say but its owner should look at again."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

from boomwright.base import Notice
from boomwright.parts import Beam
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_work import AnswerPlan


def plan_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is allowed in a plan but doubtful.

    Returns
    -------
    tuple of Notice
        doubts in plan order, none when all is plain (n_notices,)
    """
    found = list(_site_notices(plan.site))
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
