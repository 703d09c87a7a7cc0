"""ANSI/TIA-222-G: one printed calculation of a pole, and the inspection intervals (published)."""

from __future__ import annotations

import pytest
from structure_reference import expected

from boomwright.structure.reminders import REMINDERS
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.wind import exposure_coefficient, pressure_from_speed


def test_pressure_on_the_small_pole_at_the_top():
    found = pressure_from_speed(speed=44.44, height_coefficient=1.090, directionality=0.95)
    assert found == pytest.approx(expected("wind_q_tia_top"), rel=1e-3)


def test_pressure_on_the_main_pole_at_the_floor_of_exposure_b():
    floor = exposure_coefficient(height=5.0, exposure="B", edition="TIA-222-G")
    assert floor == 0.70
    found = pressure_from_speed(speed=44.44, height_coefficient=floor, directionality=0.85)
    assert found == pytest.approx(expected("wind_q_tia_low"), rel=1e-3)


def test_force_on_a_metre_of_pole():
    # Printed 150 from rounded inputs, hence one percent.
    found = 1254.0 * 1.1 * 0.0903 * ROUND_DRAG
    assert found == pytest.approx(expected("wind_force_tia"), rel=0.01)


def test_inspection_intervals_are_told():
    guyed, standing = expected("inspection_interval")
    told = [item for each in REMINDERS for item in each.items if item.source == "tia-222-g"]
    assert f"every {guyed} years" in told[0].text
    assert f"every {standing}" in told[0].text
