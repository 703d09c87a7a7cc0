"""The page on loopback with a real browser in front of it, for tests and benchmarks."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from urllib.parse import urlsplit

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from boomwright.session.plan_library import PlanLibrary
from boomwright.session.user_state import UserState
from boomwright.web import PlanDesk, create_app, serve

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
#: where a browser may be found: named by its user, else by its usual names on the PATH
CHROMIUM = next(
    (
        path
        for name in (os.environ.get("BOOMWRIGHT_BROWSER"), "chromium", "chromium-browser", "chrome")
        if name and (path := shutil.which(name))
    ),
    "chromium",
)


@contextmanager
def folder_served(folder: Path) -> Iterator[str]:
    """Serve a folder with no plan open, in a thread; gives the address with its key."""
    library = PlanLibrary(folder, state=UserState(folder / ".state"))
    with served(None, library=library) as url:
        yield url


@contextmanager
def served(desk: PlanDesk | None, library: PlanLibrary | None = None) -> Iterator[str]:
    """Serve a desk in a thread; gives the address with its key."""
    ready, held = threading.Event(), {}

    def on_ready(url: str) -> None:
        held["url"] = url
        ready.set()

    def run() -> None:
        page = create_app(desk, library=library)
        serve(page, on_ready=on_ready, prepared=lambda s: held.update(server=s))

    thread = threading.Thread(target=run)
    thread.start()
    try:
        if not ready.wait(20.0):
            message = "the page did not start"
            raise RuntimeError(message)
        yield held["url"]
    finally:
        held["server"].should_exit = True
        thread.join(20.0)


class Watch:
    """What a page said and asked for while it was open."""

    def __init__(self, page: Page, home: str) -> None:
        self.said: list[str] = []
        self.outside: list[str] = []
        host = urlsplit(home).netloc
        page.on("console", lambda m: self.said.append(m.text) if m.type != "log" else None)
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("dialog", lambda dialog: self.said.append(f"dialog {dialog.message}"))

        def asked(url: str) -> None:
            # A blob never leaves the page that made it.
            if urlsplit(url.removeprefix("blob:")).netloc != host:
                self.outside.append(url)

        page.on("request", lambda request: asked(request.url))
        page.on("websocket", lambda socket: asked(socket.url))


#: what keeps the browser of a test file open from one test to the next; empty outside of one
_KEEPING: list[ExitStack] = []
_KEPT: list[Browser] = []


@contextmanager
def kept_browser() -> Iterator[None]:
    """Let all who browse in here share one browser, started by the first of them."""
    with ExitStack() as keeping:
        _KEEPING.append(keeping)
        try:
            yield
        finally:
            _KEEPING.clear()
            _KEPT.clear()


@contextmanager
def _chromium() -> Iterator[Browser]:
    """Start a browser."""
    with sync_playwright() as kit:
        browser = kit.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        try:
            yield browser
        finally:
            browser.close()


@contextmanager
def browsing(*, width: int = 1440, height: int = 900, **more) -> Iterator[BrowserContext]:
    """Open a headless browser, with nothing in it of those who browsed before."""
    with ExitStack() as stack:
        if _KEEPING and not _KEPT:
            _KEPT.append(_KEEPING[0].enter_context(_chromium()))
        browser = _KEPT[0] if _KEPT else stack.enter_context(_chromium())
        context = browser.new_context(viewport={"width": width, "height": height}, **more)
        stack.callback(context.close)
        context.set_default_timeout(15_000)
        yield context


def opened(
    context: BrowserContext,
    url: str,
    sheet: str = "",
    *,
    ready: str = "#fig-currents svg",
    timeout: float = 15_000,
) -> tuple[Page, Watch]:
    """Open a sheet of the page and wait until it is ready.

    Args:
        sheet: its name; empty for the one that the address leads to
        ready: selector of what is there once the sheet is drawn
        timeout: longest wait [ms]
    """
    page = context.new_page()
    watch = Watch(page, url)
    page.goto(url)
    if sheet:
        page.goto(f"{url.split('?')[0].rstrip('/')}/{sheet}")
    page.wait_for_selector(ready, timeout=timeout)
    return page, watch


def unfold(page: Page) -> None:
    """Open every part of the sheet."""
    page.evaluate(
        "for (const each of document.querySelectorAll('#sheet :is(.part, .rest)')) each.open = true"
    )


def grave_faults(page: Page, **where: str) -> list[tuple[str, list[object]]]:
    """What the axe rules find of weight, and where.

    Args:
        where: ``context`` for a part of the page
    """
    found = Axe().run(page, **where).response["violations"]
    return [
        (each["id"], [node["target"] for node in each["nodes"]])
        for each in found
        if each["impact"] in {"serious", "critical"}
    ]
