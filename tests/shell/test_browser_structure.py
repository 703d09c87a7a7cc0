"""The sheets of structure and permits in a browser: access, exact reading, a fix taken."""

from __future__ import annotations

import pytest

from example_stations import station_text
from fakes.browser import browsing, grave_faults, opened, served, unfold
from fakes.desk import desk_on

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def _desk(tmp_path, start):
    text = station_text(start)
    return desk_on(tmp_path / "plan.toml", text)


def _opened(context, url, sheet):
    page, watch = opened(context, url, sheet, ready=".subject .facts", timeout=90_000)
    unfold(page)
    return page, watch.said


@pytest.mark.parametrize(
    ("sheet", "scheme", "width", "height"),
    [
        ("structure", "light", 1440, 900),
        ("structure", "dark", 390, 844),
        ("permits", "dark", 1440, 900),
        ("permits", "light", 390, 844),
    ],
)
def test_axe_finds_nothing_serious(tmp_path, sheet, scheme, width, height):
    desk = _desk(tmp_path, "04")
    with (
        served(desk) as url,
        browsing(width=width, height=height, color_scheme=scheme, bypass_csp=True) as context,
    ):
        page, said = _opened(context, url, sheet)
        page.wait_for_selector("#verdict[data-word='exceeded']", timeout=30_000)
        page.click("#verdict summary")
        assert grave_faults(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        page.click("#verdict summary")
        for summary in page.query_selector_all(".subject details:not([open]) > summary")[:3]:
            summary.click()
        assert grave_faults(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert said == []


def test_the_header_says_the_verdict_and_never_an_old_one(tmp_path):
    desk = _desk(tmp_path, "04")
    with served(desk) as url, browsing(bypass_csp=True) as context:
        page, said = _opened(context, url, "structure")
        page.wait_for_selector("#verdict[data-word='exceeded']", timeout=30_000)
        assert page.inner_text("#verdict-text").startswith("Verdict: exceeded. 4 checks exceeded")
        tab = page.locator("nav a[aria-current='page']")
        assert tab.get_attribute("data-mark") == "exceeded"
        assert "3 exceeded" in tab.inner_text()
        # By keys: open, every exceeded check with its sheet, closed again with the focus kept.
        page.focus("#verdict summary")
        page.keyboard.press("Enter")
        assert page.locator("#verdict-exceeded li").count() == 4
        assert "172 % of its limit" in page.inner_text("#verdict-exceeded")
        page.keyboard.press("Escape")
        assert page.get_attribute("#verdict", "open") is None
        assert page.evaluate("document.activeElement.closest('#verdict') !== null")
        # From a change to its answer the header shows no verdict rather than the old one.
        page.evaluate(
            """() => {
              window.seen = [];
              const note = () => window.seen.push(document.getElementById('verdict').dataset.word);
              new MutationObserver(note).observe(document.getElementById('verdict'),
                { attributes: true, attributeFilter: ['data-judged'] });
            }"""
        )
        page.click("details.folded > summary")
        page.fill('input[data-place="site.wind"]', "25 m/s")
        page.press('input[data-place="site.wind"]', "Enter")
        page.wait_for_function("window.seen.length >= 2", timeout=30_000)
        assert page.evaluate("window.seen[0]") == ""
        assert page.evaluate("window.seen[1]") == "exceeded"
        # Of the three only the soil is left: its loads are entered, whatever the wind.
        assert "1 exceeded" in tab.inner_text()
        assert page.text_content("#verdict-spoken") == page.text_content("#verdict-text")
        assert said == []


def test_a_fix_is_looked_at_taken_by_keys_and_undone_with_another(tmp_path):
    desk = _desk(tmp_path, "04")
    with served(desk) as url, browsing(bypass_csp=True) as context:
        page, said = _opened(context, url, "structure")
        assert "107 %, exceeded" in page.inner_text("#fig-ledger")
        page.focus(".changes button")
        page.keyboard.press("Enter")
        page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        assert grave_faults(page, context="#proposal") == []
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.matches('.changes button')")
        page.keyboard.press("Enter")
        page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        assert "wall" in page.inner_text("#proposal-body")
        page.keyboard.press("Enter")
        page.wait_for_function(
            "document.querySelector('#fig-ledger')?.textContent"
            ".includes('107 %, exceeded') === false",
            timeout=30_000,
        )
        assert desk.plan.beams[0].elements[0].half[0].wall == pytest.approx(4.2e-3)
        page.click("#undo")
        page.wait_for_function(
            "document.querySelector('#fig-ledger')?.textContent.includes('107 %, exceeded')",
            timeout=30_000,
        )
        assert said == []


def test_charts_are_read_by_keys_and_a_value_is_typed_into_the_plan(tmp_path):
    desk = _desk(tmp_path, "05")
    with served(desk) as url, browsing(bypass_csp=True) as context:
        page, said = _opened(context, url, "structure")
        page.focus("[data-picture='guys'] .reader")
        page.keyboard.press("ArrowRight")
        assert "at 29.0 m" in page.inner_text("[data-picture='guys'] .reading")
        # The rose by keys and by pointer, the margins by keys.
        page.focus("[data-picture='wind-1'] .reader")
        page.keyboard.press("End")
        assert "wind from the boom 359°" in page.inner_text("[data-picture='wind-1'] .reading")
        box = page.query_selector("[data-picture='wind-1'] svg").bounding_box()
        page.mouse.move(box["x"] + 0.5 * box["width"], box["y"] + 0.2 * box["height"])
        reading = page.inner_text("[data-picture='wind-1'] .reading")
        assert "square to the wind" in reading
        assert " m²" in reading
        page.focus("[data-picture='ledger'] .reader")
        page.keyboard.press("ArrowDown")
        first, second = page.inner_text("[data-picture='ledger'] .reading"), ""
        page.keyboard.press("ArrowDown")
        second = page.inner_text("[data-picture='ledger'] .reading")
        assert "of the limit" in first
        told = [first, second]
        for _ in range(6):
            page.keyboard.press("ArrowDown")
            told.append(page.inner_text("[data-picture='ledger'] .reading"))
        assert any("exposure C, ASCE 7-16" in each for each in told)
        assert first != second
        page.goto(f"{url.split('?')[0].rstrip('/')}/permits")
        page.wait_for_selector(".subject .facts", timeout=90_000)
        unfold(page)
        page.focus("[data-picture='elevation'] .reader")
        page.keyboard.press("ArrowDown")
        assert "Fall circle, 33.05 m" in page.inner_text("[data-picture='elevation'] .reading")
        page.focus("[data-picture='airports'] .reader")
        page.keyboard.press("End")
        assert page.inner_text("[data-picture='airports'] .reading")
        page.fill('input[data-place="permits.boundary"]', "12 m")
        page.press('input[data-place="permits.boundary"]', "Enter")
        page.wait_for_function(
            "document.querySelector('#fig-elevation').textContent.includes('boundary, 12.00 m')",
            timeout=30_000,
        )
        assert desk.plan.permits.boundary == pytest.approx(12.0)
        assert said == []
