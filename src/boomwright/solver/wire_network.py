"""From paths of straight wire to runs, joints and ports; and what the model cannot do.

Corners, branches and ends that touch another wire become joints. Stretches in line become
one run, whatever their diameters.
"""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import ReadOnlyArrays, SolverError
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, field, replace
from boomwright.solver.effort import refuse_stretches
from boomwright.solver.lumped import Lumped
from boomwright.solver.runs.mesh import EndKind, RunShape
from boomwright.solver.series_inductance import (
    Stretch,
    stretches_between,
    stretches_from_the_end,
)
from boomwright.solver.wire_checks import check_segments
from boomwright.solver.wire_system import Load, Mirror, PlacedRun, Port, WireSystem

#: points nearer than this are one point [m]
_SAME_POINT = 1e-6
#: directions whose cosine is within this of one are in line [-]
_IN_LINE = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class PathLoad:
    """A trap or another load in a wire."""

    along: float  #: place of its middle, measured along the wire from its first point [m]
    width: float  #: length of wire that it replaces [m]
    lumped: Lumped


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WirePath(ReadOnlyArrays):
    """A wire through some points."""

    name: str  #: owner's name for it, for messages
    points: Floats  #: corner points [m] (n, 3)
    radii: Floats  #: radius of each stretch between two points [m] (n - 1,)
    conductivity: float = float("inf")  #: of its metal, infinite for the ideal conductor [S/m]
    #: in series with stretches of it, measured along it from its first point [m] and [H/m]
    inductance: tuple[Stretch, ...] = ()
    loads: tuple[PathLoad, ...] = ()  #: what sits in it (n_loads,)

    @property
    def length(self) -> float:
        """Length along it [m]."""
        return float(np.linalg.norm(np.diff(self.points, axis=0), axis=1).sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class GapPlace:
    """A feed gap on a path."""

    path: int  #: number of the path
    along: float  #: place of its middle, measured along the path from its first point [m]
    width: float  #: width of the gap [m]


@dataclass(slots=True)
class _Segment:
    first: int
    last: int
    radius: float
    conductivity: float
    name: str
    gaps: list[tuple[int, float, float]] = field(default_factory=list)
    inductance: tuple[Stretch, ...] = ()


def wire_network(
    *,
    paths: tuple[WirePath, ...],
    gaps: tuple[GapPlace, ...] = (),
    perfect_ground: bool = False,
    ground_level: float = 0.0,
) -> WireSystem:
    """Turn paths into a system of runs.

    Args:
        paths: the wires; an end that stands on perfect ground is connected to it (n_paths,)
        gaps: where ports are, in the order of the ports (n_gaps,)
        perfect_ground: whether the plane z = ``ground_level`` conducts perfectly
        ground_level: height of that plane [m]
    """
    refuse_stretches(sum(len(path.radii) for path in paths))
    loads = [(number, load) for number, path in enumerate(paths) for load in path.loads]
    places = (
        *gaps,
        *(GapPlace(path=path, along=each.along, width=each.width) for path, each in loads),
    )
    nodes, segments = _collect(paths, places)
    segments = _split_at_touching_ends(nodes, segments)
    points = np.array(nodes)
    check_segments(
        places=points,
        ends=np.array([(each.first, each.last) for each in segments]),
        radii=np.array([each.radius for each in segments]),
        names=tuple(each.name for each in segments),
        ground_level=ground_level if perfect_ground else -math.inf,
    )
    system = _system(
        points,
        segments,
        _chains(points, segments),
        len(places),
        ground_level=ground_level if perfect_ground else -math.inf,
    )
    behind = system.ports[len(gaps) :]
    return replace(
        system,
        ports=system.ports[: len(gaps)],
        loads=tuple(
            Load(port=port, lumped=each.lumped)
            for port, (_, each) in zip(behind, loads, strict=True)
        ),
    )


def _collect(
    paths: tuple[WirePath, ...], gaps: tuple[GapPlace, ...]
) -> tuple[list[Floats], list[_Segment]]:
    nodes: list[Floats] = []
    segments: list[_Segment] = []

    def node(point: Floats) -> int:
        for number, known in enumerate(nodes):
            if np.linalg.norm(known - point) < _SAME_POINT:
                return number
        nodes.append(point)
        return len(nodes) - 1

    for number, path in enumerate(paths):
        start = 0.0
        wanted = [(port, gap) for port, gap in enumerate(gaps) if gap.path == number]
        for index, radius in enumerate(path.radii):
            low, high = path.points[index], path.points[index + 1]
            length = float(np.linalg.norm(high - low))
            segment = _Segment(node(low), node(high), float(radius), path.conductivity, path.name)
            segment.inductance = stretches_between(path.inductance, low=start, high=start + length)
            if segment.first == segment.last:
                raise SolverError(
                    f"wire {path.name!r}: points {index + 1} and {index + 2} are {length:.3g} m "
                    "apart, which is one point; leave one of them out"
                )
            for port, gap in wanted:
                if start <= gap.along < start + length:
                    segment.gaps.append((port, gap.along - start, gap.width))
            segments.append(segment)
            start += length
        for _, gap in wanted:
            if not 0.0 <= gap.along < start:
                raise SolverError(
                    f"wire {path.name!r}: the gap at {gap.along:.4g} m is off the wire, which is "
                    f"{start:.4g} m long; place it between 0 and {start:.4g} m"
                )
    return nodes, segments


def _split_at_touching_ends(nodes: list[Floats], segments: list[_Segment]) -> list[_Segment]:
    """Cut a stretch where the end of another wire lies on it."""
    done: list[_Segment] = []
    waiting = list(segments)
    points = np.array(nodes)
    while waiting:
        segment = waiting.pop()
        low, high = nodes[segment.first], nodes[segment.last]
        length = float(np.linalg.norm(high - low))
        direction = (high - low) / length
        places = (points - low) @ direction
        off = np.linalg.norm(points - low - places[:, None] * direction, axis=1)
        on_it = (places > _SAME_POINT) & (places < length - _SAME_POINT) & (off < _SAME_POINT)
        on_it[[segment.first, segment.last]] = False
        if not on_it.any():
            done.append(segment)
            continue
        number = int(np.argmax(on_it))
        along = float(places[number])
        before = _Segment(segment.first, number, segment.radius, segment.conductivity, segment.name)
        after = _Segment(number, segment.last, segment.radius, segment.conductivity, segment.name)
        before.inductance = stretches_between(segment.inductance, low=0.0, high=along)
        after.inductance = stretches_between(segment.inductance, low=along, high=length)
        for port, place, width in segment.gaps:
            if place < along:
                before.gaps.append((port, place, width))
            else:
                after.gaps.append((port, place - along, width))
        waiting.extend((after, before))
    return done


def _chains(places: Floats, segments: list[_Segment]) -> list[list[tuple[int, bool]]]:
    """Group stretches in line, each with whether it is walked backwards."""
    at_node: dict[int, list[int]] = {}
    for number, segment in enumerate(segments):
        at_node.setdefault(segment.first, []).append(number)
        at_node.setdefault(segment.last, []).append(number)

    def onward(number: int, through: int) -> tuple[int, int] | None:
        """Next stretch in line through a node, and its far node."""
        if len(at_node[through]) != 2:
            return None
        other = next(each for each in at_node[through] if each != number)
        here, there = segments[number], segments[other]
        back = here.first if here.last == through else here.last
        far = there.first if there.last == through else there.last
        one, two = places[through] - places[back], places[far] - places[through]
        cosine = float(one @ two / (np.linalg.norm(one) * np.linalg.norm(two)))
        same_metal = here.conductivity == there.conductivity
        return (other, far) if cosine > 1.0 - _IN_LINE and same_metal else None

    used: set[int] = set()
    chains = []
    for number, segment in enumerate(segments):
        if number in used:
            continue
        chain = [(number, False)]
        used.add(number)
        for start, forwards in ((segment.last, True), (segment.first, False)):
            current, node = number, start
            while (step := onward(current, node)) is not None and step[0] not in used:
                current, far = step
                used.add(current)
                reverse = (segments[current].first == far) == forwards
                if forwards:
                    chain.append((current, reverse))
                else:
                    chain.insert(0, (current, reverse))
                node = far
        chains.append(chain)
    return chains


def _system(
    places: Floats,
    segments: list[_Segment],
    chains: list[list[tuple[int, bool]]],
    port_count: int,
    *,
    ground_level: float,
) -> WireSystem:
    ends = [_chain_ends(segments, chain) for chain in chains]
    grounded = places[:, 2] < ground_level + _SAME_POINT
    if grounded.any():
        # A run that stands on the ground starts there, so that its image continues it.
        for number, (first, last) in enumerate(ends):
            if grounded[last] and not grounded[first]:
                chains[number] = [(each, not back) for each, back in reversed(chains[number])]
                ends[number] = (last, first)
    meeting: dict[int, list[tuple[int, bool]]] = {}
    for number, (first, last) in enumerate(ends):
        meeting.setdefault(first, []).append((number, False))
        meeting.setdefault(last, []).append((number, True))

    def kind(node: int) -> EndKind:
        if grounded[node]:
            return "mirror"
        return "joint" if len(meeting[node]) > 1 else "closed tip"

    runs = []
    ports: dict[int, Port] = {}
    for number, chain in enumerate(chains):
        first, last = ends[number]
        run, run_ports = _placed(places, segments, chain, (first, last), (kind(first), kind(last)))
        runs.append(run)
        ports.update({port: Port(run=number, gap=gap) for gap, port in enumerate(run_ports)})
    joints = tuple(
        tuple(group) for node, group in meeting.items() if len(group) > 1 and kind(node) == "joint"
    )
    mirrors: tuple[Mirror, ...] = ()
    if math.isfinite(ground_level):
        mirrors = (Mirror(axis=2, offset=ground_level, material=True),)
    return WireSystem(
        runs=tuple(runs),
        mirrors=mirrors,
        joints=joints,
        ports=tuple(ports[number] for number in range(port_count)),
    )


def _placed(
    places: Floats,
    segments: list[_Segment],
    chain: list[tuple[int, bool]],
    ends: tuple[int, int],
    kinds: tuple[EndKind, EndKind],
) -> tuple[PlacedRun, list[int]]:
    """A chain as a run at its place, and the numbers of the ports on it."""
    sections, gaps, names = _chain_shape(places, segments, chain)
    inductance = _chain_inductance(places, segments, chain)
    length = sum(each for each, _ in sections)
    for _, centre, width in gaps:
        on_ground = kinds[0] == "mirror" and centre < width / 2.0
        if not on_ground and not width / 2.0 <= centre <= length - width / 2.0:
            raise SolverError(
                f"wire {names}: the gap at {centre:.4g} m reaches over an end or a corner; "
                f"keep its middle at least {width / 2.0:.4g} m from both"
            )
    across = places[ends[1]] - places[ends[0]]
    run = PlacedRun(
        shape=RunShape(
            sections=sections,
            gaps=tuple((centre, width) for _, centre, width in gaps),
            start=kinds[0],
            end=kinds[1],
        ),
        origin=_vector(places[ends[0]]),
        direction=_vector(across / np.linalg.norm(across)),
        conductivity=segments[chain[0][0]].conductivity,
        inductance=inductance,
    )
    return run, [port for port, _, _ in gaps]


def _vector(values: Floats) -> tuple[float, float, float]:
    return (float(values[0]), float(values[1]), float(values[2]))


def _chain_ends(segments: list[_Segment], chain: list[tuple[int, bool]]) -> tuple[int, int]:
    first, first_back = chain[0]
    last, last_back = chain[-1]
    return (
        segments[first].last if first_back else segments[first].first,
        segments[last].first if last_back else segments[last].last,
    )


def _chain_shape(
    places: Floats, segments: list[_Segment], chain: list[tuple[int, bool]]
) -> tuple[tuple[tuple[float, float], ...], list[tuple[int, float, float]], str]:
    """Sections (equal radii joined), gaps by place along the chain, and the wires' names."""
    sections: list[tuple[float, float]] = []
    gaps = []
    start = 0.0
    for number, back in chain:
        segment = segments[number]
        length = float(np.linalg.norm(places[segment.last] - places[segment.first]))
        if sections and abs(sections[-1][1] - segment.radius) < 1e-12:
            sections[-1] = (sections[-1][0] + length, segment.radius)
        else:
            sections.append((length, segment.radius))
        for port, place, width in segment.gaps:
            gaps.append((port, start + (length - place if back else place), width))
        start += length
    names = ", ".join(dict.fromkeys(repr(segments[number].name) for number, _ in chain))
    return tuple(sections), sorted(gaps, key=lambda gap: gap[1]), names


def _chain_inductance(
    places: Floats, segments: list[_Segment], chain: list[tuple[int, bool]]
) -> tuple[Stretch, ...]:
    """Series inductance by place along the chain."""
    found: list[Stretch] = []
    start = 0.0
    for number, back in chain:
        segment = segments[number]
        length = float(np.linalg.norm(places[segment.last] - places[segment.first]))
        own = segment.inductance
        if back:
            own = stretches_from_the_end(own, length=length)
        found.extend((start + low, start + high, each) for low, high, each in own)
        start += length
    return tuple(found)
