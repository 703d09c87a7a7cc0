"""All beams from above: north up, clockwise headings, and names that stay text."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from boomwright.charts import LIGHT, mast_view
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.report.beam.side import side_picture
from boomwright.report.model import Canvas
from boomwright.session.files import packaged_text

ROOT = Path(__file__).resolve().parents[3]


def drawn(svg, number):
    """Ends of the boom: the longest line of a beam's that is not across its heading."""
    inside = re.search(rf'<g data-beam="{number}">(.*?)</g>', svg, re.DOTALL)[1]
    lines = re.findall(r'<line x1="([-0-9.]+)" y1="([-0-9.]+)" x2="([-0-9.]+)" y2="([-0-9.]+)"',
                       inside)  # fmt: skip
    return np.array(lines, float).reshape(-1, 2, 2)


def test_beams_lie_on_their_headings_and_turn_about_the_mast_in_one_scale():
    text = packaged_text("demo.toml").replace('heading = "300 deg"', 'heading = "0 deg"')
    text = text.replace('top = "16.4 m"', 'top = "19 m"')
    head, mark, beam = text.partition("[[beam]]\n")
    beam, support, rest = beam.partition("\n[support]")
    assert mark
    assert support
    other = beam.replace('name = "20m"', 'name = "<b>other</b>"')
    other = other.replace('heading = "0 deg"', 'heading = "90 deg"')
    other = other.replace('height = "16 m"', 'height = "18.5 m"')
    plan = read_plan(f"{head}{mark}{beam}\n{mark}{other}{support}{rest}")
    station = station_assembly(plan)
    svg = mast_view(beams=plan.beams, station=station, chosen=0, width=420.0)
    middle = [float(each) for each in
              re.findall(r'<circle cx="([0-9.]+)" cy="([0-9.]+)"', svg)[-1]]  # fmt: skip
    north, east = (drawn(svg, number) - middle for number in (0, 1))
    # From rear to front: up on paper for north, to the right for east, both of one length.
    turned = np.stack([-north[..., 1], north[..., 0]], axis=-1)
    assert turned == pytest.approx(east, abs=0.02)
    # The farthest tip is as far from the middle as the beam reaches; the edge of the picture is.
    far = np.hypot(*north.reshape(-1, 2).T).max()
    assert far == pytest.approx(0.5 * 420.0 - 18.0, rel=0.01)
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
