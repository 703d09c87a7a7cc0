"""What the page needs from outside to show a subject of the plan; part of its tools."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.base import PlanVerdict, UnitSystem
    from boomwright.charts import Palette, ShownSubject
    from boomwright.plan.model import Plan


class SubjectTools(Protocol):
    """Feed, reach, structure, permits and tuning, computed and drawn; the verdict of all."""

    def judge(self, plan: Plan) -> PlanVerdict:
        """Roll up what every room finds about the plan."""
        ...

    def feed(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Solve and draw the feed of one beam.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            their width [user units]

        Raises
        ------
        BoomwrightError
            when the beam itself cannot be solved
        """
        ...

    def feed_touchstone(self, plan: Plan, *, end: str) -> bytes:
        """Write one end of the first beam's line as a one-port file.

        Parameters
        ----------
        end
            ``feed-point`` or ``shack``

        Raises
        ------
        BoomwrightError
            when the beam cannot be solved or has no such end
        """
        ...

    def reach(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Compute and draw what reach says about one beam.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            their width [user units]

        Raises
        ------
        BoomwrightError
            in free space, or when a file or a geometry is refused
        """
        ...

    def structure(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Check the structure and draw what was found.

        Parameters
        ----------
        number
            number of the beam looked at, from 0
        width
            width of the pictures [user units]

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        ...

    def take_fix(self, text: str, *, beam: int, element: int, number: int) -> str:
        """Write a fix of a weak element into the plan.

        Parameters
        ----------
        beam
            number of the beam, from 0
        element
            number of the element, from 0
        number
            number of the fix among those offered for it, from 0

        Raises
        ------
        PlanError
            when that fix is not offered for the plan as it is
        """
        ...

    def permits(
        self, plan: Plan, *, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Hold the plan against the rules and draw what was found.

        Parameters
        ----------
        width
            width of the pictures [user units]

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        ...

    def tuning(
        self, plan: Plan, *, faults: bool, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Read the measured sweeps of the plan and draw what they say.

        Parameters
        ----------
        faults
            whether to look for a fault too, which takes some seconds more
        system
            unit of the advice that stands first
        width
            their width [user units]

        Raises
        ------
        BoomwrightError
            when the plan names no sweep, or it cannot be read or used
        """
        ...
