"""Generators at the ports of an antenna, and its scattering parameters.

The antenna is its short-circuit admittance matrix; whatever hangs on the ports adds its own
admittances. Given voltages or currents of generators fix the rest {pozar-2012}.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import ReadOnlyArrays, SolverError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Generator:
    """A given voltage or a given current at a port; peak values."""

    port: int  #: number of the port
    voltage: complex | None = None  #: given voltage, or None when the current is given [V]
    current: complex | None = None  #: given current, or None when the voltage is given [A]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PortState(ReadOnlyArrays):
    """Voltages and currents at all ports."""

    voltage: Complexes  #: voltage across each gap [V] (f, n_ports)
    antenna_current: Complexes  #: current into the antenna at each port [A] (f, n_ports)
    #: current out of the generator at each port, zero without one [A] (f, n_ports)
    generator_current: Complexes
    load_power: Floats  #: power lost in loads and lines [W] (f,)


def drive(
    *, antenna: Complexes, network: Complexes, generators: tuple[Generator, ...]
) -> PortState:
    """Voltages and currents at all ports for given generators.

    Args:
        antenna: short-circuit admittance of the antenna [S] (f, n_ports, n_ports)
        network: admittance of loads and lines [S] (f, n_ports, n_ports)
        generators: the generators; ports without one are left to their loads

    Raises:
        SolverError: when no generator is given, or one has not exactly one given value
    """
    count = antenna.shape[1]
    voltages = {g.port: g.voltage for g in generators if g.voltage is not None}
    currents = {g.port: g.current for g in generators if g.current is not None}
    if not generators or len(voltages) + len(currents) != len(generators):
        msg = "give each generator either a voltage or a current, and at least one generator"
        raise SolverError(msg)
    total = antenna + network
    known = sorted(voltages)
    free = [port for port in range(count) if port not in voltages]
    voltage = np.zeros((len(total), count), dtype=complex)
    for port in known:
        voltage[:, port] = complex(voltages[port] or 0.0)
    if free:
        given = np.array([complex(currents.get(port) or 0.0) for port in free])
        block = total[:, free][:, :, free]
        right = given[None, :] - np.einsum(
            "fij,fj->fi", total[:, free][:, :, known], voltage[:, known]
        )
        voltage[:, free] = np.linalg.solve(block, right[:, :, None])[:, :, 0]
    antenna_current = np.einsum("fij,fj->fi", antenna, voltage)
    network_current = np.einsum("fij,fj->fi", network, voltage)
    return PortState(
        voltage=voltage,
        antenna_current=antenna_current,
        generator_current=antenna_current + network_current,
        load_power=0.5 * (voltage * network_current.conj()).real.sum(axis=1),
    )


def scattering_parameters(*, admittance: Complexes, reference: Floats) -> Complexes:
    """Scattering matrix of an antenna with several ports {pozar-2012, sec. 4.3}.

    Args:
        admittance: short-circuit admittance [S] (f, n_ports, n_ports)
        reference: real reference resistance of each port [ohm] (n_ports,)
    """
    root = np.sqrt(reference)
    scaled = root[:, None] * admittance * root[None, :]
    unit = np.eye(len(reference))
    # (1 - y)(1 + y)^-1; both factors commute.
    result: Complexes = np.linalg.solve(unit + scaled, unit - scaled).astype(complex)
    return result
