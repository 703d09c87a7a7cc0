"""The Feed sheet in a browser: read by keys, access, width, and a value typed into the plan."""

from __future__ import annotations

from pathlib import Path

import pytest

from fakes.browser import browsing, grave_faults, opened, served, unfold
from fakes.desk import desk_on
from fakes.feed_plans import GAMMA, plan_text

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def desk(tmp_path: Path):
    return desk_on(tmp_path / "plan.toml", plan_text(GAMMA))


def _opened(context, url):
    page, watch = opened(context, url, "feed", ready=".subject .facts", timeout=120_000)
    unfold(page)
    return page, watch.said


def test_charts_are_read_by_keys_and_typing_changes_the_plan(desk):
    with served(desk) as url, browsing() as context:
        page, said = _opened(context, url)
        page.focus("[data-picture='swr'] .reader")
        page.keyboard.press("ArrowRight")
        assert page.inner_text("[data-picture='swr'] .reading")
        page.click(".folded summary >> text=Values of the plan")
        place = 'input[data-place="transmitter.power"]'
        page.fill(place, "250 W")
        page.press(place, "Enter")
        page.get_by_text("At 250 W").first.wait_for(timeout=120_000)
        assert said == []
    assert 'power = "250 W"' in desk.text


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious_by_day_and_night(desk, width, height):
    with (
        served(desk) as url,
        browsing(width=width, height=height, bypass_csp=True) as context,
    ):
        page, _ = _opened(context, url)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            assert grave_faults(page) == [], scheme
        inner = page.evaluate("document.querySelector('#sheet').scrollWidth")
        assert inner <= page.evaluate("document.querySelector('#sheet').clientWidth") + 1
