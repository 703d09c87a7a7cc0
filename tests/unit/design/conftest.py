"""The problem that the tests of the search share."""

from __future__ import annotations

import numpy as np
import pytest
from design_beams import three_elements

from boomwright.design.setting_up import set_up
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish


@pytest.fixture(scope="session")
def setting():
    """A small problem: gain and rear of three elements over 2.5 %."""
    targets = Targets(rear_weight=0.2, resistance=(10.0, np.inf))
    return set_up(beam=three_elements(), wish=Wish(targets=targets, boom_limit=0.3), count=3)
