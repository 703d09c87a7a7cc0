"""Traps of elements as impedances in series with the tube, in both halves alike."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SolverError
from boomwright.parts import Beam, Trap
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.impedance import GapLoad
from boomwright.solver.lumped import Lumped

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


def trap_impedance(*, trap: Trap, frequencies: Floats) -> Complexes:
    """Impedance of a trap: coil and capacitor side by side [ohm] (f,).

    Args:
        frequencies: [Hz] (f,)
    """
    load = Lumped(
        arrangement="parallel",
        inductance=trap.inductance,
        capacitance=trap.capacitance,
        quality=trap.quality,
    )
    return load.impedance(frequencies=frequencies)


def trap_gaps(*, beam: Beam, number: int) -> tuple[tuple[float, float], ...]:
    """Gaps that the traps of one element leave in its half.

    Returns:
        middle from the boom and width of each [m] (n_traps, 2)

    Raises:
        SolverError: when a trap does not lie within the tube
    """
    element = beam.elements[number]
    edges = np.cumsum([0.0, *(section.length for section in element.half)])
    for trap in element.traps:
        low, high = trap.place - trap.width / 2.0, trap.place + trap.width / 2.0
        inside = any(a <= low and high <= b for a, b in pairwise(edges))
        if low <= beam.feed.gap / 2.0 or not inside:
            msg = (
                f"element {number + 1}: the trap from {low:.3f} m to {high:.3f} m lies across a "
                "step of the tubes, at the feed or beyond the tip; place it within one tube"
            )
            raise SolverError(msg)
    return tuple((trap.place, trap.width) for trap in element.traps)


def trap_loads(*, assembly: PreparedSystem, beam: Beam, frequencies: Floats) -> tuple[GapLoad, ...]:
    """What the traps put into their gaps.

    Args:
        frequencies: [Hz] (f,)
    """
    return tuple(
        GapLoad(weights=vector, impedance=trap_impedance(trap=trap, frequencies=frequencies))
        for trap, vector in _vectors(assembly, beam)
    )


def trap_loss(
    *, assembly: PreparedSystem, beam: Beam, frequencies: Floats, unknowns: Complexes
) -> Floats:
    """Power lost in the traps.

    Args:
        frequencies: [Hz] (f,)
        unknowns: unknowns of the currents, peak values [A] (f, n)

    Returns:
        power in both halves [W] (f,)
    """
    lost = np.zeros(len(frequencies))
    for trap, vector in _vectors(assembly, beam):
        resistance = trap_impedance(trap=trap, frequencies=frequencies).real
        lost += resistance * np.abs(unknowns @ vector) ** 2
    return lost


def _vectors(assembly: PreparedSystem, beam: Beam) -> Iterator[tuple[Trap, Floats]]:
    """Each trap with the mean current through its gap, as weights of the unknowns."""
    for number, element in enumerate(beam.elements):
        fed = int(number == beam.driven_index)
        for gap, trap in enumerate(element.traps):
            raw = np.zeros(assembly.offsets[-1])
            block = slice(assembly.offsets[number], assembly.offsets[number + 1])
            raw[block] = assembly.runs[number].gaps[fed + gap]
            yield trap, assembly.gathered(raw)
