"""``boomwright advise``: from a place file to the plan of a station, and what others say of it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import boomwright as bw

PLACE = """boomwright = 1
title = "Terraced house behind the dike"

[site]
position = "53.10 N, 7.20 E"
ground = "wet"
wind = "25 m/s"
ice = "0 mm"

[site.wind_basis]
kind = "characteristic"
edition = "DIN EN 1991-1-4"
terrain = "II"
orography = 1

[place]
bands = ["10 m"]
highest = "5 m"
lot = ["14 m", "11 m"]

[reach]
target = [{ name = "Azores", position = "38.5 N, 28.0 W" }]
"""


@pytest.fixture
def place(tmp_path: Path) -> Path:
    path = tmp_path / "place.toml"
    path.write_text(PLACE, encoding="utf-8")
    return path


def test_from_a_place_to_a_plan(shell, place):
    plan, prices = place.with_name("plan.toml"), place.with_name("prices.csv")
    ran = shell("advise", place, "--workers", "1", "--out", plan, "--blank", prices)
    assert ran.status == 0, ran.err
    assert ran.out.count("\n") <= 40
    assert "hexagon-shaped wire beam" in ran.out
    assert "item,unit,low" in prices.read_text(encoding="utf-8")
    assert shell("check", plan).status == 0
    # The figures of the table are those of the plan as every other command sees it.
    made = bw.advise(bw.load(place, place=True))
    chosen = made.candidates[made.picks[-1].number]
    assert bw.load(plan) == chosen.plan
    assert bw.check_structure(bw.load(plan)).report.ledger


def test_where_none_can_be_written_it_is_told_what_stops_each(shell, place):
    text = PLACE.replace('highest = "5 m"', 'highest = "0.5 m"')
    place.write_text(text, encoding="utf-8")
    proposal = place.with_name("proposal.pdf")
    out = ("--out", place.with_name("plan.toml"), "--proposal", proposal)
    ran = shell("advise", place, "--workers", "1", "--full", *out)
    assert ran.status == 2
    assert "no station keeps every limit -> choose one by its number" in ran.err
    assert "× exceeded" in ran.out
    assert proposal.exists()
    assert not place.with_name("plan.toml").exists()


def test_json_is_one_document(shell, place):
    ran = shell("advise", place, "--workers", "1", "--json")
    document = json.loads(ran.out)
    numbers = [each["number"] for each in document["candidates"]]
    assert numbers == [*range(1, len(numbers) + 1)]
    assert max(each["height_m"] for each in document["candidates"]) == pytest.approx(4.9)
    assert document["targets"] == ["Azores"]


@pytest.mark.parametrize("command", ["check", "compute", "feed", "reach", "structure", "cost"])
def test_other_commands_ask_for_an_antenna(shell, place, command):
    ran = shell(command, place)
    assert ran.status == 2
    assert "there is no antenna yet" in ran.err
    assert "boomwright advise" in ran.err
    assert "boomwright new" in ran.err


def test_a_plan_without_a_place_is_told_what_to_add(shell, place):
    place.write_text(PLACE.replace("[place]", "[wish]").split("bands")[0], encoding="utf-8")
    ran = shell("advise", place)
    assert ran.status == 2
    assert "add [place]" in ran.err
