"""How soon the page shows something useful, and how smoothly its wave runs.

Starts the program's own ``open`` command and looks at it with headless Chromium: time from the
request of the page to the frame that shows the azimuth pattern (the program running, its files
read before), and frames a second of the Waves sheet, both moving pictures and the hands included.
Writes ``docs/benchmarks/page_speed.md``.

    python benchmarks/page_speed.py
"""

from __future__ import annotations

import os
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from boomwright.session.new_plan import make_starter
from boomwright.study.requests import Wishes

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = shutil.which("chromium") or "chromium"
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
OPENINGS = 9
_PAINTED = "performance.getEntriesByName('first-contentful-paint').map(each => each.startTime)"
#: aims: first useful paint [ms], frames a second
PAINT_AIM, FRAMES_AIM = 1000.0, 55.0


def first_paints(browser: Browser, url: str) -> list[float]:
    """Open the page anew several times; milliseconds to the painted pattern."""
    found = []
    for _ in range(OPENINGS):
        context = browser.new_context(viewport={"width": 1440, "height": 900})
        page = context.new_page()
        page.goto(url, wait_until="commit")
        page.wait_for_selector("#fig-azimuth svg")
        # The pattern is part of the page as sent, so the first paint with content shows it.
        while not (painted := page.evaluate(_PAINTED)):
            page.wait_for_timeout(20)
        found.append(painted[0])
        context.close()
    return found


def frames(browser: Browser, url: str, *, width: int, height: int) -> float:
    """Run the wave for some seconds; frames a second."""
    context = browser.new_context(viewport={"width": width, "height": height})
    page = context.new_page()
    page.goto(url)
    page.goto(url.split("/?")[0] + "/waves")
    page.wait_for_selector("#sheet[data-ready=waves]", timeout=60_000)
    page.locator("#wave-level .field").scroll_into_view_if_needed()
    page.wait_for_timeout(1500)
    page.evaluate("boomwrightWaves.clock.drawn.length = 0")
    page.wait_for_timeout(6000)
    drawn = page.evaluate("boomwrightWaves.clock.drawn")
    context.close()
    return 1e3 * (len(drawn) - 1) / (drawn[-1] - drawn[0])


def main() -> None:
    """Measure and write the table."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "speed.toml"
        make_starter(plan, Wishes(band="20 m", elements=4, ground="medium dry"))
        command = [sys.executable, "-m", "boomwright", "open", str(plan)]
        command += ["--port", "0", "--no-browser"]
        # What was opened is remembered in a folder of this run's own.
        surroundings = {**os.environ, "XDG_STATE_HOME": folder}
        with subprocess.Popen(
            command, stdout=subprocess.PIPE, text=True, env=surroundings
        ) as program:
            try:
                found = re.search(
                    r"http://\S+", program.stdout.readline() if program.stdout else ""
                )
                if found is None:
                    message = "the program did not say where it is"
                    raise RuntimeError(message)
                with sync_playwright() as kit:
                    browser = kit.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
                    paints = first_paints(browser, found[0])
                    wide = frames(browser, found[0], width=1440, height=900)
                    narrow = frames(browser, found[0], width=390, height=844)
                    browser.close()
            finally:
                program.terminate()
                program.wait(20)
    middle, worst = statistics.median(paints), max(paints)
    rows = [
        f"| first useful paint, median of {OPENINGS}, ms | {middle:.0f} | {PAINT_AIM:.0f} "
        f"| {middle / PAINT_AIM:.2f} |",
        f"| the slowest of them, ms | {worst:.0f} | {PAINT_AIM:.0f} | {worst / PAINT_AIM:.2f} |",
        f"| wave, 1440 x 900, frames a second | {wide:.1f} | {FRAMES_AIM:.0f} "
        f"| {wide / FRAMES_AIM:.2f} |",
        f"| wave, 390 x 844, frames a second | {narrow:.1f} | {FRAMES_AIM:.0f} "
        f"| {narrow / FRAMES_AIM:.2f} |",
    ]
    print("\n".join(rows))
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    lines = [
        "# How fast the page is",
        "",
        "Four elements over medium dry ground, headless Chromium, no GPU.",
        "Made by `python benchmarks/page_speed.py`.",
        "",
        "| what | measured | aim | ratio |",
        "|---|---|---|---|",
        *rows,
        "",
        f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 minutes); "
        f"Python {platform.python_version()}.",
        "",
    ]
    (ROOT / "docs" / "benchmarks" / "page_speed.md").write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
