"""Dipoles over perfect ground by images.

P. S. Carter, "Circuit relations in radiating systems and applications to antenna problems",
Proc. IRE 20, June 1932, pp. 1004-1041; also C. A. Balanis, "Antenna Theory", sections 4.7, 8.6.
The figures are Z = Z11 -+ Z21(2h) with sinusoidal currents on infinitely thin half-wave
dipoles, and the gain that follows. Gain depends on the impedance through ratios only and must
agree to 0.05 dB; the resistance of a dipole of finite radius is a few percent higher (10 %).
"""

from __future__ import annotations

import numpy as np
import pytest

from antennas import beam, fed, impedance, read_data, wire
from boomwright.base import SPEED_OF_LIGHT
from boomwright.reach.lobes import forward_lobes
from boomwright.solver import PERFECT_GROUND, gain_dbi, solve_beam, working_detail

CHECKS = {check["id"]: check for check in read_data("wires.toml")["check"]}
THIN = 1e-6


def half_wave_over_perfect_ground(height):
    antenna = beam(
        lengths=[0.5],
        places=[0.0],
        diameter=2 * THIN,
        driven=0,
        frequency=SPEED_OF_LIGHT,
        height=height,
    )
    return solve_beam(
        beam=antenna,
        frequencies=np.array([SPEED_OF_LIGHT]),
        detail=working_detail(frequency=SPEED_OF_LIGHT),
        ground=PERFECT_GROUND,
    )


def elevation_cut(solution, height, angle):
    radians = np.radians(angle)
    return gain_dbi(
        solution=solution,
        azimuth=np.where(angle <= 90.0, 0.0, np.pi),
        elevation=np.arcsin(np.sin(radians)),
        ground=PERFECT_GROUND,
        height=height,
    )[0]


@pytest.mark.parametrize("number", range(20))
def test_horizontal_half_wave_dipole(number):
    check = CHECKS["gnd-pec-horizontal"]
    expected = check["expected"]
    height = check["inputs"]["height_wl"][number]
    solution = half_wave_over_perfect_ground(height)
    assert solution.impedance[0].real == pytest.approx(expected["R_ohm"][number], rel=0.1)
    lobe = expected["lobe_elevation_deg"][number]
    gain = elevation_cut(solution, height, np.array([lobe]))[0]
    assert gain == pytest.approx(expected["gain_dBi"][number], abs=0.05)


@pytest.mark.parametrize("number", range(9))
def test_vertical_half_wave_dipole(number):
    check = CHECKS["gnd-pec-vertical"]
    radius = 1e-5
    height = check["inputs"]["centre_height_wl"][number]
    path = wire([[0.0, 0.0, height - 0.25], [0.0, 0.0, height + 0.25]], radius)
    system = fed(path, along=0.25, width=2 * radius, perfect_ground=True)
    found = impedance(system, frequency=SPEED_OF_LIGHT)
    assert found.real == pytest.approx(check["expected"]["R_ohm"][number], rel=0.1)


def test_quarter_wave_on_perfect_ground_is_half_a_dipole():
    radius = 1e-5
    post = wire([[0.0, 0.0, 0.0], [0.0, 0.0, 0.25]], radius)
    standing = fed(post, along=0.0, width=2 * radius, perfect_ground=True)
    whole = wire([[0.0, 0.0, -0.25], [0.0, 0.0, 0.25]], radius)
    dipole = fed(whole, along=0.25, width=2 * radius)
    found, twice = (impedance(each, frequency=SPEED_OF_LIGHT) for each in (standing, dipole))
    assert abs(2.0 * found - twice) < 1e-3 * abs(twice)


def lobes_over_perfect_ground(height):
    angle = np.arange(0.0, 180.01, 0.25)
    solution = half_wave_over_perfect_ground(height)
    return forward_lobes(elevation_deg=angle, gain_dbi=elevation_cut(solution, height, angle))


@pytest.mark.parametrize("number", range(8))
def test_lobes_and_nulls_follow_the_two_rays(number):
    check = CHECKS["gnd-lobes"]
    lobes, nulls = lobes_over_perfect_ground(check["inputs"]["height_wl"][number])
    maxima = check["expected"]["maxima_deg"][number]
    assert [place for place, _ in lobes] == pytest.approx(maxima, abs=0.2)
    between = [place for place in check["expected"]["nulls_deg"][number] if 0.0 < place < 90.0]
    assert [place for place in nulls if place < 89.0] == pytest.approx(between, abs=0.05)


def test_null_at_the_zenith():
    _, nulls = lobes_over_perfect_ground(0.5)
    assert nulls == pytest.approx([90.0], abs=0.05)
