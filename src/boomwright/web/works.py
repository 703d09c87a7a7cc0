"""Long work: it has a name, every window sees how far it is and can stop it, and its outcome stays.

It belongs to the program, not to the window that asked for it: a window that is closed and opened
again is told what came of it meanwhile.
"""

from __future__ import annotations

import asyncio
import threading
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from typing import Any, Literal

from boomwright.base import BoomwrightError
from boomwright.web.start_edits import Tend
from boomwright.web.windows import Windows

#: how often windows hear of work [s]
LOOK = 0.2
#: outcomes kept until somebody puts them away
_MOST_KEPT = 4
#: share below which nothing is said of the time left [-]
_EARLY = 0.03

WorkState = Literal["running", "stopping", "done", "stopped", "failed"]


class StoppedError(BoomwrightError):
    """Work that was stopped by hand."""


@dataclass(slots=True, kw_only=True)
class Work:
    """One piece of long work; its thread tells how far it is."""

    number: int
    name: str  #: what is done, in the words of its button
    address: str  #: where its outcome stands
    text: str = ""  #: how far it is, or what came of it
    share: float | None = None  #: share that is done; None while not known [-]
    seconds_left: float | None = None  #: as the work itself reckons [s]
    state: WorkState = "running"
    stop: threading.Event = field(default_factory=threading.Event)
    _begun: float = field(default_factory=time.monotonic)

    def step(self, text: str, share: float | None, *, seconds_left: float | None = None) -> bool:
        """Hear how far the work is.

        Args:
            share: share that is done; None when not known [-]
            seconds_left: time left; None has it reckoned from the share [s]

        Returns:
            whether to go on
        """
        gone = time.monotonic() - self._begun
        if seconds_left is None and share is not None and share > _EARLY:
            seconds_left = gone / share - gone
        self.text, self.share, self.seconds_left = text, share, seconds_left
        return not self.stop.is_set()

    def check(self) -> None:
        """End the work when it is to stop.

        Raises:
            StoppedError: when it is
        """
        if self.stop.is_set():
            raise StoppedError(f"{self.name}: stopped")

    def told(self) -> dict[str, Any]:
        """What a window shows of it."""
        left = self.seconds_left
        return {
            "number": self.number,
            "name": self.name,
            "address": self.address,
            "text": self.text,
            "share": self.share,
            "left": None if left is None or self.state != "running" else max(round(left), 1),
            "gone": round(time.monotonic() - self._begun) if self.state == "running" else None,
            "state": self.state,
        }


class Works:
    """All long work of the page.

    Args:
        windows: all windows, told how far it is
    """

    def __init__(self, windows: Windows) -> None:
        self._windows = windows
        self._works: list[Work] = []
        self._last = 0

    @asynccontextmanager
    async def under_way(self, name: str, *, address: str) -> AsyncIterator[Work]:
        """Name work, and tell every window of it until it ends.

        Args:
            address: where its outcome will stand

        Yields:
            the work; leaving by an error makes it failed, or stopped when it was to stop
        """
        self._last += 1
        work = Work(number=self._last, name=name, address=address)
        self._works.append(work)
        telling = asyncio.create_task(self._tell_on(work))
        try:
            yield work
            work.state = "done"
        except BaseException as error:
            stopped = work.stop.is_set() or not isinstance(error, Exception)
            work.state = "stopped" if stopped else "failed"
            work.text = "nothing was changed" if stopped else str(error)
            raise
        finally:
            telling.cancel()
            ended = [each for each in self._works if each.state not in {"running", "stopping"}]
            for old in ended[:-_MOST_KEPT]:
                self._works.remove(old)
            await self.tell()

    async def _tell_on(self, work: Work) -> None:
        before = None
        while True:
            told = work.told()
            if told != before:
                await self.tell()
            before = told
            await asyncio.sleep(LOOK)

    @property
    def known(self) -> bool:
        """Whether there is anything to tell."""
        return bool(self._works)

    async def tell(self) -> None:
        """Tell every window how far everything is."""
        await self._windows.tell(self.message())

    def message(self) -> dict[str, Any]:
        """What a window that has just been opened is told."""
        return {"kind": "works", "works": [work.told() for work in self._works]}

    async def tend(self, tend: Tend) -> None:
        """Stop work, or put away its outcome."""
        for work in [each for each in self._works if each.number == tend.number]:
            if work.state == "running":
                work.state = "stopping"
                work.stop.set()
            elif work.state != "stopping":
                self._works.remove(work)
        await self.tell()
