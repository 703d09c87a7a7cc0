"""How soon each sheet shows the figures of an edit.

Opens the demo plan, moves an element by one key on each sheet in turn, and takes the time to the
frame that shows the whole sheet of that state. Writes ``docs/benchmarks/sheet_speed.md``.

    python benchmarks/sheet_speed.py
"""

from __future__ import annotations

import os
import platform
import shutil
import statistics
import tempfile
import threading
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from boomwright.session.files import packaged_text
from boomwright.session.plan_library import PlanLibrary
from boomwright.session.plan_session import PlanSession
from boomwright.web import PlanDesk, create_app, serve

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = shutil.which("chromium") or "chromium"
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--no-first-run"]
#: sheet -> aim from the edit to its figures [s]; those that follow a hand have the first figures
#: at once, and the whole band here
AIMS = {"beam": 1.0, "waves": 1.0, "feed": 1.5, "reach": 2.0, "structure": 1.0}
EDITS = 5
_JUDGED = "#verdict:not([data-word=''])"
_TAKE = """async () => {
  const bench = document.getElementById('bench');
  const before = +bench.dataset.revision;
  const handle = document.querySelector("[data-part=boom][data-element='1']");
  const begun = performance.now();
  handle.focus();
  handle.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true }));
  while (+bench.dataset.revision === before || bench.dataset.painted !== 'full') {
    await new Promise((next) => requestAnimationFrame(next));
  }
  return performance.now() - begun;
}"""


def edits(page: Page, url: str, sheet: str) -> list[float]:
    """Edit on a sheet several times; seconds to its figures."""
    page.goto(f"{url.split('/?')[0]}/{sheet}")
    page.wait_for_selector("[data-painted=full]", timeout=120_000)
    page.wait_for_selector(_JUDGED)
    found = []
    for _ in range(EDITS):
        found.append(page.evaluate(_TAKE) / 1e3)
        page.wait_for_selector(_JUDGED)
    return found


def measured(browser: Browser, url: str) -> list[str]:
    """Take the times of all sheets, as rows of the table."""
    page = browser.new_context(viewport={"width": 1440, "height": 900}).new_page()
    page.set_default_timeout(120_000)
    page.goto(url)
    rows = []
    for sheet, aim in AIMS.items():
        found = edits(page, url, sheet)
        middle = statistics.median(found)
        rows.append(
            f"| {sheet.capitalize()} | {middle:.2f} | {max(found):.2f} | {aim:.1f} | "
            f"{middle / aim:.2f} |"
        )
    return rows


def main() -> None:
    """Measure and write the table."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "demo.toml"
        plan.write_text(packaged_text("demo.toml"), encoding="utf-8")
        (plan.parent / "prices.csv").write_text(packaged_text("demo_prices.csv"), encoding="utf-8")
        desk = PlanDesk(
            session=PlanSession(plan),
            name=plan.name,
            text=plan.read_text(encoding="utf-8"),
            library=PlanLibrary(plan.parent),
        )
        ready, held = threading.Event(), {}

        def on_ready(url: str) -> None:
            held["url"] = url
            ready.set()

        def run() -> None:
            serve(create_app(desk), on_ready=on_ready, prepared=lambda s: held.update(server=s))

        server = threading.Thread(target=run)
        server.start()
        try:
            ready.wait(30.0)
            with sync_playwright() as kit:
                browser = kit.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
                rows = measured(browser, held["url"])
                browser.close()
        finally:
            held["server"].should_exit = True
            server.join(30.0)
    load = ", ".join(f"{each:.1f}" for each in os.getloadavg())
    text = "\n".join(
        [
            "# How soon a sheet shows the figures of an edit",
            "",
            "The demo plan: an element is moved by one key, and the whole sheet of that state is "
            "waited for. Beam and Waves follow the hand at once; here they settle.",
            "Made by `python benchmarks/sheet_speed.py`.",
            "",
            f"| sheet | median of {EDITS}, s | slowest, s | aim, s | ratio |",
            "|---|---|---|---|---|",
            *rows,
            "",
            f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 "
            f"minutes); Python {platform.python_version()}.",
            "",
        ]
    )
    (ROOT / "docs/benchmarks/sheet_speed.md").write_text(text, encoding="utf-8")
    print(text)


if __name__ == "__main__":
    main()
