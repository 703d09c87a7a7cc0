"""Messages from the browser: every value checked, nothing odd gets further."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.web.edits import (
    MESSAGE_LIMIT,
    Corner,
    Lengthen,
    Message,
    MessageError,
    Move,
    Tune,
    Write,
    read_message,
)
from boomwright.web.live import coalesce


def message(edit, **more):
    return json.dumps({"seq": 1, "edit": edit, **more})


def test_a_drag_is_read():
    found = read_message(
        message({"kind": "move", "beam": 0, "element": 2, "position": 5.25}, gesture=3)
    )
    assert found == Message(seq=1, gesture=3, edit=Move(beam=0, element=2, position=5.25))


def test_a_corner_is_read_and_overtakes_itself():
    edits = [{"kind": "corner", "beam": 0, "point": 2, "x": x, "y": 1.5} for x in (2.0, 2.1)]
    first, second = (read_message(message(edit, gesture=3)) for edit in edits)
    assert second.edit == Corner(beam=0, point=2, x=2.1, y=1.5)
    assert coalesce([first], second) == [second]
    with pytest.raises(MessageError, match="point"):
        read_message(message({**edits[0], "point": -1}))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        "null",
        "[" * 5000,
        '{"seq": 1, "edit": {"kind": "move", "beam": 0, "element": 0, "position": NaN}}',
        '{"seq": 1, "edit": {"kind": "move", "beam": 0, "element": 0, "position": 1e999}}',
        message({"kind": "move", "beam": 0, "element": 0, "position": "2"}),
        message({"kind": "move", "beam": 0, "element": 0, "position": True}),
        message({"kind": "move", "beam": -1, "element": 0, "position": 2}),
        message({"kind": "move", "beam": 0, "element": 1.5, "position": 2}),
        message({"kind": "move", "beam": 0, "element": 0, "position": 1e6}),
        message({"kind": "write", "place": "beam[0].element[0].at"}),
        message({"kind": "write", "place": "beam[0].element[0].at", "text": "x" * 201}),
        message({"kind": "write", "place": "beam[0].element[0].at", "text": "2\nm"}),
        message({"kind": "write", "place": "__class__", "text": "x"}),
        message({"kind": "write", "place": "../../etc/passwd", "text": "x"}),
        message({"kind": "write", "place": "beam[0].height\n", "text": "x"}),
        message({"kind": "show", "system": "furlongs"}),
        message({"kind": "act", "action": "delete"}),
        message({"kind": "tune", "frequency": -1}),
        message({"kind": "explode"}),
        message({"kind": ["move"]}),
        message({"kind": "raise", "beam": 0, "height": 10**400}),
        message({"kind": "fill", "place": ["reach.target"], "values": {}}),
        message({"kind": "take-out", "place": {"a": 1}}),
        message({"kind": "improve", "action": []}),
        message({"kind": "write", "place": "title", "text": "\ud800"}),
        None,
        json.dumps({"seq": "1", "edit": {"kind": "act", "action": "undo"}}),
        json.dumps({"seq": 1, "edit": "undo"}),
        message({"kind": "write", "place": "title", "text": "x" * MESSAGE_LIMIT}),
    ],
)
def test_odd_messages_are_refused_with_a_reason(text):
    with pytest.raises(MessageError, match=r"\w"):
        read_message(text)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.sampled_from(["seq", "edit", "kind", "beam", "position"]), inner)
        ),
        max_leaves=12,
    )
)
def test_anything_json_is_either_read_or_refused(value):
    try:
        read_message(json.dumps(value))
    except MessageError:
        return


def moved(seq, position, *, gesture=1, element=0):
    edit = Move(beam=0, element=element, position=position)
    return Message(seq=seq, gesture=gesture, edit=edit)


def test_a_later_edit_of_the_same_drag_overtakes():
    waiting: list[Message] = []
    for seq in range(5):
        waiting = coalesce(waiting, moved(seq, float(seq)))
    assert [m.seq for m in waiting] == [4]


@pytest.mark.parametrize(
    "other",
    [
        moved(2, 2.0, gesture=2),
        moved(2, 2.0, element=1),
        moved(2, 2.0, gesture=0),
        Message(seq=2, gesture=1, edit=Lengthen(beam=0, element=0, length=9.0)),
        Message(seq=2, gesture=1, edit=Write(place="title", text="x")),
        Message(seq=2, gesture=1, edit=Tune(frequency=14e6)),
    ],
)
def test_other_edits_are_all_kept(other):
    assert [m.seq for m in coalesce([moved(1, 1.0)], other)] == [1, 2]
