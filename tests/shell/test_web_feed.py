"""The Feed sheet: page and document from one context, cautions first, nothing injected."""

from __future__ import annotations

import dataclasses

from boomwright.feed import FEED_CAUTIONS
from boomwright.render.laid import lay_out
from boomwright.report.feed import feed_report
from boomwright.web.sheets.feed_context import FeedContext
from fakes.client import client_of
from fakes.desk import PLAN, fake_desk
from fakes.feed_plans import GAMMA, plan_text, solved


def _desk(text: str = PLAN):
    desk = fake_desk(text)
    desk.session.solved = 0

    def feed(plan, *, number, canvas):
        desk.session.solved += 1
        return lay_out(feed_report(solved(GAMMA), number=0), canvas=canvas)

    desk.session.feed = feed
    desk.session.feed_touchstone = lambda plan, *, end: f"! {end}\n# Hz S RI R 50\n".encode()
    return desk


def test_the_page_answers_at_once_with_the_cautions_and_says_that_it_computes():
    desk = _desk()
    answer = client_of(desk).get("/feed")
    assert answer.status_code == 200
    assert "Solving match, line and braid" in answer.text
    for notice in FEED_CAUTIONS:
        assert notice.text.replace("'", "&#39;") in answer.text
    assert desk.session.solved == 0


def test_the_document_holds_the_context_field_by_field():
    document = client_of(_desk()).get("/feed.json").json()
    assert set(document) == {"frame", *(field.name for field in dataclasses.fields(FeedContext))}
    assert document["ready"] is True
    assert document["figures"]["match"].startswith("<svg")
    assert {group for group, *_ in document["groups"]} == {
        "match", "turning", "power", "line", "braid", "kinds",
    }  # fmt: skip


def test_once_computed_the_page_shows_it_and_computes_no_more():
    desk = _desk()
    client = client_of(desk)
    client.get("/feed.json")
    page = client.get("/feed").text
    for told in ("What to cut", "At the antenna", "Outside of the line", "buy a capacitor for"):
        assert told in page
    assert desk.session.solved == 1


def test_what_the_plan_lacks_is_named_with_a_button_for_its_form():
    page = client_of(_desk()).get("/feed").text
    for place in ("beam[0].feed", "line", "transmitter"):
        assert f'data-form="{place}"' in page
    assert "[line]" not in page
    assert "fed straight at its split" in page


def test_values_the_plan_has_may_be_typed():
    page = client_of(_desk(plan_text(GAMMA))).get("/feed").text
    for place in ("beam[0].feed.rod_spacing", "line.length", "transmitter.power"):
        assert f'data-place="{place}"' in page


def test_the_mark_follows_the_plan():
    assert "the plan has no line" in client_of(_desk()).get("/beam").text
    assert "match without its length" in client_of(_desk(plan_text(GAMMA))).get("/beam").text


def test_both_ends_are_fetched_as_files():
    client = client_of(_desk())
    for end in ("feed-point", "shack"):
        answer = client.get(f"/{end}.s1p")
        assert answer.status_code == 200
        assert answer.text.startswith(f"! {end}")
        assert f"-{end}.s1p" in answer.headers["content-disposition"]


def test_every_field_of_the_context_has_its_help():
    assert all(field.metadata.get("help") for field in dataclasses.fields(FeedContext))


def test_a_hostile_name_stays_text():
    hostile = PLAN.replace('name = "20m"', 'name = "<img src=x onerror=alert(1)>"')
    assert "<img src=x" not in client_of(_desk(hostile)).get("/feed").text
