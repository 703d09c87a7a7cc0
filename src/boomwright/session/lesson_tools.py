"""The live page's hands on a lesson's plan, which lives in memory only."""

from __future__ import annotations

import shutil
import weakref
from datetime import datetime
from pathlib import Path
from tempfile import mkdtemp

from boomwright.base import UnitSystem
from boomwright.session.desk_tools import DeskTools
from boomwright.session.lessons import Lesson
from boomwright.session.making import Paper


class LessonTools(DeskTools):
    """Tools of a lesson's plan, which lives in memory and is never written to a file.

    Parameters
    ----------
    system
        units of lengths in the book
    paper
        paper of the book
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
