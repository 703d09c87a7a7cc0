"""Two parallel rods as wires against D. M. Pozar, Microwave Engineering, 4th ed., table 2.1."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.feed import parallel_line_impedance
from boomwright.feed.field_proximity import hairpin_proximity
from boomwright.solver import (
    GapPlace,
    WirePath,
    assemble,
    solve_currents,
    wire_network,
    working_detail,
)

FREQUENCY = 14.15e6
K = 2.0 * math.pi * FREQUENCY / SPEED_OF_LIGHT


def shorted_pair(length: float, spacing: float, radius: float) -> complex:
    """Impedance at the open end of two rods, shorted at the other."""
    y = spacing / 2.0
    corners = [[0, -y, 0], [length, -y, 0], [length, y, 0], [0, y, 0], [0, -y, 0]]
    path = WirePath(name="pair", points=np.array(corners, dtype=float), radii=np.full(4, radius))
    gap = GapPlace(path=0, along=2.0 * length + 1.5 * spacing, width=0.3 * spacing)
    assembly = assemble(
        system=wire_network(paths=(path,), gaps=(gap,)),
        detail=working_detail(frequency=FREQUENCY),
        highest_frequency=FREQUENCY,
    )
    solved = solve_currents(assembly=assembly, frequencies=np.array([FREQUENCY]))
    return 1.0 / complex(solved.admittance[0, 0, 0])


@pytest.mark.parametrize(("spacing", "radius"), [(0.05, 0.003), (0.05, 0.006), (0.08, 0.003)])
def test_shorted_pair_is_a_line(spacing, radius):
    # Both ends of the loop add a length of their own; the line between must be as long as it is.
    impedance = parallel_line_impedance(spacing=spacing, diameter=2.0 * radius)
    angles = [
        math.atan(shorted_pair(length, spacing, radius).imag / impedance)
        for length in (0.6, 1.2, 1.8)
    ]
    # 2 %: proximity (up to 0.6 % here) and the port's end capacitance of some tenths of a pF.
    assert np.diff(angles) == pytest.approx(0.6 * K, rel=0.02)


def test_proximity_is_the_difference_of_both_limits():
    # A hairpin alone: an element far above its impedance leaves the stub.
    spacing, diameter, angle = 0.06, 0.02, 0.3
    change = hairpin_proximity(element=1e9, spacing=spacing, diameter=diameter, angle=angle)
    line = VACUUM_IMPEDANCE / math.pi
    expected = line * (math.acosh(3.0) - math.log(6.0)) * math.tan(angle)
    assert change.imag == pytest.approx(expected, rel=1e-5)
    assert change.imag < 0.0
