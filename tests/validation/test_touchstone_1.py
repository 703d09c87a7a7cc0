"""Touchstone 1: the examples of the standard, and the library scikit-rf as a second opinion.

Touchstone File Format Specification, revision 1.1: examples 1, 2, 4 and 8, the option lines of its
section on them, and its rules for order, defaults and noise parameters.
"""

from __future__ import annotations

import io

import numpy as np
import pytest
import skrf

from boomwright.base import BoomwrightError
from boomwright.feed import OnePort
from boomwright.tuning import read_touchstone
from boomwright.tuning.errors import MeasurementError

FREQUENCY = np.linspace(13.9e6, 14.5e6, 61)
IMPEDANCE = 27.0 + 3.0 * np.cos(FREQUENCY / 1e6) + 1j * (FREQUENCY - 14.1e6) / 2e4


@pytest.mark.parametrize("reference", [50.0, 75.0, 28.5])
def test_read_back(reference):
    port = OnePort(frequency=FREQUENCY, impedance=IMPEDANCE, title="driven element\ntwo\nlines")
    text = port.touchstone(reference)
    file = io.StringIO(text)
    file.name = "beam.s1p"
    network = skrf.Network(file)
    np.testing.assert_allclose(network.f, FREQUENCY, rtol=1e-12)
    np.testing.assert_allclose(network.z0[:, 0], reference, rtol=1e-12)
    np.testing.assert_allclose(network.z[:, 0, 0], IMPEDANCE, rtol=1e-9)
    np.testing.assert_allclose(network.s[:, 0, 0], port.reflection(reference), rtol=1e-9)
    np.testing.assert_allclose(network.s_vswr[:, 0, 0], port.swr(reference), rtol=1e-9)


def test_option_line_and_comments_come_first():
    port = OnePort(frequency=[1e6], impedance=[50 + 0j], title="made by hand")
    lines = port.touchstone().splitlines()
    assert lines == ["! made by hand", "# Hz S RI R 50", lines[2]]
    assert lines[2].split() == ["1000000.000000", "0.000000000000e+00", "0.000000000000e+00"]


@pytest.mark.parametrize(
    ("frequency", "impedance", "words"),
    [
        ([1e6, 2e6], [50.0], "same length"),
        ([2e6, 1e6], [50.0, 50.0], "must rise"),
        ([1e6], [np.nan], "finite"),
    ],
)
def test_refusals(frequency, impedance, words):
    with pytest.raises(BoomwrightError, match=words):
        OnePort(frequency=frequency, impedance=impedance)


TWO_PORTS = """!2-port S-parameter file, three frequency points
# GHZ S RI R 50.0
!freq RelS11 ImS11 ReS21 ImS21 ReS12 ImS12 ReS22 ImS22
1.0000 0.3926 -0.1211 -0.0003 -0.0021 -0.0003 -0.0021 0.3926 -0.1211
2.0000 0.3517 -0.3054 -0.0096 -0.0298 -0.0096 -0.0298 0.3517 -0.3054
10.000 0.3419 0.3336 -0.0134 0.0379 -0.0134 0.0379 0.3419 0.3336
"""
WITH_NOISE = """!2-port network, S-parameter and noise data
# GHZ S MA R 50
2 .95 -26 3.57 157 .04 76 .66 -14
22 .60 -144 1.30 40 .14 40 .56 -85
! NOISE PARAMETERS
4 .7 .64 69 .38
18 2.7 .46 -33 .40
"""


def polar(size, degrees):
    return size * np.exp(1j * np.radians(degrees))


def test_example_1_one_port():
    text = (
        "!1-port S-parameter file, single frequency point\n# MHz S MA R 50\n2.000 0.894 -12.136\n"
    )
    sweep = read_touchstone(content=text, name="one.s1p")
    np.testing.assert_allclose(sweep.frequencies, [2e6], rtol=1e-12)
    np.testing.assert_allclose(sweep.reflection, [polar(0.894, -12.136)], rtol=1e-9)


def test_example_2_impedances_are_multiples_of_the_reference():
    sizes, angles = [0.99, 0.80, 0.707, 0.40, 0.01], [-4, -22, -45, -62, -89]
    rows = zip(range(100, 600, 100), sizes, angles, strict=True)
    text = "# MHz Z MA R 75\n" + "\n".join(" ".join(map(str, row)) for row in rows)
    sweep = read_touchstone(content=text, name="many.s1p")
    np.testing.assert_allclose(sweep.impedance, 75.0 * polar(np.array(sizes), angles), rtol=1e-9)
    # Admittances likewise: the same file of y = 1 / z.
    rows = zip(
        range(100, 600, 100), (1 / size for size in sizes), (-a for a in angles), strict=True
    )
    text = "# MHz Y MA R 75\n" + "\n".join(" ".join(map(str, row)) for row in rows)
    inverse = read_touchstone(content=text, name="many.s1p")
    np.testing.assert_allclose(inverse.impedance, sweep.impedance, rtol=1e-9)


def test_examples_4_and_8_two_ports_and_noise():
    first = read_touchstone(content=TWO_PORTS, name="two.s2p")
    np.testing.assert_allclose(first.frequencies, [1e9, 2e9, 10e9], rtol=1e-12)
    expected = [0.3926 - 0.1211j, 0.3517 - 0.3054j, 0.3419 + 0.3336j]
    np.testing.assert_allclose(first.reflection, expected, rtol=1e-9)
    for port, expected in (
        (1, [polar(0.95, -26), polar(0.60, -144)]),
        (2, [polar(0.66, -14), polar(0.56, -85)]),
    ):
        sweep = read_touchstone(content=WITH_NOISE, name="noise.s2p", port=port)
        np.testing.assert_allclose(sweep.frequencies, [2e9, 22e9], rtol=1e-12)
        np.testing.assert_allclose(sweep.reflection, expected, rtol=1e-9)


def test_five_numbers_are_noise_only_where_the_frequency_falls_back():
    cut_off = WITH_NOISE.replace("4 .7 .64 69 .38", "24 .7 .64 69 .38")
    with pytest.raises(MeasurementError, match="line 6: 5 numbers"):
        read_touchstone(content=cut_off, name="noise.s2p")


@pytest.mark.parametrize(
    ("options", "unit", "reference"),
    [("#", 1e9, 50.0), ("# RI R 100 MHz", 1e6, 100.0), ("# S R 75\n# Hz Z", 1e9, 75.0)],
)
def test_option_words_come_in_any_order_with_defaults_and_the_first_line_counts(
    options, unit, reference
):
    sweep = read_touchstone(content=f"{options}\n14 0.5 0\n", name="a.s1p")
    np.testing.assert_allclose(sweep.frequencies, [14 * unit], rtol=1e-12)
    np.testing.assert_allclose(sweep.impedance, [3.0 * reference], rtol=1e-9)
    assert not sweep.notices


@pytest.mark.parametrize("parameter", ["S", "Z"])
@pytest.mark.parametrize("form", ["RI", "MA", "DB"])
@pytest.mark.parametrize("resistance", ["50", "28.5", "75 20"])
@pytest.mark.parametrize("port", [1, 2])
def test_two_ports_are_read_as_the_library_reads_them(parameter, form, resistance, port):
    """Another resistance at each port is of S-parameters only: an impedance has one reference."""
    if parameter == "Z" and " " in resistance:
        return
    rng = np.random.default_rng(5)
    terms = rng.uniform(0.1, 0.6, (7, 4)) * np.exp(1j * rng.uniform(-3.0, 3.0, (7, 4)))
    if parameter == "Z":
        terms += np.array([1.5, 0.0, 0.0, 1.5])  # passive
    if form == "RI":
        parts = np.stack([terms.real, terms.imag], axis=-1)
    else:
        size = 20.0 * np.log10(np.abs(terms)) if form == "DB" else np.abs(terms)
        parts = np.stack([size, np.degrees(np.angle(terms))], axis=-1)
    rows = np.column_stack([14.0 + 0.1 * np.arange(7), parts.reshape(7, 8)])
    text = f"# MHz {parameter} {form} R {resistance}\n" + "\n".join(
        " ".join(f"{value:.15g}" for value in row) for row in rows
    )
    file = io.StringIO(text)
    file.name = "two.s2p"
    theirs = skrf.Network(file)
    own = theirs.z0[0, port - 1].real
    ours = read_touchstone(content=text, name="two.s2p", port=port, reference=own)
    np.testing.assert_allclose(ours.frequencies, theirs.f, rtol=1e-12)
    np.testing.assert_allclose(ours.reflection, theirs.s[:, port - 1, port - 1], rtol=1e-9)


def test_admittances_of_two_ports_are_the_inverse_of_the_impedances():
    z = np.array([[30.0 + 5.0j, 12.0 - 3.0j], [11.0 + 1.0j, 70.0 - 20.0j]])
    swept = []
    for parameter, matrix in (("Z", z / 50.0), ("Y", np.linalg.inv(z) * 50.0)):
        terms = matrix.T.ravel()  # 11, 21, 12, 22
        row = " ".join(f"{part:.15g}" for term in terms for part in (term.real, term.imag))
        text = f"# MHz {parameter} RI R 50\n14 {row}\n"
        swept.append(read_touchstone(content=text, name="a.s2p").impedance)
    # The other port ended in 50 ohm: the first port shows z11 - z12 z21 / (z22 + 50).
    expected = z[0, 0] - z[0, 1] * z[1, 0] / (z[1, 1] + 50.0)
    np.testing.assert_allclose(swept, [[expected], [expected]], rtol=1e-9)
