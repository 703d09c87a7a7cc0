"""The forms of the plan in a browser: a bare plan filled in by keyboard alone, and with a thumb."""

from __future__ import annotations

import pytest

from boomwright.cost import read_prices
from boomwright.plan import read_plan
from boomwright.session.files import PlanFolder
from boomwright.session.price_list import OwnPriceList
from boomwright.web import PlanDesk
from fakes.browser import browsing, grave_faults, served
from fakes.desk import PLAN, FakeSession

pytestmark = [pytest.mark.browser, pytest.mark.slow]

#: what a screen reader would call the element in focus
_CALLED = """() => {
  const at = document.activeElement;
  const words = at.getAttribute('aria-label') ?? at.labels?.[0]?.textContent ?? at.textContent;
  return words.trim().replace(/\\s+/g, ' ');
}"""
_MOST_TABS = 120


@pytest.fixture
def desk(tmp_path):
    session = FakeSession(PLAN)
    session.price_list = OwnPriceList(PlanFolder(tmp_path, closed=True))
    return PlanDesk(session=session, name="test.toml", text=PLAN)


class Hands:
    """A page with a keyboard in front of it, and nothing else."""

    def __init__(self, page, home):
        self.page, self.home = page, home

    def go(self, slug):
        self.page.goto(f"{self.home}/{slug}")
        self.page.wait_for_selector("#bench[data-painted]")

    def reach(self, words):
        """Tab on to what is called so."""
        seen = []
        for _ in range(_MOST_TABS):
            self.page.keyboard.press("Tab")
            seen.append(self.page.evaluate(_CALLED))
            if seen[-1] == words:
                return
        message = f"{words!r} is not among {seen}"
        raise AssertionError(message)

    def press(self, words):
        self.reach(words)
        self.page.keyboard.press("Enter")

    def open(self, words):
        self.press(words)
        self.page.wait_for_selector("dialog[open] form")

    def type(self, **values):
        """Type values in the order of the form; what is chosen is chosen by its letters."""
        for label, text in values.items():
            words = label.replace("_", " ").capitalize()
            if self.page.evaluate(_CALLED) != words:
                self.reach(words)
            self.page.keyboard.type(text)

    def write(self):
        self.page.keyboard.press("Enter")
        self.page.wait_for_selector("dialog[open]", state="hidden")


def _home(url):
    return "/".join(url.split("/")[:3])


def test_a_bare_plan_is_filled_in_by_keyboard_alone(desk, tmp_path):
    with served(desk) as url, browsing() as context:
        page = context.new_page()
        page.goto(url)
        hands = Hands(page, _home(url))
        hands.go("feed")
        hands.open("Choose a match")
        hands.type(kind="hairpin")
        hands.press("Usual values")
        assert page.input_value("[data-key=rod_spacing] input") == "80 mm"
        hands.press("Write to the plan")
        page.wait_for_selector("dialog[open]", state="hidden")
        # The plan has a match, so the button is gone; the keyboard is where it was.
        page.wait_for_selector("text=Choose a match", state="detached")
        assert page.evaluate("document.activeElement.id") == "sheet"
        hands.open("Add the line")
        hands.press("Add to the plan")
        page.wait_for_selector(".entry .problem")
        assert "Needed here. Such as 40 m." in page.text_content("[data-key=length] .problem")
        assert page.evaluate(_CALLED) == "Type"
        assert grave_faults(page) == []
        hands.type(type="RG-213", length="40")
        page.keyboard.press("Enter")
        page.wait_for_selector("[data-key=length] [aria-invalid=true]")
        page.keyboard.press("Control+A")
        page.keyboard.type("40 m")
        hands.write()
        hands.go("structure")
        hands.open("Add the boom")
        hands.type(diameter="51 mm", wall="3.2 mm", length="6.2 m", rear_end="-0.1 m",
                   material="6061-T6")  # fmt: skip
        hands.press("Add to the plan")
        page.wait_for_selector("dialog[open]", state="hidden")
        hands.open("Add the tower")
        hands.type(kind="guyed", height="15 m")
        hands.write()
        page.wait_for_selector("text=Nothing says what carries", state="detached")
        hands.go("raising")
        hands.open("Add the lift truck")
        hands.type(platform_height="17 m", outreach="7 m", needed_outreach="5 m")
        hands.write()
        hands.go("cost")
        hands.open("Enter currency and price list")
        hands.type(list="prices.csv", currency="EUR")
        hands.write()
        hands.press("Change the plan every table and value of this sheet")
        page.wait_for_selector("#tables li")
        hands.press("Your price list")
        page.wait_for_selector(".price")
        item = page.locator(".price").first.get_attribute("data-item")
        hands.reach(f"Likely of {item}")
        page.keyboard.type("12.50")
        page.keyboard.press("Enter")
        page.wait_for_function(
            "item => [...document.querySelectorAll('.price:not([data-waits])')]"
            ".some((each) => each.dataset.item === item)",
            arg=item,
        )
        (price,) = read_prices((tmp_path / "prices.csv").read_text())
        assert (price.low, price.likely, price.high) == (12.5, 12.5, 12.5)
        plan = read_plan(desk.text)
        assert (plan.beams[0].feed.kind, plan.line.length) == ("hairpin", 40.0)
        assert (plan.booms[0].length, plan.support.tower.height) == (6.2, 15.0)
        assert plan.raising.lift_truck.outreach == 7.0
        assert [each.where for each in plan.assumed] == ["feed, rod diameter", "feed, rod spacing"]
        # The rotator, from the sheet's own tables; then confirmed, then undone.
        hands.go("structure")
        if not page.evaluate("document.getElementById('change').open"):
            hands.press("Change the plan every table and value of this sheet")
        page.wait_for_selector("#tables li")
        hands.open("Add rotator")
        hands.type(place="inside tower")
        hands.press("Add to the plan")
        page.wait_for_selector("dialog[open]", state="hidden")
        page.wait_for_selector("[data-table='support.rotator']")
        page.keyboard.press("Control+z")
        page.wait_for_selector("[data-table='support.rotator']", state="detached")
        assert "# the owner's words" in desk.text


def test_the_tables_are_read_anew_when_a_drag_rests_not_at_its_every_step(desk):
    with served(desk) as url, browsing(bypass_csp=True) as context:
        page = context.new_page()
        page.goto(url)
        Hands(page, _home(url)).go("beam")
        page.wait_for_selector("#fig-currents svg")
        page.click("#change > summary")
        page.wait_for_selector("#tables li")
        asked = []
        page.on("request", lambda each: asked.append(each.url) if "/tables?" in each.url else None)
        box = page.locator("[data-part=boom][data-element='1']").bounding_box()
        page.mouse.move(box["x"] + 12, box["y"] + 12)
        page.mouse.down()
        before = desk.revision
        for step in range(1, 7):
            page.mouse.move(box["x"] + 12 + 6 * step, box["y"] + 12)
            page.wait_for_timeout(60)
        page.mouse.up()
        page.wait_for_function("document.querySelector('#bench').dataset.painted === 'full'")
        assert desk.revision - before > 3
        page.wait_for_function(
            "text => document.querySelector('#tables').textContent.includes(text)",
            arg=page.input_value("[data-place='beam[0].element[1].at']")
            .removesuffix(" m")
            .rstrip("0"),
        )
        assert len(asked) < 3


def test_a_thumb_fills_in_a_match_and_rows_at_390(desk):
    with served(desk) as url, browsing(width=390, height=844, has_touch=True) as context:
        page = context.new_page()
        page.goto(url)
        page.wait_for_selector("#bench[data-painted=full]")
        page.goto(f"{_home(url)}/feed")
        page.wait_for_selector("#bench[data-painted=full]")
        page.tap(".lacks [data-form='beam[0].feed']")
        page.wait_for_selector("dialog[open] form")
        page.select_option("[data-key=kind] select", "hairpin")
        assert page.is_hidden("[data-key=capacitance]")
        page.tap("text=Usual values")
        page.fill("[data-key=rod_length] input", "600 mm")
        page.tap("text=Write to the plan")
        page.wait_for_selector("dialog[open]", state="hidden")
        assert desk.plan.beams[0].feed.rod_length == 0.6
        page.goto(f"{_home(url)}/beam")
        page.wait_for_selector("#bench[data-painted=full]")
        page.tap("#change > summary")
        page.tap("[aria-label='Change driven element']")
        page.wait_for_selector("dialog[open] .cells")
        wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide[0] <= wide[1]
        small = page.evaluate(
            "[...document.querySelectorAll('dialog :is(button, input, select)')]"
            ".filter((each) => each.offsetParent && each.getBoundingClientRect().height < 44)"
            ".map((each) => each.outerHTML)"
        )
        assert small == []
        assert grave_faults(page) == []
        page.tap("[aria-label='Add a row to half']")
        cells = page.locator("[data-key=half] tbody tr").last.locator("input")
        cells.nth(0).fill("12 mm")
        cells.nth(1).fill("30 furlong")
        page.tap("text=Write to the plan")
        page.wait_for_selector("[data-key=half] .problem")
        assert "tube 4, exposed length" in page.text_content("[data-key=half] .problem")
        # What was typed is not lost by the key that leaves.
        page.keyboard.press("Escape")
        assert cells.nth(0).input_value() == "12 mm"
        cells.nth(1).fill("0.3 m")
        page.tap("text=Write to the plan")
        page.wait_for_selector("#dimensions tbody:nth-of-type(2) li:nth-child(4)", state="attached")
        assert len(desk.plan.beams[0].elements[1].half) == 4


@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_serious_in_tables_and_forms_by_day_and_night(desk, width):
    with served(desk) as url, browsing(width=width, reduced_motion="reduce") as context:
        page = context.new_page()
        page.goto(url)
        page.wait_for_selector("#bench[data-painted]")
        page.click("#change > summary")
        page.wait_for_selector("#tables li")
        for opened in (False, True):
            if opened:
                page.click("[data-form='beam[1]']")
                page.wait_for_selector("dialog[open] form")
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme)
                where = "dialog" if opened else "#change"
                assert grave_faults(page, context=where) == [], (opened, scheme)
