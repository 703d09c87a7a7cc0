"""Dipoles, folded dipole, mutual impedances, reflection and loops after a textbook.

C. A. Balanis, "Antenna Theory", 3rd ed., Wiley 2005: sections 4.5, 4.6 (dipoles of finite
length), 4.8 (reflection at real ground), 5.3 (loops), 8.5, 8.6 (induced EMF) and 9.5 (folded
dipole). The figures are evaluations of those closed forms, kept in ``data/wires.toml`` with
their formulas. They belong to sinusoidal currents on infinitely thin wire, which a real dipole
approaches only with the logarithm of its radius: tolerances say how close, and the approach
itself is tested too.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from antennas import (
    beam_in_wavelengths,
    fed,
    impedance,
    radiation,
    read_data,
    rod,
    rods_in_parallel,
    solve,
    solved_beam,
    wire,
)
from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.solver import (
    GapPlace,
    Ground,
    Moments,
    far_field,
    gain_dbi,
    radiated_power,
    wire_network,
)
from boomwright.solver.fresnel import fresnel_coefficients

CHECKS = {check["id"]: check for check in read_data("wires.toml")["check"]}
THIN = 1e-5
#: the closer the dipoles, the more their thickness counts
THINNER = 1e-7


def directivity(system):
    """Directivity as a function of azimuth in the plane of wires along y."""
    source, power = radiation(solve(system, frequency=SPEED_OF_LIGHT))

    def at(azimuth, elevation=0.0):
        vertical, horizontal = far_field(
            source=source, azimuth=np.array([azimuth]), elevation=np.array([elevation])
        )
        field = abs(vertical[0, 0]) ** 2 + abs(horizontal[0, 0]) ** 2
        return 4.0 * np.pi * field / (2.0 * VACUUM_IMPEDANCE) / power

    return at


def dipole(length, radius=THIN):
    return rod(half=length / 2.0, radius=radius, gap=2.0 * radius)


@pytest.mark.parametrize(
    ("name", "decibels", "degrees"),
    [
        ("0p25", 0.05, 0.4),
        ("0p5", 0.03, 0.4),
        ("0p75", 0.05, 1.0),
        ("1p0", 0.15, 1.0),
        ("1p25", 0.15, 1.0),
    ],
)
def test_directivity_and_width_of_dipoles(name, decibels, degrees):
    check = CHECKS[f"dip-directivity-{name}"]
    at = directivity(dipole(check["inputs"]["length_wl"]))
    assert 10.0 * np.log10(at(0.0)) == pytest.approx(check["expected"]["D_dBi"], abs=decibels)
    half_power = brentq(lambda azimuth: at(azimuth) - at(0.0) / 2.0, 0.05, 1.0)
    width = np.degrees(2.0 * half_power)
    assert width == pytest.approx(check["expected"]["hpbw_deg"], abs=degrees)


def test_largest_lobe_of_a_dipole_of_one_and_a_half_wavelengths():
    expected = CHECKS["dip-directivity-1p5"]["expected"]
    at = directivity(dipole(1.5))
    lobe = minimize_scalar(lambda azimuth: -at(azimuth), bounds=(0.5, 1.2), method="bounded")
    assert 10.0 * np.log10(-lobe.fun) == pytest.approx(expected["D_max_dBi"], abs=0.15)
    assert 90.0 - np.degrees(lobe.x) == pytest.approx(expected["theta_max_deg"], abs=1.0)


def test_half_wave_dipole_approaches_the_infinitely_thin_one():
    expected = CHECKS["dip-halfwave-z"]["expected"]
    limit = complex(expected["R_ohm"], expected["X_ohm"])
    radii = 10.0 ** -np.arange(4.0, 11.0)
    found = [impedance(dipole(0.5, radius), frequency=SPEED_OF_LIGHT) for radius in radii]
    off = np.array([abs(each - limit) for each in found])
    assert (np.diff(off) < 0.0).all()
    # It is a series in 1/ln(radius), still 2 ohm away at 1e-10: three terms of it must lead to
    # the limit within the size of the fourth.
    series = np.polyfit(1.0 / np.log(1.0 / radii), found, 3)
    assert abs(series[-1] - limit) < 0.8


def test_folded_dipole_steps_the_impedance_up_by_four():
    radius, spacing, half = 2e-4, 5e-3, 0.25
    corners = [[0, half, 0], [0, half, spacing], [0, -half, spacing], [0, -half, 0]]
    loop = wire([*corners, corners[0]], radius)
    along = spacing + 2 * half + spacing + half
    found = impedance(fed(loop, along=along, width=2 * radius), frequency=SPEED_OF_LIGHT)
    # Two wires side by side act as one of radius sqrt(a s); the line current needs no power.
    plain = impedance(dipole(2 * half, np.sqrt(radius * spacing)), frequency=SPEED_OF_LIGHT)
    assert abs(found - 4.0 * plain) < 0.05 * abs(4.0 * plain)


@pytest.mark.parametrize("number", range(22))
def test_mutual_impedance_side_by_side(number):
    check = CHECKS["mut-side"]
    system = rods_in_parallel(
        halves=[0.25] * 2,
        radius=THINNER,
        places=[0.0, check["inputs"]["d_wl"][number]],
        gaps=[2 * THINNER] * 2,
    )
    found = np.linalg.inv(solve(system, frequency=SPEED_OF_LIGHT).admittance[0])[0, 1]
    expected = check["expected"]
    wanted = complex(expected["R21_ohm"][number], expected["X21_ohm"][number])
    assert abs(found - wanted) < 5.0


def two_dipoles(*, aside, along):
    paths = tuple(
        wire([[x, y - 0.25, 0.0], [x, y + 0.25, 0.0]], THINNER)
        for x, y in ((0.0, 0.0), (aside, along))
    )
    gaps = tuple(GapPlace(path=number, along=0.25, width=2 * THINNER) for number in range(2))
    system = wire_network(paths=paths, gaps=gaps)
    return np.linalg.inv(solve(system, frequency=SPEED_OF_LIGHT).admittance[0])[0, 1]


@pytest.mark.parametrize("number", range(1, 12))
def test_mutual_impedance_in_line(number):
    # The first entry, tips a ten-thousandth of a wavelength apart, is outside any wire model.
    check = CHECKS["mut-collinear"]
    found = two_dipoles(aside=0.0, along=check["inputs"]["centre_spacing_wl"][number])
    expected = check["expected"]
    wanted = complex(expected["R21_ohm"][number], expected["X21_ohm"][number])
    assert abs(found - wanted) < 5.0


@pytest.mark.parametrize("number", range(8))
def test_mutual_impedance_in_echelon(number):
    check = CHECKS["mut-echelon"]
    found = two_dipoles(
        aside=check["inputs"]["d_wl"][number], along=check["inputs"]["h_wl"][number]
    )
    expected = check["expected"]
    wanted = complex(expected["R21_ohm"][number], expected["X21_ohm"][number])
    assert abs(found - wanted) < 5.0


GROUNDS = ("sea", "wet", "mediumdry", "verydry", "13-005")


def permittivity_of(given):
    ground = Ground(kind="real", permittivity=given["eps_r"], conductivity=given["sigma"])
    return ground.complex_permittivity(frequency=given["f_MHz"] * 1e6)


@pytest.mark.parametrize("name", GROUNDS)
def test_reflection_coefficients(name):
    check = CHECKS[f"gnd-fresnel-14-{name}"]
    expected = check["expected"]
    horizontal, vertical = fresnel_coefficients(
        elevation=np.radians(check["inputs"]["grazing_deg"]),
        permittivity=permittivity_of(check["inputs"]),
    )
    for found, label in ((horizontal, "Rh"), (vertical, "Rv")):
        np.testing.assert_allclose(np.abs(found), expected[f"{label}_mag"], rtol=0.0, atol=1e-4)
        wanted = np.exp(1j * np.radians(expected[f"{label}_deg"]))
        angle = np.degrees(np.angle(found / np.abs(found) / wanted))
        # Angles are printed to 0.01; where the magnitude is 0.007 a rounded one counts more.
        np.testing.assert_allclose(angle, 0.0, rtol=0.0, atol=0.02)


@pytest.mark.parametrize("name", GROUNDS)
def test_angle_of_the_weakest_vertical_reflection(name):
    check = CHECKS[f"gnd-fresnel-14-{name}"]

    def reflected(degrees):
        _, vertical = fresnel_coefficients(
            elevation=np.radians(np.array([degrees])),
            permittivity=permittivity_of(check["inputs"]),
        )
        return abs(vertical[0])

    weakest = minimize_scalar(reflected, bounds=(0.1, 45.0), method="bounded")
    assert weakest.x == pytest.approx(check["expected"]["pseudo_brewster_deg"], abs=0.01)
    assert weakest.fun == pytest.approx(check["expected"]["Rv_min"], abs=2e-4)


@pytest.mark.parametrize("number", range(4))
def test_ground_factor_at_the_first_maximum(number):
    check = CHECKS["gnd-real-factor"]
    constants = [(70.0, 5.0), (30.0, 0.01), (13.0, 0.005), (3.0, 1e-4)]
    ground = Ground(
        kind="real", permittivity=constants[number][0], conductivity=constants[number][1]
    )
    frequency = 14e6
    wavelength = SPEED_OF_LIGHT / frequency
    elevation = np.radians(np.arange(0.05, 90.0001, 0.05))
    for column, height in enumerate(check["inputs"]["height_wl"]):
        source = Moments(
            points=np.array([[0.0, 0.0, height * wavelength]]),
            vectors=np.array([[[0.0, 1.0, 0.0]]], dtype=complex),
            frequencies=np.array([frequency]),
        )
        # Across a horizontal dipole its own pattern is a circle: only the ground is left.
        fields = [
            np.abs(
                far_field(
                    source=source,
                    azimuth=np.zeros(len(elevation)),
                    elevation=elevation,
                    ground=each,
                )[1][0]
            )
            for each in (ground, Ground(kind="free space"))
        ]
        level = 20.0 * np.log10(fields[0] / fields[1])
        first = next(
            index
            for index in range(1, len(level))
            if index + 1 == len(level)
            or (level[index] >= level[index - 1] and level[index] > level[index + 1])
        )
        assert level[first] == pytest.approx(
            check["expected"]["factor_dB"][number][column], abs=0.01
        )
        place = np.degrees(elevation[first])
        wanted = check["expected"]["elevation_deg"][number][column]
        assert place == pytest.approx(wanted, abs=0.0501)


@pytest.mark.parametrize("number", range(7))
def test_directivity_of_a_loop_of_even_current(number):
    # 64 straight moments on a circle; printed to four digits.
    check = CHECKS["loop-uniform-directivity"]
    radius = check["inputs"]["ka"][number] / (2.0 * np.pi)
    angle = 2.0 * np.pi * np.arange(64) / 64.0
    tangents = np.stack([-np.sin(angle), np.cos(angle), np.zeros(64)], axis=1)
    source = Moments(
        points=radius * np.stack([np.cos(angle), np.sin(angle), np.zeros(64)], axis=1),
        vectors=tangents[None].astype(complex),
        frequencies=np.array([SPEED_OF_LIGHT]),
    )
    elevation = np.linspace(0.0, np.pi / 2.0, 721)
    vertical, horizontal = far_field(
        source=source, azimuth=np.zeros(len(elevation)), elevation=elevation
    )
    density = (np.abs(vertical[0]) ** 2 + np.abs(horizontal[0]) ** 2) / (2.0 * VACUUM_IMPEDANCE)
    found = 4.0 * np.pi * density.max() / radiated_power(source=source)[0]
    assert found == pytest.approx(check["expected"]["D"][number], rel=1e-3)


def test_circular_loop_of_one_wavelength():
    expected = CHECKS["loop-circular-1wl"]["expected"]
    count, radius = 24, 3e-3
    angle = 2.0 * np.pi * (np.arange(count + 1) - 0.5) / count
    # A polygon of the same circumference; the thickness is not printed, a common one is taken.
    reach = 1.0 / count / (2.0 * np.sin(np.pi / count))
    corners = reach * np.stack([np.zeros(count + 1), np.sin(angle), -np.cos(angle)], axis=1)
    corners[-1] = corners[0]
    loop = fed(wire(corners, radius), along=0.5 / count, width=2 * radius)
    found = impedance(loop, frequency=SPEED_OF_LIGHT)
    assert found.real == pytest.approx(expected["R_ohm_about"], rel=0.2)
    gain = 10.0 * np.log10(directivity(loop)(0.0))
    assert gain == pytest.approx(expected["gain_dBi_about"], abs=0.15)


def test_array_of_fifteen_elements():
    # From memory: a figure to be near, not to be judged by.
    check = CHECKS["yagi15-balanis"]
    given = check["inputs"]
    solution = solved_beam(
        beam_in_wavelengths(
            lengths=given["lengths_wl"],
            spacings=given["spacings_wl"],
            diameter=2.0 * given["radius_wl"],
            driven=1,
        ),
        SPEED_OF_LIGHT,
    )
    gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))[0, 0]
    assert gain == pytest.approx(check["expected"], abs=0.4)
