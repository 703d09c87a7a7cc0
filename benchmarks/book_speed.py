"""How long the demo's book takes, against the computing that it prints.

Every making is a program of its own, as the command is: start, imports, reading, computing,
drawing, setting, writing. Beside it stand the parts of one making, in one process. Writes
``docs/benchmarks/book_speed.md``.

    python benchmarks/book_speed.py
"""

from __future__ import annotations

import os
import platform
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pypdf import PdfReader

from boomwright.session.book import book_bytes
from boomwright.session.files import PlanFolder, load_plan
from boomwright.session.work_files import work_for_book
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.reach import reach_over_ground
from boomwright.study.verdict import judge_plan

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "src" / "boomwright" / "session" / "data"
MAKINGS = 5
#: aim for the whole command [s]
AIM = 10.0


def command(folder: Path) -> tuple[float, float]:
    """Run the command once: wall and processor seconds."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    program = "from boomwright.cli import app; app()"
    subprocess.run(
        [sys.executable, "-c", program, "book", str(folder / "plan.toml")],
        check=True,
        stdout=subprocess.DEVNULL,
    )
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, spent


def parts(folder: Path) -> list[tuple[str, float]]:
    """Time the parts of one making, the second in this process so that imports do not count."""

    def make() -> list[tuple[str, float]]:
        found: list[tuple[str, float]] = []

        def timed(name: str, work: Callable[[], Any]) -> Any:
            start = time.perf_counter()
            result = work()
            found.append((name, time.perf_counter() - start))
            return result

        loaded = load_plan(folder / "plan.toml")
        plan = loaded.plan
        readings = timed("currents, patterns, sweep", lambda: compute(plan))
        reach = timed("reach", lambda: reach_over_ground(plan, files=PlanFolder(folder)))
        feed = timed("feed, solved in the field", lambda: feed_plan(plan))
        work = timed(
            "cost, build, raising",
            lambda: work_for_book(readings, files=PlanFolder(folder), system="metric"),
        )
        timed(
            "pictures, structure, permits, setting the type",
            lambda: book_bytes(
                readings, verdict=judge_plan(plan, files=PlanFolder(folder)), digest=loaded.digest,
                system="metric", paper="a4", reach=reach, feed=feed, work=work,
            ),
        )  # fmt: skip
        return found

    make()
    return make()


def page(pages: int, runs: list[tuple[float, float]], each: list[tuple[str, float]]) -> str:
    """Write the table."""
    wall = statistics.median(run[0] for run in runs)
    spent = statistics.median(run[1] for run in runs)
    alone = each[0][1]
    slowest = max(run[0] for run in runs)
    rows = [
        f"| command, median of {len(runs)}, wall | {wall:.1f} | {wall / AIM:.2f} of the aim |",
        f"| the slowest of them, wall | {slowest:.1f} | {slowest / AIM:.2f} of the aim |",
        f"| command, median, processor | {spent:.1f} | {spent / AIM:.2f} of the aim, "
        f"{spent / alone:.0f} times the sweep |",
    ]
    rows += [f"| {name} | {took:.2f} | {took / alone:.1f} times the sweep |" for name, took in each]
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    return "\n".join(
        (
            "# How fast the book is",
            "",
            f"The demo's book of {pages} pages, aim {AIM:.0f} s for the whole command, start of "
            "the program included.",
            "Made by `python benchmarks/book_speed.py`. On a machine with other work to do the "
            "wall time grows with the load below, the processor time hardly.",
            "",
            "| what | seconds | ratio |",
            "|---|---|---|",
            *rows,
            "",
            f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 "
            f"minutes); Python {platform.python_version()}.",
            "",
        )
    )


def main() -> None:
    """Measure and write the page."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        shutil.copy(DATA / "demo.toml", folder / "plan.toml")
        shutil.copy(DATA / "demo_prices.csv", folder / "prices.csv")
        runs = [command(folder) for _ in range(MAKINGS)]
        pages = len(PdfReader(folder / "book.pdf").pages)
        each = parts(folder)
    text = page(pages, runs, each)
    (ROOT / "docs" / "benchmarks" / "book_speed.md").write_text(text, encoding="utf-8")
    sys.stdout.write(text)


if __name__ == "__main__":
    main()
