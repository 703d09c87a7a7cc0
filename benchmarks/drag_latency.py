"""How long the azimuth pattern takes to follow a hand: drag to repaint in headless Chromium.

Starts the program's own ``open`` command on a plan, drags the driven element to and fro at
60 moves a second, and reads from the page the time between each pointer event and the frame
that shows its answer. Writes ``docs/benchmarks/drag_latency.md``.

    python benchmarks/drag_latency.py
"""

from __future__ import annotations

import math
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from itertools import product
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from boomwright.app import Wishes, make_starter

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = "/usr/bin/chromium"
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
#: p95 aimed at [ms]
TARGET = 50.0
CASES = (
    ("3 elements, free space", 3, "free space"),
    ("3 elements over medium dry ground", 3, "medium dry"),
    ("4 elements over medium dry ground", 4, "medium dry"),
)
#: linear-algebra threads tried; empty leaves the library its own choice
THREADS = ("", "1")
MOVES = 240
PERIOD = 1.0 / 60.0


def percentile(values: list[float], share: float) -> float:
    """Take the value that so large a share of the values does not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, math.ceil(share * len(ordered)) - 1)]


def drag(page: Page) -> list[float]:
    """Drag the driven element to and fro; give the latencies of the second half [ms]."""
    handle = "[data-part='boom'][data-element='1']"
    box = page.locator(handle).bounding_box()
    if box is None:
        message = "the page shows no driven element"
        raise RuntimeError(message)
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    for turn in range(2):
        page.evaluate("performance.clearMeasures()")
        start = time.perf_counter()
        for i in range(MOVES):
            page.mouse.move(x + 24.0 * math.sin(i / 12.0), y)
            time.sleep(max(0.0, start + (i + 1) * PERIOD - time.perf_counter()))
        if turn == 0:
            page.wait_for_timeout(300)
    page.wait_for_timeout(1000)
    found = page.evaluate(
        "performance.getEntriesByName('edit-to-repaint').map(entry => entry.duration)"
    )
    page.mouse.up()
    return list(found)


def measure(elements: int, ground: str, folder: Path, *, threads: str) -> tuple[list[float], float]:
    """Start the program on a starter plan and drag; latencies and time to the first pattern."""
    plan = folder / "drag.toml"
    make_starter(plan, Wishes(band="20 m", elements=elements, ground=ground))
    command = [sys.executable, "-m", "boomwright", "open", str(plan), "--port", "0", "--no-browser"]
    surroundings = {
        **os.environ,
        "XDG_STATE_HOME": str(folder),
        **({"OPENBLAS_NUM_THREADS": threads} if threads else {}),
    }
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=surroundings) as program:
        try:
            line = program.stdout.readline() if program.stdout else ""
            found = re.search(r"http://\S+", line)
            if found is None:
                message = f"the program did not say where it is: {line!r}"
                raise RuntimeError(message)
            with sync_playwright() as kit:
                browser = kit.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
                page = browser.new_page(viewport={"width": 1440, "height": 900})
                started = time.perf_counter()
                page.goto(found[0])
                page.wait_for_selector("#fig-azimuth svg")
                first = (time.perf_counter() - started) * 1e3
                page.wait_for_selector("#fig-currents svg", timeout=60_000)
                latencies = drag(page)
                browser.close()
        finally:
            program.terminate()
            program.wait(20)
    return latencies, first


def main() -> None:
    """Measure every case and write the table."""
    rows = []
    for (name, elements, ground), threads in product(CASES, THREADS):
        with tempfile.TemporaryDirectory() as folder:
            latencies, first = measure(elements, ground, Path(folder), threads=threads)
        p50, p95 = statistics.median(latencies), percentile(latencies, 0.95)
        verdict = "yes" if p95 < TARGET else "no"
        rows.append(
            f"| {name} | {threads or 'default'} "
            f"| {p50:.0f} | {p95:.0f} | {max(latencies):.0f} | {len(latencies)} "
            f"| {first:.0f} | {verdict} |"
        )
        print(rows[-1])
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    lines = [
        "# Drag to repaint",
        "",
        "Time from a pointer event to the frame that shows the azimuth pattern computed from it,",
        "with the program's own `open` command and headless Chromium on one machine.",
        f"Moves come at 60 a second; aim: p95 below {TARGET:.0f} ms.",
        "Made by `python benchmarks/drag_latency.py`.",
        "",
        "| case | threads | p50, ms | p95, ms | worst, ms | repaints | first pattern, ms "
        "| aim met |",
        "|---|---|---|---|---|---|---|---|",
        *rows,
        "",
        f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 minutes); "
        f"Python {platform.python_version()}. Threads are those of the linear algebra library "
        "(`OPENBLAS_NUM_THREADS`); the default is what `open` gives today.",
        "",
    ]
    target = ROOT / "docs" / "benchmarks" / "drag_latency.md"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
