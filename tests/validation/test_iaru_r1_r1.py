"""The S-meter scale of IARU Region 1 Technical Recommendation R.1."""

from __future__ import annotations

import pytest
from reach_checks import check

from boomwright.reach.signal_reports import microvolts, power_of_s_units, s_units, signal_report


@pytest.mark.parametrize(("name", "frequency"), [("s-unit-hf", 14.1e6), ("s-unit-vhf", 145e6)])
def test_power_of_each_s_unit(name, frequency):
    values = check(name)
    for units, dbm, microvolt in zip(
        values["inputs"]["S"], values["expected"]["dBm"], values["expected"]["uV"], strict=True
    ):
        assert power_of_s_units(units=units, frequency=frequency) == dbm
        assert s_units(power_dbm=dbm, frequency=frequency) == units
        assert signal_report(power_dbm=dbm, frequency=frequency) == f"S{units}"
        # Voltages are printed to two or three digits, S9 as 50.2 for a computed 50.06.
        assert microvolts(power_dbm=dbm) == pytest.approx(microvolt, rel=0.016)
