"""The Tuning sheet in a browser: read by keys, access, width."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from boomwright.render.laid import lay_out
from boomwright.report.tuning import tuning_report
from boomwright.session.files import PlanFolder, load_plan
from boomwright.session.plan_library import PlanLibrary
from boomwright.study.tuning import tune_plan
from boomwright.web import PlanDesk
from boomwright.web.edits import Write
from fakes.browser import browsing, grave_faults, opened, served, unfold
from fakes.desk import desk_on
from fakes.tuned_example import FOLDER, PLAN, SWEEP

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def _desk(tmp_path: Path, text: str) -> PlanDesk:
    return desk_on(tmp_path / "plan.toml", text, library=PlanLibrary(tmp_path))


@pytest.fixture
def desk(tmp_path: Path):
    shutil.copy(SWEEP, tmp_path)
    return _desk(tmp_path, PLAN.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def fitted():
    """Put the advice of the example in the place of a fit: what is looked at is the page."""
    result = tune_plan(load_plan(PLAN).plan, files=PlanFolder(FOLDER))
    return lambda plan, *, faults, canvas, progress: lay_out(tuning_report(result), canvas=canvas)


def _opened(context, url):
    page, watch = opened(context, url, "tuning", ready=".subject .facts", timeout=120_000)
    unfold(page)
    return page, watch.said


def test_charts_are_read_by_keys_and_the_advice_stands_there(desk):
    with served(desk) as url, browsing() as context:
        page, said = _opened(context, url)
        # The advice stands there first; the fault follows by itself.
        assert "shorten each driven tip" in page.inner_text("[data-list='advice']")
        page.wait_for_selector("[data-list='faults']", timeout=120_000)
        assert page.query_selector("[data-searching]") is None
        assert "no fault" in page.inner_text("[data-list='faults']")
        page.focus("[data-picture='swr'] .reader")
        page.keyboard.press("ArrowRight")
        assert re.match(r"1[34]\.\d+ MHz", page.inner_text("[data-picture='swr'] .reading"))
        page.focus("[data-picture='heard-1'] .reader")
        page.keyboard.press("ArrowRight")
        assert "beam at" in page.inner_text("[data-picture='heard-1'] .reading")
        assert said == []


def test_a_sweep_is_chosen_dropped_and_pasted_where_it_is_shown(tmp_path, fitted):
    desk = _desk(tmp_path, PLAN.read_text("utf-8").split("[measured]")[0])
    desk.session.tuning = fitted
    with served(desk) as url, browsing() as context:
        page = context.new_page()
        said = []
        page.on("pageerror", lambda error: said.append(str(error)))
        page.goto(url)
        page.goto(url.split("?")[0].rstrip("/") + "/tuning")
        page.wait_for_selector("#measured")
        # Dropped on the sheet; its name comes with it, and the fit follows by itself.
        text = SWEEP.read_text("utf-8")
        drop = page.evaluate_handle(
            "text => { const found = new DataTransfer();"
            "found.items.add(new File([text], 'first.s1p')); return found; }",
            text,
        )
        page.dispatch_event("#take", "drop", {"dataTransfer": drop})
        assert page.input_value("#measured [name=name]") == "first.s1p"
        page.click("#measured button")
        page.wait_for_selector("#measured-text:has-text('measured sweep')")
        page.wait_for_selector(".subject .facts", timeout=60_000)
        assert (tmp_path / "first.s1p").read_text("utf-8") == text
        # Pasted rows live through a sheet that is written anew.
        page.evaluate("document.getElementById('take').open = true")
        page.fill("#measured [name=rows]", "14000 38,2 -12,5\n14100 41,0 -4,5\n14200 44,1 3,5")
        desk.apply(Write(place="measured.noise", text="0.4 %"), gesture=0)
        page.evaluate("document.activeElement.blur()")
        page.click("#units label:has-text('US')", force=True)
        page.wait_for_timeout(300)
        assert page.input_value("#measured [name=rows]").startswith("14000 38,2")
        page.click("#measured button")
        page.wait_for_selector("#measured-text:has-text('trial 1')")
        assert page.input_value("#measured [name=rows]") == ""
        assert said == []


def test_axe_finds_nothing_serious_by_day_and_night_wide_and_narrow(desk, fitted):
    desk.session.tuning = fitted
    with served(desk) as url:
        for width, height in ((1440, 900), (390, 844)):
            with browsing(width=width, height=height, bypass_csp=True) as context:
                page, _ = _opened(context, url)
                page.wait_for_selector("[data-searching]", state="detached", timeout=120_000)
                for scheme in ("light", "dark"):
                    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
                    assert grave_faults(page) == [], (width, scheme)
                inner = page.evaluate("document.querySelector('#sheet').scrollWidth")
                assert inner <= page.evaluate("document.querySelector('#sheet').clientWidth") + 1
