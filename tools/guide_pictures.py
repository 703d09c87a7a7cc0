"""Draw the pictures of docs/guide with the program itself.

python tools/guide_pictures.py            draw them
python tools/guide_pictures.py 2 3        draw those of these chapters
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import boomwright as bw
from boomwright.charts import LIGHT
from boomwright.report.model import Canvas
from boomwright.session.new_plan import make_starter
from boomwright.study.requests import Wishes

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = ROOT / "examples"
PICTURES = ROOT / "docs" / "guide" / "pictures"

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


def main(arguments: list[str]) -> int:
    """Draw the chapters named, or all."""
    PICTURES.mkdir(exist_ok=True)
    for chapter in map(int, arguments or range(1, len(CHAPTERS) + 1)):
        for name, svg in drawn(chapter).items():
            (PICTURES / f"{name}.svg").write_text(svg, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
