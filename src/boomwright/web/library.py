"""The other plans the page may open, and how new ones come about; filled in by the app."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.app.lessons import Lesson
    from boomwright.app.plan_library import Candidate, PlanFile
    from boomwright.app.starting import Wishes
    from boomwright.parts import Beam
    from boomwright.plan.model import Plan
    from boomwright.reach import BeamReadings
    from boomwright.solver import Ground
    from boomwright.web.tools import Tools


class Library(Protocol):
    """The other plans of the folder, the lessons, and plans from wishes."""

    @property
    def folder_name(self) -> str:
        """Name of the folder, without what leads to it [-]."""
        ...

    def plans(self) -> tuple[PlanFile, ...]:
        """List the plans of the folder, the last changed first [-]."""
        ...

    def open(self, name: str) -> tuple[Tools, str]:
        """Open a plan of the folder: its tools and its text [-]."""
        ...

    def read(self, name: str) -> Plan:
        """Read a plan of the folder [-]."""
        ...

    def save_as(self, name: str, text: str) -> str:
        """Write a plan under a new name, and give the whole name [-]."""
        ...

    def lessons(self) -> tuple[Lesson, ...]:
        """Give all lessons [-]."""
        ...

    def open_lesson(self, name: str) -> tuple[Tools, Lesson]:
        """Begin a lesson: tools that keep its plan in memory, and the lesson [-]."""
        ...

    def candidates(self, wishes: Wishes) -> Iterator[Candidate]:
        """Make plans that meet wishes, one after the other [-]."""
        ...

    def readings(self, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band of a beam that is not on the desk [-]."""
        ...

    def keep_sweep(self, name: str, content: bytes) -> str:
        """Put a measured sweep into the folder, and say what it holds [-]."""
        ...
