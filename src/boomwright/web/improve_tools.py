"""What the page needs from outside to improve a beam; part of its tools."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.charts import Palette, ShownPicture, ShownSubject
    from boomwright.plan.model import Plan
    from boomwright.session.improve_clock import SearchProgress
    from boomwright.session.improve_desk import FoundBeam


class ImproveTools(Protocol):
    """Searching a better beam, and reading what can be reached."""

    def improve(
        self,
        text: str,
        *,
        system: UnitSystem,
        resume: bool,
        on_progress: Callable[[SearchProgress], bool],
    ) -> FoundBeam:
        """Search the best beam for the plan's wishes.

        Parameters
        ----------
        on_progress
            told how far it is; False stops it and keeps the best so far

        Raises
        ------
        BoomwrightError
            when the wishes contradict themselves or nothing was found before it was stopped
        """
        ...

    def unfinished(self, plan: Plan) -> str:
        """Say whether a search for the plan as it stands was broken off.

        Returns
        -------
        str
            how far it had come; empty when there is none
        """
        ...

    def compare_spacings(
        self, plan: Plan, *, on_progress: Callable[[SearchProgress], bool]
    ) -> None:
        """Search even and free spacing for the plan's wishes; what was found is kept.

        Parameters
        ----------
        on_progress
            told how far it is; False stops it

        Raises
        ------
        BoomwrightError
            when the wishes contradict themselves
        OSError
            when it cannot be kept
        """
        ...

    def tolerate(
        self, plan: Plan, *, number: int, on_progress: Callable[[SearchProgress], bool]
    ) -> None:
        """Find out how finely a beam must be built; what was found is kept.

        Parameters
        ----------
        number
            number of the beam, from 0
        on_progress
            asked whether to go on; False stops it

        Raises
        ------
        BoomwrightError
            when the beam cannot be computed so
        OSError
            when it cannot be kept
        """
        ...

    def found(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject | None:
        """Draw what was found of a beam as it stands.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            width of the pictures [user units]

        Returns
        -------
        ShownSubject or None
            None when nothing was found of it
        """
        ...

    def trade_off(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownPicture:
        """Draw what as many elements as a beam has can reach on its band.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            width of the picture [user units]

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
        beam
            number of the beam, from 0
        curve, number
            curve of the picture and point along it, from 0

        Raises
        ------
        PlanError
            when there is no such point, or the tubes cannot be pulled that far
        """
        ...
