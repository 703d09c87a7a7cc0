"""A circular loop of any size against its exact series.

T. T. Wu, "Theory of the thin circular loop antenna", J. Math. Phys. 3, 1962, pp. 1301-1304
(from memory): on a circle every azimuthal mode of the current is on its own, so the admittance
is a sum of reciprocal mode impedances. The series is evaluated here from scratch: the static
part of the kernel by Wu's closed form, the rest by Gauss quadrature, the gap of finite width by
its sinc factor. The solver is given polygons of straight wire of the same circumference; their
error falls with the square of the number of sides, which two of them remove.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ive, kve

from antennas import fed, impedance, wire
from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE

MODES = 3000
SMOOTH_MODES = 200
EULER = 0.5772156649015329


def series_impedance(*, circumference, radius, gap):
    """Impedance of a round loop at a wavelength of one metre."""
    loop = circumference / (2.0 * np.pi)
    wavenumber = 2.0 * np.pi
    mode = np.arange(MODES + 2)
    safe = np.maximum(mode, 1)
    odd = np.concatenate([[0.0], np.cumsum(1.0 / (2.0 * np.arange(MODES + 1) + 1.0))])
    bessel = ive(0, safe * radius / loop) * kve(0, safe * radius / loop)
    static = (bessel + np.log(4.0 * safe) + EULER - 2.0 * odd) / np.pi
    static[0] = np.log(8.0 * loop / radius) / np.pi
    nodes, weights = np.polynomial.legendre.leggauss(400)
    angle = np.pi * (nodes + 1.0)
    chord = 2.0 * loop * np.sin(angle / 2.0)
    smooth = loop * (np.exp(-1j * wavenumber * chord) - 1.0) / chord
    kernel = static.astype(complex)
    kernel[:SMOOTH_MODES] += np.cos(np.outer(mode[:SMOOTH_MODES], angle)) @ (weights * smooth) / 2.0
    below = np.concatenate([kernel[1:2], kernel[:-2]])
    above, mode, kernel = kernel[1:], mode[:-1], kernel[:-1]
    size = wavenumber * loop
    modal = 1j * np.pi * VACUUM_IMPEDANCE * (size * (above + below) / 2.0 - mode**2 / size * kernel)
    admittance = np.sinc(mode * gap / (2.0 * loop) / np.pi) ** 2 / modal
    return 1.0 / (admittance[0] + 2.0 * admittance[1:].sum())


def polygon_impedance(*, circumference, radius, gap, sides):
    angle = 2.0 * np.pi * (np.arange(sides + 1) - 0.5) / sides
    reach = circumference / sides / (2.0 * np.sin(np.pi / sides))
    corners = reach * np.stack([np.zeros(sides + 1), np.sin(angle), -np.cos(angle)], axis=1)
    corners[-1] = corners[0]
    system = fed(wire(corners, radius), along=0.5 * circumference / sides, width=gap)
    return impedance(system, frequency=SPEED_OF_LIGHT)


@pytest.mark.parametrize("circumference", [0.3, 0.7, 1.0, 1.3])
@pytest.mark.parametrize("radius", [1e-4, 1e-3])
def test_impedance_of_a_round_loop(circumference, radius):
    given = {"circumference": circumference, "radius": radius, "gap": 2.0 * radius}
    coarse, fine = (polygon_impedance(sides=sides, **given) for sides in (12, 24))
    limit = fine + (fine - coarse) / 3.0
    exact = series_impedance(**given)
    # 1 % for what is left of the corners: the kernel is not exact where wires meet.
    assert abs(limit - exact) < 0.01 * abs(exact)
