"""Loads, lines, generators, scattering parameters, polarisation and the split of power.

Held against scikit-rf (a general network library), textbook formulas named beside them, and
conservation of energy.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import skrf

from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.solver import (
    GROUND_CLASSES,
    GapPlace,
    Generator,
    Lumped,
    PortLine,
    PortLoad,
    WirePath,
    assemble,
    axial_ratio,
    drive,
    far_field,
    ground_matrices,
    moments,
    network_admittance,
    power_split,
    scattering_parameters,
    solve_currents,
    wire_network,
    working_detail,
)

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


def test_line_admittance_is_that_of_a_network_library():
    line = PortLine(
        first=0,
        second=1,
        impedance=75.0,
        length=3.1,
        velocity_factor=0.66,
        loss_db_per_metre=0.05,
    )
    ours = network_admittance(frequencies=AT, port_count=2, lines=(line,))[0]
    gamma = 0.05 * np.log(10.0) / 20.0 + 2j * np.pi * FREQUENCY / (0.66 * SPEED_OF_LIGHT)
    medium = skrf.media.DefinedGammaZ0(
        frequency=skrf.Frequency.from_f(AT, unit="Hz"), z0=75.0, gamma=gamma
    )
    assert ours == pytest.approx(medium.line(3.1, "m").y[0], rel=1e-9)


def test_a_lossless_half_wave_line_is_refused():
    line = PortLine(first=0, second=1, impedance=50.0, length=WAVELENGTH / 2.0)
    with pytest.raises(SolverError, match="half waves long"):
        network_admittance(frequencies=AT, port_count=2, lines=(line,))


def test_scattering_parameters_are_those_of_a_network_library():
    admittance = two_dipoles().admittance
    ours = scattering_parameters(admittance=admittance, reference=np.array([50.0, 75.0]))
    theirs = skrf.network.y2s(admittance, np.array([50.0, 75.0]))
    assert ours == pytest.approx(theirs, rel=1e-9)
    # A lossless antenna pair takes at most all of the power: I - S^H S has no negative part.
    left = np.eye(2) - ours[0].conj().T @ ours[0]
    assert np.linalg.eigvalsh(left).min() > 0.0


def test_a_crossed_line_fires_one_way():
    # Two elements an eighth of a wave apart fed in antiphase through the line between them: the
    # trade's phased pair; common practice, 15 dB and more between front and back.
    currents = two_dipoles()
    line = PortLine(first=0, second=1, impedance=75.0, length=0.125 * WAVELENGTH, crossed=True)
    network = network_admittance(frequencies=AT, port_count=2, lines=(line,))
    state = drive(
        antenna=currents.admittance, network=network, generators=(Generator(port=1, voltage=1.0),)
    )
    unknowns = np.einsum("fnp,fp->fn", currents.unknowns, state.voltage)
    source = moments(assembly=currents.assembly, unknowns=unknowns, frequencies=AT)
    vertical, horizontal = far_field(
        source=source, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2)
    )
    level = 20.0 * np.log10(np.abs(horizontal[0]) + np.abs(vertical[0]))
    assert level[0] - level[1] > 10.0
    split = power_split(currents=currents, state=state)
    assert split.radiated == pytest.approx(split.supplied, rel=1e-5)


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


def test_a_loading_coil_tunes_a_short_dipole_and_takes_its_share():
    half = 0.15 * WAVELENGTH
    path = (dipole(np.zeros(3), half, conductivity=24.9e6),)
    gaps = tuple(
        GapPlace(path=0, along=place, width=0.02) for place in (half, 0.5 * half, 1.5 * half)
    )
    currents = solved(path, gaps)

    def at_feed(inductance):
        coil = Lumped(inductance=inductance, quality=250.0)
        network = network_admittance(
            frequencies=AT,
            port_count=3,
            loads=(PortLoad(port=1, load=coil), PortLoad(port=2, load=coil)),
        )
        state = drive(
            antenna=currents.admittance,
            network=network,
            generators=(Generator(port=0, current=1.0),),
        )
        return state, complex(state.voltage[0, 0])

    low, high = 0.1e-6, 20e-6
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if at_feed(middle)[1].imag < 0.0 else (low, middle)
    state, impedance = at_feed(0.5 * (low + high))
    assert abs(impedance.imag) < 0.01
    split = power_split(currents=currents, state=state)
    assert 0.0 < split.load[0] / split.supplied[0] < 0.3
    assert split.conductor[0] > 0.0
    assert abs(split.ground[0]) < 1e-5 * split.supplied[0]


def test_real_ground_takes_its_share():
    half = 0.24 * WAVELENGTH
    ground = GROUND_CLASSES["medium dry"]
    system = wire_network(
        paths=(dipole(np.zeros(3), half),), gaps=(GapPlace(path=0, along=half, width=0.02),)
    )
    system = replace(system, ground_height=0.25 * WAVELENGTH)
    assembly = assemble(
        system=system, detail=working_detail(frequency=FREQUENCY), highest_frequency=FREQUENCY
    )
    added = ground_matrices(assembly=assembly, frequencies=AT, ground=ground)
    currents = solve_currents(assembly=assembly, frequencies=AT, added=added)
    state = drive(
        antenna=currents.admittance,
        network=np.zeros((1, 1, 1)),
        generators=(Generator(port=0, voltage=1.0),),
    )
    split = power_split(currents=currents, state=state, ground=ground)
    assert 0.1 < split.ground[0] / split.supplied[0] < 0.5
    assert split.efficiency[0] == pytest.approx(1.0 - split.ground[0] / split.supplied[0])


@pytest.mark.parametrize(("turn", "sign"), [(1j, 1.0), (-1j, -1.0)])
def test_crossed_dipoles_in_quadrature_turn_the_field(turn, sign):
    # Turnstile: circular along its axis (C. A. Balanis, Antenna Theory, sec. 2.12). Looking along
    # the wave (+x, up is z, right is -y), right-hand goes up, right, down, left (IEEE Std 145):
    # a quarter period after "up" the field points to -y, so its y component is j times that of z.
    half = 0.24 * WAVELENGTH
    paths = (
        dipole(np.array([0.0, 0.0, 0.0]), half, vertical=True),
        dipole(np.array([1e-3 * WAVELENGTH, 0.0, 0.0]), half),
    )
    gaps = tuple(GapPlace(path=i, along=half, width=0.02) for i in range(2))
    currents = solved(paths, gaps)
    state = drive(
        antenna=currents.admittance,
        network=np.zeros((1, 2, 2)),
        generators=(Generator(port=0, current=1.0), Generator(port=1, current=turn)),
    )
    unknowns = np.einsum("fnp,fp->fn", currents.unknowns, state.voltage)
    source = moments(assembly=currents.assembly, unknowns=unknowns, frequencies=AT)
    vertical, horizontal = far_field(source=source, azimuth=np.zeros(1), elevation=np.zeros(1))
    ratio = axial_ratio(vertical=vertical, horizontal=horizontal)[0, 0]
    assert ratio == pytest.approx(sign, abs=0.02)


def test_linear_polarisation_has_no_end():
    ratio = axial_ratio(vertical=np.array([1.0 + 0j]), horizontal=np.array([0.5 + 0j]))
    assert np.isinf(ratio[0])
