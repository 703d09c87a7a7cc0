"""Files under way: how far they are is told, and nobody waiting means nobody making."""

from __future__ import annotations

import asyncio
import threading

import pytest

from boomwright.web.downloads import FILES, Downloads, FileKind, StoppedError, file_name
from boomwright.web.workers import Crew
from fakes.desk import fake_desk


class Waiting:
    """A request whose browser goes away when told to."""

    def __init__(self, job: str) -> None:
        self.query_params = {"job": job}
        self.gone = threading.Event()

    async def is_disconnected(self) -> bool:
        return self.gone.is_set()


def test_the_book_tells_its_steps_and_its_time():
    desk, downloads = fake_desk(), Downloads(Crew().long)
    desk.session.slow_book.set()
    request = Waiting("abc")

    async def run():
        making = asyncio.create_task(downloads.make(request, desk, FILES["/book.pdf"]))
        while (told := downloads.told("abc")).get("share") != 0.5:
            await asyncio.sleep(0.005)
        desk.session.slow_book.clear()
        return told, await making

    told, content = asyncio.run(run())
    assert content.startswith(b"%PDF")
    assert told["words"] == "the pages"
    assert told["seconds_left"] >= 0.0
    assert downloads.told("abc") == {}


def test_when_the_browser_goes_the_making_ends():
    desk, downloads = fake_desk(), Downloads(Crew().long)
    desk.session.slow_book.set()
    request = Waiting("abc")
    request.gone.set()
    with pytest.raises(StoppedError, match="stopped"):
        asyncio.run(downloads.make(request, desk, FILES["/book.pdf"]))
    assert downloads.told("abc") == {}


@pytest.mark.parametrize("job", ["", "../x", "A" * 40, "<b>"])
def test_odd_names_of_jobs_are_not_kept(job):
    desk, downloads = fake_desk(), Downloads(Crew().long)
    seen = []

    def make(desk, on_step):
        seen.append(downloads.told(job))
        return b"x"

    kind = FileKind(make=make, ending=".x", kind="text/plain")
    assert asyncio.run(downloads.make(Waiting(job), desk, kind)) == b"x"
    assert seen == [{}]


@pytest.mark.parametrize(
    ("plan", "name"),
    [
        ("hut.toml", "hut.pdf"),
        ('a"b\r\nc.toml', "a-b-c.pdf"),
        ("..", "plan.pdf"),
        ("é", "plan.pdf"),
    ],
)
def test_names_of_files_hold_nothing_a_header_could_stumble_over(plan, name):
    assert file_name(plan, ".pdf") == name
