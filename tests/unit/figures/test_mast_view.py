"""All beams from above: north up, clockwise headings, and names that stay text."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from boomwright.charts import LIGHT, mast_view
from boomwright.plan import read_plan, starter_plan
from boomwright.report.beam.side import side_picture
from boomwright.report.model import Canvas

ROOT = Path(__file__).resolve().parents[3]


def drawn(svg, number):
    inside = re.search(rf'<g data-beam="{number}">(.*?)</g>', svg, re.DOTALL)[1]
    x_1, y_1, x_2, y_2 = (
        float(re.search(rf' {each}="([-0-9.]+)"', inside)[1]) for each in ("x1", "y1", "x2", "y2")
    )
    return np.array((x_2 - x_1, y_2 - y_1))


def test_beams_lie_on_their_headings_in_one_scale():
    beam = read_plan(starter_plan(band="20 m", element_count=3)).beams[0]
    turned = replace(beam, name="<b>other</b>", heading=np.pi / 2.0)
    svg = mast_view(beams=(beam, turned), chosen=0)
    north, east = drawn(svg, 0), drawn(svg, 1)
    # From rear to front: up on paper for north, to the right for east, both of one length.
    assert north == pytest.approx((0.0, -np.hypot(*north)), abs=0.01)
    assert east == pytest.approx((np.hypot(*north), 0.0), abs=0.01)
    assert "<b>" not in svg


def test_the_station_from_the_side_holds_everything_that_stands():
    """Every beam, mast, tower or tube and ring of guys of a plan, at its height."""
    for path in sorted((ROOT / "examples" / "stations").glob("*.toml")):
        plan = read_plan(path.read_text(encoding="utf-8"))
        picture = side_picture(plan)
        svg = picture.draw(Canvas(palette=LIGHT, system="metric", width=470.0))
        parts = re.findall(r'data-part="([^"]+)"', svg)
        straight = [beam for beam in plan.beams if not beam.bent]
        drawn = {float(each) for each in re.findall(r'data-part="beam" data-height="([^"]+)"', svg)}
        assert {beam.height for beam in straight} <= drawn, path.stem
        assert drawn <= {beam.height for beam in plan.beams}, path.stem
        support = plan.support
        told = {str(name) for name, _ in picture.behind.items}
        assert {beam.name for beam in plan.beams} <= {
            each.removeprefix("boom of ") for each in told
        }, path.stem
        if support is not None:
            assert parts.count("guy") == 2 * len(support.guy)
            assert ("top of the mast" in told) == (support.mast is not None)
            assert ("mast" in parts) == (support.mast is not None)
