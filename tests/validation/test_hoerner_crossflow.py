"""Normal-component rule on yawed cylinders (derived) and the older sum rule (published numbers)."""

from __future__ import annotations

from math import degrees, radians

import numpy as np
import pytest
from structure_reference import expected

from boomwright.structure import least_area, normal_component_area, older_worst_area

ELEMENTS, BOOM = 0.464, 1.91


def test_older_rule_peak():
    area, angle = older_worst_area(element_area=ELEMENTS, boom_area=BOOM)
    assert degrees(angle) == pytest.approx(expected("yagi_old_angle"), abs=0.06)
    assert area == pytest.approx(1.9656, abs=1e-4)


def test_largest_area_is_the_larger_of_both():
    scan = [
        normal_component_area(element_area=ELEMENTS, boom_area=BOOM, angle=radians(a))[2]
        for a in range(360)
    ]
    assert max(scan) == pytest.approx(expected("yagi_crossflow_max"), rel=1e-12)


def test_least_area_and_its_angle():
    area, angle = least_area(element_area=ELEMENTS, boom_area=BOOM)
    value, where = expected("yagi_crossflow_min")
    assert area == pytest.approx(value, abs=1e-4)
    assert degrees(angle) == pytest.approx(where, abs=0.01)
    scan = [
        normal_component_area(element_area=ELEMENTS, boom_area=BOOM, angle=a)[2]
        for a in np.linspace(0.0, np.pi / 2, 9001)
    ]
    assert min(scan) == pytest.approx(area, rel=1e-6)


def test_equal_areas_at_forty_five_degrees():
    _, _, found = normal_component_area(element_area=1.0, boom_area=1.0, angle=radians(45.0))
    older, _ = older_worst_area(element_area=1.0, boom_area=1.0)
    assert [found, older] == pytest.approx(expected("yagi_crossflow_45"), abs=1e-5)
