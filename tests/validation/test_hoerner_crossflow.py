"""Normal-component rule on yawed cylinders (derived) and the older sum rule (published numbers)."""

from __future__ import annotations

from math import degrees

import pytest
from structure_reference import expected

from boomwright.structure.weather.beam_wind import older_worst_area

ELEMENTS, BOOM = 0.464, 1.91


def test_older_rule_peak():
    area, angle = older_worst_area(element_area=ELEMENTS, boom_area=BOOM)
    assert degrees(angle) == pytest.approx(expected("yagi_old_angle"), abs=0.06)
    assert area == pytest.approx(1.9656, abs=1e-4)
