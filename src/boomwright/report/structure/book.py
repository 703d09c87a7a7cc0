"""Structure and permits as the book takes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base import Notice, PlanError, UnitSystem
from boomwright.plan import Plan
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan

if TYPE_CHECKING:
    from boomwright.charts import ShownSubject
    from boomwright.report.model import Report

#: width of the pictures, which fill the text of a page [user units]
_WIDTH = 600.0
#: lines of the ledger that fit on a page of paper
_LINES = 19


def structure_chapters(plan: Plan) -> tuple[Report, ...]:
    """Check the structure for the book.

    Returns
    -------
    tuple of Report
        one chapter; none when the plan says nothing of wind, boom or support
    """
    from boomwright.report.structure import refused_report, structure_report

    if plan.support is None and plan.site.wind_speed is None and not plan.booms:
        return ()
    try:
        return (structure_report(structure_plan(plan), most_rows=_LINES),)
    except PlanError as error:
        return (refused_report("structure", error),)


def shown_permits(plan: Plan, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Hold the plan against the rules and draw it in the colours of print.

    Returns
    -------
    tuple of ShownSubject
        one chapter; none when the plan says nothing of its surroundings
    """
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.report.permits.pictures import show_permits

    if plan.permits is None:
        return ()
    try:
        found = permit_plan(plan)
    except PlanError as error:
        return (_refused("Permits", error),)
    return (show_permits(found, palette=PRINT_PALETTE, system=system, width=_WIDTH),)


def _refused(title: str, error: PlanError) -> ShownSubject:
    from boomwright.charts import ShownSubject

    return ShownSubject(
        title=title,
        facts=(("Not checked", "the plan contradicts itself; see the notices"),),
        pictures=(),
        tables=(),
        notices=tuple(
            Notice(
                code=f"{title.lower()}.refused",
                text=f"{fault.message}; {fault.remedy}",
                severity="doubt",
                value=fault.path,
            )
            for fault in error.faults
        ),
    )
