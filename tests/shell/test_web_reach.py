"""The Reach sheet: page and document from one context, nothing injected."""

from __future__ import annotations

import dataclasses
import json
import math

import pytest

from boomwright.base import BoomwrightError, PlanError
from boomwright.web.edits import Act, read_message
from boomwright.web.sheets.reach_context import ReachContext
from fakes.client import client_of
from fakes.desk import PLAN, fake_desk


def test_the_page_answers_at_once_and_says_that_it_computes():
    desk = fake_desk()
    answer = client_of(desk).get("/reach")
    assert answer.status_code == 200
    assert "Computing heights" in answer.text
    assert getattr(desk.session, "reached", 0) == 0


def test_the_document_holds_the_context_field_by_field():
    answer = client_of(fake_desk()).get("/reach.json")
    assert answer.status_code == 200
    document = answer.json()
    sheet = document.get("sheet", document)
    assert set(sheet) >= {field.name for field in dataclasses.fields(ReachContext)}
    assert sheet["ready"] is True
    assert sheet["figures"]["people-level"].startswith("<svg")


def test_once_computed_the_page_shows_it_and_computes_no_more():
    desk = fake_desk()
    client = client_of(desk)
    client.get("/reach.json")
    page = client.get("/reach").text
    for told in ("Who stands near it", "Take-off angle", "Fields can harm.", "A note."):
        assert told in page
    assert desk.session.reached == 1


def test_every_field_of_the_context_has_its_help():
    assert all(field.metadata.get("help") for field in dataclasses.fields(ReachContext))


def test_a_hostile_name_stays_text():
    hostile = PLAN.replace('name = "20m"', 'name = "<img src=x onerror=alert(1)>"')
    client = client_of(fake_desk(hostile))
    client.get("/reach.json")
    assert "<img src=x" not in client.get("/reach").text


def test_a_refusal_is_shown_with_its_remedy():
    desk = fake_desk()

    def refuse(*_, **__):
        raise BoomwrightError("reach needs a ground: write ground = <medium dry>")

    desk.session.reach = refuse
    client = client_of(desk)
    client.get("/reach.json")
    page = client.get("/reach").text
    assert "Reach needs a ground" in page
    assert "&lt;medium dry&gt;" in page


def _typed(desk, **edit):
    desk.apply(read_message(json.dumps({"seq": 1, "edit": edit})).edit, gesture=0)


def test_places_grounds_and_people_are_named_and_taken_out_again():
    desk = fake_desk()
    _typed(desk, kind="fill", place="reach.target[0]", values={"name": "far", "locator": "FN42"})
    north = {"name": "north", "position": "60 N, 10 E"}
    _typed(desk, kind="fill", place="reach.target[1]", values=north)
    further = {"distance": "80 m", "ground": "sea water"}
    _typed(desk, kind="fill", place="reach.far_ground[0]", values=further)
    people = {"place": "terrace", "distance": "9 m", "height": "1.8 m"}
    _typed(desk, kind="fill", place="permits.exposure[0]", values=people)
    assert desk.plan.permits.exposure[0].place == "terrace"
    reach = desk.plan.reach
    assert [target.name for target in reach.target] == ["far", "north"]
    assert reach.far_ground[0].ground.name == "sea water"
    _typed(desk, kind="take-out", place="reach.target[0]")
    assert [target.name for target in desk.plan.reach.target] == ["north"]
    assert desk.text.startswith(PLAN.rstrip("\n"))
    desk.apply(Act(action="undo"), gesture=0)
    assert len(desk.plan.reach.target) == 2
    with pytest.raises(PlanError):
        _typed(desk, kind="take-out", place="reach.target[7]")


def test_angles_are_typed_with_commas_and_emptied_again():
    desk = fake_desk()
    _typed(desk, kind="write", place="reach.wanted", text="10, 20°, 0.5 rad")
    assert desk.plan.reach.wanted == pytest.approx((math.radians(10), math.radians(20), 0.5))
    page = client_of(desk).get("/reach").text
    assert "10°, 20°, 28.6479°" in page
    _typed(desk, kind="write", place="reach.wanted", text="")
    assert desk.plan.reach.wanted == ()
    with pytest.raises(PlanError):
        _typed(desk, kind="write", place="reach.wanted", text="10, steep")


def test_beams_fed_together_are_typed_by_their_names():
    second = PLAN[PLAN.index("[[beam]]") :].replace('"20m"', '"low"').replace("16 m", "9 m")
    desk = fake_desk(f"{PLAN}\n{second}")
    assert "reach.stack" not in client_of(fake_desk()).get("/reach").text
    _typed(desk, kind="write", place="reach.stack", text="20m, low")
    _typed(desk, kind="write", place="reach.ring", text="low")
    assert desk.plan.reach.stack == ("20m", "low")
    assert desk.plan.reach.ring == "low"
    with pytest.raises(PlanError):
        _typed(desk, kind="write", place="reach.ring", text="nobody")
    page = client_of(desk).get("/reach").text
    assert 'value="20m, low"' in page


def test_the_sheet_lists_what_the_plan_names():
    text = PLAN + '\n[reach]\ntarget = [{ name = "<b>far</b>", locator = "FN42" }]\n'
    page = client_of(fake_desk(text)).get("/reach").text
    assert "&lt;b&gt;far&lt;/b&gt;: FN42" in page
    assert 'data-place="reach.terrain"' in page
    assert 'data-form="permits.exposure[0]"' in page
    assert 'data-form="reach.target[1]"' in page


def test_the_mark_says_what_is_missing():
    page = client_of(fake_desk()).get("/beam").text
    assert "no place to be reached" in page
