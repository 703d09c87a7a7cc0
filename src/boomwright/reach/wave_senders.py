"""Who sends what: the elements of a solved beam, their sources and their shares of the wave."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np

from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Element
from boomwright.reach.wave_field import CLOSE_WAVELENGTHS
from boomwright.solver import BeamSolution, PlacedRun, Sources, element_currents, near_sources

#: a run lies on an element when it is this near its axis [m]
_ON_AXIS = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one element sends, held against what the driven element sends."""

    label: str  #: role and number, ``driven element``, or ``further wires``
    role: str  #: ``reflector``, ``driven``, ``director`` or ``wires``
    place: float  #: position along the boom [m]
    #: current at its middle over that of the driven element; 0 for further wires [A/A]
    current: complex
    forward: complex  #: its wave far ahead, at the horizon, over the driven element's [-]
    backward: complex  #: the same far behind [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sender:
    """An element, or all further wires, with the runs that model it."""

    label: str  #: role and number, ``driven element``, or ``further wires``
    role: str  #: ``reflector``, ``driven``, ``director`` or ``wires``
    place: float  #: position along the boom [m]
    runs: tuple[int, ...]  #: numbers of its runs in the solved system (n_runs,)


def find_senders(solution: BeamSolution) -> list[Sender]:
    """Find which runs of wire model which element."""
    placed = solution.currents.assembly.system.runs
    left = set(range(len(placed)))
    found = []
    directors = sum(e.role == "director" for e in solution.beam.elements)
    number = 0
    for element in solution.beam.elements:
        label: str = "driven element" if element.role == "driven" else element.role
        if element.role == "director":
            number += 1
            label = f"director {number}" if directors > 1 else label
        mine = tuple(run for run in sorted(left) if _carries(element, placed[run]))
        left -= set(mine)
        found.append(Sender(label=label, role=element.role, place=element.position, runs=mine))
    if left:
        label = "further wires" if solution.beam.wires else "neighbours"
        found.append(Sender(label=label, role="wires", place=0.0, runs=tuple(sorted(left))))
    return found


def _carries(element: Element, run: PlacedRun) -> bool:
    """Whether a run models a stretch of an element."""
    if element.bent:
        return _lies_on(run, element)
    return (
        abs(run.origin[0] - element.position) < _ON_AXIS
        and abs(run.origin[2]) < _ON_AXIS
        and abs(abs(run.direction[1]) - 1.0) < _ON_AXIS
    )


def _lies_on(run: PlacedRun, element: Element) -> bool:
    """Whether the middle of a run lies on a wire with corners."""
    middle = np.array(run.origin) + 0.5 * run.shape.length * np.array(run.direction)
    for low, high in pairwise(np.array(corner) for corner in element.outline):
        long = float(np.linalg.norm(high - low))
        way = (high - low) / long
        along = float((middle - low) @ way)
        off = float(np.linalg.norm(middle - low - along * way))
        if off < _ON_AXIS and -_ON_AXIS < along < long + _ON_AXIS:
            return True
    return False


def laying(solution: BeamSolution, sender: Sender, lift: float) -> Callable[[float], Sources]:
    """Lay the short currents of one sender only, for one ampere at the feed.

    Args:
        lift: height added to every short current [m]

    Returns:
        sources by the distance of the nearest point they are used for, in metres
    """
    assembly = solution.currents.assembly
    unknowns = solution.currents.unknowns[0, :, 0] * solution.impedance[0]

    def lay(nearest: float) -> Sources:
        every = near_sources(
            assembly=assembly,
            unknowns=unknowns,
            frequency=float(solution.frequencies[0]),
            nearest=nearest,
            runs=sender.runs,
        )
        kept = np.abs(every.moments).any(axis=1)
        return replace(
            every, points=every.points[kept] + [0.0, 0.0, lift], moments=every.moments[kept]
        )

    return lay


def element_shares(
    beam: Beam,
    senders: list[Sender],
    lays: list[Callable[[float], Sources]],
    wavelength: float,
    solution: BeamSolution,
) -> tuple[Share, ...]:
    """Hold what every sender sends against the driven element.

    Args:
        senders: its elements, further wires last (n_senders,)
        lays: their sources, in the same order (n_senders,)
    """
    wavenumber = 2.0 * np.pi / wavelength
    ahead, behind = [], []
    for lay in lays:
        sources = lay(CLOSE_WAVELENGTHS * wavelength)
        moment, place = sources.moments[:, 1], sources.points[:, 0]
        ahead.append(complex((moment * np.exp(1j * wavenumber * place)).sum()))
        behind.append(complex((moment * np.exp(-1j * wavenumber * place)).sum()))
    middle = [each.middle for each in element_currents(solution=solution, at=0, points=3)]
    # Further wires have no middle.
    middle += [0.0j] * (len(senders) - len(middle))
    driven = beam.driven_index
    return tuple(
        Share(
            label=sender.label,
            role=sender.role,
            place=sender.place,
            current=middle[i] / middle[driven],
            forward=ahead[i] / ahead[driven],
            backward=behind[i] / behind[driven],
        )
        for i, sender in enumerate(senders)
    )
