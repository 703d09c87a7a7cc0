"""Which plan is on the desk, and how another one gets there without losing a thing."""

from __future__ import annotations

import time
from collections.abc import Awaitable, Callable
from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING, Any

from boomwright.base import BoomwrightError, PlanError
from boomwright.web import pictures
from boomwright.web.autosave import Autosave
from boomwright.web.edits import Ask, Shelve
from boomwright.web.improving import Improving
from boomwright.web.readout import Readout, four_numbers
from boomwright.web.service import PlanDesk
from boomwright.web.windows import Windows
from boomwright.web.workers import Crew

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.session.plan_library import PlanLibrary
    from boomwright.study.candidates import Candidate, Choice
    from boomwright.study.requests import Wishes

Say = Callable[[dict[str, Any]], Awaitable[None]]


class PlanChoiceError(BoomwrightError):
    """A plan that cannot be put on the desk, with the remedy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Offer:
    """A candidate that was worked out, as the page shows it."""

    candidate: Candidate
    shown: dict[str, Any]


class DeskPlans:
    """The plan on the desk and the others there are.

    Args:
        desk: the plan to begin with
        windows: all windows, told of what is saved and sent to another plan
    """

    def __init__(self, desk: PlanDesk, *, crew: Crew, windows: Windows) -> None:
        self._crew = crew
        self._windows = windows
        self._lay(desk)
        self._offers: list[_Offer] = []
        self._round = 0

    def _lay(self, desk: PlanDesk) -> None:
        self.desk = desk
        self.autosave = Autosave(desk, crew=self._crew, windows=self._windows)
        self.improving = Improving(desk, crew=self._crew)

    @property
    def _library(self) -> PlanLibrary:
        if self.desk.library is None:
            msg = "this page shows one plan only; open boomwright on a folder's plan to use others"
            raise PlanChoiceError(msg)
        return self.desk.library

    async def act(self, edit: Shelve | Ask, say: Say, *, system: UnitSystem) -> None:
        """Do what a window asks, and tell it what came of it."""
        try:
            if isinstance(edit, Ask):
                await self._ask(edit, say, system)
            else:
                await self._shelve(edit)
        except PlanError as error:
            first = error.faults[0]
            await say({"kind": "shelf", "refused": f"{first.message} -> {first.remedy}"})
        except BoomwrightError as error:
            await say({"kind": "shelf", "refused": str(error)})
        except OSError as error:
            reason = error.strerror or type(error).__name__
            await say({"kind": "shelf", "refused": f"the file could not be used: {reason}"})

    async def _shelve(self, edit: Shelve) -> None:
        library = self._library
        match edit.action:
            case "open":
                session, text = await self._crew.disk(library.open, edit.name)
                desk = PlanDesk(session=session, name=edit.name, text=text, library=library)
                await self._put(desk, "/beam")
            case "save-as":
                await self._save_as(edit.name, self.desk.text)
            case "choose" if edit.number < len(self._offers):
                await self._save_as(edit.name, self._offers[edit.number].candidate.text)
            case "choose":
                msg = "that candidate is no longer there -> ask for candidates again"
                raise PlanChoiceError(msg)
            case "lesson":
                session, lesson = await self._crew.disk(library.open_lesson, edit.name)
                desk = PlanDesk(
                    session=session,
                    name=f"lesson {lesson.name[0]}",
                    text=lesson.plan_text,
                    lesson=lesson,
                    library=library,
                )
                await self._put(desk, f"/{lesson.steps[0].look}")
            case "cancel":
                self._round += 1

    async def _save_as(self, name: str, text: str) -> None:
        library = self._library
        full = await self._crew.disk(library.save_as, name, text)
        session, kept = await self._crew.disk(library.open, full)
        await self._put(PlanDesk(session=session, name=full, text=kept, library=library), "/beam")

    async def _put(self, desk: PlanDesk, address: str) -> None:
        """Change desks, once what lies on the old one is safe."""
        await self.autosave.flush()
        state = self.desk.saving.state
        if state in {"conflict", "gone", "failed"}:
            msg = (
                "the plan on the desk is not in its file yet -> settle that first, with the "
                "choices at the top of the page"
            )
            raise PlanChoiceError(msg)
        if desk.name == self.desk.name and desk.lesson is None:
            # The same file keeps its desk, and with it everything that can be undone.
            await self._windows.tell_moved(address)
            return
        self._lay(desk)
        await self._windows.tell_moved(address)

    async def _ask(self, ask: Ask, say: Say, system: UnitSystem) -> None:
        from boomwright.study.requests import Wishes

        self._round += 1
        mine = self._round
        wishes = Wishes(
            band=ask.band,
            boom=ask.boom,
            height=ask.height,
            ground=ask.ground,
            position=ask.position,
            budget=ask.budget,
            system=system,
        )
        library, prices = self._library, self.desk.plan.prices
        made = await self._crew.long(library.choices, wishes, prices=prices)
        begun = time.monotonic()
        offers: list[_Offer] = []
        for number, choice in enumerate(made):
            left = (time.monotonic() - begun) / number * (len(made) - number) if number else None
            await say({"kind": "job", "done": number, "of": len(made), "seconds_left": left})
            offers.append(await self._crew.long(self._work_out, choice, wishes))
            if mine != self._round:
                await say({"kind": "job", "done": 0, "of": 0, "seconds_left": None})
                return
        self._offers = offers
        await say({"kind": "job", "done": len(made), "of": len(made), "seconds_left": 0.0})
        await say({"kind": "offers", "offers": [offer.shown for offer in offers]})

    def _work_out(self, choice: Choice, wishes: Wishes) -> _Offer:
        candidate = self._library.work_out(choice, wishes=wishes)
        beam, ground = candidate.plan.beams[0], candidate.plan.site.ground
        readings = self._library.readings(beam, ground)
        numbers = four_numbers(
            point=readings.free_space,
            over_ground=readings.over_ground,
            sweep=readings.sweep,
            swr_words="bare split",
        )
        shown = {
            "label": candidate.label,
            "words": candidate.words,
            "price": candidate.price,
            "plan_view": pictures.plan_view(beam, system=wishes.system),
            "elevation": pictures.elevation(readings)[0],
            "numbers": [asdict(_unmatched(number)) for number in numbers],
        }
        return _Offer(candidate=candidate, shown=shown)


def _unmatched(number: Readout) -> Readout:
    """A candidate has no match yet, and its standing wave ratio is that of the bare split."""
    return replace(number, label="SWR, not matched yet") if number.name == "swr" else number
