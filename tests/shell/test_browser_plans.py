"""Plans, lessons and comparison in a browser, and axe on every sheet there is."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe

from boomwright.session.files import packaged_text
from boomwright.session.new_plan import make_starter
from boomwright.session.plan_library import PlanLibrary
from boomwright.session.plan_session import PlanSession
from boomwright.study.requests import Wishes
from boomwright.web import PlanDesk
from boomwright.web.sheets import SHEETS
from fakes.browser import Watch, browsing, served
from fakes.desk import fake_desk

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
    return PlanDesk(
        session=PlanSession(path),
        name=path.name,
        text=path.read_text(),
        library=PlanLibrary(folder),
    )


def go(context, url, path):
    page = context.new_page()
    watch = Watch(page, url)
    page.goto(url)
    page.goto(url.split("/?")[0] + path)
    page.wait_for_selector("[data-painted=full]", timeout=60_000)
    return page, watch


def test_from_wishes_to_a_plan_of_ones_own_by_keyboard(context, tmp_path):
    with served(desk_in(tmp_path)) as url:
        page, watch = go(context, url, "/plans")
        page.focus("#wishes [name=boom]")
        page.keyboard.type("9 m")
        page.keyboard.press("Enter")
        page.wait_for_selector("#offers li", timeout=60_000)
        assert page.locator("#offers li").count() == 3
        # The first field of the offers has the focus.
        page.keyboard.type("mine.toml")
        page.keyboard.press("Enter")
        page.wait_for_url("**/beam")
        assert (tmp_path / "mine.toml").exists()
        assert watch.said == []
        assert watch.outside == []
        page.close()


def test_a_lesson_is_walked_through_and_its_numbers_come_up(context, tmp_path):
    with served(desk_in(tmp_path)) as url:
        page, watch = go(context, url, "/plans")
        page.click("[data-name='2-add-a-reflector']")
        page.wait_for_url("**/beam")
        page.wait_for_selector("#lesson:not([hidden])")
        page.wait_for_selector("#lesson-back:disabled")
        page.click("#lesson-on")
        page.wait_for_selector("#lesson-number:text-is('2')")
        page.click("#lesson-do")
        page.wait_for_selector("[data-number=gain] .value:text('6.48')", timeout=30_000)
        assert "6.5 dBi" in page.text_content("#lesson-say")
        assert page.text_content("#lesson-look") == "See it on Waves"
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
    with served(desk_in(tmp_path)) as url:
        page, watch = go(context, url, "/plans")
        for field in page.locator("#plans input[type=text]").all():
            field.fill(HOSTILE[:60])
        page.click("#wishes button")
        page.wait_for_selector("#refusal:not([hidden])")
        page.click("#save-as button")
        page.wait_for_timeout(300)
        assert "&lt;" in page.inner_html("#refusal") or "<img" not in page.inner_html("#refusal")
        assert page.locator("#plans img").count() == 0
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
    desk = PlanDesk(
        session=PlanSession(path),
        name=path.name,
        text=path.read_text(),
        library=PlanLibrary(folder),
    )
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
