"""The field reflected by real ground against a double integral over plane waves.

Sources: A. Sommerfeld, Ann. Phys. 28, 1909; H. Weyl, Ann. Phys. 60, 1919; the integral is
written out independently in ``tests/plane_waves.py`` and takes another path. Limits: a good
conductor turns into a mirror, ground like air into nothing.
"""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import GROUND_CLASSES, Ground, reflected_remainder
from boomwright.solver.half_space import ground_table, image_factor
from plane_waves import permittivity_of, reaction

REAL = [ground for ground in GROUND_CLASSES.values() if ground.kind == "real"]
#: observed axis, source axis of the four components
COMPONENTS = ((0, 0), (1, 1), (2, 2), (0, 2))


def mirror_dyadic(*, distance, height, wavenumber):
    """Four components of the field of the image in a perfect conductor, by differentiation."""
    away = np.hypot(distance, height)
    unit = np.array([distance, 0.0, height]) / away
    near = 1.0 / (1j * wavenumber * away) + 1.0 / (1j * wavenumber * away) ** 2
    wave = np.exp(-1j * wavenumber * away) / away
    dyadic = (
        wave
        * ((1.0 + near) * np.eye(3) - (1.0 + 3.0 * near) * np.outer(unit, unit))
        @ np.diag([-1.0, -1.0, 1.0])
    )
    return np.array([dyadic[pair] for pair in COMPONENTS])


def whole_field(*, distance, height, ground, frequency):
    here = np.array([[distance, 0.0, 0.5 * height]])
    there = np.array([[0.0, 0.0, 0.5 * height]])
    dyadic = reaction(
        observed=(here, np.eye(3)[None]),
        source=(there, np.eye(3)[None]),
        ground=ground,
        frequency=frequency,
    )
    return np.array([dyadic[pair] for pair in COMPONENTS])


def random_place(seed):
    rng = np.random.default_rng(seed)
    frequency = 10.0 ** rng.uniform(np.log10(1.8e6), np.log10(52e6))
    wavelength = SPEED_OF_LIGHT / frequency
    height = wavelength * 10.0 ** rng.uniform(np.log10(0.04), np.log10(3.0))
    distance = min(wavelength * 10.0 ** rng.uniform(-2.0, 0.5), 12.0 * height)
    return REAL[seed % len(REAL)], frequency, distance, height


def error_of_the_split(seed):
    """Error of remainder and image together, relative to the largest component."""
    ground, frequency, distance, height = random_place(seed)
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    remainder = reflected_remainder(
        distance=np.array([distance]),
        height=np.array([height]),
        ground=ground,
        frequency=frequency,
    )[:, 0, 0]
    image = image_factor(ground=ground, frequency=frequency) * mirror_dyadic(
        distance=distance, height=height, wavenumber=wavenumber
    )
    exact = whole_field(distance=distance, height=height, ground=ground, frequency=frequency)
    return np.abs(remainder + image - exact).max() / np.abs(exact).max()


@pytest.mark.parametrize("block", range(5))
def test_remainder_and_image_make_the_whole_field(block):
    """At 100 random places over all classes of ground, 1.8 to 52 MHz, in blocks of twenty."""
    off = {seed: error_of_the_split(seed) for seed in range(20 * block, 20 * block + 20)}
    assert {seed: value for seed, value in off.items() if value > 1e-4} == {}


@pytest.mark.parametrize("ground", REAL, ids=lambda ground: ground.name)
def test_table_repeats_the_integral(ground):
    rng = np.random.default_rng(7)
    frequency = 14.2e6
    wavelength = SPEED_OF_LIGHT / frequency
    low, high = 0.3 * wavelength, 2.0 * wavelength
    table = ground_table(
        largest_distance=2.0 * wavelength, heights=(low, high), ground=ground, frequency=frequency
    )
    distance = rng.uniform(0.0, 2.0 * wavelength, size=30)
    height = rng.uniform(low, high, size=30)
    found = table.at(distance=distance, height=height)
    for number in range(30):
        exact = reflected_remainder(
            distance=distance[number : number + 1],
            height=height[number : number + 1],
            ground=ground,
            frequency=frequency,
        )[:, 0, 0]
        away = np.hypot(distance[number], height[number])
        # Relative to the reflected wave itself, of which the remainder may be a small part.
        assert np.abs(found[:, number] - exact).max() < 1e-4 / away


def test_a_good_conductor_is_a_mirror():
    ground = Ground(kind="real", permittivity=1.0, conductivity=1e7)
    frequency, distance, height = 14.2e6, 5.0, 12.0
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    remainder = reflected_remainder(
        distance=np.array([distance]),
        height=np.array([height]),
        ground=ground,
        frequency=frequency,
    )[:, 0, 0]
    image = mirror_dyadic(distance=distance, height=height, wavenumber=wavenumber)
    assert np.abs(remainder).max() < 1e-4 * np.abs(image).max()
    assert image_factor(ground=ground, frequency=frequency) == pytest.approx(1.0, abs=1e-9)


def test_ground_like_air_reflects_nothing():
    ground = Ground(kind="real", permittivity=1.0 + 1e-9, conductivity=0.0)
    remainder = reflected_remainder(
        distance=np.array([3.0]), height=np.array([8.0]), ground=ground, frequency=14.2e6
    )
    assert np.abs(remainder).max() < 1e-9
    assert abs(image_factor(ground=ground, frequency=14.2e6)) < 1e-9


def test_reference_integral_knows_the_mirror():
    """The independent integral itself, where the answer is known."""
    ground = Ground(kind="real", permittivity=1.0, conductivity=1e9)
    frequency, distance, height = 14.2e6, 7.0, 9.0
    exact = whole_field(distance=distance, height=height, ground=ground, frequency=frequency)
    image = mirror_dyadic(
        distance=distance,
        height=height,
        wavenumber=2.0 * np.pi * frequency / SPEED_OF_LIGHT,
    )
    np.testing.assert_allclose(exact, image, rtol=0.0, atol=2e-5 * np.abs(image).max())
    assert permittivity_of(ground, frequency).imag < -1e9
