"""What the page needs from outside to read, change and keep a plan; part of its tools."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.plan.model import Plan
    from boomwright.session.lessons import LessonStep


class PlanTools(Protocol):
    """Reading and changing the text of a plan, and its file."""

    def read_plan(self, text: str) -> Plan:
        """Read a plan.

        Raises
        ------
        PlanError
            with every fault found
        """
        ...

    def rewrite(self, text: str, changes: Mapping[str, object]) -> str:
        """Change values in the text, comments kept.

        Parameters
        ----------
        changes
            new value by dotted place: text as it is, a number that is written in the unit the
            owner used there, a list, a table to append, or None to take it out [SI]

        Raises
        ------
        PlanError
            when a place does not exist
        """
        ...

    def set_element_length(self, text: str, *, beam: int, element: int, length: float) -> str:
        """Change the tip-to-tip length of an element, in the form its plan gives it.

        Parameters
        ----------
        beam
            number of the beam, from 0
        element
            number of the element in its beam, from 0
        length
            new length from tip to tip [m]

        Raises
        ------
        PlanError
            when the element cannot take that length
        """
        ...

    def take_step(self, text: str, step: LessonStep) -> str:
        """Do to a lesson's plan what a step's button does.

        Raises
        ------
        PlanError
            when a place of the step is gone
        """
        ...

    def load(self) -> str:
        """Read the plan file again.

        Raises
        ------
        FileRefusedError
            when something else than a plan file has its name
        OSError
            when it cannot be read
        """
        ...

    def save(self, text: str, *, expected: str | None, aside: bool) -> datetime:
        """Replace the plan file, atomically, keeping the previous one.

        Parameters
        ----------
        expected
            content the file must still have; None when there must be none
        aside
            whether the previous one is somebody else's, and kept under a name of its own

        Raises
        ------
        SaveConflictError
            when the file holds something else; nothing is written then
        FileRefusedError
            when something else than a plan file has its name
        OSError
            when it cannot be written
        """
        ...

    def keep_draft(self, text: str) -> str:
        """Keep a plan that cannot go to its file elsewhere.

        Returns
        -------
        str
            path of the file it is kept in; empty when nothing can be written at all
        """
        ...

    def keep_history(self, text: str) -> None:
        """Keep what can be undone, so that it outlives the program; it may fail silently."""
        ...

    def load_history(self) -> str:
        """Read back what was kept of the past of this plan.

        Returns
        -------
        str
            the history, or empty
        """
        ...
