"""Plans of wire go the whole way from the command line, as an owner writes them out.

Three shapes take the quick commands; set ``BOOMWRIGHT_PLANS`` to any number to take every shape
through every command, the measured sweep and the book included.
"""

from __future__ import annotations

import os

import pytest

from boomwright.plan.shapes import SHAPES, shape_plan
from fakes.command_line import Shell

SITE = """\
wind = "24 m/s"
ice = "5 mm"

[site.wind_basis]
kind = "characteristic"
edition = "BS EN 1991-1-4"
terrain = "III"
orography = 1

[site.ice_basis]
gust = "18 m/s"
mapped = false

[[beam]]"""

OWNER = """
[permits]
country = "GB"
boundary = "30 m"
walkway = "40 m"
power_lines_surveyed = { answer = true, by = "station owner", on = "2026-06-20" }

[reach]
[[reach.target]]
name = "Far shore"
position = "40.0 N, 75.0 W"

[raising]
ground_crew = 4
forecast_gust = "3 m/s"
"""

#: what each command must say of which shape
QUICK = {
    ("hexagon", "raise"): "hexagon-shaped",
    ("hexagon", "cost"): "hub for 6 spreaders",
    ("hexagon", "structure"): "spreaders in wind",
    ("inverted-vee", "raise"): "ropes over pulleys, by hand",
    ("inverted-vee", "cost"): "rope, one end of a wire",
    ("vertical", "raise"): "ropes over pulleys, by hand",
    ("vertical", "cost"): "32 radials",
}
EVERYTHING = "BOOMWRIGHT_PLANS" in os.environ
COMMANDS = ("check", "feed", "reach", "structure", "permits", "cost", "raise")


def written(shape, folder):
    """A first plan with what an owner adds to it."""
    text = shape_plan(shape, band="20 m", position="51.75 N, 1.25 W")
    text = text.replace("[[beam]]", SITE, 1) + OWNER
    density = '    density = "1900 kg/m3"'
    text = text.replace(density, f'{density}\n    strength = "200 MPa"')
    path = folder / f"{shape}.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture
def shell(capsys, monkeypatch):
    return Shell(capture=capsys, patch=monkeypatch)


@pytest.mark.parametrize(("shape", "command"), list(QUICK))
def test_a_first_plan_of_wire_is_answered(shell, tmp_path, shape, command):
    ran = shell(command, written(shape, tmp_path), "--full")
    assert (ran.status, ran.err) == (0, "")
    assert QUICK[shape, command] in " ".join(ran.out.split())


def test_a_vertical_on_the_ground_has_no_height(shell, tmp_path):
    ran = shell("new", tmp_path / "a.toml", "--band", "20 m", "--shape", "vertical",
                "--height", "9 m")  # fmt: skip
    assert ran.status == 2
    assert "stands on the ground" in ran.err
    assert "raised-vertical" in ran.err


@pytest.mark.skipif(not EVERYTHING, reason="set BOOMWRIGHT_PLANS to take every shape all the way")
@pytest.mark.parametrize("shape", list(SHAPES))
def test_every_shape_goes_all_the_way(shell, tmp_path, shape):
    plan = written(shape, tmp_path)
    for command in COMMANDS:
        assert shell(command, plan).status == 0, command
    made = shell("feed", plan, "--touchstone", tmp_path / "ends")
    assert made.status == 0
    sweep = next(path for path in (tmp_path / "ends").glob("*.s1p") if "bare" not in path.name)
    # What soil and radials do to a sweep is not modelled, and said so.
    assert shell("tune", plan, "--sweep", sweep).status == (2 if shape == "vertical" else 0)
    better = tmp_path / "better.toml"
    assert shell("improve", plan, "--starts", "2", "--workers", "1", "-o", better).status == 0
    assert shell("check", better).status == 0
    assert shell("book", better, "-o", tmp_path / "book.pdf").status == 0
    assert (tmp_path / "book-annex.pdf").stat().st_size > 1e4
