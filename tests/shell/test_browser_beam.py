"""The Beam sheet under a real hand: drag, keys, typing, undo, files, hostile names."""

from __future__ import annotations

import re
import threading
import time

import pytest

from bent_plans import hexagon
from fakes.browser import browsing, opened, served
from fakes.desk import PLAN, fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]

DRIVEN = "[data-element='1'][data-part='boom']"
DIRECTOR_TIP = "[data-element='2'][data-part='tip']"
AT = 'input[data-place="beam[0].element[1].at"]'


@pytest.fixture(scope="module")
def context():
    with browsing(accept_downloads=True) as made:
        yield made


@pytest.fixture
def desk():
    return fake_desk()


@pytest.fixture
def page(context, desk):
    with served(desk) as url:
        made, watch = opened(context, url)
        made.watch = watch
        yield made
        assert watch.said == []
        assert watch.outside == []
        made.close()


def number(page, name):
    return page.inner_text(f"[data-number='{name}'] .value")


def wait_until(page, test, *, seconds=8.0):
    end = time.monotonic() + seconds
    while not (found := test()):
        assert time.monotonic() < end, "it did not come"
        page.wait_for_timeout(20)
    return found


def at_rest(page, desk):
    """Wait until nothing is under way: the band of the latest state is drawn and saved."""
    wait_until(
        page,
        lambda: (
            page.get_attribute("#bench", "data-revision") == str(desk.revision)
            and page.get_attribute("#saving", "data-state") == "saved"
            and page.query_selector("[data-behind]") is None
        ),
    )


def drag(page, selector, dx, dy, *, steps=8):
    box = page.locator(selector).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + dx, y + dy, steps=steps)
    page.mouse.up()


def test_dragging_an_element_along_the_boom_changes_numbers_picture_and_file(page, desk):
    before = number(page, "gain"), page.inner_html("#fig-azimuth")
    drag(page, DRIVEN, 30, 0)
    wait_until(page, lambda: desk.plan.beams[0].elements[1].position > 2.7)
    at_rest(page, desk)
    assert (number(page, "gain"), page.inner_html("#fig-azimuth")) != before
    position = desk.plan.beams[0].elements[1].position
    # A drag lands on whole centimetres, and the file holds what the field shows.
    assert position * 100 == pytest.approx(round(position * 100), abs=1e-9)
    assert page.input_value(AT) == f"{position:.3f} m"
    assert desk.session.file == desk.text != PLAN
    assert re.fullmatch(r"saved \d\d:\d\d:\d\d", page.inner_text("#saving-text"))
    scale = float(page.get_attribute("#fig-plan-view svg", "data-scale"))
    shown = page.locator("#fig-plan-view svg").bounding_box()["width"]
    view = float(page.get_attribute("#fig-plan-view svg", "viewBox").split()[2])
    assert position - 2.6 == pytest.approx(30 / (scale * shown / view), abs=0.02)


def test_the_pattern_follows_while_the_button_is_still_down(page, desk):
    box = page.locator(DRIVEN).bounding_box()
    page.mouse.move(box["x"] + 12, box["y"] + 12)
    page.mouse.down()
    before = page.inner_html("#fig-azimuth")
    page.mouse.move(box["x"] + 52, box["y"] + 12, steps=5)
    wait_until(page, lambda: page.inner_html("#fig-azimuth") != before)
    moved = page.locator("#fig-plan-view g[data-element='1']").get_attribute("transform")
    assert moved
    page.mouse.up()
    at_rest(page, desk)


def test_a_hand_that_went_on_meanwhile_is_followed_from_its_newest_place(page, desk, monkeypatch):
    seen, go, look = [], threading.Event(), desk.session.quick_look

    def slow(*, beam, **given):
        seen.append(beam.elements[1].position)
        go.wait(8.0)
        return look(beam=beam, **given)

    monkeypatch.setattr(desk.session, "quick_look", slow)
    box = page.locator(DRIVEN).bounding_box()
    page.mouse.move(box["x"] + 12, box["y"] + 12)
    page.mouse.down()
    page.mouse.move(box["x"] + 22, box["y"] + 12)
    wait_until(page, lambda: seen)
    page.mouse.move(box["x"] + 72, box["y"] + 12, steps=6)
    # What the hand passed meanwhile lies ready in the program, and is passed over.
    page.wait_for_timeout(150)
    go.set()
    page.mouse.up()
    at_rest(page, desk)
    assert seen[0] < seen[1] == desk.plan.beams[0].elements[1].position


def test_dragging_a_tip_changes_the_length(page, desk):
    drag(page, DIRECTOR_TIP, 0, -12)
    wait_until(page, lambda: desk.plan.beams[0].elements[2].length > 9.7)
    at_rest(page, desk)
    assert desk.undo_label == "length of director changed"


def test_the_element_itself_can_be_taken_hold_of(page, desk):
    box = page.locator("#fig-plan-view g[data-element='2'] [data-part='grip']").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.7
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 20, y, steps=4)
    page.mouse.up()
    wait_until(page, lambda: desk.plan.beams[0].elements[2].position < 5.85)


def test_arrow_keys_move_by_usual_fine_and_coarse_steps_and_are_one_step_of_undo(page, desk):
    def position():
        return desk.plan.beams[0].elements[1].position

    page.focus(DRIVEN)
    for key, wanted in (
        ("ArrowRight", 2.61), ("ArrowRight", 2.62), ("Shift+ArrowLeft", 2.619), ("PageUp", 2.719),
    ):  # fmt: skip
        page.keyboard.press(key)
        wait_until(page, lambda wanted=wanted: position() == pytest.approx(wanted, abs=1e-6))
    assert page.evaluate("document.activeElement.dataset.part") == "boom"
    assert page.get_attribute(DRIVEN, "aria-valuetext") == "2.719 m"
    page.keyboard.press("Control+z")
    wait_until(page, lambda: desk.text == PLAN)
    page.keyboard.press("Control+Shift+z")
    wait_until(page, lambda: position() == pytest.approx(2.719, abs=1e-6))
    page.focus(DIRECTOR_TIP)
    page.keyboard.press("ArrowUp")
    wait_until(page, lambda: desk.plan.beams[0].elements[2].length == pytest.approx(9.63, abs=1e-6))


def test_typing_takes_any_unit_and_undo_button_takes_it_back(page, desk):
    page.fill(AT, "8 ft 6-3/8 in")
    page.press(AT, "Enter")
    wait_until(page, lambda: '"8 ft 6-3/8 in"' in desk.text)
    wait_until(page, lambda: page.input_value(AT) == "2.600 m")
    wait_until(page, lambda: page.is_enabled("#undo"))
    page.click("#undo")
    wait_until(page, lambda: desk.text == PLAN)


def test_a_bad_value_is_explained_in_place_and_what_was_typed_stays(page, desk):
    page.fill(AT, "2.7")
    page.press(AT, "Enter")
    problem = page.wait_for_selector(".problem")
    assert "unit" in problem.inner_text()
    assert page.input_value(AT) == "2.7"
    assert page.get_attribute(AT, "aria-invalid") == "true"
    described = page.get_attribute(AT, "aria-describedby")
    assert page.evaluate("id => document.getElementById(id).textContent", described)
    assert desk.text == PLAN
    # Another edit repaints the page; the unfinished value is still there.
    page.focus(DIRECTOR_TIP)
    page.keyboard.press("ArrowUp")
    wait_until(page, lambda: desk.revision == 1)
    at_rest(page, desk)
    assert page.input_value(AT) == "2.7"
    page.fill(AT, "2.7 m")
    page.press(AT, "Enter")
    wait_until(page, lambda: desk.plan.beams[0].elements[1].position == pytest.approx(2.7))
    wait_until(page, lambda: page.query_selector(".problem") is None)


def test_escape_puts_the_old_value_back(page, desk):
    page.fill(AT, "nonsense")
    page.press(AT, "Escape")
    assert page.input_value(AT) == "2.600 m"
    assert desk.revision == 0


def test_an_edit_the_plan_refuses_springs_back_and_says_why(page, desk):
    desk.session.refuse_shorter_than = 9.5
    page.focus(DIRECTOR_TIP)
    page.keyboard.press("PageDown")
    page.keyboard.press("PageDown")
    wait_until(page, lambda: page.is_visible("#faults"))
    assert "feed gap" in page.inner_text("#faults")
    page.click("#undo")
    wait_until(page, lambda: not page.is_visible("#faults"))


def test_frequency_and_height_sliders(page, desk):
    page.focus("#frequency-range")
    page.keyboard.press("Home")
    wait_until(page, lambda: "14.000 MHz" in page.inner_text("[data-number='gain'] .note"))
    assert page.input_value("#frequency-text") == "14.000 MHz"
    assert desk.revision == 0
    before = number(page, "take-off")
    page.fill("#height-text", "33 ft")
    page.press("#height-text", "Enter")
    wait_until(page, lambda: number(page, "take-off") != before)
    assert '"33 ft"' in desk.text
    assert desk.undo_label


def test_units_and_day_and_night_switch_without_losing_anything(page, desk):
    page.check("#units input[value='us']", force=True)
    wait_until(page, lambda: page.input_value(AT) == "8 ft 6-3/8 in")
    assert "in" in page.inner_text("#step")
    assert desk.revision == 0
    paper = "getComputedStyle(document.documentElement).backgroundColor"
    day = page.evaluate(paper)
    page.check("#scheme input[value='dark']", force=True)
    assert page.evaluate(paper) != day
    page.reload()
    page.wait_for_selector("#fig-currents svg")
    assert page.evaluate(paper) != day
    assert page.input_value(AT) == "8 ft 6-3/8 in"
    page.check("#units input[value='metric']", force=True)
    page.check("#scheme input[value='']", force=True)
    wait_until(page, lambda: page.input_value(AT) == "2.600 m")


@pytest.mark.parametrize("label", ["Book", "Cut list", "Plan view", "Plan (TOML)"])
def test_downloads(page, label):
    page.click("#downloads summary")
    with page.expect_download() as waiting:
        page.click(f"#downloads a:has-text('{label}')")
    assert waiting.value.suggested_filename.startswith("test")
    assert not page.is_visible("#downloads ul")


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("azimuth", "dBi"),
        ("elevation", "elevation"),
        ("lobes", "dBi"),
        ("sweep", "MHz"),
        ("impedance", "resistance"),
        ("gain", "front-to-back"),
        ("currents", "reflector"),
    ],
)
def test_every_figure_reads_exact_values_by_pointer_and_by_keys(page, name, words):
    reader = page.locator(f"[data-picture='{name}'] .reader")
    reader.scroll_into_view_if_needed()
    box = reader.bounding_box()
    page.mouse.move(box["x"] + box["width"] * 0.5, box["y"] + box["height"] * 0.4)
    reading = f"[data-picture='{name}'] .reading"
    assert words in page.inner_text(reading)
    page.mouse.move(2, 2)
    assert page.inner_text(reading) == ""
    reader.focus()
    page.keyboard.press("Home")
    first = page.inner_text(reading)
    page.keyboard.press("Shift+ArrowRight")
    assert page.inner_text(reading) != first
    page.click(f"[data-picture='{name}'] .behind summary")
    assert page.locator(f"#table-{name} tbody tr").count() > 1


def test_a_reading_off_the_azimuth_figure_is_the_computed_gain(page, desk):
    cut = desk.readings(0).over_ground.azimuth_pattern
    page.focus("[data-picture='azimuth'] .reader")
    page.keyboard.press("Home")
    shown = float(
        re.search(r"up: (−?[\d.]+) dBi", page.inner_text("[data-picture='azimuth'] .reading"))[1]
        .replace("−", "-")
    )  # fmt: skip
    assert shown == pytest.approx(float(cut.gain_dbi[0]), abs=0.005)


def test_a_conflict_is_shown_with_both_ways_out(page, desk):
    desk.session.file = PLAN.replace("16 m", "11 m")
    page.focus(DRIVEN)
    page.keyboard.press("ArrowRight")
    page.wait_for_selector("#conflict", state="visible")
    assert page.is_visible("#take-file")
    page.click("#take-file")
    wait_until(page, lambda: page.input_value("#height-text") == "11.000 m")
    page.wait_for_selector("#conflict", state="hidden")


def test_hostile_names_stay_text(context):
    hostile = "<img src=x onerror=alert(1)><script>alert(2)</script>"
    text = PLAN.replace("Three elements for a test", hostile)
    text = text.replace('name = "20m"', f'name = "{hostile}"')
    with served(fake_desk(text)) as url:
        page, watch = opened(context, url)
        assert page.inner_text("#title") == hostile
        assert page.locator("img").count() == 0
        page.focus(DRIVEN)
        page.keyboard.press("ArrowRight")
        page.wait_for_timeout(500)
        assert page.locator("img, #fig-plan-view script").count() == 0
        assert watch.said == []
        page.close()


def test_when_the_program_stops_the_page_says_so(context):
    with served(fake_desk()) as url:
        page, _ = opened(context, url)
        assert not page.is_visible("#offline")
    page.wait_for_selector("#offline", state="visible")
    page.close()


def test_a_corner_of_a_frame_drags_as_a_tip_does(context):
    desk = fake_desk(hexagon(ground="medium dry"))
    with served(desk) as url:
        made, watch = opened(context, url)
        place = desk.plan.beams[0].frame.points[0].place
        drag(made, "[data-corner='0'][data-part='corner']", 12, -9)
        wait_until(made, lambda: desk.plan.beams[0].frame.points[0].place != place)
        at_rest(made, desk)
        x, y, _ = desk.plan.beams[0].frame.points[0].place
        assert x > place[0]
        assert y > place[1]
        assert desk.undo_label == "point front moved"
        made.focus("[data-corner='0'][data-part='corner']")
        made.keyboard.press("ArrowLeft")
        wait_until(made, lambda: desk.plan.beams[0].frame.points[0].place[0] < x)
        assert watch.said == []
        made.close()
