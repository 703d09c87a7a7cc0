"""The structure as the book takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base import PlanError
from boomwright.plan import Plan
from boomwright.study.structure import structure_plan

if TYPE_CHECKING:
    from boomwright.report.model import Report

#: lines of the ledger that fit on a page of paper
_LINES = 19


def structure_chapters(plan: Plan) -> tuple[Report, ...]:
    """Check the structure for the book.

    Returns:
        one chapter; none when the plan says nothing of wind, boom or support
    """
    from boomwright.report.structure import refused_report, structure_report

    if plan.support is None and plan.site.wind_speed is None and not plan.booms:
        return ()
    try:
        return (structure_report(structure_plan(plan), most_rows=_LINES),)
    except PlanError as error:
        return (refused_report("structure", error),)
