"""All beams from above: north up, clockwise headings, and names that stay text."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from boomwright.charts import mast_view
from boomwright.plan import read_plan, starter_plan


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
