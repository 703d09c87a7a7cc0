"""Reach as the book takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.plan import Plan
from boomwright.session.files import Folder
from boomwright.study.reach import reach_plan
from boomwright.study.reach_results import ReachResult

if TYPE_CHECKING:
    from boomwright.charts import ShownSubject


def shown_reach(result: ReachResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what reach says of every beam in the colours of print."""
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.report.reach.pictures import show_reach

    return tuple(
        show_reach(
            result,
            number=number,
            palette=PRINT_PALETTE,
            system=system,
            together=number == 0,
        )
        for number in range(len(result.beams))
    )


def reach_for_book(plan: Plan, *, folder: Folder | None) -> ReachResult | None:
    """Compute reach where the plan has a ground.

    Returns
    -------
    ReachResult or None
        None in free space

    Raises
    ------
    BoomwrightError
        when a file or a geometry is refused
    """
    if plan.site.ground.kind == "free space":
        return None
    return reach_plan(plan, folder=folder)
