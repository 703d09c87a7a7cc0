"""Files: atomic, the previous one kept, nobody else's change overwritten."""

from __future__ import annotations

import io
import os
import stat
import sys
from pathlib import Path

import pytest

from boomwright.base import PlanError, SaveConflictError
from boomwright.session.files import (
    FileRefusedError,
    PlanFolder,
    load_plan,
    previous_path,
    save_bytes,
    save_text,
)
from boomwright.session.new_plan import make_plan
from fakes.special_files import SPECIAL, special_file, within

PLAN = """boomwright = 1
title = "Two elements"
[site]
ground = "free space"
[[beam]]
name = "a"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "10 m"
heading = "90 deg"
material = "perfect"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "20 mm"
  length = "10.5 m"
  [[beam.element]]
  role = "driven"
  at = "2.5 m"
  diameter = "20 mm"
  length = "10.0 m"
"""


def files(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_load_keeps_text_and_tells_versions_apart(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(PLAN.replace("\n", "\r\n").encode())
    loaded = load_plan(path)
    assert loaded.text == PLAN.replace("\n", "\r\n")
    assert loaded.plan.title == "Two elements"
    path.write_text(PLAN, encoding="utf-8")
    again = load_plan(str(path))
    assert len(again.digest) == 16
    assert again.digest != loaded.digest


def test_load_from_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(PLAN.encode())))
    loaded = load_plan("-")
    assert loaded.path is None
    assert loaded.text == PLAN


def test_faults_name_the_file(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(PLAN.replace("14.175", "14,175"), encoding="utf-8")
    with pytest.raises(PlanError) as caught:
        load_plan(path)
    assert caught.value.source == str(path)


@pytest.mark.skipif(os.name != "posix", reason="devices and pipes as on POSIX")
@pytest.mark.parametrize("kind", SPECIAL)
def test_only_regular_files_are_read(tmp_path: Path, kind: str) -> None:
    path = special_file(tmp_path, kind)
    with within(10.0), pytest.raises(FileRefusedError, match="-> name a regular file") as caught:
        load_plan(path)
    assert str(path) in str(caught.value)


def test_no_more_is_read_of_a_file_than_its_kind_may_have(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plan.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000_000)
    taken = []
    real = os.read
    monkeypatch.setattr(os, "read", lambda *given: taken.append(real(*given)) or taken[-1])
    with pytest.raises(FileRefusedError, match=r"plan\.toml: is larger than the 1 MB"):
        load_plan(path)
    assert sum(map(len, taken)) == 1_000_001


@pytest.mark.parametrize(
    "name", ["../out.csv", "/etc/hostname", "link.csv", "folder/../../x", "a\0"]
)
def test_no_name_leads_out_of_a_closed_folder(tmp_path: Path, name: str) -> None:
    home = tmp_path / "plans"
    home.mkdir()
    (tmp_path / "out.csv").write_text("0,1\n")
    (home / "link.csv").symlink_to(tmp_path / "out.csv")
    with pytest.raises(FileRefusedError, match=r"reach\.terrain.*-> copy the file beside the plan"):
        PlanFolder(home, closed=True).find(name, place="reach.terrain")


def test_names_within_a_closed_folder_are_found(tmp_path: Path) -> None:
    (tmp_path / "deep").mkdir()
    (tmp_path / "here.csv").write_text("0,1\n")
    (tmp_path / "deep" / "link.csv").symlink_to(tmp_path / "here.csv")
    found = PlanFolder(tmp_path, closed=True).find("deep/link.csv", place="reach.terrain")
    assert found == (tmp_path / "here.csv").resolve()
    # The terminal is the owner's own: there a plan may name any file.
    assert PlanFolder(tmp_path).find("../x.csv", place="reach.terrain") == tmp_path / ".." / "x.csv"


def test_save_keeps_the_previous_file_and_leaves_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    save_text(path, "one", expected=None)
    save_text(path, "two", expected="one")
    save_text(path, "three", expected="two")
    assert path.read_text(encoding="utf-8") == "three"
    assert previous_path(path).read_text(encoding="utf-8") == "two"
    assert files(tmp_path) == {"plan.toml", "plan.previous.toml"}


def test_saving_the_same_again_keeps_the_older_previous_file(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    save_text(path, "one", expected=None)
    save_text(path, "two", expected="one")
    save_text(path, "two", expected="two")
    assert previous_path(path).read_text(encoding="utf-8") == "one"


def test_save_refuses_when_the_file_was_changed_elsewhere(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text("theirs", encoding="utf-8")
    with pytest.raises(SaveConflictError) as caught:
        save_text(path, "mine", expected="ours")
    assert caught.value.text == "theirs"
    assert path.read_text(encoding="utf-8") == "theirs"
    assert files(tmp_path) == {"plan.toml"}


def test_save_refuses_when_the_file_is_gone_or_unexpected(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    with pytest.raises(SaveConflictError):
        save_text(path, "mine", expected="ours")
    path.write_text("theirs", encoding="utf-8")
    with pytest.raises(SaveConflictError):
        save_text(path, "mine", expected=None)
    assert path.read_text(encoding="utf-8") == "theirs"


@pytest.mark.parametrize("step", ["replace", "fsync"])
def test_a_failure_half_way_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "plan.toml"
    path.write_text("old", encoding="utf-8")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((Path, "replace") if step == "replace" else (os, "fsync")), fail)
    with pytest.raises(OSError, match="No space"):
        save_text(path, "new", expected="old")
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "old"
    assert files(tmp_path) == {"plan.toml"}


@pytest.mark.skipif(os.name != "posix", reason="modes and links as on POSIX")
def test_save_keeps_the_mode_and_follows_a_link(tmp_path: Path) -> None:
    real = tmp_path / "real.toml"
    real.write_text("old", encoding="utf-8")
    real.chmod(0o640)
    link = tmp_path / "link.toml"
    link.symlink_to(real)
    save_text(link, "new", expected="old")
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == "new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_made_files_never_replace_a_plan(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text("plan", encoding="utf-8")
    with pytest.raises(FileRefusedError, match="never replaces a plan"):
        save_bytes(path, b"book")
    save_bytes(tmp_path / "deep" / "book.pdf", b"book")
    assert (tmp_path / "deep" / "book.pdf").read_bytes() == b"book"


def test_a_new_plan_never_replaces_a_file(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    make_plan(path, "one")
    with pytest.raises(FileRefusedError, match="exists and is kept"):
        make_plan(path, "two")
    with pytest.raises(FileRefusedError, match=r"ending in \.toml"):
        make_plan(tmp_path / "plan.txt", "one")
    assert path.read_text(encoding="utf-8") == "one"
