"""What the live page may do to one plan file, wired to the rooms and the disk."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from boomwright import plan as plans
from boomwright import reach
from boomwright.base import BoomwrightError, UnitSystem
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.reach import Known
from boomwright.session.book_desk import BookDesk
from boomwright.session.files import draft_path, found_text, save_text
from boomwright.session.improve_desk import ImproveDesk
from boomwright.session.lessons import LessonStep, take_step
from boomwright.session.making import Paper
from boomwright.session.memory import Memory
from boomwright.session.structure_desk import StructureDesk
from boomwright.session.tuning_desk import TuningDesk
from boomwright.session.work_desk import WorkDesk
from boomwright.solver import Preparer, prepare_run
from boomwright.study.computing import compute
from boomwright.study.verdict import build_stamp

if TYPE_CHECKING:
    from boomwright.reach import BeamReadings, QuickLook, WavePicture
    from boomwright.solver import Ground
    from boomwright.study.feed_results import FeedResult
    from boomwright.study.reach_results import ReachResult

#: prepared runs of wire kept; a beam of six elements needs a dozen
_REMEMBERED = 128


class DeskTools(BookDesk, StructureDesk, WorkDesk, ImproveDesk, TuningDesk):
    """The live page's hands: everything it reads, computes, makes or saves goes through here.

    Parameters
    ----------
    path
        the plan file
    system
        units of lengths in the book
    paper
        paper of the book
    memory
        what is remembered between runs; None remembers nothing
    """

    def __init__(
        self,
        path: Path,
        *,
        system: UnitSystem = "metric",
        paper: Paper = "a4",
        memory: Memory | None = None,
    ) -> None:
        self._path = path
        self._memory = memory
        self._system = system
        self._paper = paper
        # A drag along the boom changes no element, and one of a length changes one: what was
        # prepared for the others still holds. The number bounds memory over a day's dragging.
        self._prepare: Preparer = lru_cache(maxsize=_REMEMBERED)(prepare_run)
        self._reach: ReachResult | None = None
        self._feed: FeedResult | None = None
        self._bands: dict[tuple[str, float], Known] = {}

    def read_plan(self, text: str) -> Plan:
        """Read a plan.

        Raises
        ------
        PlanError
            with every fault found
        """
        return plans.read_plan(text, source=self._path.name)

    def rewrite(self, text: str, changes: Mapping[str, object]) -> str:
        """Change values in the text, comments kept.

        Parameters
        ----------
        changes
            new value by dotted place: text as it is, a number in SI [SI]

        Raises
        ------
        PlanError
            when a place does not exist
        """
        return plans.rewrite(text, changes)

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
        return plans.set_element_length(text, beam, element, length)

    def quick_look(self, *, beam: Beam, ground: Ground, frequency: float) -> QuickLook:
        """Compute the figures that follow a drag.

        Their error bands are those of the last look at that frequency, or of the last whole
        computation, which comes when the hand pauses.

        Parameters
        ----------
        frequency
            frequency [Hz]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        look = reach.quick_look(
            beam=beam,
            ground=ground,
            frequency=frequency,
            previous=self._bands.get((beam.name, frequency)),
            prepare=self._prepare,
        )
        # Bands found for one moment are carried over to the next, never those carried over.
        if (beam.name, frequency) not in self._bands:
            self._bands[beam.name, frequency] = Known(
                point=look.point,
                over_ground=look.over_ground,
                feeds=reach.idle_feeds(beam=beam),
            )
        return look

    def compute(self, *, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band.

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        site = plans.Site(ground=ground)
        plan = Plan(title="", site=site, beams=(beam,))
        readings = compute(plan, prepare=self._prepare).beams[0]
        # At another frequency than the design frequency the next look finds its band anew.
        self._bands = {
            (beam.name, beam.design_frequency): Known(
                point=readings.free_space,
                over_ground=readings.over_ground,
                feeds=reach.idle_feeds(beam=beam),
            )
        }
        return readings

    def waves(self, *, beam: Beam, ground: Ground, frequency: float) -> WavePicture:
        """Compute the wave around a beam.

        Parameters
        ----------
        frequency
            frequency [Hz]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        return reach.wave_picture(
            beam=beam, ground=ground, frequency=frequency, prepare=self._prepare
        )

    def cut_list_csv(self, plan: Plan) -> bytes:
        """Make the cut list of the first beam."""
        from boomwright.export.cut_list_table import cut_list_csv

        beam = plan.beams[0]
        return cut_list_csv(
            beam=beam, boom=plan.boom_of(beam.name), stamp=build_stamp(plan, system=self._system)
        )

    def plan_view_dxf(self, plan: Plan) -> bytes:
        """Make the plan view of the first beam as a drawing file."""
        from boomwright.export.plan_drawing import plan_view_dxf

        beam = plan.beams[0]
        return plan_view_dxf(
            beam=beam, boom=plan.boom_of(beam.name), stamp=build_stamp(plan, system=self._system)
        )

    def save(self, text: str, *, expected: str | None, aside: bool = False) -> datetime:
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
        if expected is None:
            # Its folder may have gone with it.
            self._path.parent.mkdir(parents=True, exist_ok=True)
        return save_text(self._path, text, expected=expected, aside=aside)

    def keep_draft(self, text: str) -> str:
        """Keep a plan that cannot go to its file, beside it or else in the program's own folder.

        Returns
        -------
        str
            path of the file it is kept in; empty when nothing can be written at all
        """
        named = [draft_path] if self._memory is None else [draft_path, self._memory.draft_path]
        for name in named:
            try:
                place = name(self._path)
                found = found_text(place)
                if found != text:
                    save_text(place, text, expected=found)
            except (BoomwrightError, OSError):
                continue
            return str(place)
        return ""

    def take_step(self, text: str, step: LessonStep) -> str:
        """Do to a lesson's plan what a step's button does.

        Raises
        ------
        PlanError
            when the plan was changed so much that a place of the step is gone
        """
        return take_step(text, step)

    def keep_history(self, text: str) -> None:
        """Keep what can be undone, so that it outlives the program."""
        if self._memory is not None:
            self._memory.keep_history(self._path, text)

    def load_history(self) -> str:
        """Read back what was kept of the past of this plan.

        Returns
        -------
        str
            the history, or empty
        """
        return self._memory.load_history(self._path) if self._memory is not None else ""
