"""Loads, generators and scattering parameters.

Held against scikit-rf (a general network library), textbook formulas named beside them, and
conservation of energy.
"""

from __future__ import annotations

import numpy as np
import pytest
import skrf

from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.solver import (
    GapPlace,
    Generator,
    WirePath,
    assemble,
    drive,
    scattering_parameters,
    solve_currents,
    wire_network,
    working_detail,
)
from boomwright.solver.lumped import Lumped

FREQUENCY = 14.2e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
AT = np.array([FREQUENCY])


def dipole(centre, half, *, vertical=False, radius=0.005, conductivity=float("inf")):
    axis = np.array([0.0, 0.0, 1.0]) if vertical else np.array([0.0, 1.0, 0.0])
    return WirePath(
        name="dipole",
        points=np.array([centre - half * axis, centre + half * axis]),
        radii=np.array([radius]),
        conductivity=conductivity,
    )


def solved(paths, gaps, frequencies=AT):
    system = wire_network(paths=paths, gaps=gaps)
    assembly = assemble(
        system=system,
        detail=working_detail(frequency=float(frequencies.max())),
        highest_frequency=float(frequencies.max()),
    )
    return solve_currents(assembly=assembly, frequencies=frequencies)


def two_dipoles(spacing=0.125, conductivity=float("inf")):
    half = 0.24 * WAVELENGTH
    paths = tuple(
        dipole(np.array([x, 0.0, 0.0]), half, conductivity=conductivity)
        for x in (0.0, spacing * WAVELENGTH)
    )
    gaps = tuple(GapPlace(path=i, along=half, width=0.02) for i in range(2))
    return solved(paths, gaps)


def test_series_and_parallel_loads_follow_circuit_theory():
    angular = 2.0 * np.pi * AT
    series = Lumped(resistance=3.0, inductance=2e-6, capacitance=80e-12)
    assert series.impedance(frequencies=AT) == pytest.approx(
        3.0 + 1j * angular * 2e-6 + 1.0 / (1j * angular * 80e-12), rel=1e-12
    )
    coil = Lumped(inductance=2e-6, quality=200.0).impedance(frequencies=AT)
    assert coil.real == pytest.approx(coil.imag / 200.0, rel=1e-12)


def test_a_trap_blocks_at_its_resonance():
    # Resonant parallel circuit: R = Q w L (1 + 1/Q^2), common circuit theory.
    inductance, quality = 3e-6, 150.0
    capacitance = 1.0 / ((2.0 * np.pi * FREQUENCY) ** 2 * inductance)
    trap = Lumped(
        arrangement="parallel", inductance=inductance, capacitance=capacitance, quality=quality
    )
    reactance = 2.0 * np.pi * FREQUENCY * inductance
    assert trap.impedance(frequencies=AT).real == pytest.approx(quality * reactance, rel=1e-3)


@pytest.mark.parametrize("parts", [{}, {"resistance": -1.0}, {"inductance": 1e-6, "quality": 0.0}])
def test_loads_without_sense_are_refused(parts):
    with pytest.raises(SolverError, match="load"):
        Lumped(**parts)


def test_scattering_parameters_are_those_of_a_network_library():
    admittance = two_dipoles().admittance
    ours = scattering_parameters(admittance=admittance, reference=np.array([50.0, 75.0]))
    theirs = skrf.network.y2s(admittance, np.array([50.0, 75.0]))
    assert ours == pytest.approx(theirs, rel=1e-9)
    # A lossless antenna pair takes at most all of the power: I - S^H S has no negative part.
    left = np.eye(2) - ours[0].conj().T @ ours[0]
    assert np.linalg.eigvalsh(left).min() > 0.0


def test_current_and_voltage_generators_agree():
    currents = two_dipoles()
    quiet = np.zeros((1, 2, 2))
    one = drive(
        antenna=currents.admittance,
        network=quiet,
        generators=(Generator(port=0, voltage=1.0), Generator(port=1, voltage=0.5j)),
    )
    back = drive(
        antenna=currents.admittance,
        network=quiet,
        generators=tuple(
            Generator(port=port, current=complex(one.generator_current[0, port]))
            for port in range(2)
        ),
    )
    assert back.voltage == pytest.approx(one.voltage, rel=1e-9)


def test_generators_without_sense_are_refused():
    currents = two_dipoles()
    with pytest.raises(SolverError, match="either a voltage or a current"):
        drive(
            antenna=currents.admittance,
            network=np.zeros((1, 2, 2)),
            generators=(Generator(port=0),),
        )
