"""What a plan names is read from regular files only, by every command that reads it."""

from __future__ import annotations

import os

import pytest

from fakes.desk import PLAN
from fakes.special_files import SPECIAL, special_file, within

pytestmark = pytest.mark.skipif(os.name != "posix", reason="devices and pipes as on POSIX")

#: commands that read a file which the plan names, and how the plan names it
NAMED = {
    "sweep": ("tune", '[measured]\nsweep = "special"\n'),
    "sweep in Touchstone": ("tune", '[measured]\nsweep = "special.s1p"\n'),
    "terrain": ("reach", '[reach]\nterrain = "special"\n'),
    "height grid": ("reach", '[reach]\nterrain = "special.tif"\n'),
    "prices": ("cost", '[prices]\ncurrency = "EUR"\nlist = "special"\n'),
    "prices in TOML": ("cost", '[prices]\ncurrency = "EUR"\nlist = "special.toml"\n'),
}


@pytest.mark.parametrize("kind", SPECIAL)
@pytest.mark.parametrize("command", ["check", "compute", "structure"])
def test_a_plan_that_is_no_file_is_refused(shell, tmp_path, command, kind):
    path = special_file(tmp_path, kind)
    with within(20.0):
        ran = shell(command, path)
    assert ran.status == 2
    assert f"{path}: is a" in ran.err
    assert "-> name a regular file" in ran.err


@pytest.mark.parametrize("kind", SPECIAL)
@pytest.mark.parametrize("named", NAMED)
def test_a_named_file_that_is_none_is_refused(shell, tmp_path, named, kind):
    command, table = NAMED[named]
    position = 'position = "52.2 N, 0.1 E"\nground = "medium dry"'
    text = PLAN.replace('ground = "medium dry"', position)
    (tmp_path / "plan.toml").write_text(f"{text}\n{table}", encoding="utf-8")
    name = table.partition('"special')[2].partition('"')[0]
    special_file(tmp_path, kind, f"special{name}")
    with within(30.0):
        ran = shell(command, tmp_path / "plan.toml")
    assert ran.status == 2
    assert f"special{name}: is a" in ran.err
    assert "-> name a regular file" in ran.err


def test_a_file_given_on_the_command_line_is_no_exception(shell, tmp_path):
    (tmp_path / "plan.toml").write_text(f'{PLAN}\n[prices]\ncurrency = "EUR"\n', encoding="utf-8")
    pipe = special_file(tmp_path, "pipe")
    for words in (("cost", "--prices"), ("tune", "--sweep")):
        with within(30.0):
            ran = shell(words[0], tmp_path / "plan.toml", words[1], pipe)
        assert ran.status == 2
        assert "special: is a pipe" in ran.err
