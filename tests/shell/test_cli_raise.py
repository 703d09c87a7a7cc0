"""The raise command: methods with answers and loads, compass bearing, limits, JSON."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

from boomwright.session.files import packaged_text
from boomwright.study.declination import declination
from fakes.command_line import Shell

DEMO = packaged_text("demo.toml")
DAY = ("--date", "2026-11-25")


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.toml"
    path.write_text(DEMO, encoding="utf-8")
    return path


def test_the_demo_has_a_way_up(shell: Shell, plan: Path) -> None:
    ran = shell("raise", plan, "--json", *DAY)
    assert (ran.status, ran.err) == (0, "")
    found = json.loads(ran.out)
    (beam,) = found["beams"]
    best = beam["lift"]["methods"][0]
    # No way up goes while what carries the beam stands against every lift.
    assert (best["name"], best["verdict"]) == ("lift truck", beam["lift"]["verdict"])
    # Nothing of the raising itself stands against it; what carries the beam may.
    carried = [why for why in beam["lift"]["reasons"] if why.startswith("what holds the beam up")]
    assert beam["lift"]["reasons"] == carried
    assert (beam["lift"]["verdict"] == "go") == (not carried)
    assert [each["answer"] for each in beam["lift"]["answers"]] == [True] * 8
    assert {each["by"] for each in beam["lift"]["answers"]} == {
        "club chairman", "hirer", "farmer next door", "steel dealer",
    }  # fmt: skip
    assert len(beam["lift"]["methods"]) == 6
    assert all(method["reasons"] for method in beam["lift"]["methods"])
    # Bridle by plane statics: two equal legs at reach and rise from the hook.
    picks = beam["picks"]
    reach = picks["front_m"] - picks["balance_m"]
    leg = math.hypot(reach, picks["hook_above_boom_m"])
    weight = beam["lift"]["mass_kg"] * 9.80665
    assert picks["leg_n"] == pytest.approx(0.5 * weight * leg / picks["hook_above_boom_m"])
    assert beam["lift"]["swr_check"]["swr"] >= 1.0
    # True heading 300 deg less the declination.
    east = found["declination"]["east_deg"]
    assert beam["compass_bearing_deg"] == pytest.approx(300.0 - east)


def test_the_table_says_who_may_climb(shell: Shell, plan: Path) -> None:
    out = shell("raise", plan, "--full", *DAY).out
    assert ": lift truck\n" in out
    # Its own gear is there; what holds the beam up is not all checked.
    assert "lift truck: answer ASK" in out
    assert "trained" in out
    assert "by compass" in out
    assert "safe " not in out.lower().replace("planning", "")


def test_a_power_line_in_reach_is_status_3_under_strict(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO.replace('distance = "45 m", height', 'distance = "12 m", height'))
    ran = shell("raise", plan, "--strict", *DAY)
    assert ran.status == 3
    assert "limit exceeded" in ran.err


def lift_of(shell: Shell, plan: Path, text: str) -> dict:
    plan.write_text(text, encoding="utf-8")
    return json.loads(shell("raise", plan, "--json", *DAY).out)["beams"][0]["lift"]


def test_no_go_while_what_holds_the_beam_up_is_not_checked(shell: Shell, plan: Path) -> None:
    """Without a wind almost nothing of the structure can be checked."""
    lift = lift_of(shell, plan, DEMO.replace('wind = "40 m/s"', "#"))
    assert lift["verdict"] == "ask"
    assert "not checked: " in lift["reasons"][0]
    assert "bending in wind" in lift["reasons"][0]


def test_no_go_while_what_holds_the_beam_up_is_past_its_limit(shell: Shell, plan: Path) -> None:
    lift = lift_of(shell, plan, DEMO.replace('wind = "40 m/s"', 'wind = "70 m/s"'))
    assert lift["verdict"] == "no-go"
    assert "past its limit: " in lift["reasons"][0]


def test_a_forecast_above_the_hoisting_limit_is_status_3_under_strict(
    shell: Shell, plan: Path
) -> None:
    stormy = DEMO.replace('forecast_gust = "4 m/s"', 'forecast_gust = "30 m/s"')
    lift = lift_of(shell, plan, stormy)
    assert (lift["verdict"], lift["weather"]["hoist"]) == ("no-go", "no-go")
    assert "gusts 30.0 m/s" in lift["reasons"][0]
    ran = shell("raise", plan, "--strict", *DAY)
    assert ran.status == 3
    assert "NO-GO: lift truck" in ran.out


def test_no_forecast_is_asked_for(shell: Shell, plan: Path) -> None:
    lift = lift_of(shell, plan, DEMO.replace('forecast_gust = "4 m/s"', ""))
    assert lift["verdict"] == "ask"
    assert any("no wind figure" in why for why in lift["reasons"])


def test_a_tube_cast_into_its_pier_is_not_tilted_over(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO.replace("ground_crew = 5", "ground_crew = 5\ntilt_over = true"))
    ran = shell("raise", plan, *DAY)
    assert ran.status == 2
    assert "raising.tilt_over" in ran.err
    assert "[raising.tilt]" in ran.err


def test_a_us_reader_gets_no_metric_figure_first(shell: Shell, plan: Path) -> None:
    out = shell("raise", plan, "--system", "us", *DAY).out
    assert not re.search(r"\d (?:m/s|kg|N|kN|kN m)\b", out)
    assert "hoist below 10 mph" in " ".join(out.split())


def test_what_is_missing_is_said(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO[: DEMO.index("[raising]")], encoding="utf-8")
    found = json.loads(shell("raise", plan, "--json", *DAY).out)
    assert found["beams"][0]["lift"] is None
    assert any("[raising]" in gap for gap in found["beams"][0]["missing"])


@pytest.mark.parametrize(
    ("latitude", "longitude", "expected"),
    [(80.0, 0.0, 1.28), (0.0, 120.0, -0.16), (-80.0, 240.0, 68.78)],
)
def test_declination_of_the_models_own_test_values(latitude, longitude, expected):
    """World Magnetic Model 2025, test values at 2025.0 on the ellipsoid, from memory."""
    found = declination(
        latitude=math.radians(latitude), longitude=math.radians(longitude), day="2025-01-01"
    )
    assert found is not None
    assert math.degrees(found.angle) == pytest.approx(expected, abs=0.01)
    assert 0.0 < found.error < math.radians(5.0)


def test_beyond_the_model_there_is_no_declination():
    assert declination(latitude=0.9, longitude=0.0, day="2031-06-01") is None
