"""Proposals, long work and waiting in a browser: nothing happens unseen, and nothing unasked."""

from __future__ import annotations

import time

import pytest

from boomwright.session.plan_library import PlanLibrary
from fakes.browser import Watch, browsing, grave_faults, served
from fakes.desk import desk_on, fake_desk
from fakes.offering import PLAN

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def context():
    with browsing(bypass_csp=True) as made:
        yield made


def sheet_of(context, url, path):
    page = context.new_page()
    watch = Watch(page, url)
    page.goto(url)
    page.goto(url.split("/?")[0] + path)
    return page, watch


def test_a_heading_proposed_by_reach_is_shown_left_and_taken(context, tmp_path):
    path = tmp_path / "plan.toml"
    desk = desk_on(path, PLAN, library=PlanLibrary(tmp_path))
    with served(desk) as url:
        page, watch = sheet_of(context, url, "/reach")
        turning = page.locator(".offered li", has_text="turn the beam to")
        turning.locator("button").click(timeout=60_000)
        page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        rows = page.inner_text("#proposal-body")
        assert "SWR as measured, worst in the band" in rows
        assert "heading" in rows
        assert grave_faults(page, context="#proposal") == []
        before = desk.text
        page.click("#proposal-leave")
        assert desk.text == before
        turning.locator("button").click()
        page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        page.keyboard.press("Enter")
        page.wait_for_selector("#undo:enabled")
        turning.wait_for(state="detached", timeout=60_000)
        page.click("#undo")
        page.wait_for_selector("#undo:disabled")
        assert desk.text == before
        assert watch.said == []
        page.close()


def test_a_sheet_that_takes_long_says_what_it_does_and_for_how_long(context):
    desk = fake_desk()
    slow = desk.session.compute

    def compute(**asked):
        time.sleep(2.0)
        return slow(**asked)

    desk.session.compute = compute
    with served(desk) as url:
        page, watch = sheet_of(context, url, "/beam")
        page.wait_for_selector("#fig-currents svg")
        page.focus("[data-part=boom][data-element='1']")
        page.keyboard.press("ArrowRight")
        page.wait_for_selector("#busy:not([hidden])")
        said = page.inner_text("#busy")
        assert said.startswith("Computing the whole band … ")
        assert "s so far, " in said
        assert said.endswith("s last time")
        page.wait_for_selector("#busy", state="hidden")
        assert watch.said == []
        page.close()
