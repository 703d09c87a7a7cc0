"""Undo outlives the program, however it ended."""

from __future__ import annotations

import json

import pytest

from boomwright.web import PlanDesk
from boomwright.web.edits import Act, Raise
from boomwright.web.history import KEPT, packed, unpacked
from boomwright.web.saving import Step
from fakes.desk import FakeSession


def desk_of(tools):
    return PlanDesk(session=tools, name="plan.toml", text=tools.file)


def raised(desk, *heights):
    for height in heights:
        desk.apply(Raise(beam=0, height=height), gesture=0)


def height(desk):
    return desk.plan.beams[0].height


def test_after_a_restart_every_saved_step_can_be_undone_and_done_again():
    tools = FakeSession()
    desk = desk_of(tools)
    raised(desk, 17.0, 18.0, 19.0)
    desk.apply(Act(action="undo"), gesture=0)
    desk.save()
    again = desk_of(tools)
    assert height(again) == pytest.approx(18.0)
    again.apply(Act(action="redo"), gesture=0)
    assert height(again) == pytest.approx(19.0)
    for wanted in (18.0, 17.0, 16.0):
        again.apply(Act(action="undo"), gesture=0)
        assert height(again) == pytest.approx(wanted)
    assert again.undo_label == ""


def test_an_end_between_history_and_plan_leaves_the_missing_edits_to_be_done_again():
    tools = FakeSession()
    desk = desk_of(tools)
    raised(desk, 17.0)
    desk.save()
    raised(desk, 18.0, 19.0)
    before, tools.broken_disk = tools.file, True
    assert desk.save().state == "failed"
    tools.broken_disk = False
    assert tools.file == before
    again = desk_of(tools)
    assert height(again) == pytest.approx(17.0)
    for wanted in (18.0, 19.0):
        again.apply(Act(action="redo"), gesture=0)
        assert height(again) == pytest.approx(wanted)
    for wanted in (18.0, 17.0, 16.0):
        again.apply(Act(action="undo"), gesture=0)
        assert height(again) == pytest.approx(wanted)


def test_a_file_changed_meanwhile_starts_without_a_past():
    tools = FakeSession()
    desk = desk_of(tools)
    raised(desk, 17.0)
    desk.save()
    tools.file = tools.file.replace("Three elements", "Another")
    again = desk_of(tools)
    assert again.undo_label == ""
    assert again.redo_label == ""


@pytest.mark.parametrize(
    "kept",
    [
        "",
        "null",
        "{",
        '{"now": "b"}',
        '{"now": "b", "undo": [["a"]], "redo": []}',
        '{"now": "b", "undo": [[1, 2]], "redo": []}',
        '{"now": "b", "undo": 7, "redo": []}',
        "[" * 99_999,
    ],
)
def test_a_spoilt_history_counts_as_none(kept):
    assert unpacked(kept, now="b") == ([], [])


def test_no_more_than_the_nearest_steps_are_kept():
    steps = [Step(text=str(n), label="step") for n in range(KEPT + 5)]
    kept = packed(now="now", undo=steps, redo=steps)
    undo, redo = unpacked(kept, now="now")
    assert undo == redo == steps[-KEPT:]
    assert len(json.loads(kept)["undo"]) == KEPT
