"""Dipoles over perfect ground by images, and two monopoles side by side.

P. S. Carter, "Circuit relations in radiating systems and applications to antenna problems",
Proc. IRE 20, June 1932, pp. 1004-1041; also C. A. Balanis, "Antenna Theory", sections 4.7, 8.6.
The figures are Z = Z11 -+ Z21(2h) with sinusoidal currents on infinitely thin half-wave
dipoles, and the gain that follows. Gain depends on the impedance through ratios only and must
agree to 0.05 dB; the resistance of a dipole of finite radius is a few percent higher (10 %).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.special import sici

from antennas import beam, fed, impedance, read_data, solved_beam, wire
from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.parts import PhasingLine, TubeSection
from boomwright.plan import read_plan
from boomwright.plan.shapes import shape_plan
from boomwright.reach.lobes import forward_lobes
from boomwright.solver import PERFECT_GROUND, gain_dbi, remembering
from boomwright.study.shapes import phased_lengths

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
    return solved_beam(antenna, SPEED_OF_LIGHT, ground=PERFECT_GROUND)


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


SPACINGS = (0.15, 0.25, 0.5)


def mutual_of_half_waves(spacing):
    """Impedance between two half-wave dipoles side by side (Carter, Balanis eq. 8-71).

    R = (eta / 4 pi) [2 Ci(u0) - Ci(u1) - Ci(u2)], X = -(eta / 4 pi) [2 Si(u0) - Si(u1) - Si(u2)],
    u0 = k d, u1 and u2 = k (sqrt(d^2 + l^2) +- l).
    """
    apart = np.sqrt(spacing**2 + 0.25)
    sine, cosine = sici(2.0 * np.pi * np.array([spacing, apart + 0.5, apart - 0.5]))
    factor = VACUUM_IMPEDANCE / (4.0 * np.pi) * np.array([2.0, -1.0, -1.0])
    return complex(factor @ cosine, -(factor @ sine))


def two_monopoles(spacing):
    """Thin quarter waves on perfect ground with lines of no matter what length."""
    plan = read_plan(shape_plan("two-verticals", band="40 m"))
    beam = plan.beams[0]
    x = np.array([0.0, spacing * beam.wavelength])
    line = PhasingLine(impedance=50.0, length=5.0)
    elements = tuple(
        replace(
            element,
            position=float(at),
            path=tuple(
                replace(point, place=(float(at), 0.0, point.place[2])) for point in element.path
            ),
            half=(TubeSection(diameter=2e-7 * beam.wavelength, length=0.25 * beam.wavelength),),
            phasing_line=line,
        )
        for at, element in zip(x, beam.elements, strict=True)
    )
    metal = replace(beam.material, conductivity=np.inf)
    return replace(beam, elements=elements, material=metal)


@pytest.mark.parametrize("spacing", SPACINGS)
def test_two_phased_monopoles(spacing):
    """Feed impedances Z11 + Z12 I2/I1 and Z11 + Z12 I1/I2; those of monopoles are half of dipoles'.

    The lines are cut for equal currents, the front one a quarter turn behind. Real wire departs
    from the sinusoidal current, by up to two ohm and 0.2 dB, and no two wires alike.
    """
    beam = two_monopoles(spacing)
    lengths = phased_lengths(beam, PERFECT_GROUND, prepare=remembering())
    elements = tuple(
        replace(element, phasing_line=PhasingLine(impedance=50.0, length=length))
        for element, length in zip(beam.elements, lengths, strict=True)
    )
    solution = solved_beam(replace(beam, elements=elements), ground=PERFECT_GROUND)
    volts, amperes = solution.drives[0]
    assert amperes[1] / amperes[0] == pytest.approx(-1j, abs=2e-3)
    rear, front = volts / amperes
    mutual = 0.5 * mutual_of_half_waves(spacing)
    assert (front - rear) / 2j == pytest.approx(mutual, abs=2.0)
    # 73.1 + j 42.5 ohm for the dipole alone.
    assert (front + rear) / 2.0 == pytest.approx(0.5 * (73.13 + 42.54j), abs=4.0)
    # The array factor |1 + (I2/I1) exp(j k d cos a)|, and both monopoles alike.
    azimuth = np.radians([0.0, 90.0, 180.0])
    gains = gain_dbi(
        solution=solution, azimuth=azimuth, elevation=np.zeros(3), ground=PERFECT_GROUND
    )[0]
    factor = np.abs(1.0 - 1j * np.exp(2j * np.pi * spacing * np.cos(azimuth)))
    seen = np.maximum(20.0 * np.log10(factor / factor[0] + 1e-9), -30.0)
    assert np.maximum(gains - gains[0], -30.0) == pytest.approx(seen, abs=0.2)
