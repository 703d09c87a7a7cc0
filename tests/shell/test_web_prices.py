"""The owner's price list on the page: typed into, dropped, and undone like everything else."""

from __future__ import annotations

import json

import pytest
from starlette.testclient import TestClient

from boomwright.base import PlanError
from boomwright.cost import read_prices
from boomwright.session.files import packaged_text
from boomwright.web import create_app
from boomwright.web.edits import Act, MessageError, read_message
from boomwright.web.history import packed, unpacked
from fakes.desk import desk_on

OWN = """# mine
item,unit,low,likely,high,currency,supplier,dated,shelf
concrete,m3,90,120,150,EUR,"yard, old",2026-01-31,B4
"""
ORIGIN = {"origin": "http://127.0.0.1:8765"}


@pytest.fixture
def made(tmp_path):
    text = packaged_text("demo.toml")
    path = tmp_path / "plan.toml"
    (tmp_path / "prices.csv").write_text(OWN, encoding="utf-8")
    return desk_on(path, text), tmp_path / "prices.csv"


def typed(**cells):
    empty = dict.fromkeys(("item", "unit", "low", "likely", "high", "supplier", "dated"), "")
    edit = {"kind": "price", "cells": empty | cells}
    return read_message(json.dumps({"seq": 1, "edit": edit})).edit


def test_a_typed_price_changes_its_row_and_nothing_else(made):
    desk, path = made
    amounts = {"low": "100", "likely": "130", "high": "160"}
    price = typed(item="Concrete", unit="m3", supplier="yard", dated="2026-06-01", **amounts)
    desk.apply(price, gesture=0)
    assert path.read_text() == OWN.replace(
        'concrete,m3,90,120,150,EUR,"yard, old",2026-01-31,B4',
        "Concrete,m3,100,130,160,EUR,yard,2026-06-01,B4",
    )
    desk.apply(typed(item="rope", unit="m", likely="2.5"), gesture=0)
    rope = next(each for each in read_prices(path.read_text()) if each.item == "rope")
    assert (rope.low, rope.likely, rope.high, rope.currency) == (2.5, 2.5, 2.5, "GBP")
    assert len(rope.dated) == len("2026-01-31")
    assert desk.undo_label == "price of rope typed"
    for _ in range(2):
        desk.apply(Act(action="undo"), gesture=0)
    assert path.read_text() == OWN
    desk.apply(Act(action="redo"), gesture=0)
    assert "Concrete,m3,100" in path.read_text()


def test_the_steps_outlive_the_program(made):
    desk, _ = made
    desk.apply(typed(item="rope", unit="m", likely="2.5"), gesture=0)
    undo, _ = unpacked(packed(now=desk.text, undo=desk._undo, redo=()), now=desk.text)
    assert undo[-1].beside.after == OWN


def test_a_refused_price_leaves_the_file_as_it_was(made):
    desk, path = made
    for cells in (
        {"likely": "a lot"},
        {"likely": "5", "low": "9"},
        {"likely": "5", "dated": "May"},
    ):
        with pytest.raises(PlanError) as refused:
            desk.apply(typed(item="rope", unit="m", **cells), gesture=0)
        assert refused.value.faults[0].path.split(".")[-1] in {"likely", "low", "dated"}
    assert path.read_text() == OWN


def test_what_somebody_else_wrote_into_the_list_is_never_undone(made):
    desk, path = made
    desk.apply(typed(item="rope", unit="m", likely="2.5"), gesture=0)
    path.write_text(path.read_text() + "# a note of mine\n")
    with pytest.raises(PlanError) as refused:
        desk.apply(Act(action="undo"), gesture=0)
    assert "changed elsewhere" in refused.value.faults[0].message
    assert "# a note of mine" in path.read_text()
    assert desk.undo_label == "price of rope typed"


def test_the_first_price_makes_the_file_that_the_plan_names(made):
    desk, path = made
    path.unlink()
    desk.apply(typed(item="rope", unit="m", likely="2.5"), gesture=0)
    assert [each.item for each in read_prices(path.read_text())] == ["rope"]
    desk.apply(Act(action="undo"), gesture=0)
    assert read_prices(path.read_text()) == ()
    desk.apply(Act(action="redo"), gesture=0)
    assert [each.item for each in read_prices(path.read_text())] == ["rope"]


def test_a_list_that_is_dropped_is_named_in_the_plan(made):
    desk, path = made
    client = TestClient(create_app(desk, key="k"), base_url="http://127.0.0.1:8765")
    client.get("/beam?key=k")
    rows = client.get("/prices").text
    assert 'data-item="concrete"' in rows
    assert 'value="B4"' not in rows
    given = OWN.replace("120", "125")
    answer = client.post("/prices.json", params={"name": "may.csv"}, content=given, headers=ORIGIN)
    assert answer.status_code == 200, answer.text
    assert path.with_name("may.csv").read_text() == given
    assert desk.plan.prices.price_list == "may.csv"
    desk.apply(Act(action="undo"), gesture=0)
    assert desk.plan.prices.price_list == "prices.csv"
    for name, content, status in (
        ("../up.csv", given, 422),
        (".hidden.csv", given, 422),
        ("plan.toml", given, 422),
        ("odd.csv", "no list at all", 422),
    ):
        answer = client.post("/prices.json", params={"name": name}, content=content, headers=ORIGIN)
        assert answer.status_code == status, (name, answer.text)
    assert not path.with_name("odd.csv").exists()


def test_a_price_outside_the_pages_own_rules_is_refused():
    with pytest.raises(MessageError):
        read_message(json.dumps({"seq": 1, "edit": {"kind": "price", "cells": {"item": 3}}}))
    with pytest.raises(MessageError):
        typed(item="x" * 201)
