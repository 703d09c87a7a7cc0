"""What the program remembers between runs: plans opened lately, and what can be undone in them.

It lies in the user's own state folder; nothing depends on it, and whatever is missing or spoilt
there counts as never kept.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
import tempfile
from datetime import datetime
from pathlib import Path

from boomwright.base.files import FileRefusedError
from boomwright.base.records import dataclass
from boomwright.session.files import OWN_RECORD, read_file

#: plans remembered, and histories kept
_MOST_RECENT = 20
_MOST_HISTORIES = 40


def state_folder() -> Path:
    """Where a program of this user keeps its state on this system."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or str(Path.home() / "AppData" / "Local")
    elif sys.platform == "darwin":
        base = str(Path.home() / "Library" / "Application Support")
    else:
        # XDG base directories: state that should outlive restarts {xdg-basedir}.
        base = os.environ.get("XDG_STATE_HOME") or str(Path.home() / ".local" / "state")
    return Path(base) / "boomwright"


@dataclass(frozen=True, slots=True, kw_only=True)
class RecentPlan:
    """A plan opened lately."""

    path: Path  #: its file, which was there when asked
    opened: datetime  #: when it was opened last, local time


class UserState:
    """What is remembered, in one folder.

    Args:
        folder: where to; made when something is kept
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def recent(self) -> tuple[RecentPlan, ...]:
        """List plans opened lately that are still there."""
        found = []
        for path, at in self._listed():
            try:
                there = path.is_file()
            except OSError:
                there = False
            if there:
                found.append(RecentPlan(path=path, opened=at))
        return tuple(found)

    def note(self, path: Path) -> None:
        """Remember that a plan was opened."""
        path = path.resolve()
        now = datetime.now().astimezone()
        others = [(each, at) for each, at in self._listed() if each != path]
        rows = [[str(each), at.isoformat()] for each, at in [(path, now), *others][:_MOST_RECENT]]
        self._keep(self._folder / "recent.json", json.dumps(rows, ensure_ascii=False))

    def keep_history(self, path: Path, text: str) -> None:
        """Keep what can be undone in a plan."""
        place = self._history(path)
        new = not place.exists()
        self._keep(place, text)
        if new:
            self._thin_out()

    def load_history(self, path: Path) -> str:
        """Read what can be undone in a plan.

        Returns:
            the history, or empty
        """
        return _read(self._history(path))

    def draft_path(self, path: Path) -> Path:
        """Name the file for a plan that can be written nowhere near its own; its folder is made.

        Raises:
            OSError: when the folder cannot be made
        """
        folder = self._folder / "unsaved"
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        return folder / f"{path.stem}-{_name(path)[:8]}.toml"

    def _history(self, path: Path) -> Path:
        return self._folder / "undo" / f"{_name(path)}.json"

    def _listed(self) -> list[tuple[Path, datetime]]:
        try:
            rows = json.loads(_read(self._folder / "recent.json"))
            return [(Path(path), datetime.fromisoformat(at).astimezone()) for path, at in rows][
                :_MOST_RECENT
            ]
        except (ValueError, TypeError, RecursionError):
            return []

    def _keep(self, place: Path, text: str) -> None:
        """Replace a file in one step; a full disk or a locked folder only means it is not kept."""
        try:
            place.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, name = tempfile.mkstemp(dir=place.parent, suffix=".part")
            try:
                with os.fdopen(handle, "w", encoding="utf-8") as part:
                    part.write(text)
                Path(name).replace(place)
            except OSError:
                Path(name).unlink(missing_ok=True)
        except OSError:
            return

    def _thin_out(self) -> None:
        try:
            kept = sorted(
                (self._folder / "undo").glob("*.json"), key=lambda each: -each.stat().st_mtime
            )
            for old in kept[_MOST_HISTORIES:]:
                old.unlink(missing_ok=True)
        except OSError:
            return


def _name(path: Path) -> str:
    return hashlib.sha256(str(path.resolve()).encode(errors="replace")).hexdigest()[:32]


def _read(path: Path) -> str:
    try:
        return read_file(path, kind=OWN_RECORD).decode()
    except (FileRefusedError, OSError, ValueError):
        return ""
