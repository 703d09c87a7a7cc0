"""Sheets of cost, build and raising in process: blocks, what lacks, JSON, injection, archive."""

from __future__ import annotations

import io
import json
import re
import zipfile
from pathlib import Path

import pytest

from boomwright.base.quantity import Quantity, write
from boomwright.report.wording import clean
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.session.ticks import keep_tick, load_ticks, ticks_path
from boomwright.study.cost import price_plan
from boomwright.web import PlanDesk
from boomwright.web.sheets import work_context
from boomwright.web.sheets.work_context import tick_name
from example_stations import station_text
from fakes.client import client_of
from fakes.desk import desk_on, fake_desk

DEMO = packaged_text("demo.toml")
KINDS = {"heading", "words", "facts", "grid", "picture", "steps", "blanks", "page"}


def real_desk(folder: Path, text: str = DEMO) -> PlanDesk:
    path = folder / "plan.toml"
    prices = packaged_text("demo_prices.csv")
    (folder / "prices.csv").write_text(prices, encoding="utf-8")
    return desk_on(path, text)


def sheet(desk, subject: str) -> dict:
    """Build the context as the page does, without the frame's whole computation."""
    from dataclasses import asdict

    from boomwright.web.sheets import SHEETS
    from boomwright.web.view import View

    one = next(each for each in SHEETS if each.slug == subject)
    view = View(beam=0, system="metric", narrow=False)
    return json.loads(json.dumps(asdict(one.context(desk, view, whole=True))))


@pytest.mark.parametrize("subject", ["cost", "build", "raising"])
def test_pages_render_and_say_what_a_bare_plan_lacks(subject):
    page = client_of(fake_desk()).get(f"/{subject}")
    assert page.status_code == 200
    assert 'class="lacks"' in page.text
    document = client_of(fake_desk()).get(f"/{subject}.json").json()
    assert document["lacks"]
    assert document["blocks"] == [
        {"kind": "words", "text": "Made up for Three elements for a test.", "tone": "plain"}
    ]


@pytest.mark.parametrize("subject", ["cost", "build"])
def test_blocks_of_the_demo(tmp_path, subject):
    found = sheet(real_desk(tmp_path), subject)
    assert (found["ready"], found["trouble"], found["lacks"]) == (True, "", [])
    assert {block["kind"] for block in found["blocks"]} <= KINDS
    for block in found["blocks"]:
        if block["kind"] == "grid":
            wide = len(block["columns"])
            assert len(block["align"]) == len(block["shares"]) == wide
            assert all(len(row) in {1, wide} for row in block["rows"])


@pytest.mark.parametrize("number", ["11", "12"], ids=["hexagon", "inverted vee"])
def test_wire_without_a_boom_is_not_asked_for_one(tmp_path, number):
    text = station_text(number)
    found = sheet(real_desk(tmp_path, text), "build")
    assert (found["trouble"], found["lacks"]) == ("", [])
    assert not [each for each in found["notices"] if "boom" in each["text"]]


def test_the_bill_has_its_total_in_the_foot(tmp_path):
    desk = real_desk(tmp_path)
    found = sheet(desk, "cost")
    (bill,) = (block for block in found["blocks"] if block.get("foot"))
    heads, foot = bill["columns"], bill["rows"][-1]
    made = price_plan(desk.plan, files=PlanFolder(tmp_path), today="2026-11-25").estimate
    assert foot[0].startswith("Total with contingency")
    for name in ("low", "likely", "high"):
        (at,) = (number for number, head in enumerate(heads) if head.lower() == name)
        total = write(Quantity(getattr(made.total, name), "money"), system="metric")
        assert foot[at] == clean(total)
    assert foot[-1] == ""  # a total is not ticked off
    html = client_of(desk).get("/cost").text
    assert re.search(rf"<tfoot>.*{foot[0]}.*</tfoot>", html, re.S)


def test_build_sheet_has_every_tube_and_step(tmp_path):
    found = sheet(real_desk(tmp_path), "build")
    text = json.dumps(found)
    for mark in ("1.1C", "2.1L, 2.1R", "3.4L, 3.4R"):
        assert mark in text
    pictures = [block for block in found["blocks"] if block["kind"] == "picture"]
    assert [p["name"] for p in pictures] == [
        "element-plate-1.P", "mast-plate-MP", "element-1", "element-2",
        "element-3", "feed", "exploded", "boom", "setting-out",
    ]  # fmt: skip
    assert [p["true_size"] for p in pictures] == [True, True] + [False] * 7


def test_a_hostile_price_list_and_title_stay_text(tmp_path):
    title = "</script><img src=x onerror=alert(1)>"
    desk = real_desk(tmp_path, DEMO.replace("Three elements for 20 m at the club hut", title))
    (tmp_path / "prices.csv").write_text(
        "item,unit,low,likely,high,currency,supplier,dated\n<b>x</b>,m,1,2,3,GBP,,yesterday\n",
        encoding="utf-8",
    )
    found = sheet(desk, "cost")
    assert "yesterday" in found["trouble"]
    page = client_of(desk).get("/cost").text
    assert "<img src=x" not in page
    assert "<b>x</b>" not in page


def test_drawings_come_as_one_archive(tmp_path):
    desk = real_desk(tmp_path)
    answer = client_of(desk).get("/drawings.zip")
    assert answer.status_code == 200
    names = zipfile.ZipFile(io.BytesIO(answer.content)).namelist()
    assert {"20m-boom.dxf", "20m-element-1.svg", "20m-assembly.glb", "reminders.ics"} <= set(names)
    assert desk.session.work_files(desk.plan) == answer.content


def test_what_is_ticked_off_stays_beside_the_plan(tmp_path):
    plan = tmp_path / "plan.toml"
    plan.write_text(DEMO)
    keep_tick(plan, "build: Elements: file the burrs", done=True)
    keep_tick(plan, "build: Elements: cut the tubes", done=True)
    keep_tick(plan, "build: Elements: file the burrs", done=False)
    assert list(load_ticks(plan)) == ["build: Elements: cut the tubes"]
    assert plan.read_text() == DEMO
    ticks_path(plan).write_text("[spoilt")
    assert load_ticks(plan) == {}
    # Hard spaces of a sheet are none in the file.
    assert tick_name("build", "Elements", "cut\u00a02 tubes\nof 25 mm") == (
        "build: Elements: cut 2 tubes of 25 mm"
    )


@pytest.mark.parametrize(
    ("block", "said"),
    [
        ({"kind": "grid", "caption": "Every hole", "rows": [["a", "b"]]}, "Every hole"),
        # A caption that is the heading says nothing: the groups of its rows do.
        ({"kind": "grid", "caption": "Cut list", "rows": [["Boom"], ["B", "6200"]]}, "Boom"),
        ({"kind": "grid", "caption": "", "rows": [["stop\nx", "arm"], ["up", "arm"]]}, "stop; up"),
        ({"kind": "grid", "caption": "", "rows": [[str(row)] * 2 for row in range(9)]},
         "0; 1; 2; 3; 4; 5 and 3 more"),
        ({"kind": "grid", "caption": "", "rows": [["", ""]]}, "to be filled in"),
        ({"kind": "steps", "title": "Cut list"}, ""),
    ],
)  # fmt: skip
def test_a_part_says_what_is_inside_and_not_its_heading(block, said):
    assert work_context._says(block, "Cut list") == said
