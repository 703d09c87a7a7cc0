"""The plans of one folder, the lessons, and plans from wishes: what the page may open and make.

Nothing outside the folder is ever read or written, whatever name is asked for.
"""

from __future__ import annotations

import re
import shlex
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from boomwright.base import BoomwrightError, UnitSystem
from boomwright.base.files import FileRefusedError
from boomwright.parts import Beam
from boomwright.plan import Plan, Site, read_plan
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.read import parse_toml
from boomwright.reach import BeamReadings
from boomwright.session.book import Paper
from boomwright.session.files import PlanFolder, load_text, save_bytes
from boomwright.session.lessons import Lesson, lessons
from boomwright.session.new_plan import make_plan
from boomwright.session.plan_session import LessonSession, PlanSession
from boomwright.session.user_state import UserState
from boomwright.solver import Ground
from boomwright.study.as_measured import measure_beam
from boomwright.study.candidates import Candidate, Choice, choices, work_out
from boomwright.study.computing import compute
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.requests import RequestError, Wishes
from boomwright.tuning import Sweep, read_sweep_table, read_touchstone

#: names of files the page may ask for: one part, no leading dot
_NAME = re.compile(r"\w[\w .+()-]{0,79}", re.ASCII)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class RecentFile:
    """A plan opened lately."""

    name: str  #: file name
    opened: datetime  #: when it was opened last, local time
    command: str  #: what opens it when it lies in another folder; empty for one of this folder


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

    @property
    def folder_name(self) -> str:
        """Last part of the folder's path."""
        return self._folder.name

    def _path(self, name: str, endings: tuple[str, ...] = (".toml",)) -> Path:
        path = self._folder / name
        ending = next((each for each in endings if name.lower().endswith(each)), "")
        if not _NAME.fullmatch(name) or not ending:
            message = (
                f"{name[:80]!r} is no file name taken here -> use letters, digits, spaces, "
                f"- and _, ending in {' or '.join(endings)}"
            )
            raise FileRefusedError(message)
        # A link inside the folder may point out of it.
        if path.resolve().parent != self._folder:
            message = f"{name}: lies outside the folder of the plans -> copy the file into it"
            raise FileRefusedError(message)
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
            PlanFile(name=path.name, title=_title(path), changed=changed)
            for changed, path in found[:_MOST_SHOWN]
            if not path.name.endswith(".previous.toml")
        )

    def recent(self) -> tuple[RecentFile, ...]:
        """List plans opened lately that are still there.

        Returns:
            the last opened first; those of other folders with the command that opens them
        """
        found = []
        for plan in self._state.recent() if self._state is not None else ():
            here = plan.path.parent == self._folder and _NAME.fullmatch(plan.path.name) is not None
            if not here and not self._elsewhere:
                continue
            command = "" if here else f"boomwright open {shlex.quote(str(plan.path))}"
            found.append(RecentFile(name=plan.path.name, opened=plan.opened, command=command))
        return tuple(found)

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
            message = f'{path.name}: is no plan -> a plan says "boomwright = 1" near its top'
            raise FileRefusedError(message)
        return text

    def save_as(self, name: str, text: str) -> str:
        """Write a plan under a new name; an existing file is never touched.

        Raises:
            FileRefusedError: when there is such a file, or the name is none of the folder
            OSError: when it cannot be written
        """
        full = name if name.lower().endswith(".toml") else f"{name}.toml"
        make_plan(self._path(full), text)
        return full

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
        message = f"there is no lesson {name[:40]!r} -> choose one of the list"
        raise RequestError(message)

    def choices(self, wishes: Wishes, *, prices: PricesPlan | None) -> tuple[Choice, ...]:
        """Choose beams of the frontier that meet a wish.

        Args:
            wishes: what is wanted; its number of elements is not used
            prices: currency and price list of the plan on the desk; None when it has none

        Raises:
            RequestError: when a wish cannot be read or met
        """
        return choices(wishes, prices=prices, files=PlanFolder(self._folder, closed=True))

    def work_out(self, choice: Choice, *, wishes: Wishes) -> Candidate:
        """Make the plan of a chosen beam.

        Raises:
            BoomwrightError: when it cannot be made of usual tubes
        """
        return work_out(choice, wishes=wishes, files=PlanFolder(self._folder, closed=True))

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


def _sweep(name: str, content: bytes) -> Sweep:
    if name.lower().endswith(".s1p"):
        return read_touchstone(content=content, name=name)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        message = f"{name}: holds bytes that are no text -> export the sweep as text"
        raise FileRefusedError(message) from None
    return read_sweep_table(text=text, name=name)


def _title(path: Path) -> str:
    try:
        text = load_text(path)
        found = parse_toml(text).get("title", "") if _PLAN.search(text) else ""
    except (BoomwrightError, OSError):
        return ""
    return found[:120] if isinstance(found, str) else ""
