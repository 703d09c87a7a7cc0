"""The Reach sheet: page and document from one context, nothing injected."""

from __future__ import annotations

import dataclasses

from starlette.testclient import TestClient

from boomwright.base import BoomwrightError
from boomwright.web import create_app
from boomwright.web.guard import cookie_name
from boomwright.web.sheets.reach_context import ReachContext
from fakes.desk import PLAN, fake_desk

KEY = "a-key-for-tests"


def _client(desk):
    app = create_app(desk, key=KEY)
    return TestClient(app, base_url="http://127.0.0.1:8765", cookies={cookie_name(KEY): KEY})


def test_the_page_answers_at_once_and_says_that_it_computes():
    desk = fake_desk()
    answer = _client(desk).get("/reach")
    assert answer.status_code == 200
    assert "Computing heights" in answer.text
    assert getattr(desk.tools, "reached", 0) == 0


def test_the_document_holds_the_context_field_by_field():
    answer = _client(fake_desk()).get("/reach.json")
    assert answer.status_code == 200
    document = answer.json()
    sheet = document.get("sheet", document)
    assert set(sheet) >= {field.name for field in dataclasses.fields(ReachContext)}
    assert sheet["ready"] is True
    assert sheet["figures"]["people-level"].startswith("<svg")


def test_once_computed_the_page_shows_it_and_computes_no_more():
    desk = fake_desk()
    client = _client(desk)
    client.get("/reach.json")
    page = client.get("/reach").text
    for told in ("Who stands near it", "Take-off angle", "Fields can harm.", "A note."):
        assert told in page
    assert desk.tools.reached == 1


def test_every_field_of_the_context_has_its_help():
    assert all(field.metadata.get("help") for field in dataclasses.fields(ReachContext))


def test_a_hostile_name_stays_text():
    hostile = PLAN.replace('name = "20m"', 'name = "<img src=x onerror=alert(1)>"')
    client = _client(fake_desk(hostile))
    client.get("/reach.json")
    assert "<img src=x" not in client.get("/reach").text


def test_a_refusal_is_shown_with_its_remedy():
    desk = fake_desk()

    def refuse(*_, **__):
        raise BoomwrightError("reach needs a ground: write ground = <medium dry>")

    desk.tools.reach = refuse
    client = _client(desk)
    client.get("/reach.json")
    page = client.get("/reach").text
    assert "reach needs a ground" in page
    assert "&lt;medium dry&gt;" in page


def test_the_mark_says_what_is_missing():
    page = _client(fake_desk()).get("/beam").text
    assert "no place to be reached" in page
