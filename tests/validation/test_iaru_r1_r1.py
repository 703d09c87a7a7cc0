"""The S-meter scale of IARU Region 1 Technical Recommendation R.1."""

from __future__ import annotations

import pytest
from reach_checks import check

from boomwright.reach.signal_reports import s_units


@pytest.mark.parametrize(("name", "frequency"), [("s-unit-hf", 14.1e6), ("s-unit-vhf", 145e6)])
def test_power_of_each_s_unit(name, frequency):
    values = check(name)
    for units, dbm in zip(values["inputs"]["S"], values["expected"]["dBm"], strict=True):
        assert s_units(power_dbm=dbm, frequency=frequency) == units
