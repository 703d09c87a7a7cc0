"""Autosave: the plan goes to its file when edits pause, and once more at the end."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable

from starlette.concurrency import run_in_threadpool

from boomwright.web.service import PlanDesk

#: pause in the edits after which the plan is written [s]
PAUSE = 0.5


class Autosave:
    """Writes the plan when edits pause.

    Parameters
    ----------
    desk
        the plan [-]
    told
        called after each attempt [-]
    pause
        pause waited for [s]
    """

    def __init__(
        self, desk: PlanDesk, *, told: Callable[[], Awaitable[None]], pause: float = PAUSE
    ) -> None:
        self._desk = desk
        self._told = told
        self._pause = pause
        self._timer: asyncio.Task[None] | None = None

    def touch(self) -> None:
        """Note an edit: write once no other comes within the pause."""
        if self._timer is not None:
            self._timer.cancel()
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
