"""The plans of one folder, new ones, and the lessons: what the page may open and make.

Nothing outside the folder is ever read or written, whatever name is asked for. A plan of another
folder is opened by its place among those opened lately, and its folder is then the folder.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from boomwright.base import BoomwrightError, UnitSystem
from boomwright.base.files import FileRefusedError
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.plan import Plan, Site, read_place, read_plan, written_system
from boomwright.plan.read import parse_toml
from boomwright.reach import BeamReadings
from boomwright.session.advice import advise_place, write_chosen, write_prices
from boomwright.session.book import Paper
from boomwright.session.files import (
    PAGE_NAME,
    PlanFolder,
    found_text,
    load_text,
    refuse_name,
    save_bytes,
    save_text,
)
from boomwright.session.lessons import Lesson, lessons
from boomwright.session.new_plan import make_plan, new_text, refuse_existing
from boomwright.session.plan_session import LessonSession, PlanSession
from boomwright.session.user_state import RecentPlan, UserState
from boomwright.solver import Ground
from boomwright.study.advice.advise import Advice, OnCandidate
from boomwright.study.advice.wishing import place_text
from boomwright.study.as_measured import measure_beam
from boomwright.study.computing import compute
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.requests import RequestError, Wishes, with_further_beam
from boomwright.tuning import Sweep, read_sweep_table, read_touchstone

#: what every plan says
_PLAN = re.compile(r"^[ \t]*boomwright[ \t]*=", re.MULTILINE)
#: plans shown
_MOST_SHOWN = 200
#: endings of measured sweeps
_SWEEPS = (".s1p", ".csv", ".txt")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFile:
    """A plan in the folder."""

    name: str  #: file name
    title: str  #: title of the plan; empty when it cannot be read
    changed: datetime  #: when it was last written, local time
    place: bool  #: whether it is a place that has no antenna yet


@dataclass(frozen=True, slots=True, kw_only=True)
class RecentFile:
    """A plan opened lately."""

    name: str  #: file name
    opened: datetime  #: when it was opened last, local time
    folder: str  #: folder it lies in when that is another one; empty for this folder


class PlanLibrary:
    """The plans of one folder.

    Args:
        folder: the folder; nothing outside it is touched
        system: units of lengths in books and new plans
        paper: paper of books
        state: what is remembered between runs; None remembers nothing
        elsewhere: whether plans of other folders may be named to whoever looks at the page
    """

    def __init__(
        self,
        folder: Path,
        *,
        system: UnitSystem = "metric",
        paper: Paper = "a4",
        state: UserState | None = None,
        elsewhere: bool = True,
    ) -> None:
        self._folder = folder.resolve()
        self._state = state
        self._elsewhere = elsewhere
        self._system = system
        self._paper: Paper = paper
        #: places written here, by file name
        self._places: dict[str, str] = {}

    @property
    def folder_name(self) -> str:
        """Last part of the folder's path."""
        return self._folder.name

    def _path(self, name: str, endings: tuple[str, ...] = (".toml",)) -> Path:
        refuse_name(name, *endings)
        path = self._folder / name
        # A link inside the folder may point out of it.
        if path.resolve().parent != self._folder:
            raise FileRefusedError(
                f"{name}: lies outside the folder of the plans", remedy="copy the file into it"
            )
        return path

    def plans(self) -> tuple[PlanFile, ...]:
        """List the plans of the folder, the last changed first."""
        found = []
        for path in self._folder.glob("*.toml"):
            try:
                self._path(path.name)
                changed = datetime.fromtimestamp(path.stat().st_mtime).astimezone()
            except (FileRefusedError, OSError):
                continue
            found.append((changed, path))
        found.sort(reverse=True)
        return tuple(
            PlanFile(name=path.name, changed=changed, **_about(path))
            for changed, path in found[:_MOST_SHOWN]
            if not path.name.endswith(".previous.toml")
        )

    def recent(self) -> tuple[RecentFile, ...]:
        """List plans opened lately that are still there.

        Returns:
            the last opened first
        """
        return tuple(
            RecentFile(
                name=plan.path.name,
                opened=plan.opened,
                folder="" if plan.path.parent == self._folder else str(plan.path.parent),
            )
            for plan in self._recent()
        )

    def _recent(self) -> list[RecentPlan]:
        """Plans opened lately that may be named here."""
        return [
            plan
            for plan in (self._state.recent() if self._state is not None else ())
            if PAGE_NAME.fullmatch(plan.path.name) is not None
            and (self._elsewhere or plan.path.parent == self._folder)
        ]

    def reopen(self, number: int) -> tuple[PlanLibrary, str]:
        """Take the folder of a plan opened lately.

        Returns:
            the plans of its folder, and its name there

        Raises:
            RequestError: when there is no such plan any more
        """
        recent = self._recent()
        if number >= len(recent):
            raise RequestError(
                "this plan is no longer there", remedy="reload the page and choose another"
            )
        path = recent[number].path
        library = PlanLibrary(
            path.parent,
            system=self._system,
            paper=self._paper,
            state=self._state,
            elsewhere=self._elsewhere,
        )
        return library, path.name

    def open(self, name: str) -> tuple[PlanSession, str]:
        """Open a plan of the folder.

        Raises:
            FileRefusedError: when the name is none of the folder
            OSError: when it cannot be read
        """
        path = self._path(name)
        session = PlanSession(path, system=self._system, paper=self._paper, state=self._state)
        text = self._text(path)
        if self._state is not None:
            self._state.note(path)
        return session, text

    def read(self, name: str) -> Plan:
        """Read a plan of the folder.

        Raises:
            FileRefusedError: when the name is none of the folder
            PlanError: when it is no usable plan
            OSError: when it cannot be read
        """
        return read_plan(self._text(self._path(name)), source=name)

    def _text(self, path: Path) -> str:
        """Read a plan; nothing is said of what stands in a file that is none."""
        text = load_text(path)
        if _PLAN.search(text) is None:
            raise FileRefusedError(
                f"{path.name}: is no plan", remedy='a plan says "boomwright = 1" near its top'
            )
        return text

    def save_as(self, name: str, text: str) -> str:
        """Write a plan under a new name; an existing file is never touched.

        Raises:
            FileRefusedError: when there is such a file, or the name is none of the folder
            OSError: when it cannot be written
        """
        path = self._new_path(name)
        make_plan(path, text)
        return path.name

    def _new_path(self, name: str) -> Path:
        """Path of a plan that does not exist yet; the ending may be left out."""
        path = self._path(_ended(name, ".toml"))
        refuse_existing(path)
        return path

    def begin(self, name: str, wishes: Wishes, *, searched: bool) -> str:
        """Write a new plan; an existing file is never touched.

        Args:
            searched: whether a beam of tubes is a design of the frontier, matched

        Raises:
            RequestError: when a wish cannot be read or met
            FileRefusedError: when there is such a file, or the name is none of the folder
            OSError: when the file cannot be written
        """
        # What is long comes last.
        self._new_path(name)
        return self.save_as(name, new_text(wishes, searched=searched))

    def further(self, text: str, wishes: Wishes, *, searched: bool) -> str:
        """Write a further beam into a plan.

        Args:
            searched: whether a beam of tubes is a design of the frontier, matched

        Raises:
            RequestError: when a wish cannot be read or met
            PlanError: when the plan cannot take it
        """
        return with_further_beam(text, new_text(wishes, searched=searched))

    def keep_place(self, name: str, typed: Mapping[str, str]) -> str:
        """Write a place as its owner typed it.

        A file that was written here before is replaced as long as nobody else changed it; any
        other is never touched.

        Args:
            typed: texts by the names of ``wishing.ASKED``

        Raises:
            PlanError: with every fault of what was typed
            FileRefusedError: when there is another such file, or the name is none of the folder
            OSError: when it cannot be written
        """
        text = place_text(typed)
        read_place(text)
        path = self._path(_ended(name, ".toml"))
        before = self._places.get(path.name)
        if before is None or found_text(path) != before:
            refuse_existing(path)
            before = None
        save_text(path, text, expected=before)
        self._places[path.name] = text
        return path.name

    def advise(self, name: str, *, on_candidate: OnCandidate | None = None) -> Advice:
        """Put whole stations together for a place of the folder.

        Args:
            on_candidate: hears of each candidate; may raise to stop

        Raises:
            PlanError: with every fault of the place
            BoomwrightError: when the place does not say what is wanted
            OSError: when it cannot be read
        """
        text = self._text(self._path(name))
        return advise_place(
            read_place(text, source=name),
            files=PlanFolder(self._folder, closed=True),
            system=written_system(text),
            on_candidate=on_candidate,
        )

    def choose(self, advice: Advice, name: str, *, number: int) -> str:
        """Write the plan of a station that was put together.

        Args:
            number: its number, from 1

        Raises:
            FileRefusedError: when there is such a file, or the name is none of the folder
            OSError: when it cannot be written
        """
        path = self._new_path(name)
        write_chosen(advice, path, number=number)
        return path.name

    def blank_prices(self, advice: Advice, name: str, *, system: UnitSystem) -> str:
        """Write the price list that stations ask for, to be filled in.

        Raises:
            FileRefusedError: when there is such a file, or the name is none of the folder
            OSError: when it cannot be written
        """
        path = self._path(_ended(name, ".csv"), (".csv",))
        files = PlanFolder(self._folder, closed=True)
        write_prices(advice, path, system=system, files=files)
        return path.name

    def lessons(self) -> tuple[Lesson, ...]:
        """Give all lessons."""
        return lessons()

    def open_lesson(self, name: str) -> tuple[PlanSession, Lesson]:
        """Begin a lesson.

        Raises:
            RequestError: when there is no such lesson
        """
        for lesson in lessons():
            if lesson.name == name:
                session = LessonSession(lesson, system=self._system, paper=self._paper)
                return session, lesson
        raise RequestError(f"there is no lesson {name[:40]!r}", remedy="choose one of the list")

    def readings(self, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band of a beam that is not on the desk.

        Raises:
            SolverError: when the geometry is refused
        """
        plan = Plan(title="", site=Site(ground=ground), beams=(beam,))
        return compute(plan).beams[0]

    def measured(self, plan: Plan) -> AsMeasured | NotMeasured:
        """Solve what will be measured of the first beam of a plan that is not on the desk."""
        return measure_beam(plan, plan.beams[0])

    def keep_sweep(self, name: str, content: bytes) -> str:
        """Put a measured sweep into the folder; an existing file is never touched.

        Raises:
            FileRefusedError: when the name is none of the folder or there is such a file
            MeasurementError: when it holds no sweep
            OSError: when it cannot be written
        """
        path = self._path(name, _SWEEPS)
        sweep = _sweep(name, content)
        save_bytes(path, content, new=True)
        low, high = float(sweep.frequencies[0]), float(sweep.frequencies[-1])
        return f"{len(sweep.frequencies)} points, {low / 1e6:.3f} to {high / 1e6:.3f} MHz"


def _ended(name: str, ending: str) -> str:
    return name if name.lower().endswith(ending) else f"{name}{ending}"


def _sweep(name: str, content: bytes) -> Sweep:
    if name.lower().endswith(".s1p"):
        return read_touchstone(content=content, name=name)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileRefusedError(
            f"{name}: holds bytes that are no text", remedy="export the sweep as text"
        ) from None
    return read_sweep_table(text=text, name=name)


def _about(path: Path) -> dict[str, Any]:
    """Title of a plan, empty when it cannot be read, and whether it is a place."""
    try:
        text = load_text(path)
        found = parse_toml(text) if _PLAN.search(text) else {}
    except (BoomwrightError, OSError):
        found = {}
    title = found.get("title", "")
    return {
        "title": title[:120] if isinstance(title, str) else "",
        "place": "place" in found and "beam" not in found,
    }
