"""Every damaged plan is refused with place, line and remedy, and never with a traceback."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from damaged_plans import DAMAGED_PLANS, SOUND, DamagedPlan
from typer.testing import CliRunner

from boomwright.base import PlanError
from boomwright.cli.commands import app
from boomwright.plan import read_plan
from written import metric

EVERY = pytest.mark.parametrize("damaged", DAMAGED_PLANS, ids=lambda damaged: damaged.name)


def test_the_undamaged_plan_is_sound() -> None:
    assert read_plan(SOUND).beams[0].name == "20m"


def test_there_are_many_and_each_has_its_own_name() -> None:
    names = {damaged.name for damaged in DAMAGED_PLANS}
    assert len(names) == len(DAMAGED_PLANS) >= 25


@EVERY
def test_room_names_place_line_and_remedy(damaged: DamagedPlan) -> None:
    with pytest.raises(PlanError) as caught:
        read_plan(damaged.content, source="damaged.toml")
    assert caught.value.source == "damaged.toml"
    faults = caught.value.faults
    matching = [fault for fault in faults if fault.path == damaged.path]
    assert matching, [fault.path for fault in faults]
    assert any(damaged.remedy in metric(fault.remedy) for fault in matching), matching
    for fault in faults:
        assert metric(fault.message)
        assert metric(fault.remedy)
        assert metric(fault.message).isprintable()
        assert fault.value.isprintable()
        assert len(fault.value) < 80
        assert len(metric(fault.remedy)) < 400


@pytest.mark.parametrize(
    "damaged", [plan for plan in DAMAGED_PLANS if plan.mark], ids=lambda damaged: damaged.name
)
def test_line_is_that_of_the_fault(damaged: DamagedPlan) -> None:
    with pytest.raises(PlanError) as caught:
        read_plan(damaged.content)
    rows = damaged.content.decode().split("\n")
    lines = [fault.line for fault in caught.value.faults if fault.path == damaged.path]
    assert lines
    assert all(damaged.mark in rows[line - 1] for line in lines), lines


def test_one_damage_gives_one_fault() -> None:
    """No fault drags others after it."""
    follow_on = {"missing key", "beam in single brackets", "empty file", "misspelt key"}
    for damaged in DAMAGED_PLANS:
        if damaged.name in follow_on:
            continue
        with pytest.raises(PlanError) as caught:
            read_plan(damaged.content)
        assert len(caught.value.faults) == 1, (damaged.name, caught.value.faults)


def test_all_faults_come_at_once_and_from_the_top_down() -> None:
    text = (
        SOUND.replace('"16 m"', '"16 kg"')
        .replace('"10.1 m"', '"-10.1 m"')
        .replace('"medium dry"', '"medum dry"')
        .replace('"C"', '"E"')
        .replace("material", "metal")
    )
    tomllib.loads(text)
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    paths = {fault.path for fault in caught.value.faults}
    assert paths == {
        "site.ground",
        "site.wind_basis.exposure",
        "beam[0].height",
        "beam[0].metal",
        "beam[0].material",
        "beam[0].element[1].length",
    }
    lines = [fault.line for fault in caught.value.faults]
    assert lines == sorted(lines)
    values = {fault.path: fault.value for fault in caught.value.faults}
    assert values["beam[0].height"] == '"16 kg"'


@pytest.mark.parametrize(
    "line",
    ["' ' * 300_000", "'x = 1' + ' ' * 300_000 + chr(34)", "'a' * 300_000", "'a ' * 150_000"],
)
def test_a_line_without_end_is_looked_at_once(line: str) -> None:
    # In a process of its own: a search for a pattern cannot be broken off in this one.
    code = (
        "from boomwright.base import PlanError\nfrom boomwright.plan import read_plan\n"
        f"try:\n    read_plan('boomwright = 1\\n' + {line})\n"
        "except PlanError as error:\n    print(len(error.faults))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    assert int(ran.stdout) >= 1


@EVERY
def test_check_command_names_place_and_remedy(damaged: DamagedPlan, tmp_path: Path) -> None:
    plan = tmp_path / "damaged.toml"
    plan.write_bytes(damaged.content)
    result = CliRunner().invoke(app, ["check", str(plan)])
    printed = " ".join((result.stdout + result.stderr).split())
    assert result.exit_code == 2, printed
    assert isinstance(result.exception, SystemExit)
    assert "Traceback" not in printed
    assert "damaged.toml" in printed
    assert damaged.path in printed
    assert " ".join(damaged.remedy.split()) in printed
