"""The sheets of structure and permits: context as documented, fixes taken, nothing injected."""

from __future__ import annotations

import dataclasses
import json
import re

import pytest

from boomwright.web.edits import Act, MessageError, Strengthen, read_message
from boomwright.web.sheets import PERMITS, STRUCTURE
from boomwright.web.sheets.permits_context import PermitsContext
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    SubjectChange,
    SubjectFact,
    SubjectList,
    SubjectPicture,
)
from boomwright.web.sheets.structure_context import StructureContext
from example_stations import station_text
from fakes.client import client_of
from fakes.desk import PLAN, fake_desk

HOSTILE = "</title><script>alert(1)</script> onload=x & <img src=x>"


def client(text):
    return client_of(fake_desk(text))


@pytest.mark.parametrize(
    "kind",
    [
        StructureContext, PermitsContext, AskedField, Lack, SubjectChange, SubjectFact,
        SubjectList, SubjectPicture,
    ],
)  # fmt: skip
def test_every_context_field_is_documented(kind):
    for field in dataclasses.fields(kind):
        assert field.metadata.get("help", "").endswith("."), f"{kind.__name__}.{field.name}"


@pytest.mark.parametrize(
    ("address", "kind"), [("/structure.json", StructureContext), ("/permits.json", PermitsContext)]
)
def test_the_json_holds_the_documented_context_and_no_odd_number(address, kind):
    answer = client(station_text("07")).get(address)
    document = json.loads(answer.text, parse_constant=lambda name: pytest.fail(name))
    sheet = document.get("sheet", document)
    assert {field.name for field in dataclasses.fields(kind)} <= set(sheet)
    assert sheet["ready"]
    assert not sheet["trouble"]
    for svg in sheet["figures"].values():
        assert svg.startswith("<svg")
        assert not re.search(r'(?:fill|stroke)="#', svg)


def test_every_mark_stands_beside_its_wind_exposure_and_edition():
    sheet = client(station_text("07")).get("/structure.json").json()
    sheet = sheet.get("sheet", sheet)
    lines = next(each for each in sheet["lists"] if each["name"] == "ledger")
    # What all of them rest on stands once, as the table's note.
    said = lines["note"]
    assert all(words in said for words in ("nominal", "exposure C", "ASCE 7-16"))
    windy = [row for row in lines["table"]["rows"] if "in wind" in row[0] and row[1] == "within"]
    assert len(windy) > 3
    for row in windy:
        assert "design wind" in row[5]


def test_a_plan_without_support_says_what_to_add_instead_of_an_empty_page():
    page = client(PLAN).get("/structure").text
    for place in ("support.tower", "support.tube", "support.mast", "beam[0].boom", "site.wind"):
        assert f'data-form="{place}"' in page
    assert "[support.tube]" not in page
    assert "no wind speed" in page
    assert 'data-form="site.position"' in client(PLAN).get("/permits").text
    assert STRUCTURE.mark(fake_desk(PLAN), _view()).state == "missing"
    assert PERMITS.mark(fake_desk(PLAN), _view()).state == "missing"


def test_a_fix_is_one_edit_and_one_step_of_undo():
    desk = fake_desk(station_text("04"))
    before = desk.text
    edit = {"kind": "strengthen", "beam": 0, "element": 0, "number": 0}
    message = read_message(json.dumps({"seq": 1, "edit": edit}))
    assert message.edit == Strengthen(beam=0, element=0, number=0)
    desk.apply(message.edit, gesture=0)
    assert desk.plan.beams[0].elements[0].half[0].wall == pytest.approx(4.2e-3, abs=1e-9)
    assert desk.undo_label == "reflector strengthened"
    changed = [
        a for a, b in zip(before.splitlines(), desk.text.splitlines(), strict=True) if a != b
    ]
    assert len(changed) == 1


def test_every_kind_of_fix_is_one_key_with_its_electrical_length_and_one_undo():
    # A thin second tube is the weak one, so a longer outer tube is offered beside the inner ones.
    text = station_text("04").replace(
        '["31.75 mm", "1.30 m", "2.1 mm"]', '["26 mm", "1.30 m", "0.9 mm"]'
    )
    text = text.replace('["25.4 mm", "1.20 m", "1.65 mm"]', '["22 mm", "1.20 m", "0.9 mm"]')
    asked = client(text)
    changes = [c for c in asked.get("/structure.json").json()["changes"] if c["element"] == 0]
    page = asked.get("/structure").text
    kinds = {words: [c for c in changes if c["text"].startswith(words)]
             for words in ("double the wall", "lengthen the overlap", "let tube")}  # fmt: skip
    assert all(kinds.values()), changes
    assert "outer sizes stay" in kinds["double the wall"][0]["gain"]
    assert "outer sizes stay" in kinds["lengthen the overlap"][0]["gain"]
    longer = kinds["let tube"][0]["gain"]
    assert re.search(r"reactance [+−][0-9.]+ ohm, [+−]\d+ mm at each tip brings it back", longer)
    for change in changes:
        place = {name: change[name] for name in ("beam", "element", "number")}
        button = json.dumps({"kind": "strengthen"} | place, sort_keys=True)
        assert f"data-propose='{button}'" in page.replace('"', "'").replace("&#34;", '"')
        desk = fake_desk(text)
        before, half = desk.text, desk.plan.beams[0].elements[0].half
        desk.apply(Strengthen(**place), gesture=0)
        assert desk.plan.beams[0].elements[0].half != half
        assert desk.undo_label == "reflector strengthened"
        desk.apply(Act(action="undo"), gesture=0)
        assert desk.text == before


@pytest.mark.parametrize("number", [-1, 10, "x", None])
def test_no_fix_is_taken_on_trust(number):
    edit = {"kind": "strengthen", "beam": 0, "element": 0, "number": number}
    with pytest.raises(MessageError):
        read_message(json.dumps({"seq": 1, "edit": edit}))


def test_names_cannot_become_markup():
    text = station_text("04").replace('name = "20m"', f'name = "{HOSTILE[:60]}"')
    text = text.replace('name = "street line"', f'name = "{HOSTILE[:60]}"')
    asked = client(text)
    for address in ("/structure", "/permits"):
        found = re.findall(r"<script[^>]*>", asked.get(address).text)
        assert all('src="/static/' in each for each in found)
        sheet = asked.get(f"{address}.json").json()
        for svg in sheet.get("sheet", sheet)["figures"].values():
            assert "<script" not in svg
            assert "<img" not in svg


def _view():
    from boomwright.web.view import View

    return View()
