"""Exact slopes of the batch engine against differences, and its figures against other ways."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import spherical_jn

from antennas import beam_in_wavelengths
from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.aims import directions, moment_weights
from boomwright.design.array_slopes import array_slopes, band_tables
from boomwright.design.ensemble import soft_scores
from boomwright.design.match_in_place import MatchInPlace
from boomwright.design.minimax import least_levels
from boomwright.design.targets import Targets, at_the_feed, front_to_rear, reflected
from boomwright.solver import gain_dbi, solve_beam, working_detail
from boomwright.solver.element_response import element_family

RADIUS = 1e-3
FREQUENCIES = SPEED_OF_LIGHT * np.array([0.9875, 1.0, 1.0125])
RATIO = FREQUENCIES / FREQUENCIES[1]
#: ahead, two rear azimuths and one raised direction; none near a null of the designs below
TOWARDS = directions(
    azimuth=np.array([0.0, 2.4, 2.9, 0.2]), elevation=np.array([0.0, 0.0, 0.0, 0.3])
)


def family(*, inner=(), radius=RADIUS, frequencies=FREQUENCIES):
    return element_family(
        inner=inner,
        tip_radius=radius,
        half_lengths=(0.19, 0.27),
        gap=2 * RADIUS,
        frequencies=frequencies,
        detail=working_detail(frequency=float(frequencies.max())),
    )


@pytest.fixture(scope="module")
def families():
    plain = family()
    return (plain, plain, plain, family(inner=((0.1, RADIUS),), radius=0.8e-3))


@pytest.fixture(scope="module")
def tables(families):
    return band_tables(families=families, driven=1)


@pytest.fixture(scope="module")
def designs():
    generator = np.random.default_rng(7)
    spacings = generator.uniform(0.12, 0.3, (5, 3))
    positions = np.hstack([np.zeros((5, 1)), np.cumsum(spacings, axis=1)])
    halves = np.array([0.247, 0.235, 0.222, 0.221]) + generator.uniform(-0.003, 0.003, (5, 4))
    return positions, halves


def difference(function, positions, halves, dimension, step):
    """Sixth-order central difference in one dimension of every design."""

    def at(shift):
        where, long = positions.copy(), halves.copy()
        chosen = where if dimension < 4 else long
        chosen[:, dimension % 4] += shift
        return function(where, long)

    factors = {1: 3 / 4, 2: -3 / 20, 3: 1 / 60}
    return sum(f * (at(k * step) - at(-k * step)) for k, f in factors.items()) / step


@pytest.mark.parametrize("dimension", range(8))
def test_slopes_are_exact_to_a_millionth(tables, designs, dimension):
    def figures(where, long):
        return array_slopes(tables=tables, positions=where, half_lengths=long, towards=TOWARDS)

    found = figures(*designs)
    step = 4e-4 if dimension < 4 else 4e-5
    for name in ("impedance", "gain_db"):
        expected = difference(
            lambda where, long, name=name: getattr(figures(where, long), name),
            *designs,
            dimension,
            step,
        )
        slopes = getattr(found, f"{name.removesuffix('_db')}_slopes")[..., dimension]
        scale = np.abs(expected).max()
        np.testing.assert_allclose(slopes, expected, rtol=0.0, atol=1e-6 * scale)


MATCHES = {
    "direct": Targets(),
    "matched": Targets(match="matched"),
    "split": Targets(fed=MatchInPlace(kind="split", reference=25.0)),
    "hairpin": Targets(fed=MatchInPlace(kind="hairpin", reference=50.0)),
    "corrected": Targets(
        fed=MatchInPlace(
            kind="hairpin", reference=50.0, correction=np.array([0.02, 0.01j, -0.02 + 0.01j])
        )
    ),
    "gamma": Targets(fed=MatchInPlace(kind="gamma", reference=50.0, step_up=5.0, line=250.0)),
    "tee": Targets(fed=MatchInPlace(kind="tee", reference=200.0, step_up=5.0, line=500.0)),
    "folded": Targets(fed=MatchInPlace(kind="folded", reference=200.0, step_up=4.0, line=300.0)),
    "section": Targets(fed=MatchInPlace(kind="quarter-wave", reference=50.0)),
    "open stub": Targets(fed=MatchInPlace(kind="stub", reference=50.0, stub_end="open")),
    "short stub": Targets(fed=MatchInPlace(kind="stub", reference=50.0)),
    "series coil": Targets(
        fed=MatchInPlace(kind="L-section", reference=200.0, at_antenna="series coil")
    ),
    "shunt coil": Targets(
        fed=MatchInPlace(kind="L-section", reference=50.0, at_antenna="shunt coil")
    ),
}


@pytest.mark.parametrize("match", MATCHES)
@pytest.mark.parametrize("dimension", [1, 2, 4, 5, 7])
def test_slopes_of_what_is_wanted(tables, designs, dimension, match):
    targets = MATCHES[match]

    def wanted(where, long):
        found = array_slopes(tables=tables, positions=where, half_lengths=long, towards=TOWARDS)
        values = (
            front_to_rear(found=found)[0].reshape(5, -1),
            reflected(found=found, targets=targets, design=1, ratio=RATIO)[0],
            at_the_feed(found=found, design=1)[0][:, None],
            at_the_feed(found=found, design=1)[2][:, None],
        )
        return np.hstack(values)

    found = array_slopes(
        tables=tables, positions=designs[0], half_lengths=designs[1], towards=TOWARDS
    )
    feed = at_the_feed(found=found, design=1)
    slopes = np.hstack(
        [
            front_to_rear(found=found)[1][..., dimension].reshape(5, -1),
            reflected(found=found, targets=targets, design=1, ratio=RATIO)[1][..., dimension],
            feed[1][:, dimension, None],
            feed[3][:, dimension, None],
        ]
    )
    step = 1e-3 if dimension < 4 else 1e-4
    expected = difference(wanted, *designs, dimension, step)
    np.testing.assert_allclose(slopes, expected, rtol=0.0, atol=1e-6 * np.abs(expected).max())


@pytest.mark.parametrize("dimension", [1, 3, 4, 6])
def test_slopes_of_soft_scores(tables, designs, dimension):
    targets = Targets(rear_weight=0.3, most_swr=1.5, match="matched", resistance=(30.0, np.inf))
    least = np.tile(least_levels(targets), (5, 1))

    def score(where, long):
        return soft_scores(
            tables=tables,
            positions=where,
            half_lengths=long,
            targets=targets,
            least=least,
            towards=TOWARDS,
            design=1,
            temperature=0.4,
        )[0]

    slope = soft_scores(
        tables=tables,
        positions=designs[0],
        half_lengths=designs[1],
        targets=targets,
        least=least,
        towards=TOWARDS,
        design=1,
        temperature=0.4,
    )[1][:, dimension]
    expected = difference(score, *designs, dimension, 1e-4 if dimension < 4 else 2e-5)
    np.testing.assert_allclose(slope, expected, rtol=0.0, atol=1e-6 * np.abs(expected).max())


def test_weights_are_spherical_bessel_functions():
    # scipy's own functions; the weights are (-1)^p (4 p + 1) j2p and their slopes.
    at = np.array([1e-3, 0.1, 0.9, 1.7, 3.3])
    weights, slopes = moment_weights(at)
    for order in range(len(weights)):
        sign = (-1.0) ** order * (4 * order + 1)
        expected = sign * spherical_jn(2 * order, at)
        np.testing.assert_allclose(weights[order], expected, rtol=1e-9, atol=1e-15)
        slope = sign * spherical_jn(2 * order, at, derivative=True)
        np.testing.assert_allclose(slopes[order], slope, rtol=1e-9, atol=1e-14)


@pytest.mark.parametrize("closest", [0.035, 0.055, 0.07, 0.1])
def test_close_elements_agree_with_the_full_solver(closest):
    # Worst case for the mutual quadrature: the driven element as close as the tables allow.
    places, halves = np.array([[0.0, closest, 0.35]]), np.array([[0.2401, 0.2438, 0.2286]])
    one = FREQUENCIES[1:2]
    plain = family(frequencies=one)
    tables = band_tables(families=(plain,) * 3, driven=1, closest_wl=closest)
    azimuth = np.array([0.0, 2.0, 2.6, np.pi])
    found = array_slopes(
        tables=tables,
        positions=places,
        half_lengths=halves,
        towards=directions(azimuth=azimuth, elevation=np.zeros(4)),
    )
    beam = beam_in_wavelengths(
        lengths=2.0 * halves[0], spacings=np.diff(places[0]), diameter=2.0 * RADIUS, driven=1
    )
    full = solve_beam(beam=beam, frequencies=one, detail=working_detail(frequency=SPEED_OF_LIGHT))
    gain = gain_dbi(solution=full, azimuth=azimuth, elevation=np.zeros(4))[0]
    assert abs(found.impedance[0, 0] - full.impedance[0]) < 0.05
    np.testing.assert_allclose(found.gain_db[0, 0], gain, rtol=0.0, atol=0.05)


@pytest.mark.parametrize("off", [2e-4, 2e-3])
def test_designs_around_one_are_as_each_by_itself(tables, designs, off):
    places, halves = (np.repeat(each[:1], 9, axis=0) for each in designs)
    off_by = np.random.default_rng(2).uniform(-off, off, halves.shape)
    halves = halves + np.where(np.arange(9)[:, None] > 0, off_by, 0.0)
    exact, near = (
        array_slopes(
            tables=tables,
            positions=places,
            half_lengths=halves,
            towards=TOWARDS,
            around_first=around,
        )
        for around in (False, True)
    )
    # The third power of the error in radians is what is left out, of slopes the second.
    turn = off * float(tables.wavenumbers.max())
    for name in ("impedance", "gain_db", "impedance_slopes", "gain_slopes"):
        expected = getattr(exact, name)
        size = turn**2 if name.endswith("slopes") else turn**3
        np.testing.assert_allclose(
            getattr(near, name), expected, rtol=0.0, atol=20.0 * size * np.abs(expected).max()
        )


def test_figures_without_slopes_are_the_same(tables, designs):
    places, halves = designs
    whole, few = (
        array_slopes(
            tables=tables, positions=places, half_lengths=halves, towards=TOWARDS, slopes=wanted
        )
        for wanted in (True, False)
    )
    for name in ("impedance", "gain_db", "strain"):
        np.testing.assert_allclose(getattr(few, name), getattr(whole, name), rtol=1e-12)
    assert few.impedance_slopes is None
    assert few.gain_slopes is None
