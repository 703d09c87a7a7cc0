"""The socket of the Start sheet, which needs no plan on the desk."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

import anyio
from anyio.abc import TaskGroup
from starlette.websockets import WebSocket

from boomwright.base import UnitSystem
from boomwright.web.desk_plans import DeskPlans
from boomwright.web.edits import MessageError, Show, read_message
from boomwright.web.start_edits import Begin, Seek, Shelve, Tend
from boomwright.web.stations import Stations
from boomwright.web.windows import MOST_ASKED, Outlet, Window, Windows
from boomwright.web.works import Works


class StartWindow:
    """One window that shows the Start sheet.

    Args:
        socket: its socket, accepted
        stations_html: writes the stations found, for a window's units
        system: units shown
        narrow: whether the window is narrow
    """

    def __init__(
        self,
        *,
        socket: WebSocket,
        plans: DeskPlans,
        stations: Stations,
        stations_html: Callable[[UnitSystem, bool], str],
        works: Works,
        windows: Windows,
        system: UnitSystem,
        narrow: bool,
    ) -> None:
        self._socket = socket
        self._plans = plans
        self._stations = stations
        self._html = stations_html
        self._works = works
        self._windows = windows
        self._system = system
        self._narrow = narrow
        self._asked = asyncio.Semaphore(MOST_ASKED)
        self._reading = anyio.CancelScope()
        self._out = Outlet(socket, on_close=self._reading.cancel)

    async def run(self) -> None:
        """Serve the window until it closes; what it asked for goes on without it."""
        told = Window(repaint=lambda: None, tell_saving=self._say_nothing, tell=self._say)
        self._windows.add(told)
        try:
            await self._say(self._works.message())
            await self._say(self._stations.message())
            async with anyio.create_task_group() as tasks:
                with self._reading:
                    await self._read(tasks)
                self._windows.remove(told)
        finally:
            self._windows.remove(told)

    async def _read(self, tasks: TaskGroup) -> None:
        while (received := await self._socket.receive())["type"] != "websocket.disconnect":
            await self._asked.acquire()
            tasks.start_soon(self._answer, received.get("text"))

    async def _answer(self, text: str | None) -> None:
        try:
            edit = read_message(text).edit
            match edit:
                case Shelve() | Begin():
                    await self._plans.act(edit, self._say, system=self._system)
                case Seek():
                    await self._stations.act(edit, self._say, system=self._system)
                case Tend():
                    await self._works.tend(edit)
                case Show(system=system, narrow=narrow):
                    self._system, self._narrow = system, narrow
                    await self._say(self._stations.message())
        except MessageError as error:
            await self._say({"kind": "refused", "message": str(error)})
        finally:
            self._asked.release()

    async def _say_nothing(self) -> None:
        """Say nothing of saving: no plan is shown here."""

    async def _say(self, message: dict[str, Any]) -> None:
        if message["kind"] == "stations" and message["ready"]:
            html = await asyncio.to_thread(self._html, self._system, self._narrow)
            message = message | {"html": html}
        await self._out.say(message)
