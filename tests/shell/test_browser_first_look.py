"""What a sheet shows before anybody unfolds anything: its answer first, and little more."""

from __future__ import annotations

from pathlib import Path

import pytest

from boomwright.session.files import packaged_text
from fakes.browser import browsing, opened, served, unfold
from fakes.desk import desk_on

pytestmark = [pytest.mark.browser, pytest.mark.slow]

#: most a sheet may measure at first, at 1440 by 900 and 390 by 844 [px]; the structure sheet
#: measured 12 647 and 25 607 before its parts were folded
MOST = {
    "structure": (1500, 1600),
    "permits": (1100, 1100),
    "cost": (900, 1200),
    "feed": (1700, 2100),
}
WINDOWS = ((1440, 900), (390, 844))


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    path = Path(tmp_path_factory.mktemp("look")) / "plan.toml"
    text = packaged_text("demo.toml")
    return desk_on(path, text)


def _opened(context, url, sheet):
    return opened(context, url, sheet, ready="#sheet .part", timeout=90_000)[0]


@pytest.mark.parametrize("place", [0, 1], ids=["desk", "phone"])
def test_a_sheet_is_short_at_first_and_its_answer_stands_first(desk, place):
    width, height = WINDOWS[place]
    with served(desk) as url, browsing(width=width, height=height, bypass_csp=True) as context:
        for sheet, most in MOST.items():
            page = _opened(context, url, sheet)
            box = page.locator("#sheet").bounding_box()
            assert box["height"] <= most[place], sheet
            # The subject begins in the upper third, and its answer comes before everything else.
            assert box["y"] <= height / 3, sheet
            first = page.locator("#sheet :is(.opening, .facts)").first
            below = "node => node.getBoundingClientRect().y"
            start = page.locator("#sheet").evaluate(below)
            assert first.evaluate(below) - start <= 110, sheet
            assert page.locator(".sliders").count() == 0
            for part in page.query_selector_all("#sheet .part"):
                inside = part.query_selector(".inside").inner_text()
                assert len(inside) > 8, part.inner_text()
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            page.close()


def test_a_link_opens_its_part_and_a_notice_leads_to_where_it_is_mended(desk):
    with served(desk) as url, browsing(bypass_csp=True) as context:
        page = _opened(context, url, "structure")
        link = page.locator(".strip a").nth(1)
        assert page.locator("#part-beam[open]").count() == 0
        assert link.get_attribute("href") == "#part-beam"
        link.click()
        page.wait_for_selector("#part-beam[open]")
        page.click(".notices .rest summary")
        page.locator(".notices a", has_text="Change it").first.click()
        page.wait_for_selector("#values[open]")


def test_what_is_wider_than_its_column_shows_that_there_is_more(desk):
    with served(desk) as url, browsing(width=390, height=844, bypass_csp=True) as context:
        page = _opened(context, url, "feed")
        unfold(page)
        wide = page.evaluate(
            """() => [...document.querySelectorAll('#sheet .scroll')]
              .filter((each) => each.scrollWidth > each.clientWidth + 1)
              .map((each) => getComputedStyle(each).backgroundAttachment)"""
        )
        assert wide
        assert all("local" in attachment for attachment in wide)


#: size at which the letters of every picture stand, and the picture they stand in [px]
SIZES = """() => [...document.querySelectorAll('#sheet .drawing svg text, #plan svg text')]
  .filter((each) => each.textContent.trim() && each.getScreenCTM())
  .map((each) => { const m = each.getScreenCTM();
    return [parseFloat(getComputedStyle(each).fontSize) * Math.hypot(m.a, m.b),
            each.closest('[data-picture]')?.dataset.picture ?? 'plan', each.textContent]; })"""


@pytest.mark.parametrize("place", [0, 1], ids=["desk", "phone"])
def test_no_letter_of_a_picture_is_below_ten_pixels(desk, place):
    width, height = WINDOWS[place]
    with served(desk) as url, browsing(width=width, height=height, bypass_csp=True) as context:
        for sheet in ("structure", "feed", "permits", "raising"):
            page = _opened(context, url, sheet)
            unfold(page)
            page.evaluate("document.getElementById('fold').open = true")
            if place:  # first comes what a wide window was shown, then it is drawn anew
                page.wait_for_function(
                    "() => [...document.querySelectorAll('#sheet .drawing svg')]"
                    ".every((each) => each.viewBox.baseVal.width !== 420)",
                    timeout=30_000,
                )
            sizes = page.evaluate(SIZES)
            assert len(sizes) > 20, sheet
            assert [each for each in sizes if each[0] < 9.9] == [], sheet
            page.close()
