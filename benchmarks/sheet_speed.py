"""How soon each sheet shows the figures of an edit, against an earlier commit.

Opens the demo plan of the earlier commit with the program's own ``open`` command, in both versions,
moves an element by one key on each sheet in turn, and takes the time to the frame that shows the
whole sheet of that state, and the processor time that the program took for it. Both versions take
turns edit by edit, so other work on the machine strikes both alike. Writes
``docs/benchmarks/sheet_speed.md``.

    python benchmarks/sheet_speed.py --before 0d5eb906
"""

from __future__ import annotations

import argparse
import contextlib
import os
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from command_speed import DEMO, PRICES, ROOT, unpack
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = shutil.which("chromium") or "chromium"
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--no-first-run"]
#: sheet -> aim from the edit to its figures [s]; those that follow a hand have the first figures
#: at once, and the whole band here
AIMS = {"beam": 1.0, "waves": 1.0, "feed": 1.5, "reach": 2.0, "structure": 1.0}
#: most that a sheet may take longer than before
AIM = 1.05
#: the earlier pages have no verdict above the sheet
_JUDGED = "() => document.querySelector('#verdict')?.dataset.word !== ''"
_TAKE = """async (way) => {
  const bench = document.getElementById('bench');
  const before = +bench.dataset.revision;
  const handle = document.querySelector("[data-part=boom][data-element='1']");
  const begun = performance.now();
  handle.focus();
  handle.dispatchEvent(new KeyboardEvent('keydown', { key: way, bubbles: true }));
  while (+bench.dataset.revision === before || bench.dataset.painted !== 'full') {
    await new Promise((next) => requestAnimationFrame(next));
  }
  return performance.now() - begun;
}"""


@dataclass(slots=True)
class Version:
    """One version of the program with its page open."""

    process: subprocess.Popen[str]
    url: str
    page: Page | None = None
    #: time to the whole sheet, processor time until then, and to where nothing is left to do [s]
    shown: list[float] = field(default_factory=list)
    spent: list[float] = field(default_factory=list)
    whole: list[float] = field(default_factory=list)

    def processor(self) -> float:
        """Processor time of the program so far [s]."""
        stat = Path(f"/proc/{self.process.pid}/stat").read_text(encoding="utf-8")
        ticks = stat.rpartition(")")[2].split()[11:13]
        return sum(int(each) for each in ticks) / os.sysconf("SC_CLK_TCK")

    def look_at(self, sheet: str, browser: Browser) -> None:
        """Open a sheet and wait until it and its verdict stand."""
        if self.page is None:
            self.page = browser.new_context(viewport={"width": 1440, "height": 900}).new_page()
            self.page.set_default_timeout(120_000)
            self.page.goto(self.url)
        self.page.goto(f"{self.url.split('/?')[0]}/{sheet}")
        self.page.wait_for_selector("[data-painted=full]")
        self.settle()
        self.shown, self.spent, self.whole = [], [], []

    def edit(self, way: str) -> None:
        """Move the element by one key."""
        page = self.page
        if page is None:
            msg = "no sheet is open"
            raise RuntimeError(msg)
        page.bring_to_front()
        begun = self.processor()
        self.shown.append(page.evaluate(_TAKE, way) / 1e3)
        self.spent.append(self.processor() - begun)
        self.settle()
        self.whole.append(self.processor() - begun)

    def settle(self) -> None:
        """Wait for the verdict, and until the program has nothing left to do."""
        if self.page is None:
            return
        self.page.wait_for_function(_JUDGED)
        last = -1.0
        while (now := self.processor()) > last:
            last = now
            self.page.wait_for_timeout(150)


@contextlib.contextmanager
def opened(source: Path, folder: Path) -> Iterator[Version]:
    """Start the program of a version on a plan."""
    command = [sys.executable, "-m", "boomwright", "open", "demo.toml", "--port", "0"]
    surroundings = {
        **os.environ, "PYTHONPATH": str(source / "src"), "XDG_STATE_HOME": str(folder / "state"),
    }  # fmt: skip
    process = subprocess.Popen(
        [*command, "--no-browser"], cwd=folder, stdout=subprocess.PIPE, text=True, env=surroundings
    )
    try:
        found = re.search(r"http://\S+", process.stdout.readline() if process.stdout else "")
        if found is None:
            message = "the program did not say where it is"
            raise RuntimeError(message)
        yield Version(process=process, url=found[0])
    finally:
        process.terminate()
        process.wait(20)


def row(sheet: str, before: Version, now: Version) -> str:
    """One line of the table."""
    ratio = statistics.median(new / old for old, new in zip(before.shown, now.shown, strict=True))
    return (
        f"| {sheet.capitalize()} | {statistics.median(before.shown):.2f} | "
        f"{statistics.median(now.shown):.2f} | {ratio:.2f} | "
        f"{sum(now.spent) / sum(before.spent):.2f} | "
        f"{sum(now.whole) / sum(before.whole):.2f} | {AIMS[sheet]:.1f} |"
    )


def main() -> None:
    """Measure and write the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--before", default="0d5eb906", help="the earlier commit")
    parser.add_argument("--runs", type=int, default=8, help="pairs of edits on each sheet")
    parser.add_argument("sheets", nargs="*", help="sheets to measure; all if left out")
    arguments = parser.parse_args()
    rows = []
    with contextlib.ExitStack() as stack:
        place = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        unpack(arguments.before, place / "source")
        versions = []
        for name, source in (("before", place / "source"), ("now", ROOT)):
            folder = place / name
            folder.mkdir()
            shutil.copy(place / "source" / DEMO, folder / "demo.toml")
            shutil.copy(place / "source" / PRICES, folder / "prices.csv")
            versions.append(stack.enter_context(opened(source, folder)))
        kit = stack.enter_context(sync_playwright())
        browser = kit.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        for sheet in arguments.sheets or AIMS:
            for each in versions:
                each.look_at(sheet, browser)
            for number in range(arguments.runs):
                for each in versions:
                    each.edit("ArrowLeft" if number % 2 else "ArrowRight")
            rows.append(row(sheet, *versions))
            print(rows[-1], flush=True)
        browser.close()
    load = ", ".join(f"{each:.1f}" for each in os.getloadavg())
    text = "\n".join(
        [
            "# How soon a sheet shows the figures of an edit",
            "",
            "The demo plan: an element is moved by one key, and the whole sheet of that state is "
            "waited for. Beam and Waves follow the hand at once; here they settle. Both versions "
            "take turns; the ratio is the median of the pairs. Processor time is summed over the "
            "edits, until the sheet is shown and until the verdict stands and nothing is left to "
            f"do; the earlier page gave no verdict. The aim of a ratio is {AIM:.2f} at most.",
            f"Made by `python benchmarks/sheet_speed.py --before {arguments.before}`, "
            f"{arguments.runs} pairs.",
            "",
            "| sheet | before, s | now, s | ratio | processor time | with the verdict | aim, s |",
            "|---|---|---|---|---|---|---|",
            *rows,
            "",
            f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 "
            f"minutes); Python {platform.python_version()}.",
            "",
        ]
    )
    if not arguments.sheets:
        (ROOT / "docs/benchmarks/sheet_speed.md").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
