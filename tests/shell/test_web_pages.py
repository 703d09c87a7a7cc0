"""Pages: HTML and JSON from one documented context, true status, files, no injection."""

from __future__ import annotations

import dataclasses
import json
import re
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

from boomwright.charts import LIGHT
from boomwright.charts.palette import DARK
from boomwright.web.colours import colour_sheet
from boomwright.web.sheets import SHEETS
from boomwright.web.sheets.beam_context import BeamContext
from boomwright.web.sheets.context_parts import Field, Slider, Table
from boomwright.web.sheets.frame_context import (
    Download,
    ElementRow,
    FrameContext,
    Mark,
    SheetLink,
)
from contrast import contrast_ratio
from fakes.client import client_of
from fakes.desk import PLAN, fake_desk


def make(desk=None, **cookies) -> TestClient:
    return client_of(desk or fake_desk(), cookies=cookies)


class Names(HTMLParser):
    """Collects elements with their attributes."""

    def __init__(self):
        super().__init__()
        self.found = []

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


def elements(html):
    parser = Names()
    parser.feed(html)
    return parser.found


def test_the_first_address_leads_to_the_first_sheet():
    answer = make().get("/")
    assert answer.url.path == f"/{SHEETS[0].slug}"
    assert "Three elements for a test" in answer.text


@pytest.mark.parametrize(
    "kind",
    [BeamContext, FrameContext, ElementRow, Field, Slider, SheetLink, Mark, Download, Table],
)
def test_every_context_field_is_documented(kind):
    for field in dataclasses.fields(kind):
        help_text = field.metadata.get("help", "")
        assert help_text.endswith("."), f"{kind.__name__}.{field.name} has no help"


def test_the_json_holds_exactly_the_documented_context():
    document = make().get("/beam.json").json()
    assert set(document) == {
        "frame",
        *(field.name for field in dataclasses.fields(BeamContext)),
    }
    frame = document["frame"]
    assert set(frame) == {field.name for field in dataclasses.fields(FrameContext)}
    names = {number["name"] for number in frame["numbers"]}
    assert names == {"gain", "rear", "swr", "take-off"}
    assert all(number["value"] and number["band"] for number in frame["numbers"])
    assert set(document["figures"]) == {
        "azimuth", "elevation", "lobes", "sweep", "impedance", "gain", "currents", "side",
    }  # fmt: skip
    assert set(document["tables"]) == set(document["figures"])


def test_the_page_shows_what_the_json_says():
    client = make()
    document, html = client.get("/beam.json").json(), client.get("/beam").text
    for row in document["frame"]["elements"]:
        for field in (row["at"], row["tip_to_tip"]):
            shown = [a for tag, a in elements(html) if a.get("data-place") == field["place"]]
            assert [a["value"] for a in shown] == [field["text"]]
    for number in document["frame"]["numbers"]:
        if number["name"] != "swr":
            assert number["value"] in html
        assert number["band"] in html or number["name"] == "swr"


def test_every_input_has_a_name_and_every_id_is_single():
    found = elements(make().get("/beam").text)
    ids = [a["id"] for _, a in found if "id" in a]
    assert len(ids) == len(set(ids))
    labelled = {a.get("for") for tag, a in found if tag == "label"}
    for tag, a in found:
        if tag in {"input", "select"} and a.get("type") != "radio":
            assert a.get("aria-label") or a.get("id") in labelled


def test_nothing_comes_from_outside_and_nothing_is_inline():
    client = make()
    for tag, a in elements(client.get("/beam").text):
        for name in ("src", "href", "action"):
            assert not re.match(r"(?:[a-z]+:)?//", a.get(name) or ""), (tag, a)
        assert not any(name.startswith("on") for name in a), (tag, a)
        assert "style" not in a, (tag, a)
        if tag == "script":
            assert a["src"].startswith("/static/")
    for name in ("beam.js", "link.js", "reading.js", "handles.js", "fields.js", "desk.js"):
        text = client.get(f"/static/{name}").text
        for found in re.findall(r"https?://[^\s\"']+", text):
            assert found == "http://www.w3.org/2000/svg"
        for path in re.findall(r'from "([^"]+)"', text):
            assert client.get(path).status_code == 200, path


def test_us_units_are_first_class():
    document = make(**{"boomwright-units": "us"}).get("/beam.json").json()
    assert document["frame"]["system"] == "us"
    # 2.6 m = 102.362 in, 8 ft 6-3/8 in to the nearest sixteenth.
    assert document["frame"]["elements"][1]["at"]["text"] == "8 ft 6-3/8 in"
    assert document["frame"]["elements"][0]["tubes"][0][0]["text"] == "1 in"


HOSTILE = '</title><script>alert(1)</script>\\" onload=\\"x\' & <img src=x onerror=alert(2)>'


def test_titles_and_names_cannot_become_markup():
    text = PLAN.replace("Three elements for a test", HOSTILE).replace(
        'name = "20m"', f'name = "{HOSTILE[:60]}"'
    )
    client = make(fake_desk(text))
    html = client.get("/beam").text
    found = elements(html)
    assert [a for tag, a in found if tag == "script"] == [
        {"type": "module", "src": "/static/beam.js"}
    ]
    assert not any(tag == "img" for tag, _ in found)
    assert not any(name.startswith("on") for _, a in found for name in a)
    for svg in client.get("/beam.json").json()["figures"].values():
        assert "<script" not in svg
        assert "<img" not in svg


@pytest.mark.parametrize(
    ("address", "kind", "name", "start"),
    [
        ("/plan.toml", "application/toml", "test.toml", b"boomwright = 1"),
        ("/book.pdf", "application/pdf", "test.pdf", b"%PDF"),
        ("/cut-list.csv", "text/csv", "test-cut-list.csv", b"element"),
        ("/price-list.csv", "text/csv", "test-price-list.csv", b"# Fill in low, likely and high"),
        ("/plan-view.dxf", "image/vnd.dxf", "test-plan-view.dxf", b"0\nSECTION"),
    ],
)
def test_files_are_made_from_the_plan_on_the_desk(address, kind, name, start):
    answer = make().get(address)
    assert answer.status_code == 200
    assert answer.headers["content-type"].split(";")[0] == kind
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'
    assert answer.content.startswith(start)


def test_every_download_offered_exists():
    client = make()
    for download in client.get("/beam.json").json()["frame"]["downloads"]:
        assert client.get(download["address"]).status_code == 200


def test_errors_carry_their_true_status_and_a_remedy():
    client = make()
    page = client.get("/none")
    assert page.status_code == 404
    assert "text/html" in page.headers["content-type"]
    plain = client.get("/none.json")
    assert plain.status_code == 404
    error = plain.json()["error"]
    assert error["status"] == 404
    assert error["remedy"]
    assert client.get("/beam?of=7").status_code == 404
    assert client.get("/beam?of=../../x").status_code == 200


def test_a_failure_while_making_a_file_does_not_give_the_inside_away():
    desk = fake_desk()
    client = client_of(desk, raise_server_exceptions=False)

    def broken(plan, **_watching):
        message = "secret detail"
        raise RuntimeError(message)

    desk.session.make_book = broken
    answer = client.get("/book.pdf")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "content-security-policy" in answer.headers


def test_a_geometry_the_solver_refuses_is_explained_in_place():
    desk = fake_desk()
    desk.session.refuse_shorter_than = 10.0
    document = make(desk).get("/beam.json").json()
    assert document["frame"]["numbers"] == []
    assert "shorter than its feed gap" in document["frame"]["faults"][0]["message"]
    assert document["frame"]["faults"][0]["remedy"]
    html = make(desk).get("/beam")
    assert html.status_code == 200
    assert "shorter than its feed gap" in html.text


def test_free_space_has_no_take_off_angle_and_says_why():
    desk = fake_desk(PLAN.replace("medium dry", "free space"))
    document = make(desk).get("/beam.json").json()
    take_off = document["frame"]["numbers"][3]
    assert take_off["value"] == "none"
    assert "free space" in take_off["note"]
    assert "lobes" not in document["figures"]


def test_the_page_and_the_figures_share_their_colours():
    css = colour_sheet()
    for palette in (LIGHT, DARK):
        assert palette.ink in css
        assert palette.series[0] in css
        # Text of at least 4.5 : 1, WCAG 2.2 success criterion 1.4.3.
        for colour in (palette.ink, palette.quiet, palette.accent, *palette.series):
            assert contrast_ratio(colour, palette.paper) >= 4.5
    document = make().get("/beam.json").text
    assert not re.search(r'(?:fill|stroke)=\\"#', document)


def test_json_is_strict():
    text = make().get("/beam.json").text
    json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is no JSON"))
