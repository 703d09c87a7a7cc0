"""One plan file and everything that can be asked of its plan, for whoever works on it live.

Studies compute, reports tell; here they get the disk, the processes and what was computed before.
"""

from __future__ import annotations

import io
import shutil
import weakref
import zipfile
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from tempfile import mkdtemp
from typing import TYPE_CHECKING

from boomwright import reach
from boomwright.base import (
    BoomwrightError,
    Fault,
    PlanError,
    PlanVerdict,
    UnitSystem,
    written_notices,
)
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.plan import Plan, Site, read_plan
from boomwright.plan.resolve import structure_inputs, wished_beam
from boomwright.plan.resolve.tuning import written_moves
from boomwright.reach import Known
from boomwright.report.chapter import Part
from boomwright.session.book import OnStep, Paper, book_of, unwatched
from boomwright.session.files import (
    PlanFolder,
    day_of_today,
    draft_path,
    found_text,
    load_text,
    save_text,
    text_digest,
)
from boomwright.session.giving_way import GivingWay
from boomwright.session.lessons import Lesson
from boomwright.session.price_list import OwnPriceList
from boomwright.session.search import (
    OnProgress,
    broken_off,
    find_tolerance,
    search_beam,
    search_spacings,
)
from boomwright.session.search_records import keep_found, keep_record, shown_record
from boomwright.session.search_workers import usual_workers
from boomwright.session.ticks import keep_tick, load_ticks
from boomwright.session.user_state import UserState
from boomwright.solver import remembering, watched
from boomwright.study.adopting import written_match
from boomwright.study.as_measured import measure_beam
from boomwright.study.computing import compute
from boomwright.study.cost import price_plan
from boomwright.study.element_fixes import fix_offers, take_fix
from boomwright.study.feed import feed_plan, feed_touchstone
from boomwright.study.improve import USUAL_STARTS, ImproveResult, targets_for
from boomwright.study.permits import permit_plan
from boomwright.study.raising import raise_plan
from boomwright.study.reach import reach_plan
from boomwright.study.requests import RequestError
from boomwright.study.structure import structure_plan
from boomwright.study.tuning import tune_plan, with_fault
from boomwright.study.verdict import build_stamp, judge_plan

if TYPE_CHECKING:
    from boomwright.charts import ReadingTable, ShownPicture, ShownSubject
    from boomwright.charts.blocks import WorkSheet
    from boomwright.reach import BeamReadings, QuickLook, WavePicture
    from boomwright.report.model import Canvas, Report
    from boomwright.solver import Ground
    from boomwright.study.feed_parts.results import AsMeasured, FeedResult, NotMeasured
    from boomwright.study.reach_parts.results import ReachResult
    from boomwright.study.tuning_parts.results import TuneResult
    from boomwright.study.weighing import WeighedPlan

#: prepared runs of wire kept; a beam of six elements needs a dozen
_REMEMBERED = 128
#: bars of margins in one picture of the page: the first picture is seen at once
_MARGINS_A_PICTURE = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class BetterBeam:
    """A better beam, ready to be looked at and taken."""

    text: str  #: the plan with the beam in it
    words: str  #: how the search went
    figures: ReadingTable  #: worst figures before and after
    elements: ReadingTable  #: places and lengths before and after
    notices: tuple[str, ...]  #: doubts and limits not kept (n_notices,)


class PlanSession:
    """A plan file: kept, computed, told and made into files.

    Results belong to a ``Plan`` object, and the last one of each subject is kept: other units or
    colours then only draw anew. Files that a plan names are read from its folder only.

    Args:
        path: the plan file
        system: units of lengths in the book
        paper: paper of the book
        state: what is remembered between runs; None remembers nothing
    """

    def __init__(
        self,
        path: Path,
        *,
        system: UnitSystem = "metric",
        paper: Paper = "a4",
        state: UserState | None = None,
    ) -> None:
        self._path = path
        self._files = PlanFolder(path.parent, closed=True)
        #: the owner's price list beside the plan
        self.price_list = OwnPriceList(self._files)
        self._state = state
        self._system = system
        self._paper = paper
        # A drag along the boom changes no element, and one of a length changes one: what was
        # prepared for the others still holds. The number bounds memory over a day's dragging.
        #: lets a thread's work be broken off once a hand has overtaken it
        self.giving_way = GivingWay()
        self._prepare = watched(remembering(most=_REMEMBERED), before=self.giving_way)
        self._reach: ReachResult | None = None
        self._feed: FeedResult | None = None
        self._tuned: TuneResult | None = None
        self._bands: dict[tuple[str, float], Known] = {}

    # The file.

    def load(self) -> str:
        """Read the plan file again.

        Raises:
            FileRefusedError: when something else than a plan file has its name
            OSError: when it cannot be read
        """
        return load_text(self._path)

    def save(self, text: str, *, expected: str | None, aside: bool = False) -> datetime:
        """Replace the plan file, atomically, keeping the previous one.

        Args:
            expected: content the file must still have; None when there must be none
            aside: whether the previous one is somebody else's, and kept under a name of its own

        Raises:
            SaveConflictError: when the file holds something else; nothing is written then
            FileRefusedError: when something else than a plan file has its name
            OSError: when it cannot be written
        """
        if expected is None:
            # Its folder may have gone with it.
            self._path.parent.mkdir(parents=True, exist_ok=True)
        return save_text(self._path, text, expected=expected, aside=aside)

    def keep_draft(self, text: str) -> str:
        """Keep a plan that cannot go to its file, beside it or else in the program's own folder.

        Returns:
            path of the file it is kept in; empty when nothing can be written at all
        """
        named = [draft_path] if self._state is None else [draft_path, self._state.draft_path]
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

    def keep_history(self, text: str) -> None:
        """Keep what can be undone, so that it outlives the program; it may fail silently."""
        if self._state is not None:
            self._state.keep_history(self._path, text)

    def load_history(self) -> str:
        """Read back what was kept of the past of this plan; empty when nothing was."""
        return self._state.load_history(self._path) if self._state is not None else ""

    def ticks(self) -> dict[str, str]:
        """Read what is ticked off of the work: the day by what was done."""
        return load_ticks(self._path)

    def tick(self, what: str, *, done: bool) -> None:
        """Tick something off, or take the tick back; it is kept beside the plan.

        Raises:
            OSError: when it cannot be written
        """
        keep_tick(self._path, what, done=done)

    # The beam.

    def quick_look(self, *, beam: Beam, ground: Ground, frequency: float) -> QuickLook:
        """Compute the figures that follow a drag.

        Their error bands are those of the last look at that frequency, or of the last whole
        computation, which comes when the hand pauses.

        Raises:
            SolverError: when the geometry is refused
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

        Raises:
            SolverError: when the geometry is refused
        """
        plan = Plan(title="", site=Site(ground=ground), beams=(beam,))
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

        Raises:
            SolverError: when the geometry is refused
        """
        return reach.wave_picture(
            beam=beam, ground=ground, frequency=frequency, prepare=self._prepare
        )

    # The subjects; ``number`` is that of a beam, from 0. They raise BoomwrightError when values of
    # the plan contradict each other, or a file or a geometry is refused.

    def judge(self, plan: Plan) -> PlanVerdict:
        """Roll up what every room finds about the plan."""
        return judge_plan(plan, files=self._files, prepare=self._prepare)

    def weigh(
        self, before: str, after: str, *, known: WeighedPlan, number: int, canvas: Canvas
    ) -> ShownSubject:
        """Hold a changed plan against the plan as it is, and say what differs.

        Args:
            before, after: texts of the plans
            known: what is known of the plan as it is
            number: number of the beam that is measured, from 0
        """
        from boomwright.report.weighing import weighed_report
        from boomwright.study.weighing import weigh

        weighed = weigh(
            before, after, known=known, number=number, files=self._files, prepare=self._prepare
        )
        return _laid(weighed_report(weighed), canvas)

    def feed(self, plan: Plan, *, number: int, canvas: Canvas) -> ShownSubject:
        """Solve and draw the feed of one beam."""
        from boomwright.report.feed import feed_report

        return _laid(feed_report(self._feed_of(plan), number=number), canvas)

    def match_offered(self, plan: Plan, *, number: int) -> bool:
        """Tell whether the feed of a beam, as far as it is solved, proposes a better match."""
        known = self._feed is not None and self._feed.plan is plan
        return known and self._feed_of(plan).beams[number].better_offered

    def measure(self, plan: Plan, *, number: int) -> AsMeasured | NotMeasured:
        """Solve what the owner will measure of a beam."""
        if self._feed is not None and self._feed.plan is plan:
            return self._feed.beams[number].measured
        return measure_beam(plan, plan.beams[number], prepare=self._prepare)

    def take_match(self, text: str, plan: Plan, *, number: int) -> str:
        """Write the proposed match of a beam into the plan.

        Raises:
            PlanError: when nothing is proposed
        """
        each = self._feed_of(plan).beams[number]
        if each.proposed is None:
            fault = Fault(
                path=f"beam[{number}].feed",
                message=f"no match is proposed: {each.proposed_words}",
                remedy="choose another kind of match",
            )
            raise PlanError((fault,))
        return written_match(text, plan, number=number, match=each.proposed)

    def feed_touchstone(self, plan: Plan, *, end: str) -> bytes:
        """Write one end of the first beam's line as a one-port file.

        Args:
            end: ``feed-point`` or ``shack``
        """
        found = feed_touchstone(self._feed_of(plan))
        name = f"{end}.s1p"
        if name not in found:
            msg = "the plan has no match or no line for that file; see the Feed sheet"
            raise BoomwrightError(msg)
        return found[name].encode("ascii", "replace")

    def _feed_of(self, plan: Plan) -> FeedResult:
        if self._feed is None or self._feed.plan is not plan:
            self._feed = feed_plan(plan, prepare=self._prepare)
        return self._feed

    def reach(self, plan: Plan, *, number: int, canvas: Canvas) -> ShownSubject:
        """Compute and draw what reach says about one beam."""
        from boomwright.report.reach import reach_report

        return _laid(reach_report(self._reach_of(plan), number=number), canvas)

    def _reach_of(self, plan: Plan) -> ReachResult:
        if self._reach is None or self._reach.plan is not plan:
            self._reach = reach_plan(plan, files=self._files, prepare=self._prepare)
        return self._reach

    def structure(self, plan: Plan, *, number: int, canvas: Canvas) -> ShownSubject:
        """Check the structure and draw what was found."""
        from boomwright.report.structure import structure_report

        found = structure_plan(plan, prepare=self._prepare)
        report = structure_report(found, number=number, most_rows=_MARGINS_A_PICTURE)
        return _laid(report, canvas)

    def take_fix(self, text: str, *, beam: int, element: int, number: int) -> str:
        """Write a fix of a weak element into the plan.

        Args:
            beam, element: numbers of the beam and of its element, from 0
            number: number of the fix among those offered for it, from 0

        Raises:
            PlanError: when that fix is not offered for the plan as it is
        """
        plan = read_plan(text)
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
                path=f"beam[{beam}].element[{element}]",
                message="this fix is no longer offered",
                remedy="look at the list again; the plan was changed meanwhile",
            )
            raise PlanError((fault,))
        return take_fix(text, offers[number])

    def permits(self, plan: Plan, *, canvas: Canvas) -> ShownSubject:
        """Hold the plan against the rules and draw what was found."""
        from boomwright.render.laid import lay_out
        from boomwright.report.permits import permits_report

        found = permit_plan(plan, prepare=self._prepare)
        return lay_out(permits_report(found), canvas=canvas)

    def tuning(
        self,
        plan: Plan,
        *,
        faults: bool,
        canvas: Canvas,
        progress: Callable[[float], None] | None = None,
    ) -> ShownSubject:
        """Read the measured sweeps of the plan and draw what they say.

        Args:
            faults: whether to look for a fault too, which takes some seconds more
        """
        from boomwright.render.laid import lay_out
        from boomwright.report.tuning import tuning_report

        tuned = self._tuned
        if not faults or tuned is None or tuned.plan is not plan:
            tuned = tune_plan(plan, files=self._files, progress=progress)
        result = self._tuned = with_fault(tuned, progress=progress) if faults else tuned
        return lay_out(tuning_report(result), canvas=canvas)

    def advised_moves(self, plan: Plan) -> tuple[dict[str, object], ...]:
        """Write what the last fit of the plan advised to move, as a trial lists it."""
        tuned = self._tuned
        if tuned is None or tuned.plan is not plan:
            return ()
        return written_moves(tuned.last.advice.moves(), installation=tuned.installation)

    def work(self, plan: Plan, *, subject: str, number: int, canvas: Canvas) -> WorkSheet:
        """Make a work sheet.

        Args:
            subject: ``cost``, ``build`` or ``raising``
        """
        from boomwright.charts.blocks import Heading, stamped_sheet
        from boomwright.render import work_sheets as sheets

        palette, system = canvas.palette, canvas.system
        if subject == "cost":
            costing = price_plan(plan, files=self._files, today=day_of_today())
            return sheets.cost_sheet(costing, canvas=canvas)
        if subject == "build":
            stamp = build_stamp(plan, system=system)
            build = sheets.build_sheet(
                plan, numbers=(number,), palette=palette, system=system, forms=canvas.forms
            )
            support = sheets.support_sheet(
                raise_plan(plan, today=day_of_today()), palette=palette, system=system
            )
            if support is not None:
                headed = (Heading(text=support.title), *support.blocks)
                build = replace(build, blocks=(*build.blocks, *headed))
            return stamped_sheet(build, stamp)
        measured: tuple[AsMeasured | NotMeasured, ...] = ()
        if plan.raising is not None:
            measured = tuple(self.measure(plan, number=each) for each in range(len(plan.beams)))
        result = raise_plan(plan, measured=measured, today=day_of_today())
        lift = sheets.raising_sheet(
            result, number=number, palette=palette, system=system, forms=canvas.forms
        )
        after = sheets.upkeep_sheet(result)
        both = replace(lift, blocks=(*lift.blocks, *after.blocks))
        return stamped_sheet(both, build_stamp(plan, system=system))

    # A better beam. What a search finds is kept beside the plan.

    def improve(
        self, text: str, *, system: UnitSystem, resume: bool, on_progress: OnProgress
    ) -> BetterBeam:
        """Search the best beam for the plan's wishes, in processes of their own.

        The search is kept beside the plan as it goes, as the command keeps it.

        Raises:
            BoomwrightError: when the wishes contradict themselves or nothing was found before
                it was stopped
        """
        plan = read_plan(text)
        before = broken_off(plan, path=self._path) if resume else None
        if resume and before is None:
            raise RequestError(
                "no search for this beam and these wishes was broken off", remedy="search anew"
            )
        result = search_beam(
            plan,
            text=text,
            files=self._files,
            path=self._path,
            seed=0 if before is None else before.seed,
            starts=USUAL_STARTS if before is None else before.starts,
            workers=_workers(),
            resume=resume,
            on_progress=on_progress,
        )
        # A full disk takes nothing from the result; only the book will not tell of it.
        with suppress(OSError):
            keep_found(self._path, result)
        return _found(result, system=system)

    def unfinished(self, plan: Plan) -> str:
        """Say how far a search for the plan as it stands had come when it was broken off.

        Returns:
            empty when there is none
        """
        found = broken_off(plan, path=self._path)
        if found is None:
            return ""
        best = found.best_gain_dbi
        told = "" if best is None else f", the best with {best:.2f} dBi"
        return f"A search for these wishes was broken off after {found.climbed} starts{told}."

    def compare_spacings(self, plan: Plan, *, on_progress: OnProgress) -> None:
        """Search even and free spacing for the plan's wishes; what was found is kept.

        Raises:
            BoomwrightError: when the wishes contradict themselves
            OSError: when it cannot be kept
        """
        from boomwright.render.json.improve import compared_document

        compared = search_spacings(
            plan, files=self._files, workers=_workers(), on_progress=on_progress
        )
        if compared:
            found = {"compared": [compared_document(one) for one in compared]}
            keep_record(self._path, wished_beam(plan), found)

    def tolerate(self, plan: Plan, *, number: int, on_progress: OnProgress) -> None:
        """Find out how finely a beam must be built; what was found is kept.

        Raises:
            BoomwrightError: when the beam cannot be computed so
            OSError: when it cannot be kept
        """
        from boomwright.render.json.improve import tolerance_document

        made = find_tolerance(plan, number=number, on_progress=on_progress)
        if made is not None:
            found = {"tolerance": tolerance_document(made)}
            keep_record(self._path, plan.beams[number], found)

    def found(self, plan: Plan, *, number: int, canvas: Canvas) -> ShownSubject | None:
        """Draw what was found of a beam as it stands; None when nothing was."""
        return shown_record(self._path, plan.beams[number], canvas=canvas)

    def trade_off(self, plan: Plan, *, number: int, canvas: Canvas) -> ShownPicture:
        """Draw what as many elements as a beam has can reach on its band.

        Returns:
            the picture; its points are numbered as ``with_trade_off_point`` takes them

        Raises:
            BoomwrightError: when the shipped table does not reach there
        """
        from boomwright.design import band_figures
        from boomwright.report.improve import trade_off_picture

        beam = plan.beams[number]
        figures = band_figures(beam=beam, targets=targets_for(plan, beam), prepare=self._prepare)
        return trade_off_picture(beam, gain_dbi=figures.worst[0], canvas=canvas)

    # Files to take away.

    def make_book(self, plan: Plan, *, part: Part = "book", on_step: OnStep = unwatched) -> bytes:
        """Make one part of the book.

        Args:
            on_step: told the share done and what comes next; what it raises stops the making
        """
        return book_of(
            plan,
            files=self._files,
            path=self._path,
            digest=text_digest(self.load()),
            system=self._system,
            paper=self._paper,
            reach=self._reach_of,
            feed=self._feed_of,
            prepare=self._prepare,
            on_step=on_step,
            parts=(part,),
        )[part]

    def cut_list_csv(self, plan: Plan) -> bytes:
        """Make the cut list of the first beam."""
        from boomwright.export.cut_list_table import cut_list_csv

        return cut_list_csv(plan, plan.beams[0], stamp=build_stamp(plan, system=self._system))

    def price_list_csv(self, plan: Plan) -> bytes:
        """Make the price list that a plan asks for, known prices in their rows.

        Raises:
            PlanError: with every fault of the price list
            OSError: when it cannot be read
        """
        from boomwright.study.cost import blank_price_list

        return blank_price_list(plan, files=self._files, system=self._system).encode("utf-8")

    def plan_view_dxf(self, plan: Plan) -> bytes:
        """Make the plan view of the first beam as a drawing file."""
        from boomwright.export.drawing_dxf import plan_view_dxf

        system = self._system
        stamp = build_stamp(plan, system=system)
        return plan_view_dxf(plan, plan.beams[0], system=system, stamp=stamp)

    def work_files(self, plan: Plan) -> bytes:
        """Put all workshop drawings, the beam in 3D and the calendar into one archive.

        Returns:
            a ZIP file; the same plan on the same day gives the same bytes
        """
        from boomwright.session.drawings import file_stem
        from boomwright.session.work_files import calendar_bytes, work_drawings

        result = raise_plan(plan, today=day_of_today())
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:

            def put(name: str, data: bytes) -> None:
                # A fixed time keeps the archive the same from one making to the next.
                archive.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), data)

            for number, beam in enumerate(plan.beams):
                stem = file_stem(beam, number=number + 1)
                drawn = work_drawings(result, number=number, system="metric")
                for name, data in drawn.items():
                    put(f"{stem}-{name}", data)
            calendar = calendar_bytes(result, digest=text_digest(plan.title), system="metric")
            put("reminders.ics", calendar)
        return packed.getvalue()


class LessonSession(PlanSession):
    """A lesson's plan, which lives in memory and is never written to a file.

    Args:
        system: units of lengths in the book
        paper: paper of the book
    """

    def __init__(self, lesson: Lesson, *, system: UnitSystem, paper: Paper) -> None:
        # What a search keeps beside a plan goes with the lesson.
        folder = mkdtemp(prefix="boomwright-lesson-")
        weakref.finalize(self, shutil.rmtree, folder, ignore_errors=True)
        super().__init__(Path(folder) / f"{lesson.name}.toml", system=system, paper=paper)
        self._kept = lesson.plan_text

    def load(self) -> str:
        """Give what was kept last."""
        return self._kept

    def save(self, text: str, *, expected: str | None, aside: bool = False) -> datetime:
        """Keep the plan in memory."""
        self._kept = text
        return datetime.now().astimezone()

    def keep_draft(self, text: str) -> str:
        """Do nothing: a lesson has no file to be in conflict with."""
        return ""


def _laid(report: Report, canvas: Canvas) -> ShownSubject:
    from boomwright.render.laid import lay_out

    return lay_out(report, canvas=canvas)


def _workers() -> int:
    """Two processes at least: a search within this one would hold up every drag."""
    return max(2, usual_workers() - 1)


def _found(result: ImproveResult, *, system: UnitSystem) -> BetterBeam:
    from boomwright.render.rows import text_table
    from boomwright.report.improve import improve_report

    best = result.best
    ended = "finished" if result.finished else "stopped early, best so far"
    report = improve_report(result)
    return BetterBeam(
        text=result.text,
        words=f"{result.before.name}: {ended} after {best.starts} starts in "
        f"{result.seconds:.0f} s; {best.agreeing} of them ended within 0.02 dB of the best.",
        figures=text_table(report.table("searched"), system=system),
        elements=text_table(report.table("moved"), system=system),
        notices=tuple(
            f"{notice.severity}: {notice.text}"
            for notice in written_notices(result.notices, system=system, forms=True)
        ),
    )
