"""Habits of a reader: keys, large pictures, copies, paper, and ticks that stay."""

from __future__ import annotations

import re

import pytest

from fakes.browser import Watch, browsing, grave_faults, served
from fakes.desk import fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def page():
    with served(fake_desk()) as url, browsing(bypass_csp=True) as context:
        context.grant_permissions(["clipboard-read", "clipboard-write"])
        page = context.new_page()
        watch = Watch(page, url)
        page.goto(url)
        page.wait_for_selector("#fig-currents svg")
        yield page
        assert watch.said == []


def test_a_question_mark_opens_the_map_of_keys_but_not_in_a_field(page):
    page.focus("#dimensions input >> nth=0")
    page.keyboard.press("?")
    assert page.is_hidden("#keys-map")
    page.keyboard.press("Escape")
    page.focus("#keys-open")
    page.keyboard.press("?")
    page.wait_for_selector("#keys-map[open]")
    assert "undo, redo" in page.inner_text("#keys-map")
    assert grave_faults(page, context="#keys-map") == []
    page.keyboard.press("Escape")
    page.wait_for_selector("#keys-map", state="hidden")


def test_a_picture_opens_large_is_enlarged_and_moved(page):
    page.click("[data-picture=azimuth] [data-large]")
    page.wait_for_selector(".large-picture .area")
    assert grave_faults(page, context=".large-picture") == []

    def view():
        box = page.get_attribute(".large-picture svg", "viewBox")
        return [float(each) for each in box.split()]

    whole = view()
    page.keyboard.press("+")
    near = view()
    assert near[2] == pytest.approx(0.7 * whole[2], rel=1e-3)
    page.mouse.move(700, 450)
    page.mouse.down()
    page.mouse.move(600, 400)
    page.mouse.up()
    moved = view()
    assert moved[0] > near[0]
    assert moved[1] > near[1]
    page.keyboard.press("0")
    assert view() == pytest.approx(whole, abs=0.01)
    page.keyboard.press("Escape")
    page.wait_for_selector(".large-picture", state="detached")


def test_a_table_is_copied_as_cells_and_a_figure_as_a_picture(page):
    page.click("[data-picture=sweep] .behind summary")
    page.click("[data-picture=sweep] [data-copy-table]")
    page.wait_for_selector("[data-picture=sweep] [data-copy-table]:text-is('Copied')")
    cells = page.evaluate("navigator.clipboard.readText()")
    rows = [row.split("\t") for row in cells.splitlines()]
    assert len(rows) > 3
    assert len({len(row) for row in rows}) == 1
    page.click("[data-picture=sweep] [data-copy]")
    page.wait_for_selector("[data-picture=sweep] [data-copy]:text-is('Copied')")
    types = "navigator.clipboard.read().then(all => all.flatMap(each => each.types))"
    assert "image/png" in page.evaluate(types)


def test_paper_shows_no_tabs_and_no_buttons_and_what_was_folded(page):
    page.emulate_media(media="print", color_scheme="dark")
    shown = (
        "[...document.querySelectorAll('button, nav a, .tools')].filter(e => e.checkVisibility())"
    )
    assert page.evaluate(f"{shown}.length") == 0
    assert page.is_visible("#title")
    # Paper is light, however dark the screen is.
    ink = page.evaluate("getComputedStyle(document.getElementById('title')).color")
    assert all(int(part) < 90 for part in re.findall(r"\d+", ink)[:3])
    page.emulate_media(media="screen", color_scheme="light")
    folded = "document.querySelectorAll('#sheet details:not([open])').length"
    before = page.evaluate(folded)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.evaluate(folded) == 0
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(folded) == before
