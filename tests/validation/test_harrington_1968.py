"""Bent dipoles and a beam of bent elements against a separate solution by another method.

R. F. Harrington, Field Computation by Moment Methods, Macmillan 1968, ch. 4: the solution of
thin wires by constant currents, written anew in ``tests/thin_wire_moments.py``, which shares
nothing with the package. It closes in on its limit like the length of its pieces, so two lengths
are extrapolated; what is left between 15 and 30 radii, and the feed across one piece instead of
a gap, explains the 1.5 ohm and 0.05 dB allowed.
"""

from __future__ import annotations

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import (
    GapPlace,
    WirePath,
    assemble,
    far_field,
    moments,
    solve_currents,
    wire_network,
    working_detail,
)
from thin_wire_moments import solve as solve_by_pulses

FREQUENCY = SPEED_OF_LIGHT
RADIUS = 2e-4
LONGEST = 0.003


def ours(wires, fed, gap):
    """Impedance, forward and backward gain by the package, the gap across the fed corner."""
    paths = tuple(
        WirePath(name=f"wire {n}", points=np.array(w), radii=np.full(len(w) - 1, RADIUS))
        for n, w in enumerate(wires)
    )
    along = float(np.linalg.norm(np.diff(paths[fed[0]].points, axis=0), axis=1)[: fed[1]].sum())
    system = wire_network(paths=paths, gaps=(GapPlace(path=fed[0], along=along, width=gap),))
    assembly = assemble(
        system=system, detail=working_detail(frequency=FREQUENCY), highest_frequency=FREQUENCY
    )
    at = np.array([FREQUENCY])
    currents = solve_currents(assembly=assembly, frequencies=at)
    source = moments(assembly=assembly, unknowns=currents.unknowns[:, :, 0], frequencies=at)
    vertical, horizontal = far_field(
        source=source, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2)
    )
    admittance = currents.admittance[0, 0, 0]
    density = (np.abs(vertical[0]) ** 2 + np.abs(horizontal[0]) ** 2) / (2.0 * 376.730313668)
    gain = 10.0 * np.log10(4.0 * np.pi * density / (0.5 * admittance.real))
    return 1.0 / admittance, float(gain[0]), float(gain[1])


def bent_dipole(angle_deg):
    """Half-wave dipole, the outer thirds of both arms turned forward."""
    turn = np.radians(angle_deg)
    tip = 0.08 * np.array([np.sin(turn), np.cos(turn)])
    arm = 0.16
    return [
        [
            [tip[0], -arm - tip[1], 0.0],
            [0.0, -arm, 0.0],
            [0.0, 0.0, 0.0],
            [0.0, arm, 0.0],
            [tip[0], arm + tip[1], 0.0],
        ]
    ]


def six_sided_beam(radius=0.148):
    """Two elements laid over six spreaders: a driven M in front, a reflector around the back."""
    corner = {
        a: radius * np.array([np.cos(np.radians(a)), np.sin(np.radians(a)), 0.0])
        for a in (30, 90, 150, 210, 270, 330)
    }
    front = 0.65
    tips = [corner[a] + front * (corner[b] - corner[a]) for a, b in ((30, 90), (330, 270))]
    feet = [corner[a] + 0.2 * (corner[b] - corner[a]) for a, b in ((90, 30), (270, 330))]
    # Both arms leave the centre side by side: a short straight bridge carries the feed.
    bridge = [np.array([0.01, y, 0.0]) for y in (0.012, -0.012)]
    driven = [
        tips[0],
        corner[30],
        bridge[0],
        np.array([0.01, 0.0, 0.0]),
        bridge[1],
        corner[330],
        tips[1],
    ]
    reflector = [feet[0], corner[90], corner[150], corner[210], corner[270], feet[1]]
    return [[p.tolist() for p in driven], [p.tolist() for p in reflector]]


def others(wires, fed):
    """The other method's impedance and gains, extrapolated to short pieces."""
    coarse, fine = (
        solve_by_pulses(wires, radius=RADIUS, frequency=FREQUENCY, fed=fed, longest=longest)
        for longest in (2.0 * LONGEST, LONGEST)
    )
    return tuple(2.0 * better - worse for worse, better in zip(coarse, fine, strict=True))


@pytest.mark.parametrize("angle", [0.0, 30.0, 60.0, 90.0])
def test_bent_dipole(angle):
    wires = bent_dipole(angle)
    impedance, ahead, behind = ours(wires, (0, 2), gap=LONGEST)
    other, other_ahead, other_behind = others(wires, (0, 2))
    assert abs(impedance - other) < 1.5
    assert ahead == pytest.approx(other_ahead, abs=0.02)
    assert behind == pytest.approx(other_behind, abs=0.02)


def test_two_elements_over_six_spreaders():
    wires = six_sided_beam()
    impedance, ahead, behind = ours(wires, (0, 3), gap=LONGEST)
    other, other_ahead, other_behind = others(wires, (0, 3))
    assert abs(impedance - other) < 1.5
    assert ahead == pytest.approx(other_ahead, abs=0.05)
    # 12.5 dB between front and back: the backward field is small, its error is not.
    assert behind == pytest.approx(other_behind, abs=0.3)
