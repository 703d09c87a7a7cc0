"""Files made from the plan on the desk: watched while they are made, and stopped when asked."""

from __future__ import annotations

import asyncio
import re
import threading
import time
from collections.abc import Callable
from typing import Any

from starlette.requests import Request

from boomwright.base.records import dataclass
from boomwright.report.chapter import Part
from boomwright.session.book import OnStep
from boomwright.web.service import PlanDesk
from boomwright.web.workers import Workers
from boomwright.web.works import StoppedError

#: how often a browser that went away is looked for [s]
_LOOK = 0.2
#: share of the time below which nothing is said of the rest [-]
_EARLY = 0.03
#: name of a job, as the browser gives it
_JOB = re.compile(r"[0-9a-z]{1,32}")

Make = Callable[[PlanDesk, OnStep], bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """A file that can be made."""

    make: Make  #: makes it
    ending: str  #: what its name ends in
    kind: str  #: its media type


def _part(part: Part, ending: str) -> FileKind:
    return FileKind(
        make=lambda desk, on_step: desk.session.make_book(desk.plan, part=part, on_step=on_step),
        ending=ending,
        kind="application/pdf",
    )


FILES: dict[str, FileKind] = {
    "/plan.toml": FileKind(
        make=lambda desk, _: desk.text.encode(), ending=".toml", kind="application/toml"
    ),
    "/book.pdf": _part("book", ".pdf"),
    "/book-annex.pdf": _part("annex", "-annex.pdf"),
    "/book-pocket.pdf": _part("pocket", "-pocket.pdf"),
    "/feed-point.s1p": FileKind(
        make=lambda desk, _: desk.session.feed_touchstone(desk.plan, end="feed-point"),
        ending="-feed-point.s1p",
        kind="text/plain",
    ),
    "/shack.s1p": FileKind(
        make=lambda desk, _: desk.session.feed_touchstone(desk.plan, end="shack"),
        ending="-shack.s1p",
        kind="text/plain",
    ),
    "/cut-list.csv": FileKind(
        make=lambda desk, _: desk.session.cut_list_csv(desk.plan),
        ending="-cut-list.csv",
        kind="text/csv",
    ),
    "/price-list.csv": FileKind(
        make=lambda desk, _: desk.session.price_list_csv(desk.plan),
        ending="-price-list.csv",
        kind="text/csv",
    ),
    "/plan-view.dxf": FileKind(
        make=lambda desk, _: desk.session.plan_view_dxf(desk.plan),
        ending="-plan-view.dxf",
        kind="image/vnd.dxf",
    ),
    "/drawings.zip": FileKind(
        make=lambda desk, _: desk.session.work_files(desk.plan),
        ending="-drawings.zip",
        kind="application/zip",
    ),
}


def file_name(plan_name: str, ending: str) -> str:
    """Name a file after the plan, with nothing in it that a header or a disk could stumble over."""
    stem = plan_name.removesuffix(".toml")
    return (re.sub(r"[^A-Za-z0-9._-]+", "-", stem).strip("-.") or "plan") + ending


class _Job:
    """One file under way."""

    def __init__(self) -> None:
        self.stop = threading.Event()
        self._begun = time.monotonic()
        self._stepped = self._begun
        self._share = 0.0
        self._words = ""

    def step(self, share: float, words: str) -> None:
        """Hear of a step; end the making when it is to stop."""
        if self.stop.is_set():
            raise StoppedError("the making was stopped", remedy="ask for the file again")
        self._share, self._words, self._stepped = share, words, time.monotonic()

    def told(self) -> dict[str, Any]:
        """What the browser shows of it."""
        left = None
        if self._share >= _EARLY:
            # The whole time as seen when the step began, less what has gone since.
            whole = (self._stepped - self._begun) / self._share
            left = max(whole - (time.monotonic() - self._begun), 0.5)
        return {"share": self._share, "words": self._words, "seconds_left": left}


class Downloads:
    """All files under way, by the names the browsers gave them.

    Args:
        workers: make them
    """

    def __init__(self, workers: Workers) -> None:
        self._workers = workers
        self._jobs: dict[str, _Job] = {}

    def told(self, name: str) -> dict[str, Any]:
        """Say how far a file is.

        Returns:
            share, words and seconds left; empty when there is no such job
        """
        job = self._jobs.get(name)
        return job.told() if job is not None else {}

    async def make(self, request: Request, desk: PlanDesk, kind: FileKind) -> bytes:
        """Make a file, as long as somebody waits for it.

        Raises:
            BoomwrightError: when it cannot be made, or its making was stopped
        """
        job = _Job()
        name = request.query_params.get("job", "")
        named = _JOB.fullmatch(name) is not None
        if named:
            self._jobs[name] = job
        making = asyncio.ensure_future(self._workers(kind.make, desk, job.step))
        try:
            while not making.done():
                await asyncio.wait({making}, timeout=_LOOK)
                if await request.is_disconnected():
                    job.stop.set()
            return await making
        finally:
            # Also when the program ends: its worker would otherwise be waited for.
            job.stop.set()
            if named:
                self._jobs.pop(name, None)
