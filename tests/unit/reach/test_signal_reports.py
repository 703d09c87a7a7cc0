"""S-meter words."""

from __future__ import annotations

import pytest

from boomwright.reach.signal_reports import s_units


def test_six_decibels_are_one_unit():
    more = s_units(power_dbm=-90.0, frequency=14e6) - s_units(power_dbm=-96.0, frequency=14e6)
    assert more == pytest.approx(1.0)
