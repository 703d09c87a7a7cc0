"""The Tuning sheet in a browser: read by keys, access, width."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from boomwright.app import DeskTools
from boomwright.web import PlanDesk
from fakes.browser import browsing, served
from fakes.tuned_example import PLAN, SWEEP

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def desk(tmp_path: Path):
    path = tmp_path / "plan.toml"
    text = PLAN.read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    shutil.copy(SWEEP, tmp_path)
    return PlanDesk(tools=DeskTools(path), name=path.name, text=text)


def _opened(context, url):
    page = context.new_page()
    said = []
    page.on("console", lambda m: said.append(m.text) if m.type != "log" else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(url)
    page.goto(url.split("?")[0].rstrip("/") + "/tuning")
    page.wait_for_selector(".subject .facts", timeout=120_000)
    return page, said


def test_charts_are_read_by_keys_and_the_advice_stands_there(desk):
    with served(desk) as url, browsing() as context:
        page, said = _opened(context, url)
        page.focus("[data-picture='swr'] .reader")
        page.keyboard.press("ArrowRight")
        assert page.inner_text("[data-picture='swr'] .reading")
        assert "shorten each driven tip" in page.inner_text("[data-list='advice']")
        assert said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious(desk, scheme, width, height):
    with (
        served(desk) as url,
        browsing(width=width, height=height, color_scheme=scheme, bypass_csp=True) as context,
    ):
        page, _ = _opened(context, url)
        found = Axe().run(page).response["violations"]
        grave = [
            (v["id"], [node["target"] for node in v["nodes"]])
            for v in found
            if v["impact"] in {"serious", "critical"}
        ]
        assert grave == []
        inner = page.evaluate("document.querySelector('#sheet').scrollWidth")
        assert inner <= page.evaluate("document.querySelector('#sheet').clientWidth") + 1
