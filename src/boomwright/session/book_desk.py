"""The book from the plan on the desk, made step by step so that one may watch and stop it."""

from __future__ import annotations

from collections.abc import Callable

from boomwright.base import UnitSystem
from boomwright.plan import Plan
from boomwright.session.feed_reach_desk import FeedReachDesk
from boomwright.session.files import ClosedFolder, load_text, text_digest
from boomwright.session.improve_book import found_for_book
from boomwright.session.making import Paper, book_bytes
from boomwright.session.work_files import work_for_book
from boomwright.study.computing import compute
from boomwright.study.reach import reach_plan
from boomwright.study.tuning import tuning_for_book
from boomwright.study.verdict import judge_plan

#: told the share done before a step and what it does; it may raise to stop the making
OnStep = Callable[[float, str], None]

#: shares of the time at which each step begins, from the demo's book on two cores
_BEGINS = {
    "the band": 0.0,
    "the reach": 0.02,
    "the feed": 0.38,
    "measured sweeps and searches": 0.69,
    "the workshop": 0.73,
    "the pages": 0.79,
}


def unwatched(share: float, words: str) -> None:
    """Hear of a step and do nothing.

    Parameters
    ----------
    share
        share of the time gone [-]
    """


class BookDesk(FeedReachDesk):
    """The part of the live page's hands that makes the book."""

    _system: UnitSystem
    _paper: Paper

    def load(self) -> str:
        """Read the plan file again.

        Raises
        ------
        OSError
            when it cannot be read
        """
        return load_text(self._path)

    def make_book(self, plan: Plan, *, on_step: OnStep = unwatched) -> bytes:
        """Make the book.

        Parameters
        ----------
        on_step
            told the share done and what comes next; what it raises stops the making

        Raises
        ------
        SolverError
            when the geometry is refused
        """

        def begin(words: str) -> None:
            on_step(_BEGINS[words], words)

        folder = ClosedFolder(self._path.parent)
        digest = text_digest(self.load())
        begin("the band")
        computation = compute(plan, prepare=self._prepare)
        begin("the reach")
        if plan.site.ground.kind != "free space" and (
            self._reach is None or self._reach.plan is not plan
        ):
            self._reach = reach_plan(plan, folder=folder, prepare=self._prepare)
        found = self._reach if self._reach and self._reach.plan is plan else None
        begin("the feed")
        feed = self._feed_of(plan)
        begin("measured sweeps and searches")
        tuning = tuning_for_book(plan, folder=folder)
        searched = found_for_book(plan, path=self._path, system=self._system)
        begin("the workshop")
        work = work_for_book(computation, folder=folder, system=self._system)
        begin("the pages")
        return book_bytes(
            computation,
            verdict=judge_plan(plan, folder=folder, prepare=self._prepare),
            digest=digest,
            system=self._system,
            paper=self._paper,
            reach=found,
            feed=feed,
            tuning=tuning,
            searched=searched,
            work=work,
        )["book"]
