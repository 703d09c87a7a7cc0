"""``boomwright reach``: table, document, statuses."""

from __future__ import annotations

import json

import pytest

from fakes.desk import PLAN

TRANSMITTER = """
[transmitter]
power = "400 W"

[permits]
  [[permits.exposure]]
  place = "roof walk"
  distance = "3 m"
  height = "15 m"
"""


@pytest.fixture
def plan(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(PLAN, encoding="utf-8")
    return path


def test_the_table_tells_lobes_splits_and_what_is_missing(shell, plan):
    ran = shell("reach", plan, "--full")
    assert ran.status == 0
    for told in (
        "strongest lobe",
        "there are 2 lobes",
        "vertical with 32 radials",
        "[transmitter]",
    ):
        assert told in ran.out


def test_the_pictures_are_written_in_the_units_asked_for(shell, plan, tmp_path):
    ran = shell("reach", plan, "--json", "--figures", tmp_path / "svg", "--system", "us")
    assert ran.status == 0
    json.loads(ran.out)
    names = {path.name for path in (tmp_path / "svg").iterdir()}
    assert {
        "20m-reach-heights.svg",
        "20m-reach-height-map.svg",
        "20m-reach-lobe-steps.svg",
        "20m-reach-plain-antennas.svg",
    } <= names
    assert " ft<" in (tmp_path / "svg" / "20m-reach-heights.svg").read_text(encoding="utf-8")


def test_the_document_is_one_and_nothing_else(shell, plan):
    ran = shell("reach", plan, "--json")
    document = json.loads(ran.out)
    assert ran.status == 0
    assert ran.err == ""
    beam = document["beams"][0]
    assert len(beam["heights"]) == 60
    assert beam["heights"][0]["lobes"]
    assert {a["over"] for a in beam["advantages"]} == {
        "half-wave dipole at the same height",
        "half-wave dipole at 10 m",
        "quarter-wave vertical over 32 radials",
    }
    assert beam["exposure"] is None


def test_strict_ends_with_three_when_people_are_over_a_limit(shell, plan):
    text = PLAN.replace("medium dry", "perfect") + TRANSMITTER
    plan.write_text(text, encoding="utf-8")
    ran = shell("reach", plan, "--strict")
    assert ran.status == 3
    assert "roof walk" in ran.out
    assert "limit exceeded" in ran.err
    assert shell("reach", plan).status == 0


def test_free_space_is_refused_with_a_remedy(shell, plan):
    plan.write_text(PLAN.replace("medium dry", "free space"), encoding="utf-8")
    ran = shell("reach", plan)
    assert ran.status == 2
    assert "medium dry" in ran.err
