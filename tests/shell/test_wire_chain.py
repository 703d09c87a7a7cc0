"""Plans of wire go the whole way from the command line, as an owner writes them out.

Three shapes take all but the long commands; set ``BOOMWRIGHT_PLANS`` to any number to take every
shape through every command, the search, the measured sweep and the book included. Each shape is a
test of its own, so that ``-n`` spreads them.
"""

from __future__ import annotations

import os
import re

import pytest
from pypdf import PdfReader

from boomwright.plan.shapes import SHAPES

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

[transmitter]
power = "400 W"

[reach]
[[reach.target]]
name = "Far shore"
position = "40.0 N, 75.0 W"

[raising]
ground_crew = 4
forecast_gust = "3 m/s"
"""

#: what some commands must say of some shapes
SAID = {
    ("hexagon", "raise"): "hexagon-shaped",
    ("hexagon", "cost"): "hub for 6 spreaders",
    ("hexagon", "structure"): "spreaders in wind",
    ("inverted-vee", "structure"): "over a pulley to a weight",
    ("inverted-vee", "raise"): "ropes over pulleys, by hand",
    ("inverted-vee", "cost"): "rope, one end of a wire",
    ("vertical", "raise"): "ropes over pulleys, by hand",
    ("vertical", "cost"): "32 radials",
}
#: all that may be left out of an answer
OPEN = (
    "knot or crimp",
    "trees sway",
    "rain on",
)
EVERYTHING = "BOOMWRIGHT_PLANS" in os.environ
COMMANDS = ("check", "feed", "reach", "structure", "permits", "cost", "raise")
TAKEN = list(SHAPES) if EVERYTHING else ["hexagon", "inverted-vee", "vertical"]
_UNSAID = re.compile(
    r"[^.]*\b(?:modelled|not computed|not in the checks|not counted)\b[^.]*\.[^.]*\.?"
)


def as_owned(path):
    """What an owner adds to a first plan."""
    text = path.read_text(encoding="utf-8").replace("[[beam]]", SITE, 1) + OWNER
    text = text.replace("[line]\n", '[line]\nchoke = ["2000 ohm", "1500 ohm"]\n', 1)
    density = '    density = "1900 kg/m3"'
    path.write_text(text.replace(density, f'{density}\n    strength = "200 MPa"'), encoding="utf-8")


def left_open(told):
    """Sentences that say what was not looked at, but for those that may."""
    found = _UNSAID.findall(" ".join(told.split()))
    return [each.strip() for each in found if not any(words in each for words in OPEN)]


def text_of(book):
    return " ".join(page.extract_text() for page in PdfReader(book).pages)


@pytest.fixture
def new(shell, tmp_path):
    def made(shape):
        plan = tmp_path / f"{shape}.toml"
        bands = ("--band", "20 m") + ("--band", "15 m") * (shape == "two-band-dipole")
        ran = shell("new", plan, *bands, "--shape", shape, "--position", "51.75 N, 1.25 W")
        assert ran.status == 0, ran.err
        as_owned(plan)
        return plan

    return made


def answers(shell, plan, shape):
    """Run every command but the long ones; each says its piece and leaves nothing else open."""
    for command in COMMANDS:
        ran = shell(command, plan, *([] if command == "check" else ["--full"]))
        assert (ran.status, ran.err) == (0, ""), command
        told = " ".join(ran.out.split())
        assert SAID.get((shape, command), "") in told
        assert left_open(told) == [], command
        if command == "structure":
            # Poles, guys, spreaders and wires keep to their limits in the wind of the site.
            assert "Checks: 0 exceeded," in told


@pytest.mark.parametrize("shape", TAKEN)
def test_a_first_plan_of_wire_is_answered(shell, new, shape):
    answers(shell, new(shape), shape)


def test_a_vertical_on_the_ground_has_no_height(shell, tmp_path):
    ran = shell("new", tmp_path / "a.toml", "--band", "20 m", "--shape", "vertical",
                "--height", "9 m")  # fmt: skip
    assert ran.status == 2
    assert "stands on the ground" in ran.err
    assert "raised-vertical" in ran.err


@pytest.mark.skipif(not EVERYTHING, reason="set BOOMWRIGHT_PLANS to take every shape all the way")
@pytest.mark.parametrize("shape", list(SHAPES))
def test_every_shape_is_searched_tuned_and_printed(shell, new, tmp_path, shape):
    better, ends = tmp_path / "better.toml", tmp_path / "ends"
    ran = shell("improve", new(shape), "--starts", "2", "--workers", "1", "-o", better)
    assert ran.status == 0, ran.err
    answers(shell, better, shape)
    assert shell("feed", better, "--touchstone", ends).status == 0
    (sweep,) = ends.glob("20-m-feed-point.s1p")
    if shape == "two-band-dipole":
        # Of two beams the plan says which one was measured.
        text = better.read_text(encoding="utf-8")
        measured = f'[measured]\nbeam = "20 m"\nsweep = "ends/{sweep.name}"\n'
        better.write_text(f"{text}\n{measured}", encoding="utf-8")
    ran = shell("tune", better, "--sweep", sweep, "--full")
    assert ran.status == 0, ran.err
    # Its own model explains its own sweep.
    assert "not explained" not in ran.out
    assert left_open(ran.out) == []
    assert shell("check", better).status == 0
    assert shell("book", better, "-o", tmp_path / "book.pdf").status == 0
    for name in ("book.pdf", "book-annex.pdf"):
        assert left_open(text_of(tmp_path / name)) == [], name
