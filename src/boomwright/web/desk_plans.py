"""Which plan is on the desk, and how another one gets there without losing a thing."""

from __future__ import annotations

import re
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from boomwright.base import BoomwrightError, PlanError
from boomwright.web.autosave import Autosave
from boomwright.web.improve_edits import Take
from boomwright.web.improving import Improving
from boomwright.web.refusing import refusal, told
from boomwright.web.service import PlanDesk
from boomwright.web.start_edits import Begin, Shelve
from boomwright.web.windows import Say, Windows
from boomwright.web.workers import Crew
from boomwright.web.works import Works
from boomwright.web.writing import Offer

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.session.plan_library import PlanLibrary
    from boomwright.study.requests import Wishes


class PlanChoiceError(BoomwrightError):
    """A plan that cannot be put on the desk, with the remedy."""


def shelf_refusal(error: BoomwrightError | OSError) -> dict[str, Any]:
    """Say why something cannot be done, and which typed values are to blame."""
    faults = told(error, "").faults if isinstance(error, PlanError) else ()
    return {"kind": "shelf", "refused": refusal(error), "faults": [asdict(each) for each in faults]}


class DeskPlans:
    """The plan on the desk and the others there are.

    Args:
        desk: the plan to begin with; None while none is open
        library: the plans there are; None when the page shows one plan only
        windows: all windows, told of what is saved and sent to another plan
    """

    def __init__(
        self,
        desk: PlanDesk | None,
        *,
        library: PlanLibrary | None,
        crew: Crew,
        windows: Windows,
        works: Works,
    ) -> None:
        self._crew = crew
        self._windows = windows
        self._works = works
        self._library = library
        #: the owner's plan that a lesson was begun from; empty for none
        self._own = ""
        self.desk: PlanDesk | None = None
        self.autosave: Autosave | None = None
        self.improving: Improving | None = None
        if desk is not None:
            self._lay(desk)

    def _lay(self, desk: PlanDesk) -> None:
        if self.improving is not None:
            self.improving.leave()
        self.desk = desk
        self.autosave = Autosave(desk, crew=self._crew, windows=self._windows)
        self.improving = Improving(desk, crew=self._crew, windows=self._windows, works=self._works)
        if desk.lesson is None:
            self._own = desk.name

    @property
    def library(self) -> PlanLibrary:
        """The plans there are.

        Raises:
            PlanChoiceError: when the page shows one plan only
        """
        if self._library is None:
            msg = "this page shows one plan only; open boomwright on a folder's plan to use others"
            raise PlanChoiceError(msg)
        return self._library

    @property
    def known_library(self) -> PlanLibrary | None:
        """The plans there are; None when the page shows one plan only."""
        return self._library

    @property
    def own(self) -> str:
        """File name of the owner's plan that a lesson was begun from; empty for none."""
        return self._own

    async def act(self, edit: Shelve | Begin, say: Say, *, system: UnitSystem) -> None:
        """Do what a window asks, and tell it what came of it."""
        try:
            if isinstance(edit, Begin):
                await self._begin(edit, system)
            else:
                await self._shelve(edit)
        except (BoomwrightError, OSError) as error:
            await say(shelf_refusal(error))

    async def _shelve(self, edit: Shelve) -> None:
        library = self.library
        match edit.action:
            case "open":
                await self.open(edit.name)
            case "back" if self._own:
                await self.open(self._own)
            case "back":
                await self._windows.tell_moved("/start")
            case "recent":
                library, name = await self._crew.disk(library.reopen, edit.number)
                await self.open(name, library=library)
            case "save-as":
                if self.desk is None:
                    raise PlanChoiceError("no plan is open", remedy="open one first")
                text = self.desk.text
                await self.open(await self._crew.disk(library.save_as, edit.name, text))
            case "lesson":
                session, lesson = await self._crew.disk(library.open_lesson, edit.name)
                desk = PlanDesk(
                    session=session,
                    name=f"lesson {lesson.name.partition('-')[0]}",
                    text=lesson.plan_text,
                    lesson=lesson,
                    library=library,
                )
                await self._put(desk, f"/{lesson.steps[0].look}")

    async def open(
        self, name: str, *, library: PlanLibrary | None = None, address: str = "/beam"
    ) -> None:
        """Put a plan of the folder on the desk.

        Args:
            library: its folder's plans; None for the folder open now
            address: sheet that the windows are sent to

        Raises:
            BoomwrightError: when it is no usable plan, or the desk cannot be cleared
            OSError: when it cannot be read
        """
        library = library or self.library
        session, text = await self._crew.disk(library.open, name)
        desk = PlanDesk(session=session, name=name, text=text, library=library)
        await self._put(desk, address)
        self._library = library

    async def _put(self, desk: PlanDesk, address: str) -> None:
        """Change desks, once what lies on the old one is safe."""
        old = self.desk
        if old is not None and self.autosave is not None:
            await self.autosave.flush()
            if old.saving.state in {"conflict", "gone", "failed"}:
                raise PlanChoiceError(
                    "the plan on the desk is not in its file yet",
                    remedy="settle that first, with the choices at the top of the page",
                )
            same_folder = desk.library is old.library
            if desk.name == old.name and same_folder and desk.lesson is None:
                # The same file keeps its desk, and with it everything that can be undone.
                await self._windows.tell_moved(address)
                return
        self._lay(desk)
        await self._windows.tell_moved(address)

    async def _begin(self, begin: Begin, system: UnitSystem) -> None:
        """Make a new plan, or a further beam of the one on the desk."""
        desk = self.desk
        if begin.further and (desk is None or desk.lesson is not None):
            raise PlanChoiceError(
                "no plan of yours is open", remedy="give a file name and make a new plan"
            )
        wishes, searched = _wishes(begin, system), begin.typed.get("design") == "searched"
        library = self.library
        async with self._works.under_way("New plan", address="/start") as work:
            work.text = "designing and matching" if searched else "trimming"
            if not begin.further or desk is None:
                # Without a name of its own the file is called as the plan is.
                called = re.sub(r"[^\w -]+", "", wishes.title or f"{wishes.band} {wishes.shape}")
                file = begin.name or called.strip()[:60]
                name = await self._crew.long(library.begin, file, wishes, searched=searched)
            else:
                revision, before = desk.revision, desk.text
                text = await self._crew.long(library.further, before, wishes, searched=searched)
                work.check()
                desk.offer = Offer(revision=revision, text=text, label="further beam added")
                desk.apply(Take(), gesture=0)
                self._windows.repaint()
            work.text = "done"
        if begin.further and desk is not None:
            if self.autosave is not None:
                self.autosave.touch()
            await self._windows.tell_moved(f"/beam?of={len(desk.plan.beams) - 1}")
        else:
            await self.open(name)


def _wishes(begin: Begin, system: UnitSystem) -> Wishes:
    """Read what was typed for a new plan.

    Raises:
        RequestError: when a number is none
    """
    from boomwright.study.requests import RequestError, Wishes

    typed = begin.typed
    try:
        elements = int(typed.get("count") or 3)
        heading = float((typed.get("heading") or "0").removesuffix("°").removesuffix("deg"))
    except ValueError:
        raise RequestError(
            "elements and heading are plain numbers", remedy="write 3 elements, heading 300"
        ) from None
    if not 0.0 <= heading < 360.0:
        raise RequestError(
            f"heading: {heading:g} is no direction", remedy="write 0 to 359, clockwise from north"
        )
    also = tuple(band.strip() for band in typed.get("also", "").split(",") if band.strip())
    return Wishes(
        band=typed.get("band", ""),
        further_bands=also,
        elements=elements,
        shape=typed.get("shape", ""),
        boom=typed.get("boom", ""),
        height=typed.get("height", ""),
        heading=heading,
        ground=typed.get("ground") or "medium dry",
        position=typed.get("place", ""),
        title=typed.get("title", ""),
        system=system,
    )
