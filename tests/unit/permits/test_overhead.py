"""How high a turning beam stays above roofs and ways, by circles and lines written out here."""

import math

import numpy as np
import pytest

from boomwright.parts import Bar, Block
from boomwright.parts.solids import lowest_beyond
from boomwright.permits import Overhead
from boomwright.permits.overhead import overhead_findings
from boomwright.plan import read_plan
from boomwright.plan.resolve import installation
from fakes.told import told

PLAN = """
boomwright = 1
title = "over the garage"
[site]
ground = "medium dry"
[[beam]]
name = "10m"
band = ["28.0 MHz", "28.5 MHz"]
design = "28.25 MHz"
height = "7 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["1 in", "1.7 m", "0.058 in"], ["0.875 in", "0.95 m", "0.058 in"]]
  [[beam.element]]
  role = "driven"
  at = "1.6 m"
  half = [["1 in", "1.6 m", "0.058 in"], ["0.875 in", "0.95 m", "0.058 in"]]
  [[beam.wire]]
  name = "tail"
  diameter = "2 mm"
  points = [[1.6, 2.5, 0.0], [1.6, 2.5, -1.5]]
  [beam.boom]
  diameter = "2 in"
  wall = "1/8 in"
  length = "2 m"
  rear_end = "-0.2 m"
  material = "6061-T6"
  clamp = "0.8 m"
  offset = "0 m"
[support.mast]
diameter = "50 mm"
wall = "4 mm"
bearing = "6 m"
top = "7.5 m"
material = "6061-T6"
[permits]
WAYS
"""


def overhead(ways):
    return installation(read_plan(PLAN.replace("WAYS", ways))).around.overhead


def test_the_lowest_part_beyond_a_circle_is_found():
    (roof, way) = overhead(
        'walkway = "3 m"\n[[permits.roof]]\nname = "garage"\ndistance = "2 m"\nheight = "4 m"'
    )
    # The tail hangs 0.8 m in front of the mast and 2.5 m beside it, 2.62 m out: 1.5 m below 7 m.
    assert (roof.name, roof.lowest) == ("garage", pytest.approx(5.5, abs=0.002))
    assert roof.part == "tail of 10m"
    assert (way.kind, way.lowest) == ("public way", None)


@pytest.mark.parametrize(("height", "verdict"), [(6.0, "exceeded"), (4.0, "ask"), (2.9, "within")])
def test_what_turns_over_a_roof_is_held_against_it(height, verdict):
    (finding,) = told(
        overhead_findings(
            (Overhead(kind="roof", name="garage", height=height, lowest=5.5, part="tail of 10m"),)
        )
    )
    assert finding.subject == "Lowest part over garage"
    assert finding.verdict == verdict
    assert finding.value == "tail of 10m at 5.50 m"
    assert finding.limit == f"at least {height + 2.5:.2f} m, out of reach"
    assert bool(finding.text) == (verdict != "within")


def test_nothing_overhead_is_within_and_no_place_is_not_checked():
    clear = Overhead(kind="roof", name="shed", height=3.0, lowest=None)
    lost = Overhead(kind="roof", name="shed", height=3.0, lowest=None, missing="no clamp")
    found = told(overhead_findings((clear, lost)))
    assert [each.verdict for each in found] == ["within", "not checked"]
    assert "no clamp" in found[1].text


def test_bars_and_blocks_against_points_laid_densely_along_them():
    rng = np.random.default_rng(5)
    for _ in range(200):
        a, b = rng.uniform(-3.0, 3.0, (2, 3))
        distance = rng.uniform(0.1, 4.0)
        bar = Bar(start=tuple(a), end=tuple(b), diameter=1e-6)
        shares = np.linspace(0.0, 1.0, 20001)[:, None]
        points = a + shares * (b - a)
        out = points[np.hypot(points[:, 0], points[:, 1]) >= distance]
        found = lowest_beyond(bar, distance)
        if len(out):
            assert found == pytest.approx(out[:, 2].min(), abs=2e-3)
        else:
            assert found is None or math.isclose(
                np.hypot(points[:, 0], points[:, 1]).max(), distance, abs_tol=1e-3
            )
    block = Block(middle=(2.0, 0.0, 5.0), size=(1.0, 1.0, 0.4))
    assert lowest_beyond(block, 2.5) == pytest.approx(4.8)
    assert lowest_beyond(block, 2.6) is None
