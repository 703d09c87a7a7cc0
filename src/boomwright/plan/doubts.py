"""What a plan may say but its owner should look at again."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import Notice, both_quantities
from boomwright.parts import Beam, Mount
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.tables.mount import MOUNT_EXAMPLE
from boomwright.solver import acts_longer, mount_effect

#: share of its length by which an element must be off to be worth a doubt: at a quarter of a
#: per cent the band of a three-element beam moves by a tenth {common-practice-magnitudes}
_MATTERS = 0.0025
#: boom over the thickest element where the plan gives no boom {common-practice-magnitudes}
_BOOM_OVER_ELEMENT = 2.0


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
        found += _mount_notices(beam, plan.boom_of(beam.name))
        found += _mast_notices(beam, plan)
    return tuple(found)


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


def _mount_notices(beam: Beam, boom: BoomPlan | None) -> list[Notice]:
    """Say what a metal boom may do to elements whose mount is not said, where that matters."""
    unsaid = [element for element in beam.elements if element.mount is None]
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
    thick = "twice as thick as they are"
    if boom is not None:
        thick = f"of {both_quantities(1e3 * diameter, unit='mm', us_form='.2f')}"
    most = both_quantities(1e3 * max(shift for shift, _ in shifts), unit="mm", us_form=".2f")
    return [
        Notice(
            code="plan.mount-unsaid",
            text=f"{beam.name}: the plan does not say how the elements are held, so the figures "
            f"leave the boom out. On a metal boom {thick} they act up to {most} shorter than "
            f"they are cut. Write mount = {MOUNT_EXAMPLE} into [[beam]], or kind = "
            '"non-conducting boom".',
            severity="doubt",
        )
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
    if site.wind_speed is not None and not site.wind_kind:
        text = (
            "The plan gives a wind speed but not whether it is an ultimate or a nominal one. Add "
            '[site.wind_basis] with kind = "ultimate" or "nominal" before any strength is judged.'
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
