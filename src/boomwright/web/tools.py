"""What the page needs from outside: one protocol, filled in where the program is wired."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Protocol

from boomwright.web.improve_tools import ImproveTools

if TYPE_CHECKING:
    from boomwright.app.lessons import LessonStep
    from boomwright.base import UnitSystem
    from boomwright.figures import Palette, ShownSubject
    from boomwright.figures.blocks import WorkSheet
    from boomwright.parts import Beam
    from boomwright.plan.model import Plan
    from boomwright.reach import BeamReadings, QuickLook, WavePicture
    from boomwright.solver import Ground


class Tools(ImproveTools, Protocol):
    """Everything the page calls that reads text, computes, makes files or touches the disk."""

    def read_plan(self, text: str) -> Plan:
        """Read a plan.

        Parameters
        ----------
        text
            the plan file [-]

        Returns
        -------
        Plan
            the plan [-]

        Raises
        ------
        PlanError
            with every fault found
        """
        ...

    def rewrite(self, text: str, changes: Mapping[str, str | float]) -> str:
        """Change values in the text, comments kept.

        Parameters
        ----------
        text
            the plan file [-]
        changes
            new value by dotted place: text as it is, or a number that is written in the
            unit the owner used there [SI]

        Returns
        -------
        str
            the new plan file [-]

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
        text
            the plan file [-]
        beam
            number of the beam, from 0 [-]
        element
            number of the element in its beam, from 0 [-]
        length
            new length from tip to tip [m]

        Returns
        -------
        str
            the new plan file [-]

        Raises
        ------
        PlanError
            when the element cannot take that length
        """
        ...

    def quick_look(self, *, beam: Beam, ground: Ground, frequency: float) -> QuickLook:
        """Compute the figures that follow a drag; error bands may be those of the last pause.

        Parameters
        ----------
        beam
            the beam [-]
        ground
            the ground below it [-]
        frequency
            frequency [Hz]

        Returns
        -------
        QuickLook
            the figures and patterns at that frequency [-]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def compute(self, *, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band.

        Parameters
        ----------
        beam
            the beam [-]
        ground
            the ground below it [-]

        Returns
        -------
        BeamReadings
            all readings [-]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def waves(self, *, beam: Beam, ground: Ground, frequency: float) -> WavePicture:
        """Compute the wave around a beam.

        Parameters
        ----------
        beam
            the beam [-]
        ground
            the ground below it [-]
        frequency
            frequency [Hz]

        Returns
        -------
        WavePicture
            the wave, element by element [-]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def feed(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Solve and draw the feed of one beam.

        Parameters
        ----------
        plan
            the plan [-]
        number
            number of the beam, from 0 [-]
        system
            units of lengths [-]
        palette
            colours of the pictures [-]
        width
            their width [user units]

        Returns
        -------
        ShownSubject
            facts, pictures, tables and notices [-]

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
        plan
            the plan [-]
        end
            ``feed-point`` or ``shack`` [-]

        Returns
        -------
        bytes
            a Touchstone file [-]

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
        plan
            the plan [-]
        number
            number of the beam, from 0 [-]
        system
            units of lengths [-]
        palette
            colours of the pictures [-]
        width
            their width [user units]

        Returns
        -------
        ShownSubject
            facts, pictures, tables and notices [-]

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
        plan
            the plan [-]
        number
            number of the beam looked at, from 0 [-]
        system
            units shown [-]
        palette
            colours [-]
        width
            width of the pictures [user units]

        Returns
        -------
        ShownSubject
            what to show, with changes offered for weak elements [-]

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
        text
            the plan file [-]
        beam
            number of the beam, from 0 [-]
        element
            number of the element, from 0 [-]
        number
            number of the fix among those offered for it, from 0 [-]

        Returns
        -------
        str
            the new plan file [-]

        Raises
        ------
        PlanError
            when that fix is not offered for the plan as it is
        """
        ...

    def work(
        self, plan: Plan, *, subject: str, number: int, system: UnitSystem, palette: Palette
    ) -> WorkSheet:
        """Make a work sheet.

        Parameters
        ----------
        plan
            the plan [-]
        subject
            ``cost``, ``build`` or ``raising`` [-]
        number
            number of the beam looked at, from 0 [-]
        system
            units shown first [-]
        palette
            colours [-]

        Returns
        -------
        WorkSheet
            blocks and notices [-]

        Raises
        ------
        BoomwrightError
            when the price list has faults or values of the plan contradict each other
        """
        ...

    def work_files(self, plan: Plan) -> bytes:
        """Put all workshop drawings, the beam in 3D and the calendar into one archive.

        Parameters
        ----------
        plan
            the plan [-]

        Returns
        -------
        bytes
            a ZIP file [-]

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        ...

    def permits(
        self, plan: Plan, *, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Hold the plan against the rules and draw what was found.

        Parameters
        ----------
        plan
            the plan [-]
        system
            units shown [-]
        palette
            colours [-]
        width
            width of the pictures [user units]

        Returns
        -------
        ShownSubject
            what to show [-]

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        ...

    def tuning(
        self, plan: Plan, *, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Read the measured sweeps of the plan and draw what they say.

        Parameters
        ----------
        plan
            the plan [-]
        system
            unit of the advice that stands first [-]
        palette
            colours of the pictures [-]
        width
            their width [user units]

        Returns
        -------
        ShownSubject
            facts, pictures, tables and notices [-]

        Raises
        ------
        BoomwrightError
            when the plan names no sweep, or it cannot be read or used
        """
        ...

    def make_book(self, plan: Plan) -> bytes:
        """Make the book.

        Parameters
        ----------
        plan
            the plan [-]

        Returns
        -------
        bytes
            a PDF file [-]
        """
        ...

    def cut_list_csv(self, plan: Plan) -> bytes:
        """Make the cut list.

        Parameters
        ----------
        plan
            the plan [-]

        Returns
        -------
        bytes
            a CSV file [-]
        """
        ...

    def plan_view_dxf(self, plan: Plan) -> bytes:
        """Make the plan view as a drawing file.

        Parameters
        ----------
        plan
            the plan [-]

        Returns
        -------
        bytes
            a DXF file [-]
        """
        ...

    def load(self) -> str:
        """Read the plan file again.

        Returns
        -------
        str
            what is in the file now [-]

        Raises
        ------
        OSError
            when it cannot be read
        """
        ...

    def save(self, text: str, *, expected: str) -> datetime:
        """Replace the plan file, atomically, keeping the previous one.

        Parameters
        ----------
        text
            new content [-]
        expected
            content the file must still have [-]

        Returns
        -------
        datetime
            local time of the write [-]

        Raises
        ------
        SaveConflictError
            when the file holds something else; nothing is written then
        OSError
            when it cannot be written
        """
        ...

    def keep_draft(self, text: str) -> None:
        """Keep a plan that cannot go to its file beside it.

        Parameters
        ----------
        text
            the plan on the desk [-]

        Raises
        ------
        OSError
            when it cannot be written
        """
        ...

    def take_step(self, text: str, step: LessonStep) -> str:
        """Do to a lesson's plan what a step's button does.

        Parameters
        ----------
        text
            the plan as it stands [-]
        step
            the step [-]

        Returns
        -------
        str
            the new plan [-]

        Raises
        ------
        PlanError
            when a place of the step is gone
        """
        ...
