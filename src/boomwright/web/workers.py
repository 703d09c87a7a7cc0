"""Threads that do the page's work: bounded in number and time, and never waited for at the end.

A thread that is stuck, in a file system that does not answer perhaps, cannot be ended. It is left
behind when its time is up, so that whoever asked gets an answer and its place is free again.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Any, ParamSpec, TypeVar

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass, field

Given = ParamSpec("Given")
Done = TypeVar("Done")

#: longest time for what a hand waits for, for a sheet or a file, and for the plan file [s]
QUICK, LONG, DISK = 60.0, 600.0, 10.0
#: threads left behind at which no more work is begun
_MOST_LEFT = 32


class BusyError(BoomwrightError):
    """Work that was not done in its time."""


class Workers:
    """Threads for one kind of work.

    Args:
        places: pieces of work done at once; more wait for their turn
        limit: longest time for one, the wait for its turn counted; None for no limit [s]
    """

    def __init__(self, *, places: int, limit: float | None) -> None:
        self._places = asyncio.Semaphore(places)
        self._limit = limit
        self._left: set[asyncio.Future[Any]] = set()

    async def __call__(
        self, work: Callable[Given, Done], *args: Given.args, **named: Given.kwargs
    ) -> Done:
        """Do a piece of work.

        Raises:
            BusyError: when it was not done in its time; it may go on, unheard
        """
        if len(self._left) >= _MOST_LEFT:
            raise BusyError(
                "too much work hangs", remedy="stop boomwright with Ctrl-C and open the plan again"
            )
        loop = asyncio.get_running_loop()
        outcome: asyncio.Future[Done] = loop.create_future()

        def body() -> None:
            result: Done | None = None
            error: BaseException | None = None
            try:
                result = work(*args, **named)
            except BaseException as caught:
                # Whatever it is, it belongs to whoever asked.
                error = caught
            # At the end of the program nobody listens any more.
            with suppress(RuntimeError):
                loop.call_soon_threadsafe(self._end, outcome, result, error)

        begun = False
        try:
            async with asyncio.timeout(self._limit):
                await self._places.acquire()
                threading.Thread(target=body, name="page", daemon=True).start()
                begun = True
                return await outcome
        except TimeoutError:
            if outcome.done() and not outcome.cancelled():
                # A time limit of the work's own.
                raise
            if begun:
                self._left.add(outcome)
                self._places.release()
            raise BusyError(
                f"not done within {self._limit:g} s, and left", remedy="try again"
            ) from None

    def _end(
        self, outcome: asyncio.Future[Any], result: object, error: BaseException | None
    ) -> None:
        if outcome in self._left:
            self._left.discard(outcome)
        else:
            self._places.release()
        # Whoever asked may have gone.
        if outcome.done():
            return
        if error is None:
            outcome.set_result(result)
        else:
            outcome.set_exception(error)


@dataclass(frozen=True, slots=True)
class Crew:
    """All threads of a page, by what they do, so that no kind of work can hold up another."""

    #: what a hand waits for: edits, the first figures of a sheet
    quick: Workers = field(default_factory=lambda: Workers(places=16, limit=QUICK))
    #: whole sheets and files
    long: Workers = field(default_factory=lambda: Workers(places=8, limit=LONG))
    #: the plan file and its folder
    disk: Workers = field(default_factory=lambda: Workers(places=4, limit=DISK))
    #: searches, which are stopped and not timed
    search: Workers = field(default_factory=lambda: Workers(places=2, limit=None))
