"""The Improve block in a browser: accessible, driven by keys, cancelled by Escape."""

from __future__ import annotations

import pytest

from example_stations import station_text
from fakes.browser import browsing, grave_faults, opened, served
from fakes.desk import desk_on

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def _desk(tmp_path):
    text = station_text("01")
    return desk_on(tmp_path / "plan.toml", text)


def _opened(context, url):
    page, watch = opened(context, url, timeout=60_000)
    page.focus("#improve > summary")
    page.keyboard.press("Enter")
    page.wait_for_selector("#trade-off svg", timeout=60_000)
    return page, watch.said


@pytest.mark.parametrize(("width", "height", "scheme"), [(1440, 900, "light"), (390, 844, "dark")])
def test_axe_finds_nothing_serious(tmp_path, width, height, scheme):
    desk = _desk(tmp_path)
    with (
        served(desk) as url,
        browsing(width=width, height=height, color_scheme=scheme, bypass_csp=True) as context,
    ):
        page, said = _opened(context, url)
        page.click("#improve-start")
        page.wait_for_selector("#improve-found:not([hidden])", timeout=120_000)
        assert grave_faults(page, context="#improve") == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert said == []


def _changed(page, desk, before):
    """Wait for the desk to take a change."""
    for _ in range(300):
        if desk.text != before:
            return desk.plan.beams[0]
        page.wait_for_timeout(20)
    raise AssertionError("nothing was taken")


def test_a_design_is_taken_by_keys_mouse_and_touch_and_escape_cancels(tmp_path):
    desk = _desk(tmp_path)
    begun, before = desk.plan.beams[0], desk.text
    with served(desk) as url, browsing(has_touch=True, bypass_csp=True) as context:
        page, said = _opened(context, url)
        page.focus("#trade-off-take")
        page.keyboard.press("Enter")
        # Before and after stand side by side, and nothing is changed yet.
        page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        assert "SWR as measured" in page.inner_text("#proposal-body")
        assert desk.text == before
        page.keyboard.press("Enter")
        page.wait_for_selector("#undo:not([disabled])")
        assert desk.text != before
        # Points of two curves: two elements gain nothing on a longer boom, but a clean rear costs.
        for choice, way in (("1.2", "click"), ("0.2", "tap")):
            before = desk.text
            point = page.locator(f'#trade-off [data-choice="{choice}"]').first
            boom = float(point.get_attribute("data-boom"))
            getattr(point, way)()
            page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
            getattr(page.locator("#proposal-take"), way)()
            taken = _changed(page, desk, before)
            # The owner's band and tubes, on no longer boom than the point's.
            assert taken.band == begun.band
            assert taken.boom_length <= boom + 0.01
            tubes = [[e.half[0].diameter for e in each.elements] for each in (taken, begun)]
            assert tubes[0] == tubes[1]
            assert desk.undo_label.endswith("taken from the trade-off")
        page.click("#improve-start")
        page.wait_for_selector("#improve-cancel:not([hidden])")
        page.keyboard.press("Escape")
        page.wait_for_selector("#improve-cancel[disabled]", state="attached")
        page.wait_for_selector("#improve-start:not([disabled])", timeout=60_000)
        assert grave_faults(page, context="#improve") == []
        assert said == []
