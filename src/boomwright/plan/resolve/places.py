"""Where things are: heights, the mast along the boom, the circle a beam turns in."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from boomwright.base import place_error

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.plan.model import Plan
    from boomwright.structure.report import BeamReport


def beam_named(plan: Plan, name: str) -> Beam:
    """Find a beam by its name.

    Args:
        name: name of the beam; empty for the only one

    Raises:
        PlanError: no beam has the name, or it is empty and there are several
    """
    if not name and len(plan.beams) == 1:
        return plan.beams[0]
    found = next((beam for beam in plan.beams if beam.name == name), None)
    if found is not None:
        return found
    listed = ", ".join(beam.name for beam in plan.beams)
    message = "no beam has this name" if name else "the plan has several beams; none is named"
    raise place_error("beam", message, remedy=f"name one of: {listed}", value=name)


def support_height(plan: Plan) -> float | None:
    """Top of tower or tube above ground; None when the plan gives neither [m]."""
    stands = plan.stand.tower or plan.stand.tube
    return None if stands is None else stands.height


def structure_top(plan: Plan) -> float:
    """Top of tower, tube and mast; the boom hangs on something, so never below one [m]."""
    mast = 0.0 if plan.stand.mast is None else plan.stand.mast.top
    return max(support_height(plan) or 0.0, mast, *(beam.height for beam in plan.beams))


def mast_place(plan: Plan, beam: Beam, report: BeamReport | None = None) -> float | None:
    """Where the mast stands along a boom.

    Args:
        report: what the structure room found about it, for the balance point; None without

    Returns:
        on the beam's x axis, None when neither plan nor report tells [m]
    """
    boom = plan.boom_of(beam.name)
    if boom is not None and boom.clamp is not None:
        return boom.clamp
    return None if report is None else report.clamp


def turned(bearing: float, heading: float) -> tuple[float, float]:
    """Part of a direction along the heading and across it, to the left [-] (2,).

    Args:
        bearing: direction, clockwise from true north [rad]
        heading: direction of fire, clockwise from true north [rad]
    """
    angle = heading - bearing
    return math.cos(angle), math.sin(angle)
