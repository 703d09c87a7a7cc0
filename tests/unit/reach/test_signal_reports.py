"""S-meter words."""

from __future__ import annotations

import pytest

from boomwright.reach.signal_reports import s_units, signal_report


@pytest.mark.parametrize(
    ("power_dbm", "text"),
    [(-73, "S9"), (-71, "S9"), (-63, "S9 + 10 dB"), (-80, "S8"), (-121, "S1"), (-140, "below S1")],
)
def test_words(power_dbm, text):
    assert signal_report(power_dbm=power_dbm, frequency=14e6) == text


def test_six_decibels_are_one_unit():
    more = s_units(power_dbm=-90.0, frequency=14e6) - s_units(power_dbm=-96.0, frequency=14e6)
    assert more == pytest.approx(1.0)
