"""The other plans the page may open, and how new ones come about; filled in by the app."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.plan.model import Plan
    from boomwright.plan.model_work import PricesPlan
    from boomwright.reach import BeamReadings
    from boomwright.session.lessons import Lesson
    from boomwright.session.plan_library import PlanFile, RecentFile
    from boomwright.solver import Ground
    from boomwright.study.candidates import Candidate, Choice
    from boomwright.study.starting import Wishes
    from boomwright.web.tools import Tools


class Library(Protocol):
    """The other plans of the folder, the lessons, and plans from wishes."""

    @property
    def folder_name(self) -> str:
        """Name of the folder, without what leads to it."""
        ...

    def plans(self) -> tuple[PlanFile, ...]:
        """List the plans of the folder, the last changed first."""
        ...

    def recent(self) -> tuple[RecentFile, ...]:
        """List plans opened lately that are still there.

        Returns
        -------
        tuple[RecentFile, ...]
            the last opened first; those of other folders with the command that opens them
        """
        ...

    def open(self, name: str) -> tuple[Tools, str]:
        """Open a plan of the folder.

        Raises
        ------
        FileRefusedError
            when the name is none of the folder
        OSError
            when it cannot be read
        """
        ...

    def read(self, name: str) -> Plan:
        """Read a plan of the folder.

        Raises
        ------
        FileRefusedError
            when the name is none of the folder
        PlanError
            when it is no usable plan
        OSError
            when it cannot be read
        """
        ...

    def save_as(self, name: str, text: str) -> str:
        """Write a plan under a new name; an existing file is never touched.

        Raises
        ------
        FileRefusedError
            when there is such a file, or the name is none of the folder
        OSError
            when it cannot be written
        """
        ...

    def lessons(self) -> tuple[Lesson, ...]:
        """Give all lessons."""
        ...

    def open_lesson(self, name: str) -> tuple[Tools, Lesson]:
        """Begin a lesson.

        Raises
        ------
        RequestError
            when there is no such lesson
        """
        ...

    def choices(self, wishes: Wishes, *, prices: PricesPlan | None) -> tuple[Choice, ...]:
        """Choose beams of the frontier that meet a wish.

        Parameters
        ----------
        wishes
            what is wanted; its number of elements is not used
        prices
            currency and price list of the plan on the desk; None when it has none

        Raises
        ------
        RequestError
            when a wish cannot be read or met
        """
        ...

    def work_out(self, choice: Choice, *, wishes: Wishes) -> Candidate:
        """Make the plan of a chosen beam.

        Raises
        ------
        BoomwrightError
            when it cannot be made of usual tubes
        """
        ...

    def readings(self, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band of a beam that is not on the desk.

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def keep_sweep(self, name: str, content: bytes) -> str:
        """Put a measured sweep into the folder; an existing file is never touched.

        Raises
        ------
        FileRefusedError
            when the name is none of the folder or there is such a file
        MeasurementError
            when it holds no sweep
        OSError
            when it cannot be written
        """
        ...
