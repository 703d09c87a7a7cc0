"""The Waves sheet in a browser: it moves, is stepped, probed, turned and exported."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from fakes.browser import browsing, opened, served
from fakes.desk import fake_desk

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def waves(context, url):
    return opened(context, url, "waves", ready="#sheet[data-ready=waves]", timeout=30_000)


@pytest.fixture(scope="module")
def context():
    with browsing() as made:
        yield made


def watched(context):
    with served(fake_desk()) as url:
        page, watch = waves(context, url)
        yield page
        assert watch.said == []
        assert watch.outside == []
        page.close()


page = pytest.fixture(watched, name="page")
# What only leaves the page leaves nothing behind on it.
gallery = pytest.fixture(watched, scope="module", name="gallery")


def phase(page):
    return page.evaluate("boomwrightWaves.clock.phase")


def test_the_wave_runs_stops_and_steps(page):
    first = phase(page)
    page.wait_for_timeout(200)
    assert phase(page) != first
    page.click("#run")
    stopped = phase(page)
    page.wait_for_timeout(150)
    assert phase(page) == stopped
    page.click("#step-on")
    page.click("#step-on")
    turn = (phase(page) - stopped) % 6.2832
    # The first step goes to the next whole step, two steps are half to two and a half of 15 deg.
    assert 0.39 < turn < 0.66
    painted = page.evaluate("new Set(boomwrightWaves.views.level.pixels).size")
    assert painted > 100


def test_the_arrow_keys_move_the_probe_and_shares_change_what_it_reads(page):
    page.focus("#wave-level .probe")
    page.keyboard.press("Shift+ArrowRight")
    text = page.text_content("#wave-level .reading-line")
    assert "V/m peak" in text
    page.click("#driven-only")
    alone = page.text_content("#wave-level .reading-line")
    assert alone != text
    boxes = page.locator("#share-list input")
    assert [boxes.nth(i).is_checked() for i in range(3)] == [False, True, False]
    page.click("#all-shares")
    assert page.text_content("#wave-level .reading-line") == text


def test_the_pattern_is_turned_by_keys_and_by_the_hand(page):
    page.focus(".solid")
    before = page.evaluate("[boomwrightWaves.solid.turn, boomwrightWaves.solid.tilt]")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    after = page.evaluate("[boomwrightWaves.solid.turn, boomwrightWaves.solid.tilt]")
    assert after[0] - before[0] == pytest.approx(6.0, abs=1e-9)
    assert after[1] > before[1]
    box = page.locator(".solid").bounding_box()
    page.mouse.move(box["x"] + 200, box["y"] + 200)
    page.mouse.down()
    page.mouse.move(box["x"] + 260, box["y"] + 200, steps=4)
    page.mouse.up()
    assert page.evaluate("boomwrightWaves.solid.turn") != after[0]
    assert "round the heading" in page.text_content("#solid-words")
    assert page.locator("#gain-scale li").count() == 5


@pytest.mark.parametrize("which", ["level", "upright", "solid"])
@pytest.mark.parametrize("kind", ["svg", "png", "gif"])
def test_pictures_leave_the_page(gallery, which, kind):
    gallery.click("#export summary")
    with gallery.expect_download(timeout=60_000) as taken:
        gallery.click(f"[data-export={which}][data-as={kind}]")
    content = taken.value.path().read_bytes()
    if kind == "svg":
        text = content.decode()
        assert text.startswith("<svg")
        assert "var(" not in text
        return
    image = Image.open(io.BytesIO(content))
    assert image.width >= 800
    if kind == "gif":
        assert image.n_frames == 24
        image.seek(6)
        later = image.convert("RGB").tobytes()
        image.seek(0)
        assert image.convert("RGB").tobytes() != later


def test_a_wave_leaves_the_page_as_a_short_video_that_plays(gallery, context):
    gallery.click("#export summary")
    with gallery.expect_download(timeout=60_000) as taken:
        gallery.click("[data-export=level][data-as=video]")
    assert taken.value.suggested_filename == "wave-from-above.webm"
    content = taken.value.path().read_bytes()
    # WebM is Matroska, which begins with the EBML mark (RFC 8794, section 11.2.1).
    assert content.startswith(bytes.fromhex("1a45dfa3"))
    cinema = context.new_page()
    seen = cinema.evaluate(
        """async (bytes) => {
          const video = document.createElement("video");
          const film = new Blob([new Uint8Array(bytes)], { type: "video/webm" });
          const at = (time) => new Promise((resolve) => {
            video.onseeked = () => {
              const canvas = new OffscreenCanvas(video.videoWidth, video.videoHeight);
              const picture = canvas.getContext("2d");
              picture.drawImage(video, 0, 0);
              resolve([...picture.getImageData(300, 200, 40, 40).data].join());
            };
            video.currentTime = time;
          });
          const ready = new Promise((resolve, reject) => {
            video.onloadeddata = resolve;
            video.onerror = () => reject(new Error(video.error.message));
          });
          video.muted = true;
          video.src = URL.createObjectURL(film);
          await ready;
          const [early, late, end] = [await at(0.0), await at(1.0), await at(1.95)];
          return [video.videoWidth, video.duration, early !== late, late !== end];
        }""",
        list(content),
    )
    cinema.close()
    assert seen == [800, pytest.approx(2.0, abs=0.05), True, True]


def test_who_wants_less_motion_gets_a_still_picture(context):
    with served(fake_desk()) as url:
        still = context.browser.new_context(reduced_motion="reduce")
        page, _ = waves(still, url)
        assert page.text_content("#run") == "Run"
        first = phase(page)
        page.wait_for_timeout(200)
        assert phase(page) == first
        still.close()
