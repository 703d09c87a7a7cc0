"""What the page needs from outside to improve a beam; part of its tools."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.app.improve import SearchProgress
    from boomwright.app.improve_desk import FoundBeam
    from boomwright.base import UnitSystem
    from boomwright.figures import Palette, ShownPicture
    from boomwright.plan.model import Plan


class ImproveTools(Protocol):
    """Searching a better beam, and reading what can be reached."""

    def improve(
        self, text: str, *, system: UnitSystem, on_progress: Callable[[SearchProgress], bool]
    ) -> FoundBeam:
        """Search the best beam for the plan's wishes.

        Parameters
        ----------
        text
            the plan as it stands [-]
        system
            units of lengths [-]
        on_progress
            told how far it is; False stops it and keeps the best so far [-]

        Returns
        -------
        FoundBeam
            the beam, not yet taken [-]

        Raises
        ------
        BoomwrightError
            when the wishes contradict themselves or nothing was found before it was stopped
        """
        ...

    def trade_off(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownPicture:
        """Draw what as many elements as a beam has can reach on its band.

        Parameters
        ----------
        plan
            the plan [-]
        number
            number of the beam, from 0 [-]
        system
            units of lengths [-]
        palette
            colours [-]
        width
            width of the picture [user units]

        Returns
        -------
        ShownPicture
            the picture [-]

        Raises
        ------
        BoomwrightError
            when the shipped table does not reach there
        """
        ...

    def take_trade_off(self, text: str, *, beam: int, curve: int, number: int) -> str:
        """Put a design of the trade-off into the plan, for the owner's own tubing.

        Parameters
        ----------
        text
            the plan as it stands [-]
        beam
            number of the beam, from 0 [-]
        curve, number
            curve of the picture and point along it, from 0 [-]

        Returns
        -------
        str
            the new plan [-]

        Raises
        ------
        PlanError
            when there is no such point, or the tubes cannot be pulled that far
        """
        ...
