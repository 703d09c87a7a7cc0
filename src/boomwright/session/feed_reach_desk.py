"""What the live page may ask about feed and reach of the plan on the desk."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base import BoomwrightError, UnitSystem
from boomwright.plan import Plan
from boomwright.session.files import ClosedFolder
from boomwright.solver import Preparer
from boomwright.study.feed import feed_plan, feed_touchstone
from boomwright.study.reach import reach_plan

if TYPE_CHECKING:
    from boomwright.charts import Palette, ShownSubject
    from boomwright.study.feed_results import FeedResult
    from boomwright.study.reach_results import ReachResult


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
        from boomwright.render.laid import lay_out
        from boomwright.report.feed import feed_report
        from boomwright.report.model import Canvas

        canvas = Canvas(palette=palette, system=system, width=width)
        return lay_out(feed_report(self._feed_of(plan), number=number), canvas=canvas)

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
        from boomwright.render.laid import lay_out
        from boomwright.report.model import Canvas
        from boomwright.report.reach import reach_report

        if self._reach is None or self._reach.plan is not plan:
            self._reach = reach_plan(
                plan, folder=ClosedFolder(self._path.parent), prepare=self._prepare
            )
        canvas = Canvas(palette=palette, system=system, width=width)
        return lay_out(reach_report(self._reach, number=number), canvas=canvas)
