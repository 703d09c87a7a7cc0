"""The guide is true: its commands run, they answer what it shows, its figures are theirs.

``BOOMWRIGHT_GUIDE=1`` also draws every picture anew.
"""

from __future__ import annotations

import importlib.util
import os
import re
import shlex
from pathlib import Path

import pytest

from boomwright.cli.commands import app
from fakes.command_line import Shell

ROOT = Path(__file__).resolve().parents[2]
GUIDE = ROOT / "docs" / "guide"
CHAPTERS = sorted(GUIDE.glob("[1-6]-*.md"))
BLOCK = re.compile(r"```(\w+)\n(.*?)```", re.DOTALL)
#: a figure that was computed, with its unit
FIGURE = re.compile(r"[−+±]?\d[\d.]*(?: (?:dBi|dB|mm|%|MHz|GBP)(?!\w)|°)|SWR of \d\.\d+")
#: what a decibel is, and the angles that countries come in at, are no results
PLAIN = {"6 dB", "1 dB", "5°", "10°", "30°"}
#: chapters whose plan a chapter goes on with
BEFORE = {3: (2,)}


def chapter(number: int) -> str:
    return CHAPTERS[number - 1].read_text(encoding="utf-8")


def commands(text: str) -> list[tuple[list[str], list[str]]]:
    """Every command of a chapter, with the lines that it shows of the answer."""
    found: list[tuple[list[str], list[str]]] = []
    for kind, body in BLOCK.findall(text):
        for line in body.splitlines() if kind == "console" else ():
            if line.startswith("$ "):
                program, *words = shlex.split(line[2:])
                assert program == "boomwright"
                found.append((words, []))
            elif line.strip() != "...":
                found[-1][1].append(line.rstrip())
    return found


@pytest.fixture
def shell(capsys, monkeypatch, tmp_path):
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    monkeypatch.chdir(tmp_path)
    return Shell(capture=capsys, patch=monkeypatch)


def test_six_chapters_in_the_order_of_the_job():
    assert [int(path.name[0]) for path in CHAPTERS] == [1, 2, 3, 4, 5, 6]
    listed = re.findall(r"\]\(([1-6]-[\w-]+\.md)\)", (GUIDE / "README.md").read_text("utf-8"))
    assert listed == [path.name for path in CHAPTERS]


@pytest.mark.parametrize("number", range(1, 7))
def test_a_chapter_says_what_its_commands_say(shell, number):
    for earlier in BEFORE.get(number, ()):
        for words, _ in commands(chapter(earlier))[:1]:
            assert shell(*words).status == 0
    told = ""
    for words, shown in commands(chapter(number)):
        ran = shell(*words)
        assert ran.status == 0, ran.err
        answer = iter([line.rstrip() for line in ran.out.splitlines()])
        for line in shown:
            # What ends in dots is the beginning of a line.
            begins = line.endswith(" ...")
            said = any(each.startswith(line[:-4]) if begins else each == line for each in answer)
            assert said, f"{words[0]} does not say {line!r} there"
        told += ran.out
    prose = BLOCK.sub("", chapter(number))
    said = {figure.removeprefix("SWR of ") for figure in FIGURE.findall(prose)} - PLAIN
    assert said
    missing = {figure for figure in said if figure not in told}
    assert not missing, f"the prose speaks of {missing}"


def test_a_place_in_the_guide_is_that_of_the_example():
    (shown,) = [body for kind, body in BLOCK.findall(chapter(1)) if kind == "toml"]
    whole = (ROOT / "examples" / "places" / "suburban-lot.toml").read_text(encoding="utf-8")
    for part in shown.split("\n\n"):
        assert part.strip() in whole


def test_commands_named_in_passing_exist():
    known = {command.name for command in app.registered_commands}
    for path in CHAPTERS:
        named = re.findall(r"`boomwright (\w+)", path.read_text(encoding="utf-8"))
        assert set(named) <= known, path.name


def tool():
    spec = importlib.util.spec_from_file_location("guide", ROOT / "tools" / "guide_pictures.py")
    assert spec is not None
    made = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    return made


def test_every_picture_is_there_and_small():
    named = re.compile(r"\(pictures/([\w-]+)\.svg\)")
    shown = [name for path in CHAPTERS for name in named.findall(path.read_text("utf-8"))]
    assert sorted(shown) == sorted(path.stem for path in (GUIDE / "pictures").glob("*.svg"))
    for path in (GUIDE / "pictures").glob("*.svg"):
        text = path.read_text(encoding="utf-8")
        assert "data-figure=" in text
        assert len(text) < 60_000


@pytest.mark.skipif(not os.environ.get("BOOMWRIGHT_GUIDE"), reason="draws for half a minute")
@pytest.mark.parametrize("number", range(1, 7))
def test_pictures_are_current(number):
    for name, svg in tool().drawn(number).items():
        assert (GUIDE / "pictures" / f"{name}.svg").read_text(encoding="utf-8") == svg, name
