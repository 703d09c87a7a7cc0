"""The one-port text, read back by the general-purpose network library scikit-rf."""

from __future__ import annotations

import io

import numpy as np
import pytest
import skrf

from boomwright.base import BoomwrightError
from boomwright.feed import OnePort

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
