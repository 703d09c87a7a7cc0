"""Time from cancelling a search to its end, best so far checked by the full solver.

``OPENBLAS_NUM_THREADS=1 python benchmarks/cancel_latency.py [table.md]``: in process, while starts
are drawn, while they are climbed and while the beam is set up; on the page by the button and by
Escape in a real browser. Each case several times, the median and the slowest, aim 500 ms.
"""

from __future__ import annotations

import contextlib
import os
import platform
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

HERE = Path(__file__).parents[1]
sys.path.insert(0, str(HERE / "tests"))

from boomwright.base import BoomwrightError  # noqa: E402
from boomwright.base.files import no_files  # noqa: E402
from boomwright.plan import read_plan  # noqa: E402
from boomwright.session.plan_session import PlanSession  # noqa: E402
from boomwright.session.search import search_beam  # noqa: E402

PLAN = next((HERE / "examples" / "stations").glob("05*.toml"))
REPEATS = 5
AIM = 0.5


def in_process(*, workers: int, after: int, starts: int) -> float:
    """Cancel once so many questions were asked; seconds from the answer to the end."""
    text = PLAN.read_text(encoding="utf-8")
    asked, said = 0, 0.0

    def told(progress: object) -> bool:
        nonlocal asked, said
        asked += 1
        if asked < after:
            return True
        said = said or time.monotonic()
        return False

    with contextlib.suppress(BoomwrightError):
        search_beam(
            read_plan(text),
            text=text,
            files=no_files,
            starts=starts,
            workers=workers,
            on_progress=told,
        )
    return time.monotonic() - said


def while_climbing(*, workers: int) -> float:
    """Cancel after the first finished start."""
    text = PLAN.read_text(encoding="utf-8")
    said = 0.0

    def told(progress: object) -> bool:
        nonlocal said
        if progress.done < 1:  # type: ignore[attr-defined]
            return True
        said = said or time.monotonic()
        return False

    search_beam(read_plan(text), text=text, files=no_files, workers=workers, on_progress=told)
    return time.monotonic() - said


def on_page(key: str) -> tuple[list[float], list[float]]:
    """Cancel in a browser by the button or by Escape.

    Seconds until the page says that it stops, and until the next search may be begun.
    """
    # Here, so that workers, which read this file anew, need not wait for the page.
    from boomwright.web import PlanDesk
    from fakes.browser import browsing, served

    heard: list[float] = []
    found: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.toml"
        text = PLAN.read_text(encoding="utf-8")
        path.write_text(text, encoding="utf-8")
        desk = PlanDesk(session=PlanSession(path), name=path.name, text=text)
        with served(desk) as url, browsing() as context:
            page = context.new_page()
            page.goto(url)
            page.wait_for_selector("#fig-currents svg", timeout=60_000)
            page.click("#improve > summary")
            page.wait_for_selector("#trade-off svg", timeout=60_000)
            for _ in range(REPEATS):
                page.click("#improve-start")
                state = page.locator("#improve-state")
                while "best" not in (state.text_content() or ""):
                    page.wait_for_timeout(20)
                begun = time.monotonic()
                if key == "button":
                    page.click("#improve-cancel")
                else:
                    page.keyboard.press("Escape")
                page.wait_for_selector("#improve-cancel[disabled]", state="attached")
                heard.append(time.monotonic() - begun)
                page.wait_for_selector("#improve-start:not([disabled])", timeout=60_000)
                found.append(time.monotonic() - begun)
                page.wait_for_selector("#improve-found:not([hidden])")
    return heard, found


def repeated(case: Callable[[], float]) -> list[float]:
    """Time a case several times."""
    return [case() for _ in range(REPEATS)]


def main() -> None:
    """Print the table, and write it when a file is named."""
    cases = {
        "in process, while 60 000 designs are drawn": repeated(
            lambda: in_process(workers=1, after=40, starts=2000)
        ),
        "in process, while starts are climbed": repeated(lambda: while_climbing(workers=1)),
        "in process, while two workers climb": repeated(lambda: while_climbing(workers=2)),
    }
    for key in ("button", "Escape"):
        heard, ended = on_page(key)
        cases[f"on the page, by {key}, until it says so"] = heard
        cases[f"on the page, by {key}"] = ended
    rows = [
        f"| {name} | {1e3 * statistics.median(times):.0f} | {1e3 * max(times):.0f} "
        f"| {max(times) / AIM:.2f} |"
        for name, times in cases.items()
    ]
    load = ", ".join(f"{each:.1f}" for each in os.getloadavg())
    table = "\n".join(
        (
            "# From cancelling a search to its end",
            "",
            f"Four elements of stepped tube for 20 m, {REPEATS} times each; the end is when the",
            "best so far has been checked by the full solver and another search may begin; aim 500",
            "ms. Browser, server and its two workers shared two cores with other work.",
            "Made by `OPENBLAS_NUM_THREADS=1 python benchmarks/cancel_latency.py`.",
            "",
            "| cancelled | median, ms | slowest, ms | ratio to the aim |",
            "|---|---|---|---|",
            *rows,
            "",
            f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 "
            f"minutes); Python {platform.python_version()}.",
        )
    )
    print(table)
    if len(sys.argv) > 1:
        Path(sys.argv[1]).write_text(f"{table}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
