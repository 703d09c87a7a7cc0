"""The desk: one plan file's text, what was done to it, and whether it is saved.

The desk knows no browser and no disk. What is saved, through the ``PlanSession`` it is given, is
always the owner's own file with one value changed, comments and all.
"""

from __future__ import annotations

import threading
from collections.abc import Hashable
from datetime import datetime
from pathlib import PurePath
from typing import TYPE_CHECKING

from boomwright.base import BoomwrightError, PlanError, SaveConflictError
from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.plan.forms import fill
from boomwright.plan.memo import Memo
from boomwright.web.edits import Act
from boomwright.web.fitting import Fitting
from boomwright.web.form_edits import TypePrice
from boomwright.web.history import packed, unpacked
from boomwright.web.saving import Saving, Step, Strange, saving_of
from boomwright.web.writing import Before, Offer, TextEdit, edited, with_its_boom

if TYPE_CHECKING:
    from boomwright.plan.model import Plan
    from boomwright.reach import BeamReadings
    from boomwright.session.lessons import Lesson
    from boomwright.session.plan_library import PlanLibrary
    from boomwright.session.plan_session import PlanSession
    from boomwright.session.price_list import Beside
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

#: steps that can be taken back
UNDO_LIMIT = 200
#: looks and sheets' results kept between windows
_KEPT_LOOKS = 32

PlanEdit = TextEdit | TypePrice | Act


class PlanDesk:
    """One plan on the desk, shared by every browser window that looks at it.

    Args:
        session: everything that reads, computes, makes files or touches the disk
        name: file name shown and used for downloads, without a folder
        text: content of the plan file as just read
        lesson: the lesson the plan belongs to; None for a plan of the owner's
        library: the other plans there are; None when the page is given only this one

    Raises:
        PlanError: when the plan cannot be used
    """

    def __init__(
        self,
        *,
        session: PlanSession,
        name: str,
        text: str,
        lesson: Lesson | None = None,
        library: PlanLibrary | None = None,
    ) -> None:
        self.lesson = lesson
        self.lesson_step = 0
        self.library = library
        self.session = session
        self.name = name
        self._lock = threading.RLock()
        self._disk = threading.Lock()
        self._reading = threading.Lock()
        self._readings: dict[int, tuple[int, BeamReadings]] = {}
        self._measured: dict[int, tuple[int, AsMeasured | NotMeasured]] = {}
        #: what windows and sheets computed last, by name and revision
        self.kept: Memo[Hashable, object] = Memo(size=_KEPT_LOOKS)
        #: the fit of a measured sweep, heard and stopped by any window
        self.fitting = Fitting()
        self._text = text
        self._file_text: str | None = text
        self._plan = read_plan(text, source=name)
        self._undo, self._redo = unpacked(session.load_history(), now=text)
        #: a changed plan that lies ready to be taken
        self.offer: Offer | None = None
        self._gesture: tuple[object, ...] = ()
        self._revision = 0
        self._saved_at: datetime | None = None
        self._strange: Strange | None = None
        self._draft = ""
        self._aside = False
        self._failure = ""

    def _read(self, text: str) -> Plan:
        return read_plan(text, source=self.name)

    @property
    def plan(self) -> Plan:
        """The plan as it stands."""
        return self._plan

    @property
    def text(self) -> str:
        """The plan file as it stands on the desk."""
        return self._text

    @property
    def revision(self) -> int:
        """Number that grows with every change of the plan."""
        return self._revision

    @property
    def undo_label(self) -> str:
        """What undo would take back, or empty."""
        return self._undo[-1].label if self._undo else ""

    @property
    def redo_label(self) -> str:
        """What redo would do again, or empty."""
        return self._redo[-1].label if self._redo else ""

    @property
    def saving(self) -> Saving:
        """Whether the plan is in its file."""
        with self._lock:
            return saving_of(
                lesson=self.lesson is not None,
                strange=self._strange,
                draft=PurePath(self._draft).name,
                failure=self._failure,
                changed=self._text != self._file_text,
                at=self._saved_at,
            )

    @property
    def draft(self) -> str:
        """Path of the file that keeps what cannot go to the plan file; empty when none does."""
        return self._draft

    def snapshot(self) -> tuple[int, Plan]:
        """Take the plan with its revision, both of the same moment."""
        with self._lock:
            return self._revision, self._plan

    def readings(self, beam: int) -> BeamReadings:
        """Compute everything over the band, once for each state of the plan.

        Raises:
            SolverError: when the geometry is refused
        """
        with self._reading:
            revision, plan = self.snapshot()
            kept = self._readings.get(beam)
            if kept is not None and kept[0] == revision:
                return kept[1]
            readings = self.session.compute(
                beam=plan.beams[min(beam, len(plan.beams) - 1)], ground=plan.site.ground
            )
            self._readings[beam] = (revision, readings)
            return readings

    def known_readings(self, beam: int, *, revision: int) -> BeamReadings | None:
        """Take the readings of a state of the plan if they were computed already."""
        kept = self._readings.get(beam)
        return kept[1] if kept is not None and kept[0] == revision else None

    def measured(self, beam: int) -> AsMeasured | NotMeasured:
        """Solve what the owner will measure, once for each state of the plan."""
        with self._reading:
            revision, plan = self.snapshot()
            kept = self._measured.get(beam)
            if kept is None or kept[0] != revision:
                number = min(beam, len(plan.beams) - 1)
                kept = (revision, self.session.measure(plan, number=number))
                self._measured[beam] = kept
            return kept[1]

    def known_measured(self, beam: int, *, revision: int) -> AsMeasured | NotMeasured | None:
        """Take what will be measured in a state of the plan if it was solved already."""
        kept = self._measured.get(beam)
        return kept[1] if kept is not None and kept[0] == revision else None

    def apply(self, edit: PlanEdit, *, gesture: int) -> None:
        """Apply an edit.

        Args:
            gesture: drag or key run it belongs to; edits of one gesture are one step of undo

        Raises:
            PlanError: when the plan would not be usable; it is left as it was
        """
        with self._lock:
            if isinstance(edit, Act):
                self._act(edit)
                return
            if isinstance(edit, TypePrice):
                typed = dict(edit.cells)
                change = self.session.price_list.typed(self._plan, typed)
                self._take(self._text, label=f"price of {typed['item']} typed", beside=change)
                return
            new_text, label = self._edited(edit)
            self._take(new_text, label=label, gesture=(gesture, label) if gesture else ())

    def take_price_list(self, name: str, content: bytes) -> None:
        """Put a price list beside the plan and name it there: one step of undo.

        Raises:
            FileRefusedError: when the name is none taken here
            PlanError: with every fault of the list, or when the plan does not take it
            OSError: when it cannot be written
        """
        with self._lock:
            change, currency = self.session.price_list.given(name, content)
            prices = self._plan.prices
            named = {"list": name} if prices is not None else {"list": name, "currency": currency}
            text = self._text
            if prices is None or prices.price_list != name:
                text = fill(text, ("prices",), named)
            self._take(text, label=f"price list {name} taken", beside=change)

    def _take(
        self,
        text: str,
        *,
        label: str,
        gesture: tuple[object, ...] = (),
        beside: Beside | None = None,
    ) -> None:
        """Change the plan, and with it a file beside it."""
        if text == self._text and (beside is None or beside.before == beside.after):
            return
        plan = self._read(text)
        if beside is not None:
            self.session.price_list.write(beside)
        if not gesture or gesture != self._gesture:
            back = beside.back() if beside is not None else None
            step = Step(text=self._text, label=label, beside=back)
            self._undo = [*self._undo[1 - UNDO_LIMIT :], step]
        self._redo.clear()
        self._gesture = gesture
        self._put(text, plan)

    def _put(self, text: str, plan: Plan) -> None:
        if text == self._text:
            # Only a file beside the plan was changed: what the antenna does still holds.
            now = self._revision
            self._readings = {n: (at + (at == now), f) for n, (at, f) in self._readings.items()}
            self._measured = {n: (at + (at == now), f) for n, (at, f) in self._measured.items()}
        self._text, self._plan = text, plan
        self._revision += 1
        self._failure = ""

    def _act(self, act: Act) -> None:
        match act.action:
            case "undo":
                self._step(self._undo, self._redo)
            case "redo":
                self._step(self._redo, self._undo)
            case "lesson-on" | "lesson-back" | "lesson-do" if self.lesson is not None:
                self._teach(self.lesson, act)
            case "take-file" if self._strange is not None and self._strange.text is not None:
                theirs = self._strange.text
                self._take(theirs, label="file's version taken")
                self._file_text, self._strange = theirs, None
            case "keep-mine" if self._strange is not None:
                strange = self._strange
                if strange.usable and strange.text is not None:
                    self._undo.append(Step(text=strange.text, label="own version kept"))
                self._aside = not strange.usable
                self._file_text, self._strange = strange.text, None

    def _teach(self, lesson: Lesson, act: Act) -> None:
        if act.action == "lesson-do":
            from boomwright.session.lessons import take_step

            step = lesson.steps[self.lesson_step]
            label = write(step.do, system="metric").lower()
            self._take(take_step(self._text, step), label=label)
            return
        move = 1 if act.action == "lesson-on" else -1
        self.lesson_step = min(max(self.lesson_step + move, 0), len(lesson.steps) - 1)

    def _step(self, back: list[Step], forth: list[Step]) -> None:
        if not back:
            return
        plan = self._read(back[-1].text)
        beside = back[-1].beside
        if beside is not None:
            self.session.price_list.write(beside)
            beside = beside.back()
        step = back.pop()
        forth.append(Step(text=self._text, label=step.label, beside=beside))
        self._gesture = ()
        self._put(step.text, plan)

    def look(self) -> None:
        """See what stands in the file; take it up when nothing here would be lost."""
        # Not while a write is under way: half-way the file holds neither state.
        with self._disk:
            try:
                now: str | None = self.session.load()
            except FileNotFoundError:
                now = None
            except (OSError, BoomwrightError) as error:
                self.fail(_reason(error))
                return
            with self._lock:
                self._meet(now)

    def _meet(self, now: str | None) -> None:
        if now == self._text:
            self._failure = ""
        if now in (self._file_text, self._text):
            self._file_text, self._strange = now, None
            return
        usable = self._usable(now)
        if now is not None and usable and self._text == self._file_text:
            self._take(now, label="file changed elsewhere")
            self._file_text, self._strange = now, None
            return
        self._strange = Strange(text=now, usable=usable)

    def _usable(self, text: str | None) -> bool:
        if text is None:
            return False
        try:
            self._read(text)
        except PlanError:
            return False
        return True

    def fail(self, reason: str) -> None:
        """Note that the file can neither be read nor written."""
        with self._lock:
            self._failure = reason

    def preview(self, edit: TextEdit) -> tuple[str, str]:
        """Write a plan with an edit applied; the plan on the desk stays as it is.

        Returns:
            the new text, and the name of the step

        Raises:
            PlanError: when the plan would not be usable
        """
        text, label = self._edited(edit)
        self._read(text)
        return text, label

    def _edited(self, edit: TextEdit) -> tuple[str, str]:
        """Give the new text and the name of the step."""
        with self._lock:
            offer = self.offer
            if offer is not None and offer.revision != self._revision:
                offer = None
            before = Before(text=self._text, plan=self._plan, offer=offer)
        session = self.session
        text, label = edited(
            edit, before=before, take_fix=session.take_fix, take_match=session.take_match
        )
        return with_its_boom(text, before), label

    def save(self) -> Saving:
        """Write the plan to its file, if it is not there yet and nobody else changed it."""
        # One after the other: a second write would take the first one's text for a stranger's.
        with self._disk:
            return self._save()

    def _save(self) -> Saving:
        with self._lock:
            text, expected, aside = self._text, self._file_text, self._aside
            history = packed(now=text, undo=self._undo, redo=self._redo)
            strange = self._strange is not None
            if text == expected and not strange and not self._failure:
                return self.saving
        if not strange:
            # First, so that a sudden end between the two leaves the edits to be done again.
            self.session.keep_history(history)
            # The disk may be slow; drags go on meanwhile.
            try:
                at = self.session.save(text, expected=expected, aside=aside)
            except SaveConflictError as error:
                with self._lock:
                    self._strange = Strange(text=error.text, usable=self._usable(error.text))
            except (OSError, BoomwrightError) as error:
                self.fail(_reason(error))
            else:
                with self._lock:
                    self._file_text, self._saved_at, self._aside = text, at, False
                    self._failure = self._draft = ""
                return self.saving
        # What cannot go to the file is kept elsewhere, so that no crash can take it.
        draft = self.session.keep_draft(text)
        with self._lock:
            self._draft = draft
        return self.saving


def _reason(error: OSError | BoomwrightError) -> str:
    """Say in a few words why a file could not be read or written."""
    if isinstance(error, OSError):
        return error.strerror or type(error).__name__
    return "something else than a plan file has its name now"
