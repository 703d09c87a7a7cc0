"""``boomwright feed``: tables, document, files, statuses."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from boomwright.base import Notice
from boomwright.plan import read_plan
from boomwright.solver import prepare_run
from boomwright.study.as_measured import measure_beam
from boomwright.study.search_match import wish_missed
from fakes.command_line import Shell
from fakes.feed_plans import GAMMA, SPLIT, plan_text, solved

FEED_PLAN = "boomwright.study.feed.feed_plan"


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A plan with a gamma, solved once for all of these tests."""
    path = tmp_path / "plan.toml"
    path.write_text(plan_text(GAMMA), encoding="utf-8")
    monkeypatch.setattr(FEED_PLAN, lambda _plan: solved(GAMMA))
    return path


def test_the_table_says_what_to_cut_what_it_stands_and_what_the_radio_sees(
    shell: Shell, plan: Path
) -> None:
    ran = shell("feed", plan, "--full")
    assert ran.status == 0
    for told in (
        "Feed of 15m",
        "the proposal as solved in the field, and circuit equations",
        "series capacitor",
        "buy a capacitor for",
        "what to turn first",
        "30.00 m of RG-213",
        "bypassed",
        "5 kohm",
        "Every kind of feed",
        "delay, °",
    ):
        assert told in ran.out
    for caution in ("burns deeply", "carry kilovolts", "disconnect and move the line"):
        assert caution in " ".join(ran.out.split())


def test_the_document_is_all_that_is_printed(shell: Shell, plan: Path) -> None:
    ran = shell("feed", plan, "--json")
    document = json.loads(ran.out)
    (beam,) = document["beams"]
    assert beam["kind"] == "gamma"
    assert beam["proposed"]["swr"] < 1.05
    assert {row["unit"] for row in beam["proposed"]["comparisons"]} == {"m", "F"}
    assert beam["line"]["type"] == "RG-213"
    assert {choke["choke"] for choke in beam["braid"][0]["chokes"]} >= {"bypassed", "5 kohm"}
    assert ran.err == ""


def test_us_lengths(shell: Shell, plan: Path) -> None:
    assert " ft " in shell("feed", plan, "--system", "us").out


def test_files_of_both_ends(shell: Shell, plan: Path, tmp_path: Path) -> None:
    folder = tmp_path / "sweeps"
    ran = shell("feed", plan, "--touchstone", folder)
    assert ran.status == 0
    names = {path.name for path in folder.iterdir()}
    assert names == {"15m-bare-feed-point.s1p", "15m-feed-point.s1p", "15m-shack.s1p"}
    assert "# Hz S RI R 50" in (folder / "15m-shack.s1p").read_text(encoding="ascii")


def test_a_limit_ends_with_three_under_strict_only(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    over = Notice(code="feed.swr-at-radio", text="too high here", severity="limit")
    result = solved(GAMMA)
    held = replace(result, beams=(replace(result.beams[0], notices=(over,)),))
    monkeypatch.setattr(FEED_PLAN, lambda _plan: held)
    assert shell("feed", plan).status == 0
    ran = shell("feed", plan, "--strict")
    assert ran.status == 3
    assert "too high here" in ran.err


def test_a_bad_plan_ends_with_two(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(plan_text('{ kind = "gamma", gap = "x" }'), encoding="utf-8")
    assert shell("feed", path).status == 2


def test_a_plan_without_line_names_what_to_add(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(FEED_PLAN, lambda _plan: solved(SPLIT, station=False))
    said = " ".join(shell("feed", plan).out.split())
    assert '[line] type = "RG-213"' in said
    assert '[transmitter] power = "400 W"' in said


#: untrimmed 24.4 dB; its hairpin has the driven element cut 263 mm longer, which leaves 23.5 dB
TRIMMED = """boomwright = 1
title = "Ordered trim"
[site]
ground = "free space"
[[beam]]
name = "15m"
band = ["21.00 MHz", "21.30 MHz"]
design = "21.15 MHz"
height = "12 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "hairpin", gap = "20 mm", rod_diameter = "6 mm", rod_spacing = "60 mm" }
[[beam.element]]
role = "reflector"
at = "0 m"
diameter = "22 mm"
length = "6.982 m"
[[beam.element]]
role = "driven"
at = "2.147 m"
diameter = "22 mm"
length = "6.316 m"
[[beam.element]]
role = "director"
at = "4.565 m"
diameter = "22 mm"
length = "6.316 m"
[wish]
front_to_rear = "24 dB"
"""


def test_a_limit_of_the_wish_that_the_ordered_trim_breaks_fails_strict(
    shell: Shell, tmp_path: Path
) -> None:
    plan = tmp_path / "trimmed.toml"
    plan.write_text(TRIMMED, encoding="utf-8")
    ran = shell("feed", plan, "--strict")
    assert ran.status == 3
    assert "the front-to-rear ratio misses its limit" in " ".join(ran.out.split())
    # Written into the plan it is still what is built.
    assert shell("feed", plan, "--write", "--strict").status == 3
    text = plan.read_text(encoding="utf-8")
    assert 'length = "6.316 m"' not in text.split('role = "director"')[0]
    for wished, missed in (("24 dB", True), ("23 dB", False)):
        built = read_plan(text.replace("24 dB", wished))
        measured = measure_beam(built, built.beams[0])
        assert bool(wish_missed(built, measured, prepare=prepare_run)) == missed
