"""The front door: a program gets what it runs on, tests the rest; a missing browser is said."""

from __future__ import annotations

import importlib.util
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture
def door(root: Path) -> ModuleType:
    """make.py as a module."""
    spec = importlib.util.spec_from_file_location("front_door", root / "make.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_program_gets_what_it_runs_on_and_no_tool_of_its_developers(
    root: Path, door: ModuleType
) -> None:
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = door.needed_to_run()
    asked = {door.plain_name(each) for each in project["dependencies"]}
    assert asked <= needed
    assert {"h11", "click", "fonttools"} <= needed, "what a dependency itself asks for"
    assert not needed & {"pytest", "mypy", "ruff", "playwright", "dask", "hypothesis", "uv"}
    assert not needed & {"pandas", "scikit-rf", "pydantic"}, "weighed and found too heavy"
    assert needed < set(door.locked_entries())
    versions = [line for line in door.LOCK.read_text("utf-8").splitlines() if "numpy==" in line]
    assert len(versions) > 1, "one for older interpreters, one for newer"
    assert all(version in door.locked_entries()["numpy"] for version in versions)


def test_what_only_the_installation_needs_does_not_stay(door: ModuleType) -> None:
    building = door.needed_to_build()
    assert {"hatchling", "editables", "setuptools", "pathspec"} <= building
    assert not building & {"numpy", "pytest", "typer"}


@pytest.mark.parametrize("strict", [False, True])
def test_without_a_browser_the_rest_runs_and_what_is_left_out_is_said(
    door: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    *,
    strict: bool,
) -> None:
    ran: list[str] = []
    monkeypatch.setenv("BOOMWRIGHT_BROWSER", "no-such-browser")
    monkeypatch.setattr(door, "run_all", lambda checks: ran.extend(checks) or 0)
    assert door.run_tests(install_it=False, strict=strict) == (1 if strict else 0)
    assert "tests" in ran
    assert "browser tests" not in ran
    said = capsys.readouterr().out
    assert "not run: the browser tests" in said
    assert door.BROWSER_COMMAND in said


def test_a_named_browser_is_used(
    door: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    own = tmp_path / "own-browser"
    own.write_text("#!/bin/sh\n", encoding="utf-8")
    own.chmod(0o755)
    ran: list[str] = []
    monkeypatch.setenv("BOOMWRIGHT_BROWSER", str(own))
    monkeypatch.setattr(door, "run_all", lambda checks: ran.extend(checks) or 0)
    assert door.run_tests(install_it=False, strict=True) == 0
    assert "browser tests" in ran


def test_an_option_nobody_knows_is_refused(root: Path) -> None:
    run = [sys.executable, str(root / "make.py"), "test", "--no-brwoser"]
    done = subprocess.run(run, capture_output=True, text=True, check=False, env=dict(os.environ))
    assert done.returncode == 2
    assert "--no-install" in done.stdout


def test_no_other_file_holds_a_test_with_a_browser(root: Path, door: ModuleType) -> None:
    (pattern,) = [each for each in door.BROWSER_FILES if each.startswith("python_files=")]
    marked = [
        path
        for path in (root / "tests").rglob("test_*.py")
        if re.search(r"^(pytestmark|@pytest).*\.browser\b", path.read_text("utf-8"), re.MULTILINE)
    ]
    assert marked
    read = set((root / "tests/shell").glob(pattern.removeprefix("python_files=")))
    assert set(marked) <= read
