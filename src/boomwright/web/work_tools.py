"""What the page needs from outside for the workshop; part of its tools."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.charts import Palette
    from boomwright.charts.blocks import WorkSheet
    from boomwright.plan.model import Plan

#: told the share done before a step and what it does; it may raise to stop the making
OnStep = Callable[[float, str], None]


class WorkTools(Protocol):
    """Work sheets, and the files that are taken away."""

    def work(
        self, plan: Plan, *, subject: str, number: int, system: UnitSystem, palette: Palette
    ) -> WorkSheet:
        """Make a work sheet.

        Parameters
        ----------
        subject
            ``cost``, ``build`` or ``raising``
        number
            number of the beam looked at, from 0
        system
            units shown first

        Raises
        ------
        BoomwrightError
            when the price list has faults or values of the plan contradict each other
        """
        ...

    def work_files(self, plan: Plan) -> bytes:
        """Put all workshop drawings, the beam in 3D and the calendar into one archive.

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        ...

    def make_book(self, plan: Plan, *, on_step: OnStep) -> bytes:
        """Make the book.

        Parameters
        ----------
        on_step
            told the share done and what comes next; what it raises stops the making
        """
        ...

    def cut_list_csv(self, plan: Plan) -> bytes:
        """Make the cut list."""
        ...

    def plan_view_dxf(self, plan: Plan) -> bytes:
        """Make the plan view as a drawing file."""
        ...
