"""Reach as the book takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.app.files import Folder
from boomwright.app.reach import reach_plan
from boomwright.app.reach_results import ReachResult
from boomwright.base import UnitSystem
from boomwright.plan import Plan

if TYPE_CHECKING:
    from boomwright.figures import ShownSubject


def shown_reach(result: ReachResult, *, system: UnitSystem) -> tuple[ShownSubject, ...]:
    """Draw what reach says of every beam in the colours of print."""
    from boomwright.app.reach_pictures import show_reach
    from boomwright.book.pictures import PRINT_PALETTE

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
