"""Two jobs done by the page alone, from an empty folder: one by keyboard, one on a phone."""

from __future__ import annotations

import pytest

from boomwright.plan import read_plan
from boomwright.study.as_measured import measure_beam
from boomwright.study.verdict import judge_plan
from fakes.browser import Watch, browsing, folder_served, grave_faults

pytestmark = [pytest.mark.browser, pytest.mark.slow]


class Station:
    """Somebody at the page, who has a keyboard only, or a thumb only."""

    def __init__(self, context, url, *, keyboard):
        self.keyboard = keyboard
        self.page = context.new_page()
        self.watch = Watch(self.page, url)
        self.home = url.split("/?")[0]
        self.page.goto(url)
        self.page.wait_for_selector("#begin")

    def press(self, selector):
        place = self.page.locator(selector).first
        if self.keyboard:
            place.focus()
            self.page.keyboard.press("Enter")
        else:
            place.tap()

    def type(self, selector, text):
        place = self.page.locator(selector).first
        if place.evaluate("each => each.tagName") == "SELECT":
            place.select_option(text)
            return
        place.focus()
        self.page.keyboard.press("ControlOrMeta+A")
        self.page.keyboard.type(text)

    def go(self, sheet):
        self.page.goto(f"{self.home}/{sheet}")
        self.page.wait_for_selector("[data-painted=full]", timeout=60_000)
        assert self.page.evaluate("document.documentElement.scrollWidth <= innerWidth")

    def fill(self, sheet, table, **values):
        """Fill in a table of the plan by its form."""
        self.go(sheet)
        if not self.page.evaluate("document.querySelector('#change').open"):
            self.press("#change > summary")
        self.press(f'#tables [data-form="{table}"]')
        self.page.wait_for_selector("#form[open] .entry")
        for key, text in values.items():
            at = f"{table}.{key.replace('__', '.')}"
            self.type(f'#form .entry[data-at="{at}"] :is(input, select)', text)
        revision = self.page.get_attribute("#bench", "data-revision")
        self.press("#form button[type=submit]")
        self.page.wait_for_selector(f"#bench:not([data-revision='{revision}'])")

    def verdict(self):
        self.page.wait_for_selector("#verdict:not([data-word=''])", timeout=60_000)
        return self.page.inner_text("#verdict-text")


def test_a_failing_station_is_mended_by_keyboard_until_nothing_is_left_open(tmp_path):
    with folder_served(tmp_path) as url, browsing(bypass_csp=True) as context:
        one = Station(context, url, keyboard=True)
        one.type("#begin [name=band]", "10 m")
        one.type("#begin [name=shape]", "vertical")
        one.type("#begin [name=place]", "52.2 N, 0.1 E")
        one.type("#begin [name=name]", "garden")
        one.page.keyboard.press("Enter")
        one.page.wait_for_url("**/beam", timeout=60_000)
        one.fill("structure", "site.wind_basis", kind="characteristic", edition="EN 1991-1-4",
                 terrain="II", orography="1")  # fmt: skip
        one.fill("structure", "site", wind="25 m/s", ice="0 mm")
        one.fill("feed", "transmitter", power="100 W", emission="carrier")
        one.fill("permits", "permits", boundary="20 m", walkway="20 m", country="GB",
                 power_lines_surveyed__answer="yes", power_lines_surveyed__by="owner",
                 power_lines_surveyed__on="2026-11-01")  # fmt: skip
        one.fill("permits", "permits.exposure[0]", place="terrace", distance="3 m", height="1.8 m")
        one.fill("raising", "raising", ground_crew="3")
        one.fill("beam", "beam[0].frame", rope_strength="1.5 kN", said_by="owner, 2026-11-01")
        assert "exceeded" in one.verdict()
        # What is exceeded has a proposal, and what it brings is seen before it is taken.
        one.go("reach")
        offered = '.offered button[data-propose*="transmitter.power"]'
        one.page.wait_for_selector(offered, timeout=60_000)
        one.press(offered)
        one.page.wait_for_selector("#proposal-take:enabled", timeout=60_000)
        assert "2 checks exceeded" in one.page.inner_text("#proposal-body")
        one.page.keyboard.press("Enter")
        one.page.wait_for_selector("#verdict[data-word=ask]", timeout=60_000)
        assert "exceeded" not in one.verdict()
        assert "not checked" not in one.verdict()
        assert grave_faults(one.page) == []
        one.page.wait_for_selector("#saving[data-state=saved]")
        assert one.watch.said == []
        assert one.watch.outside == []
    # The file is what the page says it is.
    judged = judge_plan(read_plan((tmp_path / "garden.toml").read_text()))
    assert judged.word == "ask"


def test_a_second_beam_on_the_same_mast_and_what_it_does_to_the_first_on_a_phone(tmp_path):
    phone = {"width": 390, "height": 844, "has_touch": True, "bypass_csp": True}
    with folder_served(tmp_path) as url, browsing(**phone) as context:
        one = Station(context, url, keyboard=False)
        for name, text in (("band", "20 m"), ("count", "2"), ("design", "guess"),
                           ("height", "12 m"), ("title", "Two on a mast"),
                           ("name", "mast")):  # fmt: skip
            one.type(f"#begin [name={name}]", text)
        one.press("#begin button[type=submit]")
        one.page.wait_for_url("**/beam")
        one.page.goto(f"{one.home}/start")
        for name, text in (("band", "10 m"), ("count", "2"), ("design", "guess"),
                           ("height", "14 m")):  # fmt: skip
            one.type(f"#begin [name={name}]", text)
        one.press("#further")
        one.page.wait_for_url("**/beam?of=1")
        one.go("reach")
        one.press('a[href="#part-stack"]')
        table = one.page.locator("#part-stack [data-list=stack-isolation]")
        table.wait_for()
        assert "10 m" in table.inner_text()
        # The first beam is solved with the second beside it.
        plan = read_plan((tmp_path / "mast.toml").read_text())
        beside, alone = (
            measure_beam(plan, beam).gain_dbi for beam in (plan.beams[0], plan.beams[0].alone)
        )
        assert abs(beside - alone) > 0.02
        one.go("beam?of=0")
        shown = f"[data-number=gain] .value:text-is('{beside:.2f}')"
        one.page.wait_for_selector(shown, timeout=30_000)
        assert grave_faults(one.page) == []
        # Both stand on one view from above; a tap shows the other one.
        one.press("#fig-mast-view [data-beam='1'] text")
        one.page.wait_for_url("**/beam?of=1")
        assert one.page.locator("#fig-mast-view [data-beam]").count() == 2
        assert one.watch.said == []
    assert [beam.height for beam in plan.beams] == pytest.approx([12.0, 14.0], rel=1e-12)
