"""Plans, lessons and comparison in a browser, and axe on every sheet there is."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe

from boomwright.session.files import packaged_text
from boomwright.session.new_plan import make_starter
from boomwright.session.plan_library import PlanLibrary
from boomwright.study.requests import Wishes
from boomwright.web.sheets import SHEETS
from fakes.browser import Watch, browsing, folder_served, grave_faults, served
from fakes.desk import desk_on, fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]

HOSTILE = '<img src=x onerror="alert(1)">'


@pytest.fixture(scope="module")
def context():
    with browsing() as made:
        yield made


def desk_in(folder):
    make_starter(folder / "club.toml", Wishes(band="20 m", elements=3, ground="free space"))
    make_starter(folder / "hut.toml", Wishes(band="20 m", elements=2, ground="free space"))
    path = folder / "club.toml"
    return desk_on(path, library=PlanLibrary(folder))


def go(context, url, path):
    page = context.new_page()
    watch = Watch(page, url)
    page.goto(url)
    page.goto(url.split("/?")[0] + path)
    page.wait_for_selector("[data-painted=full]", timeout=60_000)
    return page, watch


def started(context, url):
    page = context.new_page()
    watch = Watch(page, url)
    page.goto(url)
    page.goto(url.split("/?")[0] + "/start")
    page.wait_for_selector("#begin")
    return page, watch


def test_a_new_plan_by_keyboard(context, tmp_path):
    with folder_served(tmp_path) as url:
        page, watch = started(context, url)
        page.select_option("#begin [name=design]", "guess")
        page.focus("#begin [name=boom]")
        page.keyboard.type("6 m")
        page.focus("#begin [name=name]")
        page.keyboard.type("mine")
        page.keyboard.press("Enter")
        page.wait_for_url("**/beam")
        assert (tmp_path / "mine.toml").exists()
        assert watch.said == []
        assert watch.outside == []
        page.close()


def test_a_place_is_pointed_at_on_the_map_by_mouse_and_by_keys(context, tmp_path):
    with folder_served(tmp_path) as url:
        page, watch = started(context, url)
        page.click("#new .map summary")
        area = page.locator("#new .map .drawing")
        box = area.locator("svg").bounding_box()
        degree = box["width"] / 360.0
        top = box["height"] - 180.0 * degree
        area.click(position={"x": 210 * degree, "y": top + 40 * degree})
        field = page.locator("#begin [name=place]")
        latitude, longitude = (float(part.split()[0]) for part in field.input_value().split(","))
        assert abs(latitude - 50.0) < 0.6
        assert abs(longitude - 30.0) < 0.6
        area.focus()
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("Enter")
        moved = float(field.input_value().split(",")[1].split()[0])
        assert abs(longitude - moved - 1.0) < 0.02
        assert grave_faults(page, context="#new") == []
        assert watch.said == []
        page.close()


def test_a_lesson_is_walked_through_and_its_numbers_come_up(context, tmp_path):
    with served(desk_in(tmp_path)) as url:
        page, watch = go(context, url, "/beam")
        page.goto(url.split("/?")[0] + "/start")
        page.click("[data-name='2-add-a-reflector']")
        page.wait_for_url("**/beam")
        page.wait_for_selector("#lesson:not([hidden])")
        page.wait_for_selector("#lesson-back:disabled")
        # What is to be read comes before the drawing that it speaks of, on a phone too.
        tops = [page.locator(each).bounding_box()["y"] for each in ("#lesson", "#plan")]
        assert tops == sorted(tops)
        page.click("#lesson-on")
        page.wait_for_selector("#lesson-number:text-is('2')")
        page.click("#lesson-do")
        page.wait_for_selector("[data-number=gain] .value:text('6.48')", timeout=30_000)
        assert "6.5 dBi" in page.text_content("#lesson-say")
        assert grave_faults(page, context="#lesson") == []
        assert page.text_content("#lesson-look") == "See it on Waves"
        page.wait_for_selector("[data-painted=full]")
        for number in range(3, int(page.text_content("#lesson-count")) + 1):
            page.click("#lesson-on")
            page.wait_for_selector(f"#lesson-number:text-is('{number}')")
        assert "your own reflector" in page.inner_text("#lesson-try")
        with page.expect_navigation(timeout=30_000):
            page.click("#lesson-next")
        page.wait_for_selector("#lesson-title:text-is('Add a director')", timeout=30_000)
        page.click("#lesson-leave")
        page.wait_for_selector("#lesson", state="hidden", timeout=30_000)
        assert "club.toml" in page.inner_text("#saving")
        assert watch.said == []
        page.close()


def test_two_plans_are_laid_over_one_another(context, tmp_path):
    with served(desk_in(tmp_path)) as url:
        page, watch = go(context, url, "/compare")
        page.select_option("#with", "hut.toml")
        page.click("#choose-other button")
        page.wait_for_selector(".compare table", timeout=60_000)
        assert "difference" in page.text_content(".compare thead")
        assert page.locator("[data-picture='compare-azimuth'] [data-series]").count() >= 2
        assert watch.said == []
        page.close()


def test_markup_typed_anywhere_stays_text(context, tmp_path):
    with folder_served(tmp_path) as url:
        page, watch = started(context, url)
        for box in page.locator("#start details").all():
            box.evaluate("box => (box.open = true)")
        for field in page.locator("#start input[type=text]:visible").all():
            field.fill(HOSTILE[:60])
        for button in ("#begin button", "#seek .pair button"):
            page.click(button)
            page.wait_for_selector("#refusal:not([hidden])")
            assert "<img" not in page.inner_html("#refusal")
        assert page.locator("#start img").count() == 0
        assert watch.said == []
        page.close()


def test_a_book_under_way_is_watched_and_cancelled_while_the_page_stays_alive(context):
    desk = fake_desk()
    desk.session.slow_book.set()
    with served(desk) as url:
        page, watch = go(context, url, "/beam")
        page.click("#downloads summary")
        page.click("a[href='/book.pdf']")
        page.wait_for_selector("#making-text:has-text('the pages')")
        assert grave_faults(page, context="#making") == []
        page.focus("[data-part=boom][data-element='1']")
        page.keyboard.press("ArrowRight")
        page.wait_for_selector("#undo:not([disabled])")
        page.click("#making-cancel")
        page.wait_for_selector("#making", state="hidden")
        desk.session.slow_book.clear()
        page.click("#downloads summary")
        with page.expect_download() as taken:
            page.click("a[href='/book.pdf']")
        assert taken.value.suggested_filename == "test.pdf"
        assert taken.value.path().read_bytes().startswith(b"%PDF")
        page.wait_for_selector("#making", state="hidden")
        assert watch.outside == []
        page.close()


@pytest.fixture(scope="module")
def full_desk(tmp_path_factory):
    """The demo's plan, in which every sheet has something to show."""
    folder = tmp_path_factory.mktemp("full")
    path = folder / "full.toml"
    path.write_text(packaged_text("demo.toml"))
    (folder / "prices.csv").write_text(packaged_text("demo_prices.csv"))
    make_starter(folder / "hut.toml", Wishes(band="20 m", elements=2, ground="free space"))
    desk = desk_on(path, library=PlanLibrary(folder))
    with served(desk) as url:
        yield url


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.slug)
@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_of_weight_on_any_full_sheet(context, full_desk, sheet, width, height):
    other = context.browser.new_context(
        viewport={"width": width, "height": height}, bypass_csp=True
    )
    against = "?with=hut.toml" if sheet.slug == "compare" else ""
    page, watch = go(other, full_desk, f"/{sheet.slug}{against}")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = [
        (v["id"], [node["target"] for node in v["nodes"]])
        for v in Axe().run(page).response["violations"]
        if v["impact"] != "minor"
    ]
    assert watch.outside == []
    other.close()
    assert found == []


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_serious_on_the_start_sheet(context, full_desk, width, height, scheme):
    other = context.browser.new_context(
        viewport={"width": width, "height": height}, bypass_csp=True, color_scheme=scheme
    )
    page, watch = started(other, full_desk)
    for box in page.locator("#start details").all():
        box.evaluate("box => (box.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = grave_faults(page)
    assert watch.outside == []
    other.close()
    assert found == []
