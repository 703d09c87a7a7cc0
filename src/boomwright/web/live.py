"""One browser window's socket: edits in, repaints out, the latest wins.

Two loops run beside the reader. The quick one applies whatever edits have come in, then
computes and sends what must follow a drag; the full one waits until the edits pause. Edits
that a later edit of the same gesture overtakes are dropped before they cost anything.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from dataclasses import asdict, replace
from typing import Any

import anyio
from anyio.abc import TaskGroup
from starlette.websockets import WebSocket

from boomwright.base import BoomwrightError, Fault, PlanError
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.session.giving_way import OvertakenError
from boomwright.web.autosave import Autosave
from boomwright.web.desk_plans import DeskPlans
from boomwright.web.edits import (
    Act,
    Corner,
    Edit,
    Lengthen,
    Message,
    MessageError,
    Move,
    Raise,
    Show,
    Tune,
    read_message,
)
from boomwright.web.form_edits import FormEdit, TypePrice
from boomwright.web.frame import frame_full, frame_quick, frame_verdict
from boomwright.web.improve_edits import Improve
from boomwright.web.proposing import propose
from boomwright.web.refusing import told
from boomwright.web.service import PlanDesk
from boomwright.web.sheets import Sheet
from boomwright.web.start_edits import Begin, Propose, Seek, Shelve, Tend, Tick
from boomwright.web.step_card import step_card
from boomwright.web.view import View
from boomwright.web.windows import MOST_ASKED, TAKE, Outlet, Window, Windows, message_text
from boomwright.web.workers import BusyError, Crew
from boomwright.web.works import Works

#: pause in the edits after which the whole band is computed [s]
SETTLE = 0.1
#: how often a window hears of long work [s]
_LOOK = 0.3
#: what is answered in its own time, while edits go on
_ASKING = (Shelve, Tend, Tick, Propose, Improve)
#: edits waiting at which no more are read for a while
_MOST_PENDING = 1000


def _target(edit: Edit) -> tuple[object, ...] | None:
    """Name what a dragged value belongs to; None when every edit counts."""
    match edit:
        case Move() | Lengthen():
            return type(edit), edit.beam, edit.element
        case Corner():
            return type(edit), edit.beam, edit.point
        case Raise():
            return type(edit), edit.beam
        case Tune():
            return (type(edit),)
    return None


def coalesce(pending: Sequence[Message], new: Message) -> list[Message]:
    """Add a message to those waiting; it replaces the last one when it overtakes it.

    Args:
        pending: messages waiting, oldest first
    """
    target = _target(new.edit)
    if pending and target is not None and new.gesture:
        last = pending[-1]
        if last.gesture == new.gesture and _target(last.edit) == target:
            return [*pending[:-1], new]
    return [*pending, new]


def _typed_frequency(text: str) -> float:
    try:
        frequency = parse_quantity(text, "frequency")
    except QuantityError as error:
        fault = Fault(path="frequency", message=error.message, value=text, remedy=error.remedy)
        raise PlanError((fault,)) from None
    if not 1e3 <= frequency <= 1e11:
        fault = Fault(
            path="frequency",
            message="the frequency is outside 1 kHz to 100 GHz",
            value=text,
            remedy="type a frequency such as 14.175 MHz",
        )
        raise PlanError((fault,))
    return frequency


def apply_message(desk: PlanDesk, view: View, message: Message) -> View:
    """Apply one message to the plan or to the view.

    Raises:
        PlanError: when a value is refused; nothing is changed then
    """
    match message.edit:
        case Tune(frequency=None, text=text):
            return replace(view, frequency=_typed_frequency(text))
        case Tune(frequency=frequency):
            return replace(view, frequency=frequency)
        case Show(system=system, narrow=narrow):
            return replace(view, system=system, narrow=narrow)
        case Shelve() | Begin() | Seek() | Tend() | Tick() | Propose() | Improve():
            # Done by plans, search, works or the disk before they come here.
            return view
        case Act(action="look"):  # done by autosave
            return view
        case Act(action="stop"):
            desk.fitting.stop()
            return view
        case edit:
            desk.apply(edit, gesture=message.gesture)
            return view


def _place_of(message: Message) -> str:
    edit = message.edit
    match edit:
        case Move():
            return f"beam[{edit.beam}].element[{edit.element}].at"
        case Lengthen():
            return f"beam[{edit.beam}].element[{edit.element}].length"
        case Corner():
            return f"beam[{edit.beam}].frame.points[{edit.point}]"
        case Raise():
            return f"beam[{edit.beam}].height"
        case Tune():
            return "frequency"
    return getattr(edit, "place", "")


class LiveWindow:
    """One browser window.

    Args:
        socket: its socket, accepted
        sheet: the sheet it shows
        sheets: all sheets, for the row of them
        block: writes a sheet's own block anew
        view: what it looks at
        plans: the plan on the desk and the others
        works: long work, told of and stopped from here too
        autosave: writes the plan
        crew: the threads that do its work
    """

    def __init__(
        self,
        *,
        socket: WebSocket,
        desk: PlanDesk,
        sheet: Sheet,
        sheets: Sequence[Sheet],
        block: Callable[[Sheet, View], str],
        view: View,
        windows: Windows,
        plans: DeskPlans,
        works: Works,
        autosave: Autosave,
        crew: Crew,
    ) -> None:
        self._socket = socket
        self._desk = desk
        self._sheet = sheet
        self._sheets = sheets
        self._block = block
        self._view = view
        self._windows = windows
        self._plans = plans
        self._crew = crew
        self._works = works
        self._autosave = autosave
        self._loops: TaskGroup
        self._pending: list[Message] = []
        self._seq = 0
        self._wake = asyncio.Event()
        self._settle = asyncio.Event()
        self._following = False
        self._asked = asyncio.Semaphore(MOST_ASKED)
        self._out = Outlet(socket, on_close=lambda: self._loops.cancel_scope.cancel())
        self._told = Window(repaint=self.repaint, tell_saving=self.tell_saving, tell=self._out.say)

    async def run(self) -> None:
        """Serve the window until it closes."""
        self._windows.add(self._told)
        self.repaint()
        try:
            async with anyio.create_task_group() as loops:
                self._loops = loops
                if self._works.known:
                    await self._out.say(self._works.message())
                loops.start_soon(self._quick_loop)
                loops.start_soon(self._full_loop)
                if self._sheet.progress is not None:
                    loops.start_soon(self._progress_loop, self._sheet.progress)
                await self._read()
                # What was asked before the window closed still counts.
                with anyio.move_on_after(TAKE):
                    await self._done()
                loops.cancel_scope.cancel()
        finally:
            self._windows.remove(self._told)

    def repaint(self) -> None:
        """Compute and send everything again."""
        self._wake.set()
        self._settle.set()

    async def tell_saving(self) -> None:
        """Tell the window whether the plan is saved."""
        await self._out.say({"kind": "saving", **self._desk_state()})

    def _desk_state(self) -> dict[str, Any]:
        return {
            "saving": asdict(self._desk.saving),
            "undo": self._desk.undo_label,
            "redo": self._desk.redo_label,
            "lesson": step_card(self._desk, system=self._view.system),
        }

    async def _read(self) -> None:
        while True:
            received = await self._socket.receive()
            if received["type"] == "websocket.disconnect":
                return
            try:
                message = read_message(received.get("text"))
            except MessageError as error:
                await self._out.say({"kind": "refused", "message": str(error)})
                continue
            if isinstance(message.edit, _ASKING):
                # May take long; edits go on meanwhile.
                await self._asked.acquire()
                self._loops.start_soon(self._answer, message.edit)
                continue
            if message.edit == Act(action="look"):
                self._loops.start_soon(self._autosave.look)
            while len(self._pending) >= _MOST_PENDING:
                await asyncio.sleep(SETTLE)
            self._pending = coalesce(self._pending, message)
            self._wake.set()

    async def _answer(self, edit: Edit) -> None:
        """Do what may take long."""
        try:
            if isinstance(edit, Improve) and self._plans.improving is not None:
                await self._plans.improving.act(edit, view=self._view, say=self._out.say)
            elif isinstance(edit, Tend):
                await self._works.tend(edit)
            elif isinstance(edit, Tick):
                await self._tick(edit)
            elif isinstance(edit, Propose):
                await self._done()
                await propose(
                    edit, desk=self._desk, crew=self._crew, view=self._view, say=self._out.say
                )
            elif isinstance(edit, Shelve):
                # What was done before belongs to the plan that still lies on the desk.
                await self._done()
                await self._plans.act(edit, self._out.say, system=self._view.system)
        finally:
            self._asked.release()

    async def _tick(self, tick: Tick) -> None:
        """Keep a tick, and show it in the other windows."""
        try:
            await self._crew.disk(self._desk.session.tick, tick.what, done=tick.done)
        except (BoomwrightError, OSError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            await self._out.say({"kind": "refused", "message": f"the tick is not kept: {reason}"})
        self._windows.repaint(but=self._told)

    async def _done(self) -> None:
        """Wait until every edit that came in is applied."""
        while self._pending or self._following:
            await asyncio.sleep(0.005)

    async def _quick_loop(self) -> None:
        while True:
            await self._wake.wait()
            self._wake.clear()
            self._following = True
            batch, self._pending = self._pending, []
            before = self._desk.revision
            view_before = self._view
            try:
                text = await self._crew.quick(self._quick, batch)
            except BusyError:
                await self._out.close()
                return
            await self._out.send(text)
            self._following = False
            if self._desk.revision != before:
                self._windows.repaint(but=self._told)
                self._autosave.touch()
            # A sheet that shows a first part of its work asks for the rest by showing it again.
            again = any(isinstance(message.edit, Show) for message in batch)
            if self._desk.revision != before or self._view != view_before or again:
                self._settle.set()
            if any(isinstance(m.edit, Act) for m in batch):
                self._autosave.touch()

    def _quick(self, batch: list[Message]) -> str:
        """Apply the edits and paint; runs in a worker thread."""
        faults: list[dict[str, Any]] = []
        for message in batch:
            self._seq = max(self._seq, message.seq)
            try:
                self._view = apply_message(self._desk, self._view, message)
            except PlanError as error:
                found = [
                    asdict(fault)
                    for fault in told(error, self._desk.text, system=self._view.system).faults
                ]
            else:
                found = []
            form = isinstance(message.edit, FormEdit | TypePrice)
            faults.append({"place": _place_of(message), "form": form, "faults": found})
        moving = bool(batch) and batch[-1].gesture > 0
        answer = {"kind": "quick", "seq": self._seq, "refusals": faults}
        paint = frame_quick(self._desk, self._view, moving=moving)
        return message_text(
            answer | self._desk_state() | paint | self._sheet.quick(self._desk, self._view)
        )

    async def _full_loop(self) -> None:
        while True:
            await self._settle.wait()
            # While a hand moves, even slowly followed, the whole band would only slow it down.
            while self._overtaken():
                self._settle.clear()
                await asyncio.sleep(SETTLE)
            for paint in (self._full, self._verdict):
                try:
                    text = await self._crew.long(self._unless_overtaken, paint)
                except BusyError:
                    await self._out.close()
                    return
                except OvertakenError:
                    # What overtook it may have changed nothing.
                    self._settle.set()
                if self._settle.is_set():
                    break
                if text:
                    await self._out.send(text)

    def _unless_overtaken(self, paint: Callable[[], str]) -> str:
        """Paint; a hand that moves on meanwhile has the machine to itself."""
        with self._desk.session.giving_way.when(self._overtaken):
            return paint()

    def _overtaken(self) -> bool:
        return self._settle.is_set() or self._following or self._wake.is_set()

    async def _progress_loop(self, progress: Callable[[PlanDesk], float | None]) -> None:
        """Tell how far the long work of the sheet is."""
        told: float | None = None
        while True:
            await asyncio.sleep(_LOOK)
            share = progress(self._desk)
            if share is not None and share != told:
                await self._out.say({"kind": "progress", "share": share})
            told = share

    def _full(self) -> str:
        """Paint the whole band; runs in a worker thread."""
        view = self._view
        if self._sheet.full is not None:
            paint = frame_full(self._desk, view) | self._sheet.full(self._desk, view)
        else:
            # First, for Feed solves what the four numbers of the frame ask for, and more.
            block = self._block(self._sheet, view)
            paint = frame_full(self._desk, view) | {"block": block}
        if paint["revision"] != self._desk.revision or view != self._view:
            return ""
        return message_text({"kind": "full", "seq": self._seq} | paint)

    def _verdict(self) -> str:
        """Judge the plan; runs in a worker thread, after everything that a hand waits for."""
        paint = frame_verdict(self._desk, self._view, sheet=self._sheet, sheets=self._sheets)
        if paint["verdict"]["revision"] != self._desk.revision:
            return ""
        return message_text({"kind": "verdict", "seq": self._seq} | paint)
