"""The pole of a first plan of wire keeps to its limits in a usual wind, in both unit systems.

Three shapes; set ``BOOMWRIGHT_PLANS`` to any number to take every shape that a pole carries.
"""

from __future__ import annotations

import os

import pytest

from boomwright.plan import read_plan
from boomwright.plan.resolve.structure import structure_inputs
from boomwright.plan.shapes import POLES, SHAPES, shape_plan
from boomwright.structure import check_structure
from boomwright.study.requests import Wishes
from boomwright.study.shapes import shaped_text

EUROPEAN = """\
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
"""
AMERICAN = """\
wind = "105 mph"
ice = "1/4 in"
[site.wind_basis]
kind = "ultimate"
edition = "ASCE 7-16"
exposure = "B"
topography = 1
[site.ice_basis]
gust = "40 mph"
mapped = false
"""
SITES = {"metric": EUROPEAN, "us": AMERICAN}
ON_POLES = [s for s in SHAPES if s not in {"square-loop", "triangle-loop"} and "two-v" not in s]
ON_POLES.remove("vertical")
TRIED = ON_POLES if "BOOMWRIGHT_PLANS" in os.environ else ["inverted-vee", "two-square-loops"]


def exceeded(text, units):
    plan = read_plan(text.replace("\n[[beam]]", f"{SITES[units]}\n[[beam]]", 1))
    report = check_structure(inputs=structure_inputs(plan))
    assert any(str(line.name) == "support tube: bending" for line in report.ledger)
    return [str(line.name) for line in report.ledger if line.verdict == "exceeded"]


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("shape", TRIED)
def test_the_pole_of_a_first_plan_stands(shape, units):
    further = ("15 m",) if shape == "two-band-dipole" else ()
    text = shaped_text(Wishes(band="20 m", further_bands=further, shape=shape, system=units))
    assert "no limit exceeded" in text
    assert exceeded(text, units) == []


def test_the_lightest_pole_does_not_carry_every_beam():
    text = shape_plan("two-square-loops", band="20 m", pole=POLES[0])
    assert "support tube: column and bending together" in exceeded(text, "metric")


def test_what_no_pipe_carries_is_said():
    text = shaped_text(Wishes(band="40 m", shape="two-triangle-loops"))
    assert "# None of the usual pipes keeps to its limits" in text
    assert "no limit exceeded" not in text
