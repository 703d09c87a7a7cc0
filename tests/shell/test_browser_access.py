"""The page for everyone: axe rules, keyboard order, narrow windows, reduced motion, contrast."""

from __future__ import annotations

import pytest

from fakes.browser import browsing, grave_faults, opened, served
from fakes.desk import fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious_by_day_and_night(width, height):
    with (
        served(fake_desk()) as url,
        browsing(width=width, height=height, bypass_csp=True) as context,
    ):
        page, _ = opened(context, url)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert grave_faults(page) == []
        page.click("[data-picture='azimuth'] .behind summary")
        page.fill('input[data-place="beam[0].element[1].at"]', "2.7")
        page.press('input[data-place="beam[0].element[1].at"]', "Enter")
        page.wait_for_selector(".problem")
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            page.wait_for_timeout(300)
            assert grave_faults(page) == [], scheme


def test_a_narrow_window_is_one_column_with_the_plan_view_first_and_numbers_in_sight():
    with served(fake_desk()) as url, browsing(width=390, height=844) as context:
        page, watch = opened(context, url)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        tops = [
            page.locator(selector).first.bounding_box()["y"]
            for selector in ("#plan", "#dimensions", "#figures")
        ]
        assert tops == sorted(tops)
        page.mouse.wheel(0, 1500)
        page.wait_for_timeout(200)
        box = page.locator("#numbers").bounding_box()
        assert 0 <= box["y"] <= 844 - box["height"] + 1
        assert watch.said == []


def test_plan_view_and_numbers_stay_in_sight_on_a_desk():
    with served(fake_desk()) as url, browsing() as context:
        page, _ = opened(context, url)
        page.mouse.move(1000, 600)
        page.mouse.wheel(0, 700)
        page.wait_for_timeout(300)
        assert page.evaluate("scrollY") > 100
        for selector in ("#numbers", "#plan"):
            box = page.locator(selector).bounding_box()
            assert box["y"] >= -1
            assert box["y"] + box["height"] <= 901


def test_everything_is_reached_by_the_tab_key_and_the_focus_is_seen():
    with served(fake_desk()) as url, browsing() as context:
        page, _ = opened(context, url)
        reached = []
        for _ in range(80):
            page.keyboard.press("Tab")
            name = page.evaluate(
                """() => { const a = document.activeElement;
                const style = getComputedStyle(a.matches('.switch input') ? a.nextSibling : a);
                return [a.id || a.dataset.part || a.dataset.place || a.className || a.tagName,
                        style.outlineStyle !== 'none' || style.boxShadow !== 'none']; }"""
            )
            reached.append(name)
        names = {name for name, _ in reached}
        assert {"boom", "tip", "frequency-range", "height-range", "height-text", "reader"} <= names
        assert "beam[0].element[1].at" in names
        unseen = [name for name, seen in reached if not seen and name != "BODY"]
        assert unseen == []


def test_the_four_numbers_are_spoken_once_they_rest():
    with served(fake_desk()) as url, browsing() as context:
        page, _ = opened(context, url)
        page.wait_for_selector("#spoken:not(:empty)", state="attached")
        spoken = page.text_content("#spoken")
        for word in ("Modelled gain", "Front-to-rear", "SWR as measured", "Take-off angle", "±"):
            assert word in spoken
        page.focus("[data-element='1'][data-part='boom']")
        for _ in range(5):
            page.keyboard.press("ArrowRight")
        page.wait_for_timeout(300)
        assert page.text_content("#spoken") == spoken
        page.locator("#spoken").filter(has_not_text=spoken).wait_for(state="attached")


def test_reduced_motion_is_respected():
    with served(fake_desk()) as url, browsing(reduced_motion="reduce") as context:
        page, _ = opened(context, url)
        moving = page.evaluate(
            """() => [...document.querySelectorAll('*')].filter(
                node => getComputedStyle(node).transitionDuration.split(', ')
                    .some(d => parseFloat(d) > 0)
                    || getComputedStyle(node).animationName !== 'none').length"""
        )
        assert moving == 0
