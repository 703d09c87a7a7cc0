"""Improving a beam from a window: one search at a time, told as it goes, stopped at once."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Awaitable, Callable
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from starlette.concurrency import run_in_threadpool

from boomwright.base import BoomwrightError, PlanError, UnitSystem, length_text
from boomwright.figures import ReadingTable
from boomwright.web.colours import page_palette
from boomwright.web.improve_edits import Improve
from boomwright.web.offer import Offer
from boomwright.web.service import PlanDesk
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.app.improve import SearchProgress
    from boomwright.app.improve_desk import FoundBeam
    from boomwright.plan import Plan
    from boomwright.plan.model_wish import WishPlan

Say = Callable[[dict[str, Any]], Awaitable[None]]

#: how often a window hears of a search, and how soon a stop is taken up [s]
_LOOK = 0.15
#: width of the trade-off on a wide and on a narrow window [user units]
_WIDE, _NARROW = 640.0, 340.0


@dataclass(slots=True)
class _Heard:
    """What the search said last, and whether it shall stop; shared with its thread."""

    progress: SearchProgress | None
    stop: threading.Event

    def __call__(self, progress: SearchProgress) -> bool:
        self.progress = progress
        return not self.stop.is_set()


class Improving:
    """Searches for one desk, from any of its windows.

    Parameters
    ----------
    desk
        the plan [-]
    """

    def __init__(self, desk: PlanDesk) -> None:
        self._desk = desk
        self._heard: _Heard | None = None

    async def act(self, edit: Improve, *, view: View, say: Say) -> None:
        """Do what a window asks, and tell it what came of it.

        Parameters
        ----------
        edit
            what is asked [-]
        view
            what the window looks at [-]
        say
            sends an answer to the window [-]
        """
        if edit.action == "cancel":
            if self._heard is not None:
                self._heard.stop.set()
                await say({"kind": "improve", "state": "stopping"})
            return
        try:
            if edit.action == "look":
                await self._look(view, say)
            elif self._heard is not None:
                await say({"kind": "improve", "state": "refused",
                           "text": "a search is under way in another window -> cancel it there, "
                           "or wait"})  # fmt: skip
            else:
                await self._search(view, say)
        except PlanError as error:
            first = error.faults[0]
            await _refuse(say, f"{first.path}: {first.message} -> {first.remedy}")
        except BoomwrightError as error:
            await _refuse(say, str(error))
        except OSError as error:
            await _refuse(say, f"the search could not run: {error.strerror or error}")

    async def _look(self, view: View, say: Say) -> None:
        _, plan = self._desk.snapshot()
        wishes = {"wishes": _wishes(plan.wish, system=view.system), "wish_words": _words(plan)}
        try:
            picture = await run_in_threadpool(
                lambda: self._desk.tools.trade_off(
                    plan,
                    number=min(view.beam, len(plan.beams) - 1),
                    system=view.system,
                    palette=page_palette(),
                    width=_NARROW if view.narrow else _WIDE,
                )
            )
        except BoomwrightError as error:
            await say({"kind": "improve", "state": "no-trade-off", "text": str(error)} | wishes)
            return
        await say(
            {
                "kind": "improve",
                "state": "trade-off",
                "svg": picture.svg,
                "caption": picture.caption,
                "table": _table(picture.behind.caption, picture.behind.table),
            }
            | wishes
        )

    async def _search(self, view: View, say: Say) -> None:
        heard = self._heard = _Heard(progress=None, stop=threading.Event())
        revision, text = self._desk.revision, self._desk.text

        def search() -> FoundBeam:
            return self._desk.tools.improve(text, system=view.system, on_progress=heard)

        running = asyncio.get_running_loop().run_in_executor(None, search)
        # Once its window is closed nobody asks how it ended.
        running.add_done_callback(lambda ended: ended.cancelled() or ended.exception())
        try:
            while not running.done():
                await say({"kind": "improve", "state": "running", **_told(heard)})
                await asyncio.wait([running], timeout=_LOOK)
            found = running.result()
        finally:
            # A closed window ends its search; nobody would see the result.
            heard.stop.set()
            self._heard = None
        self._desk.offer = Offer(revision=revision, text=found.text, label="better beam taken")
        await say(
            {
                "kind": "improve",
                "state": "found",
                "text": found.words,
                "figures": _table("Before and after, free space", found.figures),
                "elements": _table("Places and lengths", found.elements),
                "notices": list(found.notices),
            }
        )


def _wishes(wish: WishPlan | None, *, system: UnitSystem) -> dict[str, str]:
    """Texts of the wishes that the page has fields for."""
    boom = None if wish is None else wish.boom_length
    rear = None if wish is None else wish.front_to_rear_db
    gain = None if wish is None else wish.gain_dbi
    return {
        "wish.boom": "" if boom is None else length_text(boom, system=system),
        "wish.front_to_rear": "" if rear is None else f"{rear:g} dB",
        "wish.gain": "" if gain is None else f"{gain:g} dBi",
    }


def _words(plan: Plan) -> str:
    if plan.wish is None:
        return (
            "The plan has no wishes yet: only gain will count, with an SWR of 2 at most after a "
            "match. A value typed here is written under [wish]."
        )
    about = plan.wish.beam or plan.beams[0].name
    return f"These wishes are about {about}; further ones stand under [wish] in the plan."


def _told(heard: _Heard) -> dict[str, Any]:
    if heard.progress is None:
        return {"text": "setting up", "share": None, "stopping": heard.stop.is_set()}
    told = asdict(heard.progress)
    parts = [f"{told['doing']}: {told['done']} of {told['total']} starts"]
    if told["best_gain_dbi"] is not None:
        parts.append(f"best {told['best_gain_dbi']:.2f} dBi")
    if told["seconds_left"] is not None:
        parts.append(f"about {max(told['seconds_left'], 1.0):.0f} s left")
    return {
        "text": ", ".join(parts),
        "share": told["done"] / told["total"] if told["total"] else None,
        "stopping": heard.stop.is_set(),
    }


def _table(caption: str, table: ReadingTable) -> dict[str, Any]:
    return {
        "caption": caption,
        "columns": list(table.header),
        "rows": [list(r) for r in table.rows],
    }


async def _refuse(say: Say, text: str) -> None:
    await say({"kind": "improve", "state": "refused", "text": text})
