"""``boomwright compute``: table, document, frequencies, statuses."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from damaged_plans import DAMAGED_PLANS, SOUND, DamagedPlan

from boomwright import reach
from boomwright.base import Notice, SolverError
from boomwright.reach import BeamReadings
from fakes.command_line import Shell
from fakes.readings import fake_readings


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.toml"
    path.write_text(SOUND.split("  [[beam.wire]]")[0], encoding="utf-8")
    return path


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """Replace the field solver by made-up readings and note what it is asked."""
    calls: list[dict[str, Any]] = []

    def read_beam(**arguments: Any) -> BeamReadings:
        calls.append(arguments)
        readings = fake_readings(beam=arguments["beam"])
        return replace(readings, reference_resistance=arguments["reference_resistance"])

    monkeypatch.setattr(reach, "read_beam", read_beam)
    return calls


def keys(value: object) -> set[str]:
    """Every key of a document, at any depth."""
    if isinstance(value, dict):
        return set(value) | {key for inner in value.values() for key in keys(inner)}
    if isinstance(value, list):
        return {key for inner in value for key in keys(inner)}
    return set()


def test_table_shows_every_figure_with_its_band(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    ran = shell("compute", plan, "--full")
    assert (ran.status, ran.err) == (0, "")
    point = fake_readings(beam=asked[0]["beam"]).sweep[0]
    for text in ("14.000", f"{point.gain_dbi:.2f} ±", f"{point.swr:.2f} ±", "front-to-back"):
        assert text in ran.out
    for notice in fake_readings().notices:
        assert " ".join(notice.text.split())[:40] in " ".join(ran.out.split())
    assert "\x1b" not in ran.out


def test_document_has_the_agreed_shape(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    ran = shell("compute", plan, "--json")
    assert (ran.status, ran.err) == (0, "")
    beam = json.loads(ran.out)["beams"][0]
    assert {
        "name", "design_frequency_hz", "sweep", "power_balance", "free_space", "over_ground",
        "notices",
    } <= beam.keys()  # fmt: skip
    figures = {
        "frequency_hz", "impedance_ohm", "swr", "gain_dbi", "front_to_back_db", "front_to_rear_db",
        "efficiency", "error",
    }  # fmt: skip
    for point in [*beam["sweep"], beam["free_space"]]:
        assert point.keys() == figures
        assert {"impedance_ohm", "gain_db", "front_to_back_db"} <= point["error"].keys()
        assert len(point["impedance_ohm"]) == 2
    assert {"peak_gain_dbi", "peak_elevation_deg", "lobes", "nulls_deg"} <= beam[
        "over_ground"
    ].keys()
    assert beam["over_ground"]["lobes"][0].keys() == {"elevation_deg", "gain_dbi"}
    assert beam["notices"][0].keys() == {"code", "severity", "text", "value", "limit", "source"}


def test_document_holds_the_readings_themselves(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    beam = json.loads(shell("compute", plan, "--json").out)["beams"][0]
    readings = fake_readings(beam=asked[0]["beam"])
    for shown, point in zip(beam["sweep"], readings.sweep, strict=True):
        assert complex(*shown["impedance_ohm"]) == point.impedance
        assert shown["gain_dbi"] == point.gain_dbi
        assert shown["error"]["front_to_back_db"] == point.front_to_back_error_db


def test_every_name_of_the_document_is_in_the_nomenclature(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    page = Path(__file__).parents[2] / "docs" / "nomenclature.md"
    known = set(re.findall(r"^\| `(\w+)`", page.read_text(encoding="utf-8"), re.MULTILINE))
    found = keys(json.loads(shell("compute", plan, "--json").out))
    assert found <= known, sorted(found - known)


def test_figures_without_end_become_null(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    readings = fake_readings()
    endless = replace(readings.sweep[0], front_to_back_db=math.inf, front_to_rear_db=math.nan)
    monkeypatch.setattr(reach, "read_beam", lambda **_: replace(readings, sweep=(endless,)))
    point = json.loads(shell("compute", plan, "--json").out)["beams"][0]["sweep"][0]
    assert point["front_to_back_db"] is None
    assert point["front_to_rear_db"] is None
    assert "no limit" in shell("compute", plan, "--full").out


def test_band_is_swept_evenly_edges_included(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    shell("compute", plan, "--points", 8)
    np.testing.assert_allclose(
        asked[0]["frequencies"], 14.0e6 + 50e3 * np.arange(8), rtol=1e-12, atol=0.0
    )
    shell("compute", plan, "--points", 1)
    assert list(asked[1]["frequencies"]) == [14.175e6]


def test_frequencies_replace_the_band_and_come_sorted(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    shell("compute", plan, "--frequency", "14.2 MHz", "-f", "14100 kHz", "-f", "14.2 MHz")
    assert list(asked[0]["frequencies"]) == [14.1e6, 14.2e6]


def test_reference_is_passed_on(shell: Shell, plan: Path, asked: list[dict[str, Any]]) -> None:
    assert "SWR to 200 ohm" in shell("compute", plan, "--reference", "200").out
    assert asked[0]["reference_resistance"] == 200.0
    shell("compute", plan, "--reference", "75 ohm")
    assert asked[1]["reference_resistance"] == 75.0


def test_plan_may_come_from_standard_input(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    ran = shell("compute", "-", "--json", stdin=plan.read_bytes())
    assert (ran.status, ran.err) == (0, "")
    assert json.loads(ran.out)["beams"][0]["name"] == "20m"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--frequency", "14.2"], "frequency: the unit is missing (14.2) -> write"),
        (["--frequency", "5 m"], "frequency"),
        (["--frequency", "-3 MHz"], "not above zero"),
        (["--reference", "-50"], "not above zero (-50 ohm) -> give 50 ohm"),
        (["--reference", "nan"], "not above zero"),
        (["--reference", "five"], "reference resistance"),
        (["--points", "0"], "--points"),
        (["--points", "many"], "--points"),
        (["--no-such-option"], "--no-such-option"),
    ],
)
def test_bad_requests_are_refused(
    shell: Shell, plan: Path, asked: list[dict[str, Any]], words: list[str], said: str
) -> None:
    ran = shell("compute", plan, "--json", *words)
    assert ran.status == 2
    assert ran.out == ""
    assert said in ran.err
    assert not asked


@pytest.mark.parametrize("damaged", DAMAGED_PLANS, ids=lambda damaged: damaged.name)
def test_damaged_plans_are_refused_with_place_and_remedy(
    shell: Shell, tmp_path: Path, damaged: DamagedPlan
) -> None:
    path = tmp_path / "damaged.toml"
    path.write_bytes(damaged.content)
    ran = shell("compute", path, "--json")
    assert ran.status == 2
    assert ran.out == ""
    # A file too large to be a plan is refused as a file, before anything in it is read.
    places = (f" {damaged.path}: ", ": is larger than the 1 MB that a plan may have")
    assert any(
        line.startswith(str(path))
        and any(place in line for place in places)
        and damaged.remedy in line
        for line in ran.err.splitlines()
    ), ran.err
    assert all(line.isprintable() for line in ran.err.splitlines())


def test_all_faults_are_listed_with_their_lines(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    text = SOUND.replace('"16 m"', '"16 metres"').replace('"reflector"', '"reflekter"')
    path.write_text(text, encoding="utf-8")
    lines = shell("compute", path).err.splitlines()
    rows = text.splitlines()
    numbers = [int(re.match(rf"{path}:(\d+) ", line)[1]) for line in lines[:-1]]  # type: ignore[index]
    assert "16 metres" in rows[numbers[0] - 1]
    assert "reflekter" in rows[numbers[1] - 1]
    assert lines[-1] == "2 faults in the plan"


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda path: None, "no such file"),
        (lambda path: path.mkdir(), "name a regular file"),
    ],
)
def test_files_that_cannot_be_read(shell: Shell, tmp_path: Path, make: Any, said: str) -> None:
    path = tmp_path / "plan.toml"
    make(path)
    ran = shell("compute", path)
    assert ran.status == 2
    assert ran.out == ""
    assert str(path) in ran.err
    assert said in ran.err


def test_a_refusal_of_the_solver_is_told(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(**_: Any) -> BeamReadings:
        message = "two tubes touch at x = 1 m -> move one"
        raise SolverError(message)

    monkeypatch.setattr(reach, "read_beam", refuse)
    ran = shell("compute", plan)
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == "two tubes touch at x = 1 m -> move one\n"


def test_own_failures_are_one_sentence_and_debug_shows_where(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reach, "read_beam", lambda **_: 1 / 0)
    ran = shell("compute", plan)
    assert (ran.status, ran.out) == (1, "")
    assert len(ran.err.splitlines()) == 1
    assert "ZeroDivisionError" in ran.err
    with pytest.raises(ZeroDivisionError):
        shell("--debug", "compute", plan)


def test_interruption_is_quiet(shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(**_: Any) -> BeamReadings:
        raise KeyboardInterrupt

    monkeypatch.setattr(reach, "read_beam", interrupt)
    ran = shell("compute", plan)
    assert (ran.status, ran.out) == (130, "")


def test_strict_ends_with_3_only_when_a_limit_is_exceeded(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    readings = replace(fake_readings(), notices=())
    monkeypatch.setattr(reach, "read_beam", lambda **_: readings)
    assert shell("compute", plan, "--strict").status == 0
    limit = Notice(code="made.up", text="The made-up limit is exceeded.", severity="limit")
    monkeypatch.setattr(reach, "read_beam", lambda **_: replace(readings, notices=(limit,)))
    assert shell("compute", plan).status == 0
    ran = shell("compute", plan, "--strict", "--json")
    assert ran.status == 3
    assert json.loads(ran.out)["beams"][0]["notices"][0]["code"] == "made.up"
    assert "The made-up limit is exceeded." in ran.err


def test_a_wish_of_the_plan_that_will_not_be_measured_fails_strict(
    shell: Shell, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reach, "read_beam", lambda **_: replace(fake_readings(), notices=()))
    text = plan.read_text(encoding="utf-8")
    for wish, missed in (("swr = 20", ""), ("swr = 1.01", "standing wave ratio")):
        plan.write_text(f"{text}\n[wish]\n{wish}\n", encoding="utf-8")
        ran = shell("compute", plan, "--strict")
        assert ran.status == (3 if missed else 0)
        assert (f"the {missed} misses its limit" in " ".join(ran.out.split())) == bool(missed)
        assert missed in ran.err
    ran = shell("compute", plan, "--json")
    assert ran.status == 0
    codes = [each["code"] for each in json.loads(ran.out)["notices"]]
    assert "design.limit-missed-as-measured" in codes


def test_owners_text_cannot_reach_the_terminal_as_commands(
    shell: Shell, plan: Path, asked: list[dict[str, Any]]
) -> None:
    text = plan.read_text(encoding="utf-8").replace('"20m"', '"[red]20m[/red]"')
    plan.write_text(text, encoding="utf-8")
    assert "[red]20m[/red]" in shell("compute", plan, "--full").out


def test_as_a_program_with_the_real_solver(plan: Path) -> None:
    """Nothing faked: one document on standard output, with figures that make sense."""
    program = Path(sys.executable).parent / "boomwright"
    command = [program, "compute", plan, "--json", "--points", "3"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stderr == ""
    beam = json.loads(done.stdout)["beams"][0]
    assert [point["frequency_hz"] for point in beam["sweep"]] == [14.0e6, 14.175e6, 14.35e6]
    # Common practice, no source: a reflector and a driven element 0.12 wavelengths apart give
    # 4 to 5 dB over the half-wave dipole's 2.15 dBi.
    assert 5.5 < beam["free_space"]["gain_dbi"] < 7.5
    assert abs(beam["power_balance"]) < 1e-3
