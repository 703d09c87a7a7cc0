"""Markup typed or written anywhere stays text: every field of the plan, every form of the page."""

from __future__ import annotations

import json
import re
import tomllib
from html.parser import HTMLParser
from importlib.resources import files

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan, rewrite
from boomwright.plan.faults import split_path
from boomwright.session.files import packaged_text
from boomwright.session.plan_library import PlanLibrary
from boomwright.study.advice.wishing import ASKED
from boomwright.web.edits import read_message
from boomwright.web.live import apply_message
from boomwright.web.sheets import SHEETS
from boomwright.web.start_edits import BEGUN
from boomwright.web.view import View
from fakes.client import client_of, live
from fakes.desk import desk_on

MARKUP = "<img src=x onerror=alert(1)>"
VECTORS = (
    MARKUP,
    "\"'><svg/onload=alert(1)>",
    "</title><script>alert(1)</script>",
    "</text></svg><a href=javascript:alert(1)>",
    "{{7*7}}${7*7}",
)
VIEW = View(beam=0, system="metric", narrow=False, other="")


def places(value, place=""):
    """Every place of a text in a plan."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from places(each, f"{place}.{key}" if place else key)
    elif isinstance(value, list):
        for number, each in enumerate(value):
            yield from places(each, f"{place}[{number}]")
    elif isinstance(value, str):
        yield place


@pytest.fixture(scope="module")
def hostile():
    """The demo's plan with markup at every place that takes free words, and those places."""
    text, taken = packaged_text("demo.toml"), []
    for place in places(tomllib.loads(text)):
        if place == "prices.list":
            continue
        try:
            changed = rewrite(text, {place: MARKUP})
            read_plan(changed)
        except PlanError:
            continue
        text = changed
        taken.append(place)
    # Two elements say as much as three, sooner.
    return rewrite(text, {"beam[0].element[2]": None}), taken


def client_on(folder, text):
    path = folder / "plan.toml"
    (folder / "prices.csv").write_text(packaged_text("demo_prices.csv"))
    desk = desk_on(path, text, library=PlanLibrary(folder))
    return desk, client_of(desk)


@pytest.fixture(scope="module")
def attacked(hostile, tmp_path_factory):
    folder = tmp_path_factory.mktemp("attacked")
    return client_on(folder, hostile[0])[1]


class Tags(HTMLParser):
    """Elements of a page with their attributes."""

    def __init__(self, html):
        super().__init__()
        self.found = []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


def assert_harmless(html):
    for tag, attributes in Tags(html).found:
        assert tag not in {"img", "iframe", "object", "embed", "foreignobject"}, attributes
        assert tag != "script" or str(attributes.get("src")).startswith("/static/"), attributes
        assert not any(name.startswith("on") for name in attributes), (tag, attributes)
        for name in ("href", "src", "xlink:href", "action"):
            assert not str(attributes.get(name)).lower().startswith("javascript"), attributes


def test_many_places_take_free_words(hostile):
    assert {"title", "beam[0].name", "reach.target[0].name", "permits.exposure[0].place"} <= {
        *hostile[1]
    }


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.slug)
def test_markup_in_the_plan_stays_text_on_every_sheet(attacked, sheet):
    # Made once as data, the page then shows all of it. What a feed's pictures say is held to
    # the same with its own tests, since solving one takes seconds.
    figures = {}
    if sheet.slug != "feed":
        document = attacked.get(f"/{sheet.slug}.json")
        assert document.status_code == 200
        figures = document.json().get("figures", {})
    page = attacked.get(f"/{sheet.slug}")
    assert page.status_code == 200
    assert "&lt;img" in page.text
    assert_harmless(page.text)
    for svg in figures.values():
        assert_harmless(svg)


def test_markup_in_the_plan_stays_text_on_the_page_to_show_others(attacked):
    page = attacked.get("/share.html").text
    assert "&lt;img" in page
    assert "<script" not in page
    assert_harmless(page)


def fields_of(client):
    found = set()
    for sheet in SHEETS:
        for tag, attributes in Tags(client.get(f"/{sheet.slug}").text).found:
            if tag == "input" and attributes.get("data-place"):
                found.add(attributes["data-place"])
    return sorted(found)


def test_markup_typed_into_any_field_is_refused_or_kept_as_text(tmp_path):
    desk, client = client_on(tmp_path, packaged_text("demo.toml"))
    fields = fields_of(client)
    assert len(fields) > 40
    taken = set()
    for place in fields:
        for vector in VECTORS if place == "title" else VECTORS[:2]:
            edit = {"kind": "write", "place": place, "text": vector}
            if place == "frequency":
                edit = {"kind": "tune", "text": vector}
            if place == "height":
                edit["place"] = "beam[0].height"
            message = read_message(json.dumps({"seq": 1, "gesture": 0, "edit": edit}))
            before = desk.text
            try:
                apply_message(desk, VIEW, message)
            except PlanError:
                assert desk.text == before
            else:
                taken.add(place)
    # What takes free words is in the plan of the tests above, or is the name of a file.
    assert taken <= {
        "title",
        "prices.list",
        "reach.terrain",
        "site.wind_basis.edition",
        "site.wind_basis.by",
    }


@pytest.mark.parametrize(
    ("place", "fine"),
    [
        ("reach.target[9]", {"name": "hut", "locator": "IO91"}),
        ("permits.exposure[9]", {"place": "lawn", "distance": "9 m", "height": "1.8 m"}),
        ("measured.probe[0]", {"element": "0", "ratio": "0.8", "within": "5 %"}),
        ("line", {"type": {"name": "own", "impedance": "50 ohm"}, "length": "40 m"}),
    ],
)
def test_markup_in_a_form_is_refused_or_kept_as_text(tmp_path, place, fine):
    desk, client = client_on(tmp_path, packaged_text("demo.toml"))
    table = split_path(place.split("[")[0])
    listed = tomllib.loads(desk.text)
    for step in table:
        listed = listed.get(step, {})
    here = f"{place.split('[')[0]}[{len(listed)}]" if "[" in place else place
    for vector in VECTORS:
        for hit in fine:
            edit = {"kind": "fill", "place": here, "values": fine | {hit: vector}}
            message = read_message(json.dumps({"seq": 1, "gesture": 0, "edit": edit}))
            try:
                apply_message(desk, VIEW, message)
            except PlanError:
                continue
            assert hit in {"name", "place"}
    for page in ("/reach", f"/form?place={here}", "/tables?sheet=permits", "/tables?sheet=reach"):
        assert_harmless(client.get(page).text)


@pytest.mark.parametrize("kind", ["begin", "seek"])
def test_markup_typed_on_the_start_sheet_makes_no_file_and_stays_text(tmp_path, kind):
    client = client_on(tmp_path, packaged_text("demo.toml"))[1]
    before = {path.name for path in tmp_path.iterdir()}
    names = BEGUN if kind == "begin" else ASKED
    with live(client, "start") as socket:
        for number, vector in enumerate(VECTORS):
            edit = {"kind": kind, "action": "start", "name": vector, "further": False,
                    "typed": dict.fromkeys(names, vector)}  # fmt: skip
            socket.send_text(json.dumps({"seq": number + 1, "gesture": 0, "edit": edit}))
        refused = 0
        while refused < len(VECTORS):
            message = socket.receive_json()
            assert message["kind"] != "moved"
            refused += message["kind"] in {"shelf", "refused"}
    assert {path.name for path in tmp_path.iterdir()} == before
    assert_harmless(client.get("/start").text)


def test_the_page_writes_markup_only_where_the_server_made_it():
    """Everything else goes in as text: each place that takes markup is known by name."""
    known = {
        ("forms.js", "await answer.text()"),
        ("handles.js", "svg"),
        ("improve.js", "message.svg"),
        ("redraw.js", "svg"),
        ("sheet.js", "message.block"),
        ("start.js", "html"),
        ("prices.js", "html"),
        ("wave_view.js", "svg"),
    }
    found = set()
    for item in (files("boomwright.web") / "static").iterdir():
        if not item.name.endswith(".js"):
            continue
        script = item.read_text()
        assert "insertAdjacentHTML" not in script
        assert "document.write" not in script
        assert "eval(" not in script
        pattern = r"(?:innerHTML|outerHTML)\s*=\s*([^;]+);"
        found |= {(item.name, right.strip()) for right in re.findall(pattern, script)}
    assert found == known
