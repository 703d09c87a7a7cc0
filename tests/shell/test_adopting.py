"""A match adopted into the plan: by the command, and by the button of the Feed sheet."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

import pytest

from boomwright.plan import read_plan
from boomwright.study.adopting import adopt_match
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.requests import RequestError
from boomwright.study.weighing import changed_values
from boomwright.web.edits import Act, Adopt, MessageError, read_message
from boomwright.web.proposing import propose
from boomwright.web.view import View
from boomwright.web.workers import Crew
from fakes.command_line import Shell
from fakes.desk import desk_on
from fakes.feed_plans import SPLIT, plan_text

HAIRPIN = (
    '{ kind = "hairpin", gap = "30 mm", rod_diameter = "8 mm", rod_spacing = "80 mm", '
    'rod_length = "15 in" }  # cut by hand'
)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.toml"
    path.write_text(plan_text(HAIRPIN), encoding="utf-8")
    return path


def _told(shell: Shell, *words: object) -> dict:
    ran = shell(*words, "--json")
    assert ran.status == 0, ran.err
    return json.loads(ran.out)


def test_the_command_adopts_the_match_and_everyone_tells_it(shell: Shell, plan: Path) -> None:
    old = plan.read_text()
    made = _told(shell, "feed", plan, "--write")
    (adopted,) = made["adopted"]
    assert made["written"] is True
    assert adopted["before"]["swr_design"] > 1.1
    assert adopted["after"]["match_swr_design"] < 1.05
    new = plan.read_text()
    assert "# cut by hand" in new
    assert (plan.parent / "plan.previous.toml").read_text() == old
    changed = [(a, b) for a, b in zip(old.splitlines(), new.splitlines(), strict=True) if a != b]
    # The feed's line and the tips of the driven element: one length to cut.
    assert len(changed) == 2
    assert ' in"' in changed[0][1]
    driven = read_plan(new).beams[0].elements[1].length
    assert adopted["driven_length_m"][1] == driven
    for command in ("compute", "feed"):
        told = _told(shell, command, plan)["beams"][0]["as_measured"]
        assert told["swr_worst"] == pytest.approx(adopted["after"]["swr_worst"], abs=1e-6)
        assert told["match_proposed"] is False


def test_without_write_the_plan_stays_and_the_comparison_is_shown(shell: Shell, plan: Path) -> None:
    old = plan.read_text()
    ran = shell("feed", plan, "--kind", "quarter-wave")
    assert ran.status == 0
    assert plan.read_text() == old
    for words in ("before", "after", "SWR, worst in band", "Front-to-rear", "tip to tip"):
        assert words in ran.out
    assert "--write adopts this match" in ran.err


@pytest.mark.parametrize("kind", ["gamma", "tee", "folded", "stub", "L-section", "quarter-wave"])
def test_another_kind_takes_the_place_of_the_old_one(kind: str) -> None:
    text = plan_text(SPLIT)
    made = adopt_match(text, read_plan(text), number=0, kind=kind)
    feed = made.plan.beams[0].feed
    assert feed.kind == kind
    (told,) = compute(made.plan, points=3).as_measured
    assert told.swr_design == pytest.approx(made.after.swr_design, abs=1e-9)
    assert not made.after.proposed
    if kind not in {"folded"}:
        assert made.after.match.swr < 1.1
    # And back to a hairpin: nothing of the other kind is left behind.
    back = adopt_match(made.text, made.plan, number=0, kind="hairpin")
    assert back.plan.beams[0].feed.kind == "hairpin"
    assert back.after.match.swr < 1.1


def test_an_unknown_kind_is_refused_with_those_there_are(shell: Shell, plan: Path) -> None:
    text = plan.read_text()
    with pytest.raises(RequestError, match="hairpin"):
        adopt_match(text, read_plan(text), number=0, kind="magic")
    ran = shell("feed", plan, "--write", "--kind", "magic")
    assert ran.status == 2
    assert plan.read_text() == text


def test_the_button_writes_the_same_and_one_undo_takes_it_back(shell: Shell, plan: Path) -> None:
    old = plan.read_text()
    desk = desk_on(plan)
    message = read_message('{"seq": 1, "edit": {"kind": "adopt", "beam": 0}}')
    assert message.edit == Adopt(beam=0)
    desk.apply(message.edit, gesture=0)
    assert desk.undo_label == "match of 15m adopted"
    told = desk.measured(0)
    assert told.swr_worst[0] == pytest.approx(
        feed_plan(read_plan(desk.text)).beams[0].measured.swr_worst[0], abs=1e-6
    )
    text = desk.text
    desk.apply(Act(action="undo"), gesture=0)
    assert desk.text == old
    assert shell("feed", plan, "--write").status == 0
    assert plan.read_text() == text


def test_a_proposal_is_shown_in_what_is_measured_and_changes_nothing(plan: Path) -> None:
    old = plan.read_text()
    desk = desk_on(plan)
    asked = read_message(
        '{"seq": 1, "edit": {"kind": "propose", "edit": {"kind": "adopt", "beam": 0}}}'
    )
    told: list[dict[str, object]] = []

    async def say(message: dict[str, object]) -> None:
        told.append(message)

    asyncio.run(propose(asked.edit, desk=desk, crew=Crew(), view=View(), say=say))
    assert desk.text == old
    figures, changes = told[0]["tables"]
    swr, *_ = figures["rows"]
    before = desk.measured(0).swr_worst[0]
    desk.apply(asked.edit.edit, gesture=0)
    assert swr[1:] == (f"{before:.2f}", f"{desk.measured(0).swr_worst[0]:.2f}")
    # Every value that was written is named, with what stands in the file.
    values = {value.name: value.after for value in changed_values(old, desk.text)}
    assert {row[0]: row[2] for row in changes["rows"]} == values
    assert any("rod length" in name for name in values)
    undo = '{"seq": 1, "edit": {"kind": "propose", "edit": {"kind": "act", "action": "undo"}}}'
    with pytest.raises(MessageError):
        read_message(undo)
