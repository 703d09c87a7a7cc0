"""The S-meter scale of IARU Region 1 Technical Recommendation R.1."""

from __future__ import annotations

import pytest
from check_values import reach_check as check

from boomwright.tuning.on_air import level_of_s_meter


@pytest.mark.parametrize("name", ["s-unit-hf", "s-unit-vhf"])
def test_power_of_each_s_unit(name):
    values = check(name)
    power = dict(zip(values["inputs"]["S"], values["expected"]["dBm"], strict=True))
    for units, dbm in power.items():
        assert level_of_s_meter(s_units=units) == pytest.approx(dbm - power[9])
