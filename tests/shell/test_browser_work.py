"""Cost, build and raising sheets in a real browser: they fill in and nothing is complained of.

That they fit and that axe finds nothing is asked of every sheet in test_browser_plans.py.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from boomwright.session.files import packaged_text
from boomwright.web import PlanDesk
from fakes.browser import browsing, opened, served, unfold
from fakes.desk import desk_on

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def desk(tmp_path: Path) -> PlanDesk:
    text = packaged_text("demo.toml")
    path = tmp_path / "plan.toml"
    prices = packaged_text("demo_prices.csv")
    (tmp_path / "prices.csv").write_text(prices, encoding="utf-8")
    return desk_on(path, text)


def test_work_sheets_fill_in(desk):
    with served(desk) as url, browsing() as context:
        page, watch = opened(context, url)
        home = "/".join(url.split("/")[:3])
        for subject, words in (
            ("cost", "Quantities and cost"),
            ("build", "Build sheets of 20m"),
            ("raising", "Raising of 20m"),
        ):
            page.goto(f"{home}/{subject}")
            page.wait_for_selector(".work .title", timeout=60_000)
            unfold(page)
            assert page.text_content(".work .title") == words
        # What is ticked off stays, in a file beside the plan.
        box = page.locator("input[data-tick]").first
        box.check()
        what = box.get_attribute("data-tick")
        for _ in range(100):
            if what in desk.session.ticks():
                break
            page.wait_for_timeout(20)
        page.reload()
        page.wait_for_selector(".work .title", timeout=60_000)
        unfold(page)
        assert page.locator("input[data-tick]").first.is_checked()
        assert watch.said == []
