"""Which station suits a place: asked on the Start sheet, worked out beside it, and one chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from boomwright.base import BoomwrightError, UnitSystem
from boomwright.web.desk_plans import DeskPlans, PlanChoiceError, shelf_refusal
from boomwright.web.start_edits import Seek
from boomwright.web.windows import Say, Windows
from boomwright.web.workers import Crew
from boomwright.web.works import Work, Works

if TYPE_CHECKING:
    from boomwright.session.plan_library import PlanLibrary
    from boomwright.study.advice.advise import Advice
    from boomwright.study.advice.judged import Candidate, Unmade

_NAME = "Which station"


class Stations:
    """Advice for places; one at a time, and the last one stays until another is asked for."""

    def __init__(self, plans: DeskPlans, *, crew: Crew, windows: Windows, works: Works) -> None:
        self._plans = plans
        self._crew = crew
        self._windows = windows
        self._works = works
        self._busy = False
        #: the place that was asked for last, and what came of it
        self.place = ""
        self.advice: Advice | None = None
        self._library: PlanLibrary | None = None

    async def act(self, seek: Seek, say: Say, *, system: UnitSystem) -> None:
        """Do what a window asks, and tell it what came of it."""
        try:
            match seek.action:
                case "start" | "again":
                    await self._seek(seek)
                case "choose":
                    await self._choose(seek)
                case "blank":
                    await self._blank(seek, say, system)
                case "look":
                    await say(self.message())
        except (BoomwrightError, OSError) as error:
            await say(shelf_refusal(error))

    def message(self) -> dict[str, Any]:
        """Tell a window that there is something new to look at."""
        return {"kind": "stations", "place": self.place, "ready": self.advice is not None}

    async def _seek(self, seek: Seek) -> None:
        if self._busy:
            raise PlanChoiceError(
                "stations are being put together already", remedy="stop that first, or wait"
            )
        library = self._plans.library
        place = seek.name
        if seek.typed is not None:
            place = await self._crew.disk(library.keep_place, seek.name, seek.typed)
        self._busy = True
        try:
            async with self._works.under_way(_NAME, address="/start#stations") as work:
                self.place, self.advice = place, None
                await self._windows.tell(self.message())
                work.text = "designing antennas"
                made = await self._crew.search(_advise, library, place, work)
                self.advice, self._library = made, library
                work.text = f"{len(made.candidates)} put together; they stand on the Start sheet"
        finally:
            self._busy = False
            await self._windows.tell(self.message())

    def _found(self) -> tuple[Advice, PlanLibrary]:
        """The stations that were found last, and the folder they are for."""
        if self.advice is None or self._library is None:
            raise PlanChoiceError("these stations are no longer there", remedy="ask again")
        return self.advice, self._library

    async def _choose(self, seek: Seek) -> None:
        advice, library = self._found()
        name = await self._crew.disk(library.choose, advice, seek.name, number=seek.number)
        await self._plans.open(name, library=library)

    async def _blank(self, seek: Seek, say: Say, system: UnitSystem) -> None:
        advice, library = self._found()
        name = await self._crew.disk(library.blank_prices, advice, seek.name, system=system)
        said = (
            f"{name} is written. Fill in low, likely, high and the day of each price, name the "
            "file as price list above and ask again."
        )
        await say({"kind": "shelf", "refused": "", "said": said})


def _advise(library: PlanLibrary, place: str, work: Work) -> Advice:
    """Put stations together; runs in a worker thread."""

    def on_candidate(done: int, total: int, found: Candidate | Unmade) -> None:
        work.step(f"{done} of {total}: {found.station.name}", done / total)
        work.check()

    return library.advise(place, on_candidate=on_candidate)
