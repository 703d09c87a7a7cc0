"""Autosave: the plan goes to its file soon after an edit, and once more at the end.

The first edit that is not yet in the file starts the time, later ones do not put it off: whatever
happens to the program, no more than about the last half second of edits is missing. Between
edits the file is looked at, so that nobody is told of a saved plan that is no longer there.
"""

from __future__ import annotations

import asyncio

from boomwright.web.service import PlanDesk
from boomwright.web.windows import Windows
from boomwright.web.workers import BusyError, Crew

#: time after the first unsaved edit at which the plan is written [s]
PAUSE = 0.4
#: time from one look at the file to the next [s]
WATCH = 2.0
_HANGS = "the disk does not answer"


class Autosave:
    """Writes the plan soon after an edit, and tells every window."""

    def __init__(self, desk: PlanDesk, *, crew: Crew, windows: Windows) -> None:
        self._desk = desk
        self._crew = crew
        self._windows = windows
        self._timer: asyncio.Task[None] | None = None

    def touch(self) -> None:
        """Note an edit: write when the time is up, with all that came until then."""
        if self._timer is None:
            self._timer = asyncio.create_task(self._later())

    async def _later(self) -> None:
        await asyncio.sleep(PAUSE)
        # From here on the write goes through whatever comes; a new edit starts a new timer.
        self._timer = None
        await self._save()
        await self._windows.tell_saving()

    async def look(self) -> None:
        """See whether the file is still what it was, and take up a change when nothing is lost."""
        revision, saving = self._desk.revision, self._desk.saving
        try:
            await self._crew.disk(self._desk.look)
        except BusyError:
            self._desk.fail(_HANGS)
        if self._desk.revision != revision:
            self._windows.repaint()
        if self._desk.saving != saving:
            await self._windows.tell_saving()
        if self._desk.saving.state == "changed":
            # A window that was closed at once may not have said so.
            self.touch()

    async def flush(self) -> None:
        """Write what is not yet written, now."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        await self._save()

    async def _save(self) -> None:
        try:
            await self._crew.disk(self._desk.save)
        except BusyError:
            self._desk.fail(_HANGS)
