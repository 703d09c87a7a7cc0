"""Autosave: the plan goes to its file soon after an edit, and once more at the end.

The first edit that is not yet in the file starts the time, later ones do not put it off: whatever
happens to the program, no more than about the last half second of edits is missing.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable

from starlette.concurrency import run_in_threadpool

from boomwright.web.service import PlanDesk

#: time after the first unsaved edit at which the plan is written [s]
PAUSE = 0.4


class Autosave:
    """Writes the plan soon after an edit.

    Parameters
    ----------
    told
        called after each attempt
    pause
        time from the first unsaved edit to the write [s]
    """

    def __init__(
        self, desk: PlanDesk, *, told: Callable[[], Awaitable[None]], pause: float = PAUSE
    ) -> None:
        self._desk = desk
        self._told = told
        self._pause = pause
        self._timer: asyncio.Task[None] | None = None

    def touch(self) -> None:
        """Note an edit: write when the time is up, with all that came until then."""
        if self._timer is None:
            self._timer = asyncio.create_task(self._later())

    async def _later(self) -> None:
        await asyncio.sleep(self._pause)
        # From here on the write goes through whatever comes; a new edit starts a new timer.
        self._timer = None
        await run_in_threadpool(self._desk.save)
        await self._told()

    async def flush(self) -> None:
        """Write what is not yet written, now."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        await run_in_threadpool(self._desk.save)
