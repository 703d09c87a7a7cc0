"""What stands beside a beam: other beams on its mast, the mast itself, guys.

They carry currents that nobody drives, and those radiate. All of them are put into the system of
wires of the beam that is fed, so whoever solves the beam solves them with it. A boom is held by
the mast at its middle; beams that share a boom count their places alike.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, SolverError, read_only
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Conductor, Element
from boomwright.solver.element_wires import ElementWires, both_halves
from boomwright.solver.runs.mesh import RunShape
from boomwright.solver.wire_system import (
    Feeder,
    Load,
    PlacedRun,
    Port,
    WireSystem,
    starts_on_mirror,
)

#: headings alike to this angle share a mirror plane [rad]
_SAME_HEADING = 1e-9
#: resistance at the end of a feed line that is closed with its own impedance [ohm]
MATCHED_OHM = 50.0
#: a neighbour whose currents cannot add more than this share to the field ahead is left out: it
#: moves the gain by less than 0.01 dB, and a front-to-back ratio of 25 dB by less than 0.2 dB
LEAST_SHARE = 1e-3
#: the same for mast and pieces of guy, which mostly stand across the field: 0.09 dB at most
LEAST_SHARE_WIRE = 1e-2
#: field of a half-wave element times distance, as the current it drives in a resonant one, share
#: of its own current times distance over wavelength: 60 / pi / 73 {balanis-2005, eq. 4-84}
_SEEN_AT_WAVELENGTH = 60.0 / math.pi / 73.13
#: re-radiation of a straight wire relative to a resonant one in field strength [dB], by length in
#: wavelengths; tests/unit/solver/test_idle_wires.py holds it against the solver
_LENGTHS = (0.05, 0.1, 0.125, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.43, 0.45, 0.48)
_LEVELS = (-70.9, -54.4, -48.9, -44.3, -36.6, -30.1, -24.1, -18.0, -11.1, -6.2, -2.6, 0.0)
#: that table is for wires this thin; a thicker one of the same length takes more current
_THIN = 5e-4
#: points along a straight wire, and along wires with corners, by which distances are told
_POINTS, _BENT_POINTS = 17, 65


@dataclass(frozen=True, slots=True, kw_only=True)
class NeighbourReach:
    """How much a neighbour can do at most, estimated from distance and lengths."""

    name: str
    #: most that its currents add to the field ahead, as a share of it; 1 means as much [-]
    share: float
    closest: float  #: distance of its nearest wire to one of the beam [m]
    touches: bool  #: whether two wires would run into each other
    least: float  #: share below which it is left out [-]

    @property
    def in_reach(self) -> bool:
        """Whether its currents may matter to the beam."""
        return self.share >= self.least

    @property
    def counts(self) -> bool:
        """Whether it is solved together with the beam."""
        return self.in_reach and not self.touches

    @property
    def gain_db(self) -> float:
        """Most that it can change the gain by [dB]."""
        return 20.0 * math.log10(1.0 + self.share)


def neighbour_reach(*, beam: Beam) -> tuple[NeighbourReach, ...]:
    """Estimate what each neighbour of a beam can do to it at most.

    Every element drives a current in every wire of the neighbour as a half-wave element would at
    that distance, broadside and in phase; the wire answers by its length. Both overstate.

    Returns:
        one a neighbour, then one for each conductor that is no beam (n,)
    """
    wavelength = SPEED_OF_LIGHT / max(beam.band[1], beam.design_frequency)
    own = _element_clouds(beam, beam)
    found = []
    for other in beam.neighbours:
        lines = _element_clouds(other, beam)
        radii = np.array([each.half[0].diameter / 2.0 for each in other.elements])
        apart = _distances(own, lines)
        least = (
            radii[None, :] + np.array([e.half[0].diameter / 2.0 for e in beam.elements])[:, None]
        )
        found.append(
            NeighbourReach(
                name=other.name,
                share=float(
                    _shares(
                        apart,
                        np.array([_acting_length(e, wavelength) for e in other.elements]),
                        radii,
                        wavelength,
                    ).sum()
                ),
                closest=float(apart.min()),
                touches=bool((apart < least).any()),
                least=LEAST_SHARE,
            )
        )
    return (*found, *_conductor_reach(beam, own, wavelength))


def _conductor_reach(beam: Beam, own: Floats, wavelength: float) -> list[NeighbourReach]:
    """What each conductor can do to a beam at most.

    Args:
        own: points along the elements of the beam [m] (n_elements, points, 3)
    """
    if not beam.conductors:
        return []
    ends = _in_axes(np.array([(wire.start, wire.end) for wire in beam.conductors]), beam)
    share = np.linspace(0.0, 1.0, _POINTS)[:, None]
    lines = ends[:, :1] + share * (ends[:, 1:] - ends[:, :1])
    # They mostly stand across the field: the nearest element stands for all.
    apart = _distances(own, lines).min(axis=0, keepdims=True)
    lengths = np.array([math.dist(wire.start, wire.end) for wire in beam.conductors])
    radii = np.array([wire.diameter / 2.0 for wire in beam.conductors])
    shares = _shares(apart, lengths, radii, wavelength)[0]
    told = zip(beam.conductors, shares.tolist(), apart[0].tolist(), strict=True)
    return [
        NeighbourReach(
            name=wire.name,
            share=share,
            closest=closest,
            touches=closest < wire.diameter,
            least=LEAST_SHARE_WIRE,
        )
        for wire, share, closest in told
    ]


def surrounded(*, system: WireSystem, beam: Beam, parts: dict[str, WireSystem]) -> WireSystem:
    """Put what stands beside a beam into its system of wires.

    Neighbours with the same heading keep the mirror plane through the boom; all others, and
    conductors off the plane, take it away.

    Args:
        system: wires of the beam, its boom at height zero
        parts: wires of each neighbour in its own axes, by name
    """
    found = neighbour_reach(beam=beam)
    _refuse_shared(beam, found)
    reached = {each.name for each in found if each.counts}
    others = [
        other for other in beam.neighbours if other.name in reached or other.idle_feed == "common"
    ]
    wires = [wire for wire in beam.conductors if wire.name in reached]
    if not others and not wires:
        return _on_post(system, beam)
    aligned = not wires and all(_aligned(other, beam) for other in others)
    mirrored = any(not mirror.material for mirror in system.mirrors)
    if mirrored and not aligned:
        if not _unfolds(system):
            others, wires = [other for other in others if _aligned(other, beam)], []
        else:
            system, mirrored = unfolded(system=system), False
    for other in others:
        system = _joined(system, parts[other.name], other, beam, mirrored=mirrored)
    system = replace(
        system, runs=(*system.runs, *(conductor_run(wire, beam=beam) for wire in wires))
    )
    return _on_post(system, beam)


def _on_post(system: WireSystem, beam: Beam) -> WireSystem:
    """Lead one line along a post from the port, feed by feed, where the plan has one."""
    sharing = [other for other in beam.neighbours if other.idle_feed == "common"]
    if all(each.post_line is None for each in (beam, *sharing)):
        return system
    feeders = [*system.feeders, *([_feeder(system.ports[0], beam)] if beam.post_line else [])]
    feeders.sort(key=lambda each: each.delay)
    chained, before = list[Feeder](), None
    for each in feeders:
        if before is not None and before.delay > 0.0:
            chained.append(replace(each, past=before.gap, delay=each.delay - before.delay))
        else:
            chained.append(each)
        before = each
    return replace(system, feeders=tuple(chained))


def _feeder(gap: Port, beam: Beam) -> Feeder:
    """What hangs a gap of a beam on the port: its line along the post, or nothing."""
    line = beam.post_line
    if line is None:
        return Feeder(gap=gap)
    return Feeder(gap=gap, impedance=line.ohms, delay=line.delay)


def _refuse_shared(beam: Beam, found: Sequence[NeighbourReach]) -> None:
    """A beam on the same terminals cannot be left out.

    Raises:
        SolverError: naming what is in the way and the remedy
    """
    for each in found:
        shared = any(o.name == each.name and o.idle_feed == "common" for o in beam.neighbours)
        if shared and each.touches:
            raise SolverError(
                f"{each.name} shares the feed point of {beam.name} and runs into its wires, which "
                "is not computed: lead the wires apart, or take fed_with out"
            )


def _aligned(other: Beam, beam: Beam) -> bool:
    turn = math.remainder(other.heading - beam.heading, math.tau)
    return abs(turn) < _SAME_HEADING and not other.wires


def _joined(
    system: WireSystem, part: WireSystem, other: Beam, beam: Beam, *, mirrored: bool
) -> WireSystem:
    if part.mirrors and not mirrored:
        part = unfolded(system=part)
    offset = len(system.runs)
    turn, along, rise = _placing(other, beam)
    runs = tuple(placed_run(run=run, turn=turn, along=along, rise=rise) for run in part.runs)
    joints = tuple(tuple((run + offset, end) for run, end in joint) for joint in part.joints)
    ports = [replace(port, run=port.run + offset) for port in part.fed_gaps]
    # The gap of a shorted feed, and of an element that is not cut, is closed by metal.
    closed = other.idle_feed == "shorted" or (
        other.idle_feed == "open" and not other.feed.cuts_element
    )
    conductance = 1.0 / MATCHED_OHM if other.idle_feed == "matched" else 0.0
    common = other.idle_feed == "common"
    loads = [Load(port=port, conductance=conductance) for port in ports]
    inside = placed_loads(part.loads, behind=offset)
    return replace(
        system,
        runs=(*system.runs, *runs),
        joints=(*system.joints, *joints),
        feeders=(*system.feeders, *(_feeder(port, other) for port in ports if common)),
        loads=(*system.loads, *inside, *(() if closed or common else loads)),
    )


def _placing(other: Beam, beam: Beam) -> tuple[float, tuple[float, float], float]:
    """Turn, middle and new middle of a neighbour, and how much higher it is, in a beam's axes."""
    # Headings run clockwise, the solver's angles counter-clockwise.
    turn = -(other.heading - beam.heading)
    middles = (0.0, 0.0) if other.shares_boom(beam) else (other.boom_middle, beam.boom_middle)
    return turn, middles, other.height - beam.height


def placed_run(
    *, run: PlacedRun, turn: float, along: tuple[float, float], rise: float
) -> PlacedRun:
    """Turn a run about a point of its boom and put that point elsewhere.

    Args:
        turn: angle, counter-clockwise seen from above [rad]
        along: that point along the boom, in the old axes and in the new [m] (2,)
        rise: how much higher it goes [m]
    """
    cosine, sine = (1.0, 0.0) if abs(turn) < _SAME_HEADING else (math.cos(turn), math.sin(turn))
    x, y, z = run.origin[0] - along[0], run.origin[1], run.origin[2] + rise
    way = run.direction
    return replace(
        run,
        origin=(x * cosine - y * sine + along[1], x * sine + y * cosine, z),
        direction=(way[0] * cosine - way[1] * sine, way[0] * sine + way[1] * cosine, way[2]),
    )


def placed_loads(loads: Sequence[Load], *, behind: int) -> tuple[Load, ...]:
    """Loads of a system whose runs come behind so many others."""
    return tuple(
        replace(load, port=replace(load.port, run=load.port.run + behind)) for load in loads
    )


def _unfolds(system: WireSystem) -> bool:
    """Whether every feed lies on the mirror plane, so that one gap stands for one gap."""
    plane = next(mirror for mirror in system.mirrors if not mirror.material)
    runs = system.runs
    return all(
        starts_on_mirror(runs[port.run], plane) and runs[port.run].shape.gaps[port.gap][0] == 0.0
        for port in system.fed_gaps
    )


def unfolded(*, system: WireSystem) -> WireSystem:
    """A mirrored system in full: what crosses the plane becomes one run, the rest gets a twin."""
    plane = next(mirror for mirror in system.mirrors if not mirror.material)
    crossing = [starts_on_mirror(run, plane) for run in system.runs]
    runs = [
        _whole(run) if across else run for run, across in zip(system.runs, crossing, strict=True)
    ]
    twins: dict[int, int] = {}
    for number, run in enumerate(system.runs):
        if crossing[number]:
            continue
        twins[number] = len(runs)
        x, y, z = run.origin
        way = run.direction
        runs.append(replace(run, origin=(x, -y, z), direction=(way[0], -way[1], way[2])))
    joints = list(system.joints)
    for joint in system.joints:
        other = tuple((twins[run], end) if run in twins else (run, not end) for run, end in joint)
        joints.append(other)
    loads = list(system.loads)
    for load in system.loads:
        at, gap = load.port.run, load.port.gap
        gaps = system.runs[at].shape.gaps
        behind = sum(centre > 0.0 for centre, _ in gaps[:gap])
        if at in twins:
            loads.append(replace(load, port=Port(run=twins[at], gap=gap)))
        elif gaps[gap][0] > 0.0:
            loads.append(replace(load, port=Port(run=at, gap=len(gaps) + behind)))
    return replace(
        system,
        runs=tuple(runs),
        joints=tuple(joints),
        loads=tuple(loads),
        mirrors=tuple(mirror for mirror in system.mirrors if mirror.material),
    )


def _whole(run: PlacedRun) -> PlacedRun:
    """A mirrored half as the whole wire, from its far end through the plane."""
    half = ElementWires(sections=run.shape.sections, inductance=run.inductance)
    whole = both_halves(left=half, right=half)
    return replace(
        run,
        shape=RunShape(
            sections=whole.sections,
            gaps=(
                *((half.length + centre, width) for centre, width in run.shape.gaps),
                *((half.length - centre, width) for centre, width in run.shape.gaps if centre > 0),
            ),
            start=run.shape.end,
            end=run.shape.end,
        ),
        origin=(run.origin[0], -half.length, run.origin[2]),
        inductance=whole.inductance,
    )


def _in_axes(places: Floats, beam: Beam) -> Floats:
    """Places about the mast in the axes of a beam [m] (..., 3)."""
    cosine, sine = math.cos(beam.heading), math.sin(beam.heading)
    x, y, z = np.moveaxis(places, -1, 0)
    along, across = x * cosine - y * sine + beam.boom_middle, x * sine + y * cosine
    return np.stack([along, across, z - beam.height], axis=-1)


def conductor_run(wire: Conductor, *, beam: Beam) -> PlacedRun:
    """A straight conductor, open at both ends, in the axes of a beam."""
    low, high = _in_axes(np.array([wire.start, wire.end]), beam)
    length = math.dist(low, high)
    x, y, z = (high - low) / length
    return PlacedRun(
        shape=RunShape(sections=((length, wire.diameter / 2.0),)),
        origin=(float(low[0]), float(low[1]), float(low[2])),
        direction=(float(x), float(y), float(z)),
    )


def _acting_length(element: Element, wavelength: float) -> float:
    """Length by which a wire answers; with traps it may answer as a resonant one [m]."""
    return max(element.length, _LENGTHS[-1] * wavelength) if element.traps else element.length


def _element_clouds(other: Beam, beam: Beam) -> Floats:
    """Points along each element of a beam in the axes of another (n, points, 3)."""
    turn, along, rise = (0.0, (0.0, 0.0), 0.0) if other is beam else _placing(other, beam)
    cosine, sine = (1.0, 0.0) if abs(turn) < _SAME_HEADING else (math.cos(turn), math.sin(turn))
    count = _BENT_POINTS if beam.bent or other.bent else _POINTS
    clouds = np.array([_spread(element.outline, count) for element in other.elements])
    x, y = clouds[..., 0] - along[0], clouds[..., 1]
    return np.stack(
        [x * cosine - y * sine + along[1], x * sine + y * cosine, clouds[..., 2] + rise], axis=-1
    )


@lru_cache(maxsize=256)
def _spread(corners: tuple[tuple[float, ...], ...], count: int) -> Floats:
    """Points evenly along a way (count, 3)."""
    ends = np.array(corners)
    walked = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ends, axis=0), axis=1))])
    at = np.linspace(0.0, walked[-1], count)
    return read_only(np.stack([np.interp(at, walked, ends[:, axis]) for axis in range(3)], axis=-1))


def _distances(first: Floats, second: Floats) -> Floats:
    """Smallest distance of wires, by points on both [m] (n, m)."""
    squared = sum(np.subtract.outer(first[..., x], second[..., x]) ** 2 for x in range(3))
    return np.asarray(np.sqrt(np.asarray(squared).min(axis=(1, 3))))


def _shares(apart: Floats, lengths: Floats, radii: Floats, wavelength: float) -> Floats:
    """Currents in the second wires over those in the first (n, m)."""
    seen = np.minimum(1.0, _SEEN_AT_WAVELENGTH * wavelength / np.maximum(apart, 1e-9))
    size = lengths / wavelength
    level = np.interp(np.log(size), np.log(_LENGTHS), _LEVELS)
    # A short wire is a dipole: its answer goes with the cube of its length.
    level = level + 60.0 * np.log10(np.minimum(1.0, size / _LENGTHS[0]))
    thickness = (np.log(size / _THIN) - 1.0) / np.maximum(np.log(lengths / radii) - 1.0, 0.5)
    fat = np.where(size < _LENGTHS[-1], np.maximum(1.0, thickness), 1.0)
    answer = np.minimum(1.0, 10.0 ** (level / 20.0) * fat)
    return np.asarray(seen * answer[None, :])
