"""J. Fluid Mech. 10 (1961) 345: drag and shedding past the crisis (published)."""

from __future__ import annotations

import pytest
from structure_reference import expected

from boomwright.structure.beam.vibration import STROUHAL, critical_wind
from boomwright.structure.weather.drag import ROUND_DRAG

LOW, HIGH, SETTLED, SETTLED_SHEDDING = expected("cyl_drag_regimes")


def test_design_coefficient_lies_above_every_measured_figure():
    assert max(LOW, HIGH, SETTLED) < ROUND_DRAG


def test_shedding_settles_at_the_measured_number_on_a_very_wide_tube():
    # 2 m wide at 3 Hz: f d / 0.2 is 30 m/s, a Reynolds number of 4e6.
    wide = critical_wind(frequency_hz=3.0, diameter=2.0)
    assert 3.0 * 2.0 / wide == pytest.approx(SETTLED_SHEDDING, rel=1e-12)
    assert 3.0 * 0.02 / critical_wind(frequency_hz=3.0, diameter=0.02) == pytest.approx(
        STROUHAL, rel=1e-12
    )
