"""Improving a beam from a window: one search at a time, told as it goes, stopped at once."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Awaitable, Callable
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from boomwright.base import (
    BoomwrightError,
    PlanError,
    UnitSystem,
    length_text,
    quantity_text,
)
from boomwright.charts import ReadingTable, ShownPicture, ShownSubject
from boomwright.plan.model_wish import WishPlan
from boomwright.plan.resolve import usual_wishes
from boomwright.report.model import Canvas
from boomwright.web.colours import page_palette
from boomwright.web.improve_edits import Improve
from boomwright.web.service import PlanDesk
from boomwright.web.view import View
from boomwright.web.workers import Crew
from boomwright.web.writing import Offer

if TYPE_CHECKING:
    from boomwright.plan import Plan
    from boomwright.session.plan_session import BetterBeam
    from boomwright.session.search import SearchProgress

Found = TypeVar("Found")
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
    """Searches for one desk, from any of its windows."""

    def __init__(self, desk: PlanDesk, *, crew: Crew) -> None:
        self._desk = desk
        self._crew = crew
        self._heard: _Heard | None = None

    async def act(self, edit: Improve, *, view: View, say: Say) -> None:
        """Do what a window asks, and tell it what came of it."""
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
            elif edit.action in {"compare", "tolerate"}:
                await self._find_out(edit.action, view, say)
            else:
                await self._search(view, say, resume=edit.action == "resume")
        except PlanError as error:
            first = error.faults[0]
            await _refuse(say, f"{first.path}: {first.message} -> {first.remedy}")
        except BoomwrightError as error:
            await _refuse(say, str(error))
        except OSError as error:
            await _refuse(say, f"the search could not run: {error.strerror or error}")

    async def _look(self, view: View, say: Say) -> None:
        _, plan = self._desk.snapshot()
        number = min(view.beam, len(plan.beams) - 1)
        wishes = {"wishes": _wishes(plan.wish, system=view.system), "wish_words": _words(plan)}
        await self._tell_found(view, say)
        try:
            picture = await self._crew.long(
                self._desk.session.trade_off,
                plan,
                number=number,
                canvas=_canvas(view),
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

    async def _tell_found(self, view: View, say: Say) -> None:
        """Tell what was found of the beam as it stands, and of a search broken off."""
        _, plan = self._desk.snapshot()
        number = min(view.beam, len(plan.beams) - 1)
        session = self._desk.session

        def known() -> tuple[ShownSubject | None, str]:
            subject = session.found(plan, number=number, canvas=_canvas(view))
            return subject, "" if self._heard is not None else session.unfinished(plan)

        subject, unfinished = await self._crew.long(known)
        await say(
            {
                "kind": "improve",
                "state": "known",
                "unfinished": unfinished,
                "facts": [list(fact) for fact in subject.facts] if subject else [],
                "pictures": [_picture(each) for each in subject.pictures] if subject else [],
                "tables": [
                    _table(each.caption, each.table) | {"note": each.note}
                    for each in (subject.tables if subject else ())
                ],
            }
        )

    async def _search(self, view: View, say: Say, *, resume: bool) -> None:
        revision, text = self._desk.revision, self._desk.text

        def search(heard: _Heard) -> BetterBeam:
            return self._desk.session.improve(
                text, system=view.system, resume=resume, on_progress=heard
            )

        found = await self._run(search, say)
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
        await self._tell_found(view, say)

    async def _find_out(self, action: str, view: View, say: Say) -> None:
        """Compare spacings, or find out how finely to build, of the beam as it stands."""
        _, plan = self._desk.snapshot()
        number = min(view.beam, len(plan.beams) - 1)
        session = self._desk.session

        def find(heard: _Heard) -> bool:
            if action == "compare":
                session.compare_spacings(plan, on_progress=heard)
            else:
                session.tolerate(plan, number=number, on_progress=heard)
            return not heard.stop.is_set()

        whole = await self._run(find, say)
        text = "Done; it stands below." if whole else "Stopped; what was found before stands below."
        await say({"kind": "improve", "state": "done", "text": text})
        await self._tell_found(view, say)

    async def _run(self, work: Callable[[_Heard], Found], say: Say) -> Found:
        """Do long work in a thread, tell how far it is, hear whether to stop."""
        heard = self._heard = _Heard(progress=None, stop=threading.Event())
        running = asyncio.ensure_future(self._crew.search(work, heard))
        # Once its window is closed nobody asks how it ended.
        running.add_done_callback(lambda ended: ended.cancelled() or ended.exception())
        try:
            while not running.done():
                await say({"kind": "improve", "state": "running", **_told(heard)})
                await asyncio.wait([running], timeout=_LOOK)
            return running.result()
        finally:
            # A closed window ends its search; nobody would see the result.
            heard.stop.set()
            self._heard = None


def _canvas(view: View) -> Canvas:
    width = _NARROW if view.narrow else _WIDE
    return Canvas(palette=page_palette(), system=view.system, width=width)


def _wishes(wish: WishPlan | None, *, system: UnitSystem) -> dict[str, str]:
    """Texts of the wishes that the page has fields for."""
    said = wish or WishPlan()
    rear, gain = said.front_to_rear_db, said.gain_dbi
    spans = {
        "boom": said.boom_length,
        "element": said.element_length,
        "cutting_error": said.cutting_error,
    }
    others = {"mass": (said.mass, "kg"), "wind_area": (said.wind_area, "m2")}
    texts = {
        "front_to_rear": "" if rear is None else f"{rear:g} dB",
        "gain": "" if gain is None else f"{gain:g} dBi",
        **{k: "" if v is None else length_text(v, system=system) for k, v in spans.items()},
        **{
            k: "" if v is None else quantity_text(v, unit=unit, system=system)
            for k, (v, unit) in others.items()
        },
    }
    return {f"wish.{key}": text for key, text in texts.items()}


def _words(plan: Plan) -> str:
    if plan.wish is None:
        return (
            f"The plan has no wishes yet, so taken as usual: {'; '.join(usual_wishes(plan))}. A "
            "value typed here is written under [wish]."
        )
    about = plan.wish.beam or plan.beams[0].name
    usual = usual_wishes(plan)
    rest = f" Taken as usual: {'; '.join(usual)}." if usual else ""
    return f"These wishes are about {about}; further ones stand under [wish] in the plan.{rest}"


def _told(heard: _Heard) -> dict[str, Any]:
    if heard.progress is None:
        return {"text": "setting up", "share": None, "stopping": heard.stop.is_set()}
    told = asdict(heard.progress)
    starts = f": {told['done']} of {told['total']} starts" if told["total"] else ""
    parts = [f"{told['doing']}{starts}"]
    if told["best_gain_dbi"] is not None:
        parts.append(f"best {told['best_gain_dbi']:.2f} dBi")
    if told["seconds_left"] is not None:
        parts.append(f"about {max(told['seconds_left'], 1.0):.0f} s left")
    return {
        "text": ", ".join(parts),
        "share": told["done"] / told["total"] if told["total"] else None,
        "stopping": heard.stop.is_set(),
    }


def _picture(shown: ShownPicture) -> dict[str, Any]:
    return {
        "name": shown.name,
        "words": shown.words,
        "svg": shown.svg,
        "caption": shown.caption,
        "table": _table(shown.behind.caption, shown.behind.table),
    }


def _table(caption: str, table: ReadingTable) -> dict[str, Any]:
    return {
        "caption": caption,
        "columns": list(table.header),
        "rows": [list(r) for r in table.rows],
    }


async def _refuse(say: Say, text: str) -> None:
    await say({"kind": "improve", "state": "refused", "text": text})
