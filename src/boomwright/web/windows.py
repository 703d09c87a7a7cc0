"""All browser windows that look at the plan."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """What a browser window is told."""

    repaint: Callable[[], None]  #: computes and sends everything again
    tell_saving: Callable[[], Awaitable[None]]  #: tells it whether the plan is saved
    tell: Callable[[dict[str, Any]], Awaitable[None]]  #: tells it anything


class Windows:
    """All browser windows looking at the plan, so that each hears of the others' edits."""

    def __init__(self) -> None:
        self._open: set[Window] = set()

    def add(self, window: Window) -> None:
        """Add a window."""
        self._open.add(window)

    def remove(self, window: Window) -> None:
        """Remove a window."""
        self._open.discard(window)

    def repaint(self, *, but: Window | None = None) -> None:
        """Have every window repaint."""
        for window in self._open - {but}:
            window.repaint()

    async def tell_saving(self) -> None:
        """Tell every window whether the plan is saved."""
        # At once: a window whose reader has gone to sleep must not keep the others waiting.
        await asyncio.gather(*(window.tell_saving() for window in self._open))

    async def tell(self, message: dict[str, Any]) -> None:
        """Tell every window something."""
        await asyncio.gather(*(window.tell(message) for window in self._open))

    async def tell_moved(self, address: str) -> None:
        """Send every window to an address: another plan lies on the desk."""
        await self.tell({"kind": "moved", "address": address})
