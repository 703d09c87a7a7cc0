"""What the live page may ask about feed and reach of the plan on the desk."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.app.feed import feed_plan, feed_touchstone
from boomwright.app.files import ClosedFolder
from boomwright.app.reach import reach_plan
from boomwright.base import BoomwrightError, UnitSystem
from boomwright.plan import Plan
from boomwright.solver import Preparer

if TYPE_CHECKING:
    from boomwright.app.feed_results import FeedResult
    from boomwright.app.reach_results import ReachResult
    from boomwright.figures import Palette, ShownSubject


class FeedReachDesk:
    """Feed and reach for the desk; a part of ``DeskTools``."""

    _path: Path
    _prepare: Preparer
    _reach: ReachResult | None
    _feed: FeedResult | None

    def feed(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Solve and draw the feed of one beam.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            their width [user units]

        Raises
        ------
        BoomwrightError
            when the beam itself cannot be solved
        """
        from boomwright.app.feed_shown import show_feed

        return show_feed(
            self._feed_of(plan), number=number, palette=palette, system=system, width=width
        )

    def feed_touchstone(self, plan: Plan, *, end: str) -> bytes:
        """Write one end of the first beam's line as a one-port file.

        Parameters
        ----------
        end
            ``feed-point`` or ``shack``

        Raises
        ------
        BoomwrightError
            when the beam cannot be solved or has no such end
        """
        found = feed_touchstone(self._feed_of(plan))
        name = f"{end}.s1p"
        if name not in found:
            msg = "the plan has no match or no line for that file; see the Feed sheet"
            raise BoomwrightError(msg)
        return found[name].encode("ascii", "replace")

    def _feed_of(self, plan: Plan) -> FeedResult:
        if self._feed is None or self._feed.plan is not plan:
            self._feed = feed_plan(plan)
        return self._feed

    def reach(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownSubject:
        """Compute and draw what reach says about one beam.

        The result of the last plan is kept: other units or colours then only draw anew.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            their width [user units]

        Raises
        ------
        BoomwrightError
            in free space, or when a file or a geometry is refused
        """
        from boomwright.app.reach_pictures import show_reach

        if self._reach is None or self._reach.plan is not plan:
            self._reach = reach_plan(
                plan, folder=ClosedFolder(self._path.parent), prepare=self._prepare
            )
        return show_reach(self._reach, number=number, palette=palette, system=system, width=width)
