"""Antennas over real ground: impedance against an independent integral, energy, low heights.

The impedance that the ground adds follows from the reaction theorem (V. H. Rumsey, Phys. Rev.
94, 1954) as the reflected field of the antenna over ground, weighed with the currents of the
same antenna in free space. Both sets of currents come from the solver, the reflected field from
the double integral over plane waves in ``tests/plane_waves.py``; the induced-EMF method (P. S.
Carter, Proc. IRE 20, 1932) takes sinusoidal currents instead and needs no solver at all.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam, fed, solved_beam, wire
from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY, SolverError
from boomwright.solver import (
    GROUND_CLASSES,
    Ground,
    assemble,
    gain_dbi,
    ground_matrices,
    moments,
    radiated_power,
    solve_beam,
    solve_currents,
    working_detail,
)
from plane_waves import reaction

FREQUENCY = 14.2e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
RADIUS = 1e-4 * WAVELENGTH
REAL = [ground for ground in GROUND_CLASSES.values() if ground.kind == "real"]


def solved(system, ground=None):
    """Impedance and the current moments for one ampere; the system's z is above ground."""
    frequencies = np.array([FREQUENCY])
    assembly = assemble(
        system=system,
        detail=working_detail(frequency=FREQUENCY),
        highest_frequency=FREQUENCY,
    )
    added = None
    if ground is not None:
        added = ground_matrices(assembly=assembly, frequencies=frequencies, ground=ground)
    currents = solve_currents(assembly=assembly, frequencies=frequencies, added=added)
    impedance = 1.0 / currents.admittance[0, 0, 0]
    source = moments(
        assembly=assembly,
        unknowns=currents.unknowns[:, :, 0] * impedance,
        frequencies=frequencies,
    )
    return complex(impedance), source


def by_reaction(first, second, ground):
    found = reaction(
        observed=(first.points, first.vectors[0][:, :, None]),
        source=(second.points, second.vectors[0][:, :, None]),
        ground=ground,
        frequency=FREQUENCY,
    )[0, 0]
    return 2j * np.pi * FREQUENCY * VACUUM_PERMEABILITY / (4.0 * np.pi) * found


def antenna(shape, height):
    """Three shapes, their lowest point at a height in wavelengths."""
    low = height * WAVELENGTH
    if shape == "horizontal":
        points = [[0.0, -0.24, 0.0], [0.0, 0.24, 0.0]]
        along = 0.24
    elif shape == "vertical":
        points = [[0.0, 0.0, 0.0], [0.0, 0.0, 0.48]]
        along = 0.24
    else:
        points = [[-0.17, 0.0, 0.0], [0.0, 0.0, 0.17], [0.1, 0.15, 0.05]]
        along = 0.5 * 0.17 * np.sqrt(2.0)
    places = WAVELENGTH * np.array(points) + np.array([0.0, 0.0, low])
    system = fed(wire(places, RADIUS), along=along * WAVELENGTH, width=2 * RADIUS)
    return replace(system, ground_height=0.0)


@pytest.mark.parametrize("ground", REAL, ids=lambda ground: ground.name)
@pytest.mark.parametrize(
    ("shape", "height"),
    [
        ("horizontal", 0.02),
        ("horizontal", 0.1),
        ("horizontal", 0.7),
        ("vertical", 0.02),
        ("vertical", 0.3),
        ("bent", 0.05),
        ("bent", 0.4),
    ],
)
def test_impedance_added_by_the_ground(shape, height, ground):
    system = antenna(shape, height)
    # Free space: the same wires, the ground out of reach.
    alone, free_source = solved(replace(system, ground_height=np.inf))
    above, source = solved(system, ground)
    expected = by_reaction(free_source, source, ground)
    assert abs(above - alone - expected) < 1e-3 * abs(expected)


@pytest.mark.parametrize("ground", REAL, ids=lambda ground: ground.name)
@pytest.mark.parametrize("height", [0.05, 0.25, 0.6])
def test_induced_emf_with_sinusoidal_currents(height, ground):
    """No solver on the reference side; 8 % of the whole impedance for the real current."""
    half = 0.24 * WAVELENGTH
    nodes, weights = np.polynomial.legendre.leggauss(40)
    along, weights = half * nodes, half * weights
    wavenumber = 2.0 * np.pi / WAVELENGTH
    current = np.sin(wavenumber * (half - np.abs(along))) / np.sin(wavenumber * half)
    vectors = np.zeros((len(along), 3, 1))
    vectors[:, 1, 0] = weights * current
    points = np.zeros((len(along), 3))
    points[:, 1], points[:, 2] = along, height * WAVELENGTH
    expected = reaction(
        observed=(points, vectors), source=(points, vectors), ground=ground, frequency=FREQUENCY
    )[0, 0]
    expected *= 2j * np.pi * FREQUENCY * VACUUM_PERMEABILITY / (4.0 * np.pi)
    system = antenna("horizontal", height)
    alone = solved(replace(system, ground_height=np.inf))[0]
    assert abs(solved(system, ground)[0] - alone - expected) < 0.08 * abs(alone)


@pytest.mark.parametrize("ground", REAL, ids=lambda ground: ground.name)
@pytest.mark.parametrize("shape", ["horizontal", "vertical", "bent"])
def test_no_more_power_leaves_upwards_than_is_accepted(shape, ground):
    for height in (0.02, 0.1, 0.5):
        impedance, source = solved(antenna(shape, height), ground)
        upwards = float(radiated_power(source=source, ground=ground)[0])
        assert 0.0 < upwards < 0.5 * impedance.real


def flat_beam(height):
    return beam(
        lengths=[0.49 * WAVELENGTH, 0.47 * WAVELENGTH],
        places=[0.0, 0.15 * WAVELENGTH],
        diameter=0.02,
        driven=1,
        frequency=FREQUENCY,
        height=height,
    )


@pytest.mark.parametrize("height", [0.05, 0.3, 1.0])
def test_a_very_good_conductor_acts_as_the_mirror(height):
    """Copper would be 6e7 S/m; at 1e7 S/m the surface impedance is 2.4 milliohm."""
    given = {
        "beam": flat_beam(height * WAVELENGTH),
        "frequencies": np.array([FREQUENCY]),
        "detail": working_detail(frequency=FREQUENCY),
    }
    copper = Ground(kind="real", permittivity=1.0, conductivity=1e7)
    mirror = Ground(kind="perfect")
    real, perfect = (solve_beam(ground=ground, **given) for ground in (copper, mirror))
    assert abs(real.impedance[0] - perfect.impedance[0]) < 1e-3 * abs(perfect.impedance[0])
    gains = [
        gain_dbi(
            solution=solution,
            azimuth=np.zeros(3),
            elevation=np.radians([10.0, 30.0, 70.0]),
            ground=ground,
            height=height * WAVELENGTH,
        )
        for solution, ground in ((real, copper), (perfect, mirror))
    ]
    np.testing.assert_allclose(gains[0], gains[1], rtol=0.0, atol=0.01)


def test_ground_like_air_leaves_the_impedance_alone():
    system = antenna("horizontal", 0.1)
    nothing = Ground(kind="real", permittivity=1.0 + 1e-9, conductivity=0.0)
    alone, _ = solved(replace(system, ground_height=np.inf))
    assert abs(solved(system, nothing)[0] - alone) < 1e-5 * abs(alone)


def test_symmetry_of_a_beam_is_kept_over_ground():
    """The mirrored half and the whole wires, over the same ground."""
    ground, height = GROUND_CLASSES["medium dry"], 0.15 * WAVELENGTH
    halved = solved_beam(flat_beam(height), FREQUENCY, ground=ground)
    paths = tuple(
        wire(
            np.array(
                [
                    [place, -length / 2, height / WAVELENGTH],
                    [place, length / 2, height / WAVELENGTH],
                ]
            )
            * WAVELENGTH,
            0.01,
        )
        for length, place in ((0.47, 0.15), (0.49, 0.0))
    )
    whole = replace(fed(*paths, along=0.235 * WAVELENGTH, width=0.02), ground_height=0.0)
    found = solved(whole, ground)[0]
    # The whole rod has its gap in one piece, the half in half a piece.
    assert abs(found - halved.impedance[0]) < 5e-4 * abs(found)


def test_both_treatments_agree_high_up_and_part_low_down():
    apart = []
    for height in (0.05, 1.0):
        given = {
            "beam": flat_beam(height * WAVELENGTH),
            "frequencies": np.array([FREQUENCY]),
            "detail": working_detail(frequency=FREQUENCY),
            "ground": GROUND_CLASSES["medium dry"],
        }
        exact, image = (solve_beam(method=method, **given) for method in ("exact", "image"))
        apart.append(abs(exact.impedance[0] - image.impedance[0]) / abs(exact.impedance[0]))
    assert apart[1] < 0.01 < apart[0]


def test_too_low_is_refused_with_height_and_remedy():
    with pytest.raises(SolverError, match=r"0\.010 wavelengths.*0\.02 wavelengths.*raise it"):
        solved(antenna("horizontal", 0.01), REAL[0])


def test_free_space_has_no_height():
    found = solved_beam(flat_beam(0.0), FREQUENCY)
    assert found.impedance[0].real > 0.0
