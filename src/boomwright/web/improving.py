"""Improving a beam from a window: one search at a time, told as it goes, stopped at once."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from typing import TYPE_CHECKING, Any, TypeVar

from boomwright.base import (
    BoomwrightError,
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
from boomwright.web.refusing import refusal
from boomwright.web.service import PlanDesk
from boomwright.web.view import View
from boomwright.web.windows import Say, Windows
from boomwright.web.workers import Crew
from boomwright.web.works import Work, Works
from boomwright.web.writing import Offer

if TYPE_CHECKING:
    from boomwright.plan import Plan
    from boomwright.session.plan_session import BetterBeam
    from boomwright.session.search import OnProgress, SearchProgress

Found = TypeVar("Found")

#: how often a window hears of a search, and how soon a stop is taken up [s]
_LOOK = 0.15
#: width of the trade-off on a wide and on a narrow window [user units]
_WIDE, _NARROW = 640.0, 340.0


class Improving:
    """Searches for one desk, from any of its windows; they outlive the window that began them."""

    def __init__(self, desk: PlanDesk, *, crew: Crew, windows: Windows, works: Works) -> None:
        self._desk = desk
        self._crew = crew
        self._windows = windows
        self._works = works
        self._work: Work | None = None
        self._busy = False
        self._task: asyncio.Task[None] | None = None
        #: what the last search found, and the offer it belongs to
        self._found: tuple[Offer, dict[str, Any]] | None = None

    def leave(self) -> None:
        """Stop what is under way: another plan lies on the desk."""
        if self._work is not None:
            self._work.stop.set()

    async def act(self, edit: Improve, *, view: View, say: Say) -> None:
        """Do what a window asks; all windows are told what comes of it."""
        if edit.action == "cancel":
            if self._work is not None:
                self._work.stop.set()
                await say({"kind": "improve", "state": "stopping"})
            return
        if edit.action == "look":
            await self._told(self._look(view, say), say)
        elif self._busy:
            await _refuse(say, "A search is under way already. Cancel it, or wait.")
        elif edit.action in {"compare", "tolerate"}:
            self._begin(self._find_out(edit.action, view))
        else:
            self._begin(self._search(view, resume=edit.action == "resume"))

    def _begin(self, work: Coroutine[Any, Any, None]) -> None:
        """Do long work that no window waits for."""
        self._busy = True
        self._task = asyncio.create_task(self._told(work, self._windows.tell))

    async def _told(self, work: Coroutine[Any, Any, None], say: Say) -> None:
        """Do something, and say why it cannot be done."""
        try:
            await work
        except (BoomwrightError, OSError) as error:
            await _refuse(say, refusal(error, self._desk.text))

    async def _look(self, view: View, say: Say) -> None:
        _, plan = self._desk.snapshot()
        number = min(view.beam, len(plan.beams) - 1)
        wishes = {"wishes": _wishes(plan.wish, system=view.system), "wish_words": _words(plan)}
        await self._tell_found(view, say)
        if self._found is not None and self._found[0] is self._desk.offer:
            await say(self._found[1])
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
            return subject, "" if self._work is not None else session.unfinished(plan)

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

    async def _search(self, view: View, *, resume: bool) -> None:
        revision, text = self._desk.revision, self._desk.text

        def search(work: Work) -> BetterBeam:
            return self._desk.session.improve(
                text, system=view.system, resume=resume, on_progress=_heard_by(work)
            )

        found = await self._run("Search for a better beam", search, view)
        offer = Offer(revision=revision, text=found.text, label="better beam taken")
        self._desk.offer = offer
        told = {
            "kind": "improve",
            "state": "found",
            "text": found.words,
            "figures": _table("Before and after, free space", found.figures),
            "elements": _table("Places and lengths", found.elements),
            "notices": list(found.notices),
        }
        self._found = (offer, told)
        await self._windows.tell(told)
        await self._tell_found(view, self._windows.tell)

    async def _find_out(self, action: str, view: View) -> None:
        """Compare spacings, or find out how finely to build, of the beam as it stands."""
        _, plan = self._desk.snapshot()
        number = min(view.beam, len(plan.beams) - 1)
        session = self._desk.session

        def find(work: Work) -> bool:
            if action == "compare":
                session.compare_spacings(plan, on_progress=_heard_by(work))
            else:
                session.tolerate(plan, number=number, on_progress=_heard_by(work))
            return not work.stop.is_set()

        name = "Compare spacings" if action == "compare" else "How finely to build"
        whole = await self._run(name, find, view)
        text = "Done; it stands below." if whole else "Stopped; what was found before stands below."
        await self._windows.tell({"kind": "improve", "state": "done", "text": text})
        await self._tell_found(view, self._windows.tell)

    async def _run(self, name: str, find: Callable[[Work], Found], view: View) -> Found:
        """Do long work in a thread, tell every window how far it is, hear whether to stop."""
        address = f"/beam?of={view.beam}#improve"
        async with self._works.under_way(name, address=address) as work:
            self._work = work
            work.text = "setting up"
            running = asyncio.ensure_future(self._crew.search(find, work))
            try:
                while not running.done():
                    await self._windows.tell(_running(work))
                    await asyncio.wait([running], timeout=_LOOK)
                found = running.result()
            finally:
                work.stop.set()
                self._work, self._busy = None, False
            work.text = "what was found stands on the Beam sheet"
        return found


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
            "value typed here goes into the plan."
        )
    about = plan.wish.beam or plan.beams[0].name
    usual = usual_wishes(plan)
    rest = f" Taken as usual: {'; '.join(usual)}." if usual else ""
    return f"These wishes are about {about}; further ones stand under Change the plan.{rest}"


def _heard_by(work: Work) -> OnProgress:
    """Have work hear of a search's progress."""

    def on_progress(progress: SearchProgress) -> bool:
        starts = f": {progress.done} of {progress.total} starts" if progress.total else ""
        best = progress.best_gain_dbi
        reached = "" if best is None else f", best {best:.2f} dBi"
        return work.step(
            f"{progress.doing}{starts}{reached}",
            progress.done / progress.total if progress.total else None,
            seconds_left=progress.seconds_left,
        )

    return on_progress


def _running(work: Work) -> dict[str, Any]:
    told = work.told()
    left = f", about {told['left']} s left" if told["left"] is not None else ""
    return {
        "kind": "improve",
        "state": "running",
        "text": f"{work.text}{left}",
        "share": work.share,
        "stopping": work.stop.is_set(),
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
