"""All browser windows that look at the plan, and the way out to each."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import Any

from starlette.websockets import WebSocket, WebSocketDisconnect

from boomwright.base.records import dataclass

#: tells a window something
Say = Callable[[dict[str, Any]], Awaitable[None]]

#: longest time a window may take to take a message [s]
TAKE = 20.0
#: long things that one window may ask for at once
MOST_ASKED = 8
#: code of closing a window that did not take its messages, or whose work was not done in time;
#: registered for {rfc-6455, section 11.7}
_TRY_AGAIN_LATER = 1013


def message_text(message: dict[str, Any]) -> str:
    """Write a message as a window takes it."""
    return json.dumps(message, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


class Outlet:
    """The way out to one window: one message after the other, to a window that takes them.

    Args:
        socket: its socket, accepted
        on_close: what ends its reading once the window is given up
    """

    def __init__(self, socket: WebSocket, *, on_close: Callable[[], None]) -> None:
        self._socket = socket
        self._on_close = on_close
        self._sending = asyncio.Lock()
        self._gone = False

    async def say(self, message: dict[str, Any]) -> None:
        """Send a message."""
        await self.send(message_text(message))

    async def send(self, text: str) -> None:
        """Send the text of a message; a window that does not take it in time is given up."""
        async with self._sending:
            # A window may close while its answer is being computed; its reader ends the rest.
            if self._gone:
                return
            try:
                async with asyncio.timeout(TAKE):
                    await self._socket.send_text(text)
            except (WebSocketDisconnect, RuntimeError):
                self._gone = True
            except TimeoutError:
                await self.close()

    async def close(self) -> None:
        """End a window that cannot be served; its browser connects again by itself."""
        self._gone = True
        with suppress(WebSocketDisconnect, RuntimeError, TimeoutError):
            async with asyncio.timeout(TAKE):
                await self._socket.close(_TRY_AGAIN_LATER)
        self._on_close()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """What a browser window is told."""

    repaint: Callable[[], None]  #: computes and sends everything again
    tell_saving: Callable[[], Awaitable[None]]  #: tells it whether the plan is saved
    tell: Say  #: tells it anything


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
