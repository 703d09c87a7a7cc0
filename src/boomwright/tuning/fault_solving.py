"""Solving a beam with every fault of its metal.

Real ground is dear to compute. What it adds to the matrix of an antenna is computed at a few
frequencies, with the phase of the way down and back taken out, and serves all frequencies; it is
carried along when a tip moves, and when the height changes by the phase and the fading of the
wave that comes back. What a braid adds is found with the quick image method, exactly only where
its end comes near the ground: the error that the image method makes in the beam itself cancels.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam
from boomwright.solver import (
    Detail,
    Ground,
    GroundMethod,
    PreparedSystem,
    Preparer,
    assemble,
    ground_matrices,
    remembering,
    solve_currents,
    surrounded_beam,
    working_detail,
)
from boomwright.tuning.causes import element_labels
from boomwright.tuning.fault_antennas import BraidFamily, FaultAntennas, LinearAntenna
from boomwright.tuning.fault_wires import MetalFault, faulty_wires, half_left, swapped
from boomwright.tuning.installation import Installation, after_changes
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights, way_down

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: frequencies of a library
_NODES = 15
#: fewest frequencies at which real ground is computed, and one more for so much phase [rad]
_GROUND_NODES = 3
_PHASE_PER_NODE = 0.7
#: lengths of braid computed, in wavelengths
BRAID_WAVELENGTHS = (0.06, 0.66)
_BRAID_COUNT = 17
#: its end stays so far off the ground, as a share of the height and in wavelengths: nearer, the
#: solver's model of real ground does not hold
_BRAID_CLEARANCE = 0.05
_BRAID_OFF_GROUND = 0.025
#: with its end nearer to the ground than this, in wavelengths, a braid is solved exactly. Tried
#: over very dry to wet ground from 0.28 wavelengths up: error in reflection below 0.0015 above it
_IMAGE_FROM = 0.06
#: steps of the difference quotients, in wavelengths
_TIP_STEP = 2e-4
_HEIGHT_STEP = 0.02


def compute_fault_antennas(
    *, installation: Installation, lowest_frequency: float, highest_frequency: float
) -> FaultAntennas:
    """Solve the beam with every fault of its metal; takes seconds.

    Args:
        lowest_frequency, highest_frequency: limits of the sweeps that will be asked for [Hz]
    """
    bench = FaultBench(
        installation=installation,
        lowest_frequency=lowest_frequency,
        highest_frequency=highest_frequency,
    )
    beam = installation.beam
    labels = element_labels(installation)
    loose = []
    for number, element in enumerate(beam.elements):
        for left in half_left(element=element):
            told = phrase(
                "{label}: one half has contact only {left} out from the boom",
                label=labels[number],
                left=Quantity(left, "span"),
            )
            fault = MetalFault(short_half=(number, left))
            loose.append(bench.antenna(text=told, fault=fault))
        if number != beam.driven_index:
            text = f"{labels[number]}: its halves do not touch in the middle"
            loose.append(bench.antenna(text=text, fault=MetalFault(open_middle=number)))
    reordered = []
    parasitic = [n for n in range(len(beam.elements)) if n != beam.driven_index]
    for first, second in combinations(parasitic, 2):
        text = f"{labels[first]} and {labels[second]} are in each other's place"
        wrong = swapped(beam, first, second)
        reordered.append(bench.antenna(text=text, fault=MetalFault(), beam=wrong))
    plain = bench.antenna(text="no fault", fault=MetalFault())
    return FaultAntennas(
        plain=plain,
        loose=tuple(loose),
        reordered=tuple(reordered),
        braid=bench.braid(),
    )


def faulty_impedance(
    *,
    beam: Beam,
    fault: MetalFault,
    ground: Ground,
    frequencies: Floats,
    detail: Detail,
    prepare: Preparer,
) -> Complexes:
    """Feed-point impedance of a beam with a fault in its metal, nothing interpolated.

    Args:
        frequencies: [Hz] (f,)

    Returns:
        impedance [ohm] (f,)
    """
    assembly = assemble(
        system=surrounded_beam(
            system=faulty_wires(beam=beam, fault=fault, ground=ground), beam=beam
        ),
        detail=detail,
        highest_frequency=float(frequencies.max()),
        prepare=prepare,
    )
    added = None
    if ground.kind == "real":
        added = ground_matrices(assembly=assembly, frequencies=frequencies, ground=ground)
    return _impedance(assembly, frequencies, added)


def _impedance(assembly: PreparedSystem, frequencies: Floats, added: Complexes | None) -> Complexes:
    currents = solve_currents(assembly=assembly, frequencies=frequencies, added=added)
    impedance: Complexes = 1.0 / currents.admittance[:, 0, 0]
    return impedance


class FaultBench:
    """Solves one installation with its faults, remembering element shapes.

    Args:
        installation: the installation as planned
        lowest_frequency, highest_frequency: limits of the sweeps that will be asked for [Hz]
    """

    def __init__(
        self, *, installation: Installation, lowest_frequency: float, highest_frequency: float
    ) -> None:
        self.installation, self.ground = installation, installation.ground
        self.frequencies = np.linspace(lowest_frequency, highest_frequency, _NODES)
        self.detail = working_detail(frequency=highest_frequency)
        self.prepare = remembering()
        span = highest_frequency - lowest_frequency
        phase = 4.0 * np.pi * span * installation.beam.height / SPEED_OF_LIGHT
        count = _GROUND_NODES + int(phase / _PHASE_PER_NODE)
        self.ground_nodes = chebyshev_nodes(self.frequencies, count)

    def antenna(self, *, text: Value, fault: MetalFault, beam: Beam | None = None) -> LinearAntenna:
        """Impedance and slopes of the beam with a fault.

        Args:
            beam: the beam as it stands; None for the planned one
        """
        beam = beam or self.installation.beam
        assembly = self._assembly(beam, fault)
        added = self._added(assembly)
        base = _impedance(assembly, self.frequencies, added)
        step = _TIP_STEP * beam.wavelength
        keys, slopes = [], []
        for number in range(len(beam.elements)):
            moved = after_changes(
                installation=replace(self.installation, beam=beam), changes={f"tip.{number}": step}
            ).beam
            keys.append(f"tip.{number}")
            there = self._assembly(moved, fault)
            ground = self._carried(added, there)
            slopes.append((_impedance(there, self.frequencies, ground) - base) / step)
        if self.ground.kind != "free space":
            rise = _HEIGHT_STEP * beam.wavelength
            keys.append("height")
            above = self._assembly(replace(beam, height=beam.height + rise), fault)
            raised = _impedance(above, self.frequencies, self._higher(added, rise))
            slopes.append((raised - base) / rise)
        return LinearAntenna(
            text=text,
            frequencies=self.frequencies,
            impedance=base,
            keys=tuple(keys),
            slopes=np.array(slopes),
        )

    def braid(self) -> BraidFamily:
        """What a braid adds, for lengths that stay off the ground."""
        beam = self.installation.beam
        shortest, longest = (share * beam.wavelength for share in BRAID_WAVELENGTHS)
        if self.ground.kind != "free space":
            off = max(_BRAID_CLEARANCE * beam.height, _BRAID_OFF_GROUND * beam.wavelength)
            longest = min(longest, max(beam.height - off, 0.1 * beam.height))
            shortest = min(shortest, 0.5 * longest)
        lengths = chebyshev_nodes(np.array([shortest, longest]), _BRAID_COUNT)
        methods: tuple[GroundMethod, ...] = ("exact", "image")
        without = {method: self._admittance(0.0, method) for method in methods}
        found = []
        for length in lengths.tolist():
            near = beam.height - length < _IMAGE_FROM * beam.wavelength
            method: GroundMethod = "exact" if near else "image"
            found.append(self._admittance(length, method) - without[method])
        return BraidFamily(
            lengths=lengths, frequencies=self.frequencies, admittance=np.array(found)
        )

    def _admittance(self, length: float, method: GroundMethod) -> Complexes:
        """Admittance of the beam with a braid, or with none when it has no length."""
        assembly = self._assembly(self.installation.beam, MetalFault(braid_length=length))
        found: Complexes = 1.0 / _impedance(
            assembly, self.frequencies, self._added(assembly, method)
        )
        return found

    def _assembly(self, beam: Beam, fault: MetalFault) -> PreparedSystem:
        return assemble(
            system=surrounded_beam(
                system=faulty_wires(beam=beam, fault=fault, ground=self.ground), beam=beam
            ),
            detail=self.detail,
            highest_frequency=float(self.frequencies[-1]),
            prepare=self.prepare,
        )

    def _added(self, assembly: PreparedSystem, method: GroundMethod = "exact") -> Complexes | None:
        """What real ground adds; None over none or perfect ground."""
        if self.ground.kind != "real":
            return None
        nodes, height = self.ground_nodes, self.installation.beam.height
        found = ground_matrices(
            assembly=assembly, frequencies=nodes, ground=self.ground, method=method
        )
        found = found / way_down(frequencies=nodes, height=height)[:, None, None]
        weights = lagrange_weights(nodes=nodes, at=self.frequencies)
        phase = way_down(frequencies=self.frequencies, height=height)
        spread: Complexes = np.tensordot(weights, found, axes=1) * phase[:, None, None]
        return spread

    def _carried(self, added: Complexes | None, moved: PreparedSystem) -> Complexes | None:
        """What real ground adds to a beam whose tips moved a little."""
        if added is not None and moved.count != added.shape[1]:
            # The tip crossed a length at which it is cut into more pieces.
            return self._added(moved)
        return added

    def _higher(self, added: Complexes | None, rise: float) -> Complexes | None:
        """What real ground adds with the beam a little higher."""
        if added is None:
            return None
        height = self.installation.beam.height
        phase = way_down(frequencies=self.frequencies, height=rise) * (height / (height + rise))
        return added * phase[:, None, None]
