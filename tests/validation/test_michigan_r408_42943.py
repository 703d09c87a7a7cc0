"""Michigan R 408.42943 (breaking factor), and statics derived in data/raising_checks.toml."""

import math

import pytest
from check_values import checks

from boomwright.raising import wind_force
from boomwright.raising.rigging import block_load, breaking_strength_needed

CHECKS = checks("raising_checks.toml")


def test_breaking_factor():
    factor = CHECKS["ginpole_factor"]["expected"]
    assert breaking_strength_needed(static_load=100.0) == pytest.approx(100.0 * factor, rel=1e-12)


def test_block_angles():
    expected = CHECKS["block_angles"]["expected"]
    for degrees, factor in zip((0, 45, 50, 60, 90, 120, 135), expected, strict=True):
        load = block_load(line_tension=1.0, angle_between=math.radians(degrees))
        assert load == pytest.approx(factor, abs=5e-4)  # printed to three decimals


def test_wind_on_a_hanging_beam():
    for mph, pounds in zip((10, 20), CHECKS["hoist_wind"]["expected"], strict=True):
        force = wind_force(drag_area=6 * 0.3048**2, wind_speed=mph * 0.44704)
        # the data's own tolerance of 0.01 lb: two decimals printed, 0.613 against 0.00256
        assert force / 4.4482216152605 == pytest.approx(pounds, abs=0.01)
