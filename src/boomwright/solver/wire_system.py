"""Wires in space: runs with their places, mirrors, joints, ports and metal."""

from __future__ import annotations

from collections import defaultdict

import numpy as np

from boomwright.base import SolverError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver.lumped import Lumped
from boomwright.solver.runs.mesh import RunShape
from boomwright.solver.series_inductance import Stretch

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedRun:
    """A run at its place."""

    shape: RunShape
    origin: Vector  #: place of its start [m] (3,)
    direction: Vector  #: unit vector from start to end (3,)
    conductivity: float = float("inf")  #: of its metal, infinite for the ideal conductor [S/m]
    inductance: tuple[Stretch, ...] = ()  #: in series with stretches of it [m] and [H/m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mirror:
    """A perfectly conducting plane through ``offset`` on one axis.

    The symmetry plane of a beam fed in the middle is one (the current crosses it at right
    angles, as it would on a conductor), perfect ground is the other.
    """

    axis: int  #: 0, 1 or 2 for a plane of constant x, y or z
    offset: float = 0.0  #: the constant [m]
    #: True for ground that is really there, False for a symmetry of the antenna
    material: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """A gap across which a generator or a load sits."""

    run: int  #: number of the run
    gap: int = 0  #: number of the gap in the run's shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What sits across a gap that nobody drives: a resistor, or a trap."""

    port: Port
    conductance: float = 0.0  #: of the resistor, 0 for an open gap [S]
    lumped: Lumped | None = None  #: in its place

    def admittance(self, *, frequencies: Floats) -> Complexes:
        """Admittance of what sits there [S] (f,).

        Args:
            frequencies: [Hz] (f,)
        """
        if self.lumped is None:
            return np.full(len(frequencies), complex(self.conductance))
        ohms: Complexes = self.lumped.impedance(frequencies=frequencies)
        return 1.0 / ohms


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeder:
    """A line without loss from a port to a gap; several gaps may hang on one port so."""

    gap: Port  #: gap at its far end; that of the port itself for a line of its own
    into: int = 0  #: number of the port it hangs on
    #: gap on that port where this line begins; None where it begins at the port
    past: Port | None = None
    impedance: float = 50.0  #: characteristic impedance [ohm]
    delay: float = 0.0  #: time that a wave takes along it; 0 for the same two terminals [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class WireSystem:
    """Everything the field solver needs to know of an antenna."""

    runs: tuple[PlacedRun, ...]  #: the runs (n_runs,)
    #: perfectly conducting planes; runs lie on the positive side (n_mirrors,)
    mirrors: tuple[Mirror, ...] = ()
    #: groups of run ends that meet, each a pair of run number and whether it is the end (True) or
    #: the start (False) (n_joints,)
    joints: tuple[tuple[tuple[int, bool], ...], ...] = ()
    ports: tuple[Port, ...] = ()  #: where generators and loads sit (n_ports,)
    feeders: tuple[Feeder, ...] = ()  #: further gaps on the ports, and lines to them (n_feeders,)
    #: gaps closed by resistors or traps; one with neither port nor load is closed by metal
    #: (n_loads,)
    loads: tuple[Load, ...] = ()
    #: height of z = 0 above real ground; infinite without one. Perfect ground is a mirror [m]
    ground_height: float = float("inf")

    @property
    def fed_gaps(self) -> tuple[Port, ...]:
        """Gaps that are driven: those of the ports, then further ones on feeders (n_gaps,)."""
        further = (each.gap for each in self.feeders if each.gap != self.ports[each.into])
        return (*self.ports, *further)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Image:
    """One reflection of the whole system."""

    sign: float  #: +1 for the system itself, -1 for each plane that it was reflected in [-]
    flip: Floats  #: factor of each axis, +1 or -1 (3,)
    shift: Floats  #: added after the flip [m] (3,)


def images(mirrors: tuple[Mirror, ...]) -> tuple[Image, ...]:
    """All reflections in all planes, the system itself first.

    Args:
        mirrors: the planes, on different axes (n_mirrors,)

    Raises:
        SolverError: when two planes share an axis
    """
    if len({mirror.axis for mirror in mirrors}) < len(mirrors):
        msg = "two mirror planes on one axis would reflect for ever: give one plane per axis"
        raise SolverError(msg)
    found = [Image(sign=1.0, flip=np.ones(3), shift=np.zeros(3))]
    for mirror in mirrors:
        reflected = []
        for image in found:
            flip, shift = image.flip.copy(), image.shift.copy()
            flip[mirror.axis] *= -1.0
            shift[mirror.axis] = 2.0 * mirror.offset - shift[mirror.axis]
            reflected.append(Image(sign=-image.sign, flip=flip, shift=shift))
        found.extend(reflected)
    return tuple(found)


def joined_groups(system: WireSystem) -> list[tuple[int, ...]]:
    """Runs that are joined to each other, each group rising, groups by their first run."""
    leader = list(range(len(system.runs)))

    def lead(run: int) -> int:
        while leader[run] != run:
            leader[run] = leader[leader[run]]
            run = leader[run]
        return run

    for joint in system.joints:
        for run, _ in joint[1:]:
            one, other = sorted((lead(joint[0][0]), lead(run)))
            leader[other] = one
    groups: dict[int, list[int]] = defaultdict(list)
    for run in range(len(system.runs)):
        groups[lead(run)].append(run)
    return [tuple(group) for group in groups.values()]


def starts_on_mirror(run: PlacedRun, mirror: Mirror) -> bool:
    """Whether a run leaves a plane at right angles, so that it goes on in its own image."""
    straight = abs(abs(run.direction[mirror.axis]) - 1.0) < 1e-12
    return straight and abs(run.origin[mirror.axis] - mirror.offset) < 1e-9
