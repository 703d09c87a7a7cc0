"""What is remembered between runs: tolerant of everything that may have become of it."""

from __future__ import annotations

import json
import stat

import pytest

from boomwright.session.user_state import UserState, state_folder


def plan(folder, name):
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("boomwright = 1\n")
    return path


def test_recent_plans_come_last_opened_first_and_once(tmp_path):
    memory = UserState(tmp_path / "state")
    one, two = plan(tmp_path, "one.toml"), plan(tmp_path, "two.toml")
    for path in (one, two, one):
        memory.note(path)
    assert [each.path for each in UserState(tmp_path / "state").recent()] == [one, two]


def test_plans_that_are_gone_are_left_out_and_come_back_with_their_file(tmp_path):
    memory = UserState(tmp_path / "state")
    one, two = plan(tmp_path, "one.toml"), plan(tmp_path, "two.toml")
    memory.note(one)
    memory.note(two)
    two.unlink()
    assert [each.path for each in memory.recent()] == [one]
    plan(tmp_path, "two.toml")
    assert [each.path for each in memory.recent()] == [two, one]


def test_no_more_than_twenty_are_remembered(tmp_path):
    memory = UserState(tmp_path / "state")
    for number in range(25):
        memory.note(plan(tmp_path, f"{number}.toml"))
    assert [each.path.stem for each in memory.recent()] == [str(n) for n in range(24, 4, -1)]


@pytest.mark.parametrize(
    "spoilt", ["", "{", "null", "[[1]]", '[["a.toml"]]', '[["a.toml", "yesterday"]]', "[" * 9999]
)
def test_a_spoilt_list_counts_as_empty_and_is_written_anew(tmp_path, spoilt):
    memory = UserState(tmp_path)
    (tmp_path / "recent.json").write_text(spoilt)
    assert memory.recent() == ()
    memory.note(plan(tmp_path, "one.toml"))
    assert len(memory.recent()) == 1


def test_a_folder_that_cannot_be_written_is_no_trouble(tmp_path):
    (tmp_path / "state").write_text("a file where a folder should be")
    memory = UserState(tmp_path / "state")
    memory.note(plan(tmp_path, "one.toml"))
    memory.keep_history(tmp_path / "one.toml", "{}")
    assert memory.recent() == ()
    assert memory.load_history(tmp_path / "one.toml") == ""


def test_each_plan_has_its_own_history_which_only_its_owner_reads(tmp_path):
    memory = UserState(tmp_path / "state")
    one, two = plan(tmp_path, "a/plan.toml"), plan(tmp_path, "b/plan.toml")
    memory.keep_history(one, "first")
    memory.keep_history(two, "second")
    assert memory.load_history(one) == "first"
    assert memory.load_history(two) == "second"
    for kept in (tmp_path / "state" / "undo").iterdir():
        assert stat.S_IMODE(kept.stat().st_mode) == 0o600


def test_old_histories_make_room(tmp_path):
    memory = UserState(tmp_path / "state")
    for number in range(45):
        memory.keep_history(tmp_path / f"{number}.toml", json.dumps(number))
    assert len(list((tmp_path / "state" / "undo").iterdir())) == 40
    assert memory.load_history(tmp_path / "44.toml") == "44"


def test_the_state_folder_follows_the_base_directories(monkeypatch, tmp_path):
    # XDG Base Directory Specification 0.8: $XDG_STATE_HOME, by default ~/.local/state.
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert state_folder() == tmp_path / "boomwright"
    monkeypatch.delenv("XDG_STATE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert state_folder() == tmp_path / ".local" / "state" / "boomwright"
