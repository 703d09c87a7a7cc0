"""29 CFR 1926.502(d) and 1926.1431(k)(8): figures for climbers and platforms."""

import pytest
from check_values import checks

from boomwright.raising import WeatherStops
from boomwright.raising.falls import fall_figures

CHECKS = checks("raising_checks.toml")


def test_fall_arrest_figures():
    force, free_fall, deceleration, anchor = CHECKS["fall_arrest"]["expected"]
    figures = fall_figures(people_on_anchor=2)
    # 1 lbf = 4.4482216152605 N
    assert figures.arrest_force == pytest.approx(force * 4.4482216152605, rel=1e-12)
    assert figures.free_fall / 0.3048 == pytest.approx(free_fall, rel=1e-12)
    assert figures.deceleration / 0.3048 == pytest.approx(deceleration, rel=1e-12)
    assert figures.anchor_strength == pytest.approx(2 * anchor * 4.4482216152605, rel=1e-12)


def test_clearance_below():
    # 6 + 3.5 + 5 + 3 ft; the last two are common practice without a source
    assert fall_figures().clearance_below / 0.3048 == pytest.approx(17.5, rel=1e-12)


def test_wind_for_people_in_a_platform():
    expected = CHECKS["personnel_wind"]["expected"]
    assert WeatherStops().people_in_platform_review / 0.44704 == pytest.approx(expected, rel=1e-12)
