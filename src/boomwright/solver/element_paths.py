"""Elements and further wires of a beam as paths, and mirrored in the plane through the boom."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np

from boomwright.base import SolverError
from boomwright.parts import Beam, Element
from boomwright.solver.element_wires import both_halves, coat, element_half
from boomwright.solver.lumped import Lumped
from boomwright.solver.series_inductance import Stretch, stretches_between, stretches_from_the_end
from boomwright.solver.wire_network import GapPlace, PathLoad, WirePath, wire_network
from boomwright.solver.wire_system import Mirror, PlacedRun, WireSystem

#: points nearer than this to the plane lie on it [m]
_ON_PLANE = 1e-9


def _whole_path(half: WirePath, element: Element) -> WirePath:
    """Whole element as a wire, from the tip at negative y to the other."""
    if element.upright:
        return half
    flipped = half.points[:0:-1] * np.array([1.0, -1.0, 1.0])
    wires = element_half(element=element)
    return replace(
        half,
        points=np.concatenate([flipped, half.points[1:]]),
        radii=np.concatenate([half.radii[:0:-1], half.radii]),
        inductance=both_halves(left=wires, right=wires).inductance,
        loads=_in_both_halves(half.loads, middle=half.length),
    )


def _in_both_halves(loads: tuple[PathLoad, ...], *, middle: float) -> tuple[PathLoad, ...]:
    """Loads of a half, counted from its middle, in the whole wire."""
    return tuple(
        replace(load, along=middle + side * load.along) for load in loads for side in (-1.0, 1.0)
    )


def trap_places(*, beam: Beam, number: int) -> tuple[PathLoad, ...]:
    """Traps of one element in its half, counted from the boom (n_traps,).

    Raises:
        SolverError: when a trap does not lie within the tube
    """
    element = beam.elements[number]
    edges = np.cumsum([0.0, *(section.length for section in element.half)])
    found = []
    for trap in element.traps:
        low, high = trap.place - trap.width / 2.0, trap.place + trap.width / 2.0
        inside = any(a <= low and high <= b for a, b in pairwise(edges))
        if low <= beam.feed.gap / 2.0 or not inside:
            raise SolverError(
                f"element {number + 1}: the trap from {low:.3f} m to {high:.3f} m lies across a "
                "step of the tubes, at the feed or beyond the tip; place it within one tube"
            )
        found.append(PathLoad(along=trap.place, width=trap.width, lumped=Lumped.of_trap(trap)))
    return tuple(found)


def _half_path(beam: Beam, number: int, joint: float) -> WirePath:
    """Half an element as a wire, from its middle to the tip at positive y.

    A change of diameter less than a diameter from the joint is moved onto it: the piece
    between would be shorter than the model allows, and a strap covers about as much.

    Args:
        joint: where another wire will be joined to it, from the middle [m]
    """
    element, name = beam.elements[number], f"element {number + 1}"
    conductivity = beam.material.conductivity
    half = element_half(element=element)
    if element.bent:
        corners = np.array(element.corners)
        return WirePath(
            name=name,
            points=corners,
            radii=np.full(len(corners) - 1, half.sections[0][1]),
            conductivity=half.metal(conductivity),
            inductance=half.inductance,
            loads=trap_places(beam=beam, number=number),
        )
    along = np.cumsum([0.0, *(length for length, _ in half.sections)])
    radii = np.array([radius for _, radius in half.sections])
    for edge in range(1, len(along) - 1):
        thick = 2.0 * max(radii[edge - 1], radii[edge])
        if 0.0 < joint < along[-1] and abs(along[edge] - joint) < 1.01 * thick:
            along[edge] = joint
    points = np.zeros((len(along), 3))
    points[:, 0] = element.position
    points[:, 1] = along
    return WirePath(
        name=name,
        points=points,
        radii=radii,
        conductivity=half.metal(conductivity),
        inductance=half.inductance,
        loads=trap_places(beam=beam, number=number),
    )


def beam_paths(*, beam: Beam, halves: bool, joint: float = 0.0) -> tuple[WirePath, ...]:
    """All elements of a beam as wires.

    Args:
        beam: the beam; for its further wires see ``further_paths``
        halves: only the halves at positive y
        joint: where another wire will be joined to the driven element, from its middle [m]
    """
    found = []
    for number, element in enumerate(beam.elements):
        half = _half_path(beam, number, joint if number == beam.driven_index else 0.0)
        found.append(half if halves else _whole_path(half, element))
    return tuple(found)


def further_paths(*, beam: Beam) -> tuple[WirePath, ...]:
    """Further wires of a beam, thicker and with inductance in series where they have a coat."""
    found = []
    for wire in beam.wires:
        radius = acting = wire.diameter / 2.0
        inductance: tuple[Stretch, ...] = ()
        if wire.insulation is not None:
            acting, each = coat(insulation=wire.insulation, radius=radius)
            inductance = ((0.0, math.inf, each),)
        found.append(
            WirePath(
                name=wire.name,
                points=wire.points,
                radii=np.full(len(wire.points) - 1, acting),
                conductivity=beam.material.conductivity * (radius / acting) ** 2,
                inductance=inductance,
            )
        )
    return tuple(found)


def radial_paths(*, beam: Beam) -> tuple[WirePath, ...]:
    """Elevated radials, from the foot of every upright element."""
    radials = beam.radials
    if radials is None or radials.laid == "buried":
        return ()
    found = []
    for number, element in enumerate(beam.elements, start=1):
        foot = np.array(element.corners[0])
        for each, way in enumerate(radials.ways, start=1):
            found.append(
                WirePath(
                    name=f"radial {number}.{each}",
                    points=np.array([foot, foot + radials.length * np.array(way)]),
                    radii=np.array([radials.diameter / 2.0]),
                    conductivity=beam.material.conductivity,
                )
            )
    return tuple(found)


def mirrored_network(*, paths: tuple[WirePath, ...], gaps: tuple[GapPlace, ...]) -> WireSystem:
    """Turn halves of wires into a system mirrored in the plane through the boom.

    Args:
        paths: wires at y >= 0; one that starts or ends at y = 0 goes on in its image
        gaps: the ports; one at the very start of a path is cut in half by the plane
    """
    # The plane of symmetry treats wires as perfect ground does, so it is laid down as one first.
    turned = tuple(replace(path, points=path.points[:, [0, 2, 1]]) for path in paths)
    system = wire_network(paths=turned, gaps=gaps, perfect_ground=True)
    return replace(
        system,
        runs=tuple(_turned_back(run) for run in system.runs),
        mirrors=(Mirror(axis=1),),
    )


def _turned_back(run: PlacedRun) -> PlacedRun:
    x, y, z = run.origin
    dx, dy, dz = run.direction
    return replace(run, origin=(x, z, y), direction=(dx, dz, dy))


def both_sides(
    *, paths: tuple[WirePath, ...], gaps: tuple[GapPlace, ...]
) -> tuple[tuple[WirePath, ...], tuple[GapPlace, ...]]:
    """Lay out both sides of wires that stand for their images too.

    Args:
        paths: wires at y >= 0
        gaps: the ports, each at the very start of a path that starts at y = 0

    Returns:
        whole wires in the same order, twins of those that touch the plane nowhere behind them
        (n,), and the gaps on them (n_gaps,)
    """
    whole, twins = [], []
    places = list(gaps)
    for number, path in enumerate(paths):
        flipped = path.points * np.array([1.0, -1.0, 1.0])
        length = path.length
        back = stretches_from_the_end(path.inductance, length=length)
        onward = stretches_between(path.inductance, low=0.0, high=length)
        if path.points[0, 1] < _ON_PLANE:
            whole.append(
                replace(
                    path,
                    points=np.concatenate([flipped[:0:-1], path.points]),
                    radii=np.concatenate([path.radii[::-1], path.radii]),
                    inductance=(*back, *((length + a, length + b, e) for a, b, e in onward)),
                    loads=_in_both_halves(path.loads, middle=length),
                )
            )
            places = [
                replace(gap, along=length + gap.along) if gap.path == number else gap
                for gap in places
            ]
        elif path.points[-1, 1] < _ON_PLANE:
            whole.append(
                replace(
                    path,
                    points=np.concatenate([path.points, flipped[-2::-1]]),
                    radii=np.concatenate([path.radii, path.radii[::-1]]),
                    inductance=(*onward, *((length + a, length + b, e) for a, b, e in back)),
                )
            )
        else:
            whole.append(path)
            twins.append(replace(path, points=flipped))
    return (*whole, *twins), tuple(places)
