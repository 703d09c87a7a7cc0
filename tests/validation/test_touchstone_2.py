"""Touchstone 2: what its keywords change, by the examples of the standard.

Touchstone File Format Specification, version 2.0, 2009: the one-port file of impedances with
[Reference] 20, the two-port file with noise data, the reference on a line of its own.
"""

from __future__ import annotations

import io

import numpy as np
import pytest
import skrf

from boomwright.tuning import read_touchstone
from boomwright.tuning.errors import MeasurementError

ONE_PORT = """!1-port Z-parameter file, multiple frequency points
[Version] 2.0
# MHz Z MA
[Number of Ports] 1
[Number of Frequencies] 5
[Reference] 20.0
[Network Data]
!freq magZ11 angZ11
100 74.25 -4
200 60 -22
300 53.025 -45
400 30 -62
500 0.75 -89
"""
TWO_PORTS = """! 2-port network, S-parameter and noise data
[Version] 2.0
# GHz S MA
[Number of Ports] 2
[Two-Port Data Order] 21_12
[Number of Frequencies] 2
[Number of Noise Frequencies] 2
[Reference]
50 25.0
[Begin Information]
[End Information]
[Network Data]
2 .95 -26 3.57 157 .04 76 .66 -14
22 .60 -144 1.30 40 .14 40 .56 -85
[Noise Data]
4 .7 .64 69 19
18 2.7 .46 -33 20
[End]
nothing counts after the end
"""


def polar(size, degrees):
    return np.array(size) * np.exp(1j * np.radians(degrees))


def test_impedances_are_in_ohms():
    sweep = read_touchstone(content=ONE_PORT, name="one.ts")
    expected = polar([74.25, 60.0, 53.025, 30.0, 0.75], [-4, -22, -45, -62, -89])
    np.testing.assert_allclose(sweep.impedance, expected, rtol=1e-9)
    file = io.StringIO(ONE_PORT)
    file.name = "one.ts"
    np.testing.assert_allclose(sweep.impedance, skrf.Network(file).z[:, 0, 0], rtol=1e-9)


@pytest.mark.parametrize(
    ("port", "own", "expected"),
    [(1, 50.0, polar([0.95, 0.60], [-26, -144])), (2, 25.0, polar([0.66, 0.56], [-14, -85]))],
)
def test_two_ports_each_against_its_own_reference(port, own, expected):
    sweep = read_touchstone(content=TWO_PORTS, name="two.ts", port=port, reference=own)
    np.testing.assert_allclose(sweep.frequencies, [2e9, 22e9], rtol=1e-12)
    np.testing.assert_allclose(sweep.reflection, expected, rtol=1e-9)


def test_impedances_of_two_ports_end_in_each_its_reference():
    z = np.array([[30.0 + 5.0j, 12.0 - 3.0j], [11.0 + 1.0j, 70.0 - 20.0j]])
    row = " ".join(f"{part:.15g}" for term in z.ravel() for part in (term.real, term.imag))
    text = (
        "[Version] 2.0\n# MHz Z RI\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n"
        f"[Number of Frequencies] 1\n[Reference] 50 25\n[Network Data]\n14 {row}\n[End]\n"
    )
    for port, far in ((1, 25.0), (2, 50.0)):
        sweep = read_touchstone(content=text, name="a.ts", port=port)
        own = z[port - 1, port - 1] - z[0, 1] * z[1, 0] / (z[2 - port, 2 - port] + far)
        np.testing.assert_allclose(sweep.impedance, [own], rtol=1e-9)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[Number of Frequencies] 5", "[Number of Frequencies] 6", "announces 6 frequencies and"),
        ("[Version] 2.0\n", "", r"line 3: a keyword without \[Version\]"),
        ("[Reference] 20.0", "[Reference] -20.0", "line 6: the reference impedance"),
        ("[Reference] 20.0", "[Reference]", "does not name one reference resistance a port"),
        ("[Reference] 20.0", "[Reference] 20 20", "does not name one reference resistance a port"),
        ("[Reference] 20.0", "[Mixed-Mode Order] S1", "line 6: its ports are mixed modes"),
        ("[Network Data]\n", "", "holds no readings"),
    ],
)
def test_damaged_files_are_refused(old, new, words):
    with pytest.raises(MeasurementError, match=words):
        read_touchstone(content=ONE_PORT.replace(old, new), name="one.ts")
