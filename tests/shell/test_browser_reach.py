"""The Reach sheet in a browser: exact reading by keys, the film, access, reduced motion."""

from __future__ import annotations

import pytest
from PIL import Image

from fakes.browser import browsing, grave_faults, opened, served, unfold
from fakes.desk import PLAN, desk_on, fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PLACES = """
[transmitter]
power = "400 W"

[reach]
target = [{ name = "far", locator = "FN42" }]

[permits]
  [[permits.exposure]]
  place = "terrace"
  distance = "9 m"
  height = "1.8 m"
"""


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """One desk for all that only look, so that reach is computed once."""
    path = tmp_path_factory.mktemp("desk") / "plan.toml"
    text = PLAN.replace("[site]", '[site]\nposition = "52.2 N, 0.1 E"') + PLACES
    return desk_on(path, text)


def _opened(context, url):
    page, watch = opened(context, url, "reach", ready=".reach .facts", timeout=90_000)
    unfold(page)
    page.wait_for_selector("#film:not([hidden])")
    return page, watch.said


def _read(page, name, *keys):
    page.focus(f"[data-picture='{name}'] .reader")
    for key in keys:
        page.keyboard.press(key)
    return page.inner_text(f"[data-picture='{name}'] .reading")


def test_every_picture_is_read_by_keys_and_the_film_steps(desk):
    with served(desk) as url, browsing() as context:
        page, said = _opened(context, url)
        assert "dBi" in _read(page, "height-map", "ArrowRight", "ArrowUp")
        assert "km" in _read(page, "map", "ArrowUp", "ArrowUp")
        assert "% of the limit" in _read(page, "people-level", "ArrowUp")
        assert "boom at" in _read(page, "heights", "ArrowRight")
        assert "elevation" in _read(page, "lobe-steps", "ArrowRight", "ArrowUp")
        assert "far, F2" in _read(page, "hop-angles", *["Shift+ArrowRight"] * 2)
        before = page.inner_text("#film-words")
        page.focus("#film-height")
        page.keyboard.press("ArrowRight")
        assert page.inner_text("#film-words") != before
        count = int(page.get_attribute("#film-height", "max")) + 1
        with page.expect_download() as taken:
            page.click("#film-save")
        with Image.open(taken.value.path()) as film:
            assert film.n_frames == count
        assert said == []


def test_a_place_is_named_and_taken_out_again():
    desk = fake_desk(PLAN + '\n[reach]\ntarget = [{ name = "far", locator = "FN42" }]\n')
    with served(desk) as url, browsing() as context:
        page = context.new_page()
        said = []
        page.on("pageerror", lambda error: said.append(str(error)))
        page.goto(url)
        page.goto(url.split("?")[0].rstrip("/") + "/reach")
        page.wait_for_selector(".reach:not(:has(.waiting)) #values")
        page.evaluate("document.getElementById('values').open = true")
        page.click("text=Add a place to be reached")
        page.fill("dialog [data-key='name'] input", "north")
        page.fill("dialog [data-key='position'] input", "60 N, 10 E")
        page.keyboard.press("Enter")
        page.wait_for_selector(".named li:has-text('north')")
        assert [target.name for target in desk.plan.reach.target] == ["far", "north"]
        page.click("[aria-label^='Take out far']")
        page.wait_for_selector(".named li:has-text('far')", state="detached")
        assert [target.name for target in desk.plan.reach.target] == ["north"]
        assert said == []


def test_reduced_motion_leaves_the_slider_only(desk):
    with served(desk) as url, browsing(reduced_motion="reduce") as context:
        page, _ = _opened(context, url)
        assert not page.is_visible("#film-play")
        assert page.is_visible("#film-height")


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious(desk, width, height):
    with (
        served(desk) as url,
        browsing(width=width, height=height, bypass_csp=True) as context,
    ):
        page, _ = _opened(context, url)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert grave_faults(page) == []
