"""Work that gives way: what a hand has overtaken is broken off between two solutions."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager


class OvertakenError(Exception):
    """Work that was broken off because nobody waits for its answer any more."""


class GivingWay:
    """Asked before every solution, it breaks off work that its own thread calls overtaken."""

    def __init__(self) -> None:
        self._mine = threading.local()

    @contextmanager
    def when(self, overtaken: Callable[[], bool]) -> Iterator[None]:
        """Let the work of this thread be broken off as soon as it is overtaken."""
        self._mine.overtaken = overtaken
        try:
            yield
        finally:
            del self._mine.overtaken

    def __call__(self) -> None:
        """Look whether to go on.

        Raises:
            OvertakenError: when this thread's work is overtaken
        """
        overtaken = getattr(self._mine, "overtaken", None)
        if overtaken is not None and overtaken():
            raise OvertakenError
