"""EN 1991-1-4:2005 7.9.2, figure 7.28, and the peak pressure of 4.5 (published)."""

from __future__ import annotations

from math import sqrt

import pytest
from structure_reference import expected

from boomwright.structure import en_cylinder_drag, en_peak_pressure


def test_cylinder_coefficient_without_end_effect():
    peak = en_peak_pressure(basic_speed=24.033, height=40.0)
    found = en_cylinder_drag(diameter=0.4, speed=sqrt(2.0 * peak / 1.25))
    assert found == pytest.approx(expected("en_cyl_cf0"), rel=1e-12)


def test_thin_tubes_stay_subcritical():
    # A 25 mm element at 60 m/s has a Reynolds number of 1e5.
    assert en_cylinder_drag(diameter=0.025, speed=60.0) == 1.2
