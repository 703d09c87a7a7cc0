"""What the live page may ask about structure and permits of the plan on the desk."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from boomwright import plan as plans
from boomwright.base import Fault, PlanError, PlanVerdict, UnitSystem
from boomwright.plan import Plan
from boomwright.session.files import ClosedFolder
from boomwright.solver import Preparer
from boomwright.study.element_fixes import fix_offers, take_fix
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan
from boomwright.study.verdict import judge_plan

if TYPE_CHECKING:
    from boomwright.charts import Palette, ShownSubject


class StructureDesk:
    """Structure and permits for the desk; a part of ``DeskTools``."""

    _prepare: Preparer
    _path: Path

    def judge(self, plan: Plan) -> PlanVerdict:
        """Roll up what every room finds about the plan."""
        return judge_plan(plan, folder=ClosedFolder(self._path.parent), prepare=self._prepare)

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
        from boomwright.report.structure.pictures import show_structure

        found = structure_plan(plan, prepare=self._prepare)
        return show_structure(found, number=number, palette=palette, system=system, width=width)

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
        from boomwright.plan.resolve import structure_inputs

        plan = plans.read_plan(text)
        place = f"beam[{beam}].element[{element}]"
        known = beam < len(plan.beams) and element < len(plan.beams[beam].elements)
        offers = (
            fix_offers(
                plan=plan,
                inputs=structure_inputs(plan),
                beam=beam,
                element=element,
                prepare=self._prepare,
            )
            if known
            else ()
        )
        if number >= len(offers):
            fault = Fault(
                path=place,
                message="this fix is no longer offered",
                remedy="look at the list again; the plan was changed meanwhile",
            )
            raise PlanError((fault,))
        return take_fix(text, offers[number])

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
        from boomwright.report.permits.pictures import show_permits

        found = permit_plan(plan, prepare=self._prepare)
        return show_permits(found, palette=palette, system=system, width=width)
