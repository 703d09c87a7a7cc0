"""What a plan may say but its owner should look at again."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.parts import Beam
from boomwright.plan.model import Plan, Site


def plan_notices(plan: Plan) -> tuple[Notice, ...]:
    """List what is allowed in a plan but doubtful.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    tuple of Notice
        doubts in plan order, none when all is plain [-] (n_notices,)
    """
    found = list(_site_notices(plan.site))
    for beam in plan.beams:
        found += _beam_notices(beam)
    return tuple(found)


def _site_notices(site: Site) -> list[Notice]:
    if site.wind_speed is None or site.wind_kind:
        return []
    text = (
        "The plan gives a wind speed but not whether it is an ultimate or a nominal one. "
        'Add [site.wind_basis] with kind = "ultimate" or "nominal" before any strength is judged.'
    )
    return [Notice(code="plan.wind-kind-unsaid", text=text, severity="doubt")]


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
