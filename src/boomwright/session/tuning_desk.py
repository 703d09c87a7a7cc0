"""What the live page may ask about the tuning of the plan on the desk."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.plan import Plan
from boomwright.session.files import ClosedFolder
from boomwright.study.tuning import tune_plan, with_fault
from boomwright.study.tuning_results import TuneResult

if TYPE_CHECKING:
    from boomwright.charts import Palette, ShownSubject


class TuningDesk:
    """Tuning for the desk; a part of ``DeskTools``."""

    _path: Path
    _tuned: TuneResult | None = None

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
        from boomwright.report.tuning.shown import show_tuning

        tuned = self._tuned
        if not faults or tuned is None or tuned.plan is not plan:
            tuned = tune_plan(plan, folder=ClosedFolder(self._path.parent))
        result = self._tuned = with_fault(tuned) if faults else tuned
        return show_tuning(result, palette=palette, system=system, width=width)
