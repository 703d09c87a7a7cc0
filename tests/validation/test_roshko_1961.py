"""J. Fluid Mech. 10 (1961) 345: drag past the crisis is low, so it is never claimed (published)."""

from __future__ import annotations

from structure_reference import expected

from boomwright.structure.drag import ROUND_DRAG
from boomwright.structure.vibration import STROUHAL


def test_design_coefficient_lies_above_every_supercritical_figure():
    low, high, very_high, strouhal = expected("cyl_drag_regimes")
    assert low < high < very_high < ROUND_DRAG
    # The subcritical Strouhal number is below the one at very high Reynolds numbers.
    assert strouhal > STROUHAL
