"""What the live page may do to find a better beam: search, read the trade-off, take a point."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.charts.shown import ShownSubject
from boomwright.charts.tables import ReadingTable
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import wished_beam
from boomwright.render.json.improve import (
    compared_document,
    improve_document,
    tolerance_document,
)
from boomwright.render.laid import lay_out
from boomwright.render.rows import text_table
from boomwright.report.improve import improve_report
from boomwright.report.model import Canvas
from boomwright.session.files import ClosedFolder
from boomwright.session.improve_checkpoint import checkpoint_path
from boomwright.session.improve_clock import SearchProgress
from boomwright.session.improve_record import find_record, keep_found, keep_record
from boomwright.session.improve_resume import broken_off
from boomwright.session.search_workers import usual_workers
from boomwright.session.trade_off_desk import TradeOffDesk
from boomwright.solver import Preparer
from boomwright.study.improve import (
    USUAL_STARTS,
    ImproveResult,
    compare_plan,
    improve_plan,
    tolerate_plan,
)
from boomwright.study.starting import RequestError

if TYPE_CHECKING:
    from boomwright.charts import Palette


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundBeam:
    """A better beam, ready to be looked at and taken."""

    text: str  #: the plan with the beam in it
    words: str  #: how the search went
    figures: ReadingTable  #: worst figures before and after
    elements: ReadingTable  #: places and lengths before and after
    notices: tuple[str, ...]  #: doubts and limits not kept (n_notices,)


class ImproveDesk(TradeOffDesk):
    """The part of the live page's hands that improves a beam."""

    _prepare: Preparer
    _path: Path

    def improve(
        self,
        text: str,
        *,
        system: UnitSystem,
        resume: bool,
        on_progress: Callable[[SearchProgress], bool],
    ) -> FoundBeam:
        """Search the best beam for the plan's wishes, in processes of their own.

        The search is kept beside the plan as it goes, as the command keeps it.

        Parameters
        ----------
        on_progress
            told how far it is; False stops it and keeps the best so far

        Raises
        ------
        BoomwrightError
            when the wishes contradict themselves or nothing was found before it was stopped
        """
        plan = read_plan(text)
        before = broken_off(plan, path=self._path) if resume else None
        if resume and before is None:
            message = "no search for this beam and these wishes was broken off -> search anew"
            raise RequestError(message)
        result = improve_plan(
            plan,
            text=text,
            seed=0 if before is None else before.seed,
            starts=USUAL_STARTS if before is None else before.starts,
            folder=ClosedFolder(self._path.parent),
            workers=_workers(),
            checkpoint=checkpoint_path(self._path),
            resume=resume,
            on_progress=on_progress,
        )
        # A full disk takes nothing from the result; only the book will not tell of it.
        with suppress(OSError):
            keep_found(self._path, result)
        return _found(result, system=system)

    def unfinished(self, plan: Plan) -> str:
        """Say whether a search for the plan as it stands was broken off.

        Returns
        -------
        str
            how far it had come; empty when there is none
        """
        found = broken_off(plan, path=self._path)
        if found is None:
            return ""
        best = found.best_gain_dbi
        told = "" if best is None else f", the best with {best:.2f} dBi"
        return f"A search for these wishes was broken off after {found.climbed} starts{told}."

    def compare_spacings(
        self,
        plan: Plan,
        *,
        on_progress: Callable[[SearchProgress], bool],
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
        compared = compare_plan(
            plan,
            folder=ClosedFolder(self._path.parent),
            workers=_workers(),
            on_progress=on_progress,
        )
        if compared:
            found = {"compared": [compared_document(one) for one in compared]}
            keep_record(self._path, wished_beam(plan), found)

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
        made = tolerate_plan(plan, number=number, on_progress=on_progress)
        if made is not None:
            found = {"tolerance": tolerance_document(made)}
            keep_record(self._path, plan.beams[number], found)

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
        beam = plan.beams[number]
        kept = find_record(self._path, beam)
        if not kept:
            return None
        canvas = Canvas(palette=palette, system=system, width=width)
        return lay_out(improve_report(kept, name=beam.name), canvas=canvas)


def _workers() -> int:
    """Two processes at least: a search within this one would hold up every drag."""
    return max(2, usual_workers() - 1)


def _found(result: ImproveResult, *, system: UnitSystem) -> FoundBeam:
    best = result.best
    ended = "finished" if result.finished else "stopped early, best so far"
    report = improve_report({"search": improve_document(result)}, name=result.before.name)
    return FoundBeam(
        text=result.text,
        words=f"{result.before.name}: {ended} after {best.starts} starts in "
        f"{result.seconds:.0f} s; {best.agreeing} of them ended within 0.02 dB of the best.",
        figures=text_table(report.table("searched"), system=system),
        elements=text_table(report.table("moved"), system=system),
        notices=tuple(f"{notice.severity}: {notice.text}" for notice in result.notices),
    )
