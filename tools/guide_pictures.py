"""Draw the pictures of docs/guide and of the README with the program itself.

python tools/guide_pictures.py            draw those of the guide
python tools/guide_pictures.py 2 3        draw those of these chapters
python tools/guide_pictures.py readme     draw those of the README: needs chromium and pdftoppm
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from queue import Queue
from typing import Any, Final

from playwright.sync_api import sync_playwright
from pypdf import PdfReader

import boomwright as bw
from boomwright.charts import LIGHT
from boomwright.report.model import Canvas
from boomwright.session.demo import write_demo
from boomwright.session.new_plan import make_starter
from boomwright.session.plan_session import PlanSession
from boomwright.study.requests import Wishes
from boomwright.web import PlanDesk, create_app, serve

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = ROOT / "examples"
PICTURES = ROOT / "docs" / "guide" / "pictures"
SHOWN = ROOT / "docs" / "pictures"
#: heading of the page of the demo's book that the README shows
_BOOK_PAGE: Final = "Driven element and feed"

#: pictures of a chapter by name
Drawn = dict[str, str]


def _picture(result: Any, name: str, *, number: int = 0, width: float = 600.0) -> str:
    """One picture of a report."""
    report = bw.report_on(result, system="metric").reports[number]
    found = next(each for each in report.pictures if each.name == name)
    return found.draw(Canvas(palette=LIGHT, system="metric", width=width)) + "\n"


def which_station(_folder: Path) -> Drawn:
    """Chapter 1."""
    place = bw.load(EXAMPLES / "places" / "suburban-lot.toml", place=True)
    return {"1-stations": _picture(bw.advise(place), "stations")}


def first_beam(folder: Path) -> Drawn:
    """Chapter 2: the beam as it is written, before its match."""
    return {"2-plan": _picture(bw.compute(_first(folder), points=3), "plan")}


def which_height(folder: Path) -> Drawn:
    """Chapter 3."""
    return {"3-heights": _picture(bw.compute_reach(_first(folder)), "heights")}


def two_beams(_folder: Path) -> Drawn:
    """Chapter 4."""
    plan = EXAMPLES / "stations" / "10-two-beams-on-one-mast-by-the-sea.toml"
    result = bw.compute(bw.load(plan), points=3)
    names = ("4-low-band", "4-high-band")
    return {name: _picture(result, "elevation", number=n) for n, name in enumerate(names)}


def will_it_stand(_folder: Path) -> Drawn:
    """Chapter 5."""
    plan = EXAMPLES / "stations" / "03-three-elements-15m-on-a-tilting-pole.toml"
    return {"5-reflector": _picture(bw.check_structure(bw.load(plan)), "stress-1")}


def trim_it(_folder: Path) -> Drawn:
    """Chapter 6."""
    plan = bw.load(EXAMPLES / "tuning" / "three-elements-20m.toml")
    return {"6-swr": _picture(bw.tune(plan), "swr")}


CHAPTERS: Final[tuple[Callable[[Path], Drawn], ...]] = (
    which_station, first_beam, which_height, two_beams, will_it_stand, trim_it,
)  # fmt: skip


def _first(folder: Path) -> bw.Plan:
    """The plan of chapter 2."""
    path = folder / "first.toml"
    make_starter(path, Wishes(band="20 m", elements=3, boom="6 m"))
    return bw.load(path)


def drawn(chapter: int) -> Drawn:
    """Draw the pictures of a chapter, counted from 1."""
    with tempfile.TemporaryDirectory() as folder:
        return CHAPTERS[chapter - 1](Path(folder))


def readme() -> None:
    """Photograph the page and a page of the book, both of the demo."""
    SHOWN.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        demo = write_demo(Path(name))
        _photograph(demo.plan)
        book = demo.plan.with_name("book.pdf")
        pages = [page.extract_text() or "" for page in PdfReader(book).pages]
        # The list of contents names it first.
        _, number, *_ = (n for n, text in enumerate(pages, 1) if _BOOK_PAGE in text)
        command = ["pdftoppm", "-jpeg", "-r", "62", "-singlefile", "-f", str(number), str(book),
                   str(SHOWN / "book")]  # fmt: skip
        subprocess.run(command, check=True)


def _photograph(plan: Path) -> None:
    """Serve the plan and photograph its first sheet."""
    text = plan.read_text(encoding="utf-8")
    desk = PlanDesk(session=PlanSession(plan, state=None), name=plan.name, text=text)
    ready: Queue[str] = Queue()
    kept: list[Any] = []
    serving = threading.Thread(
        target=lambda: serve(create_app(desk), on_ready=ready.put, prepared=kept.append)
    )
    serving.start()
    try:
        with sync_playwright() as browsers:
            chromium = browsers.chromium.launch(
                executable_path=shutil.which("chromium"), args=["--no-sandbox"]
            )
            page = chromium.new_page(
                viewport={"width": 1180, "height": 780}, device_scale_factor=0.75
            )
            page.goto(ready.get(timeout=30.0))
            page.wait_for_timeout(8000.0)
            page.screenshot(path=SHOWN / "page.jpg", type="jpeg", quality=70)
            chromium.close()
    finally:
        kept[0].should_exit = True
        serving.join(20.0)


def main(arguments: list[str]) -> int:
    """Draw the chapters named, or all, or the pictures of the README."""
    if arguments == ["readme"]:
        readme()
        return 0
    PICTURES.mkdir(exist_ok=True)
    for chapter in map(int, arguments or range(1, len(CHAPTERS) + 1)):
        for name, svg in drawn(chapter).items():
            (PICTURES / f"{name}.svg").write_text(svg, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
