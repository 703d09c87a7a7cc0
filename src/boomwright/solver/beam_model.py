"""A beam as wires: half of every element, mirrored in the plane through the boom."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import TypedDict

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Beam, IdleFeed
from boomwright.solver.assembly import assemble
from boomwright.solver.currents import solve_currents
from boomwright.solver.element_paths import (
    beam_paths,
    further_paths,
    mirrored_network,
    radial_paths,
    trap_places,
)
from boomwright.solver.element_wires import element_half
from boomwright.solver.far_field import far_field, moments
from boomwright.solver.ground import FREE_SPACE, Ground
from boomwright.solver.neighbours import surrounded
from boomwright.solver.runs.mesh import Detail, RunShape
from boomwright.solver.runs.prepared_run import Preparer, remembering
from boomwright.solver.wire_network import GapPlace, PathLoad, wire_network
from boomwright.solver.wire_system import Feeder, Load, Mirror, PlacedRun, Port, WireSystem


class Fed(TypedDict):
    """Ports of a system, and the lines to them."""

    ports: tuple[Port, ...]
    feeders: tuple[Feeder, ...]


#: feed gaps are modelled no narrower than this share of the centre diameter: a narrower gap
#: changes the susceptance by its edge capacitance only, which a real insulator hides
_NARROWEST_GAP = 0.25


def working_detail(*, frequency: float) -> Detail:
    """How finely a beam is cut for its figures.

    Args:
        frequency: highest frequency of use [Hz]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    return Detail(
        first=2.5,
        ratio=20.0,
        step=3.0,
        degree=4,
        short_degree=3,
        long_piece=0.06 * wavelength,
        edge_degree=3,
        step_degree=2,
        longest=0.35 * wavelength,
    )


def reference_detail(*, frequency: float) -> Detail:
    """How finely a beam is cut to learn the error of :func:`working_detail`.

    Args:
        frequency: highest frequency of use [Hz]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    return Detail(
        first=1.5,
        ratio=8.0,
        step=2.0,
        degree=5,
        short_degree=4,
        long_piece=0.06 * wavelength,
        edge_degree=4,
        step_degree=3,
        longest=0.35 * wavelength,
    )


def beam_wires(*, beam: Beam, ground: Ground = FREE_SPACE) -> WireSystem:
    """Model a beam, its boom at height zero of the model.

    Returns:
        one run an element half, mirrored at y = 0, or, when the beam has further wires or a
            neighbour at another heading, every wire in full; one port. The beam's own runs come
            first, its neighbours' behind them
    """
    system = _own_wires(beam, ground)
    return surrounded_beam(system=system, beam=beam)


def surrounded_beam(*, system: WireSystem, beam: Beam) -> WireSystem:
    """Put the neighbours of a beam beside whatever wires it is modelled by.

    A feed nobody speaks of is taken as what does most harm, see ``settled_feeds``.

    Args:
        system: wires of the beam, its boom at height zero
    """
    if not beam.neighbours and not beam.conductors:
        return system
    beam = settled_feeds(beam=beam)
    return surrounded(system=system, beam=beam, parts=_parts(beam))


def _parts(beam: Beam) -> dict[str, WireSystem]:
    """Wires of each neighbour in its own axes."""
    return {other.name: _own_wires(other.alone, FREE_SPACE) for other in beam.neighbours}


def idle_cases(*, beam: Beam) -> tuple[Beam, ...]:
    """The same beam with each answer for the feeds nobody speaks of.

    Returns:
        the beam itself when all are answered, else one with them open, shorted and matched
        (n_cases,)
    """
    if all(other.idle_feed for other in beam.neighbours):
        return (beam,)
    answers: tuple[IdleFeed, ...] = ("open", "shorted", "matched")
    return tuple(
        replace(
            beam,
            neighbours=tuple(
                other if other.idle_feed else replace(other, idle_feed=answer)
                for other in beam.neighbours
            ),
        )
        for answer in answers
    )


@lru_cache(maxsize=64)
def _worst_feeds(beam: Beam) -> Beam:
    cases = idle_cases(beam=beam)
    if len(cases) == 1:
        return beam
    prepare = remembering()
    return min(cases, key=lambda case: _gain_ahead(case, prepare))


def settled_feeds(*, beam: Beam) -> Beam:
    """Answer for the feeds nobody speaks of: as it leaves least gain at the design frequency."""
    return _worst_feeds(beam)


def _gain_ahead(beam: Beam, prepare: Preparer) -> float:
    """Free-space gain towards the heading, for comparison only [-]."""
    at = np.array([beam.design_frequency])
    highest = max(*beam.band, beam.design_frequency)
    own = _own_wires(beam, FREE_SPACE)
    assembly = assemble(
        system=surrounded(system=own, beam=beam, parts=_parts(beam)),
        detail=working_detail(frequency=highest),
        highest_frequency=highest,
        prepare=prepare,
    )
    currents = solve_currents(assembly=assembly, frequencies=at)
    source = moments(assembly=assembly, unknowns=currents.unknowns[:, :, 0], frequencies=at)
    field = far_field(source=source, azimuth=np.zeros(1), elevation=np.zeros(1))
    strength = sum(float(np.abs(part[0, 0]) ** 2) for part in field)
    return strength / float(currents.admittance[0, 0, 0].real)


def _own_wires(beam: Beam, ground: Ground) -> WireSystem:
    if beam.wires or beam.upright:
        return _whole_beam(beam, ground)
    if beam.bent:
        return _mirrored_beam(beam, ground)
    driven = beam.driven_indices
    traps = [trap_places(beam=beam, number=index) for index in range(len(beam.elements))]
    runs = tuple(
        _half_run(index, beam, (_gap_width(beam),) if index in driven else (), places)
        for index, places in enumerate(traps)
    )
    mirrors = [Mirror(axis=1)]
    if ground.kind == "perfect":
        mirrors.append(Mirror(axis=2, offset=-beam.height, material=True))
    return WireSystem(
        runs=runs,
        mirrors=tuple(mirrors),
        **_fed(beam, [Port(run=index) for index in driven]),
        loads=tuple(
            Load(port=Port(run=index, gap=int(index in driven) + gap), lumped=trap.lumped)
            for index, places in enumerate(traps)
            for gap, trap in enumerate(places)
        ),
        ground_height=beam.height if ground.kind == "real" else math.inf,
    )


def _fed(beam: Beam, gaps: Sequence[Port]) -> Fed:
    """The port of a beam, and the phasing lines to its driven elements where there are several."""
    lines = [(beam.elements[number].phasing_line, gap)
             for number, gap in zip(beam.driven_indices, gaps, strict=True)]  # fmt: skip
    return {
        "ports": (gaps[0],),
        "feeders": tuple(
            Feeder(gap=gap, impedance=line.impedance, delay=line.delay)
            for line, gap in lines
            if line is not None
        ),
    }


def _whole_beam(beam: Beam, ground: Ground) -> WireSystem:
    """Elements in full and further wires; wires that touch an element are joined to it."""
    paths = (*beam_paths(beam=beam, halves=False), *further_paths(beam=beam))
    width = _gap_width(beam)
    gaps = []
    for number in beam.driven_indices:
        driven = beam.elements[number]
        along = driven.half_length
        if driven.upright:
            along = 0.0 if beam.stands_on_ground else width
        gaps.append(GapPlace(path=number, along=along, width=width))
    foot = beam.elements[beam.driven_index].corners[0][2]
    system = wire_network(
        paths=(*paths, *radial_paths(beam=beam)),
        gaps=tuple(gaps),
        perfect_ground=ground.kind == "perfect" or beam.stands_on_ground,
        ground_level=foot if beam.stands_on_ground else -beam.height,
    )
    real = ground.kind == "real" and not beam.stands_on_ground
    return replace(
        system, **_fed(beam, system.ports), ground_height=beam.height if real else math.inf
    )


def _mirrored_beam(beam: Beam, ground: Ground) -> WireSystem:
    """Halves of elements with corners, mirrored in the plane through the boom."""
    gaps = tuple(
        GapPlace(path=number, along=0.0, width=_gap_width(beam)) for number in beam.driven_indices
    )
    system = mirrored_network(paths=beam_paths(beam=beam, halves=True), gaps=gaps)
    system = replace(system, **_fed(beam, system.ports))
    if ground.kind == "perfect":
        below = Mirror(axis=2, offset=-beam.height, material=True)
        system = replace(system, mirrors=(*system.mirrors, below))
    return replace(system, ground_height=beam.height if ground.kind == "real" else math.inf)


def _gap_width(beam: Beam) -> float:
    return max(beam.feed.gap, _NARROWEST_GAP * beam.elements[beam.driven_index].half[0].diameter)


def _half_run(
    number: int, beam: Beam, feed: tuple[float, ...], traps: tuple[PathLoad, ...]
) -> PlacedRun:
    element = beam.elements[number]
    half = element_half(element=element)
    return PlacedRun(
        shape=RunShape(
            sections=half.sections,
            gaps=(
                *((0.0, width) for width in feed),
                *((trap.along, trap.width) for trap in traps),
            ),
            start="mirror",
            end="closed tip",
        ),
        origin=(element.position, 0.0, 0.0),
        direction=(0.0, 1.0, 0.0),
        conductivity=half.metal(beam.material.conductivity),
        inductance=half.inductance,
    )
