"""Two or more beams on one tower, their mutual coupling solved and not assumed.

All wires of all beams are one system with one port a beam. Driven together or alone, in phase
or not, every figure comes from the same solution: only the weights of the ports change.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Conductor
from boomwright.reach.at_height import level_dbi
from boomwright.reach.ground_zones import ZonedGround, zoned_far_field
from boomwright.reach.stack_wires import stack_system
from boomwright.solver import (
    MATCHED_OHM,
    Currents,
    Detail,
    Ground,
    GroundMethod,
    Moments,
    Preparer,
    assemble,
    conductor_loss,
    far_field,
    ground_seen,
    moments,
    prepare_run,
    radiated_power,
    remembering,
    scattering_parameters,
    solve_currents,
    working_detail,
)

Idle = Literal["open", "shorted", "matched"]

#: load of an idle feed that is left open [ohm]
_OPEN = 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """Which beams are fed, and how."""

    name: str  #: what it is called, e.g. ``in phase``
    #: feed current of each beam, relative; 0 for one that is not fed [-] (n_beams,)
    weights: tuple[complex, ...]
    #: what hangs on the feed of a beam that is not fed: ``open``, ``shorted`` or ``matched``
    idle: Idle = "open"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stack:
    """Beams on one tower, solved together at one frequency."""

    beams: tuple[Beam, ...]  #: the beams, each at its own height and heading (n_beams,)
    ground: Ground  #: ground below them
    currents: Currents  #: currents for one volt at each feed in turn
    #: current moments for one volt at each feed in turn, heights above ground (n_beams,)
    per_volt: tuple[Moments, ...]
    #: voltage at every feed, those of beams beside the stack last, for one volt at each feed of the
    #: stack in turn [-] (n_ports, n_beams)
    response: Complexes

    @property
    def admittance(self) -> Complexes:
        """Short-circuit admittance matrix of the feeds [S] (n_beams, n_beams)."""
        matrix: Complexes = self.currents.admittance[0] @ self.response
        return matrix[: len(self.beams)]

    @property
    def impedance(self) -> Complexes:
        """Impedance matrix of the feeds, the mutual impedances off its diagonal [ohm] (n, n)."""
        matrix: Complexes = np.linalg.inv(self.admittance).astype(complex)
        return matrix

    def source(self, *, voltages: Complexes) -> Moments:
        """Current moments for given feed voltages.

        Args:
            voltages: voltage at each feed, peak [V] (n_beams,)
        """
        vectors = np.stack([each.vectors for each in self.per_volt])
        return replace(self.per_volt[0], vectors=np.tensordot(voltages, vectors, axes=1))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StackReading:
    """What one way of feeding gives."""

    feeding: Feeding  #: the way of feeding
    voltages: Complexes  #: voltage at each feed, peak [V] (n_beams,)
    feed_currents: Complexes  #: current into each feed, peak [A] (n_beams,)
    accepted: float  #: power accepted by all fed beams [W]
    lost: float  #: power lost in the metal [W]
    source: Moments  #: current moments
    ground: Ground  #: ground below

    @property
    def feed_impedances(self) -> tuple[complex | None, ...]:
        """Impedance seen at each fed feed, None at an idle one [ohm] (n_beams,)."""
        return tuple(
            complex(v / i) if w else None
            for v, i, w in zip(self.voltages, self.feed_currents, self.feeding.weights, strict=True)
        )

    @property
    def power_balance(self) -> float:
        """(accepted - radiated - lost) / accepted; NaN over real ground, which takes power [-]."""
        if self.ground.kind == "real":
            return math.nan
        radiated = float(radiated_power(source=self.source, ground=self.ground)[0])
        return 1.0 - (radiated + self.lost) / self.accepted


def solve_stack(
    *,
    beams: Sequence[Beam],
    ground: Ground,
    frequency: float,
    beside: Sequence[Beam] = (),
    conductors: Sequence[Conductor] = (),
    detail: Detail | None = None,
    method: GroundMethod = "exact",
    prepare: Preparer = prepare_run,
) -> Stack:
    """Solve several beams on one tower together.

    Args:
        beside: further beams on the tower, which are never fed; open where they do not say
        detail: how finely to cut the wires; None for the working detail
    """
    every = (*beams, *beside)
    system, base = stack_system(beams=every, ground=ground, conductors=conductors)
    at = np.array([frequency])
    highest = max([frequency, *(edge for beam in every for edge in beam.band)])
    assembly = assemble(
        system=system,
        detail=detail or working_detail(frequency=highest),
        highest_frequency=highest,
        prepare=remembering(prepare),
    )
    below = None
    if ground.kind == "real":
        below = ground_seen(assembly=assembly, frequencies=at, ground=ground, method=method)
    currents = solve_currents(assembly=assembly, frequencies=at, below=below)
    response = _response(currents.admittance[0], len(beams), beside)
    per_volt = tuple(
        moments(
            assembly=assembly, unknowns=currents.unknowns @ response[:, feed], frequencies=at
        ).lifted(height=base)
        for feed in range(len(beams))
    )
    return Stack(
        beams=tuple(beams), ground=ground, currents=currents, per_volt=per_volt, response=response
    )


def _response(admittance: Complexes, count: int, beside: Sequence[Beam]) -> Complexes:
    """Voltages at all feeds for one volt at each of the first ones (n_ports, count)."""
    response = np.eye(len(admittance), count, dtype=complex)
    idle = [
        count + number
        for number, beam in enumerate(beside)
        # The gap of a shorted feed, and of an element that is not cut, is closed by metal.
        if beam.idle_feed == "matched" or (beam.idle_feed != "shorted" and beam.feed.cuts_element)
    ]
    loads = [
        1.0 / MATCHED_OHM if beside[port - count].idle_feed == "matched" else 1.0 / _OPEN
        for port in idle
    ]
    block = admittance[np.ix_(idle, idle)] + np.diag(loads)
    response[idle] = -np.linalg.solve(block, admittance[idle, :count])
    return response


def usual_feedings(*, count: int, names: Sequence[str] = ()) -> tuple[Feeding, ...]:
    """List the ways of feeding that are looked at: each alone, in phase, out of phase.

    Args:
        names: their names; numbered when empty (count,)
    """
    called = list(names) or [f"beam {number + 1}" for number in range(count)]
    alone = [
        Feeding(
            name=f"{called[fed]} alone",
            weights=tuple(complex(number == fed) for number in range(count)),
        )
        for fed in range(count)
    ]
    together = (1.0 + 0.0j,) * count
    reversed_ = tuple(complex((-1) ** number) for number in range(count))
    return (
        *alone,
        Feeding(name="in phase", weights=together),
        Feeding(name="out of phase", weights=reversed_),
    )


def feed_stack(stack: Stack, *, feeding: Feeding) -> StackReading:
    """Feed a stack in one way.

    Raises:
        BoomwrightError: when no beam is fed, or weights and beams differ in number
    """
    weights = np.asarray(feeding.weights, dtype=complex)
    if len(weights) != len(stack.beams) or not weights.any():
        raise BoomwrightError(
            f"feeding {feeding.name!r}: {len(weights)} weights for {len(stack.beams)} beams, "
            "at least one of them above 0, are needed; give one weight a beam"
        )
    idle = {"open": _OPEN, "shorted": 0.0, "matched": 50.0}[feeding.idle]
    load = np.where(weights == 0.0, idle, 0.0)
    driven = weights != 0.0
    impedance = stack.impedance
    # Idle feeds: 0 = V + Z_load I, so their currents follow from the driven ones.
    current = weights.copy()
    if not driven.all():
        block = impedance[np.ix_(~driven, ~driven)] + np.diag(load[~driven])
        current[~driven] = -np.linalg.solve(
            block, impedance[np.ix_(~driven, driven)] @ weights[driven]
        )
    voltage = impedance @ current
    accepted = 0.5 * float((voltage[driven] * current[driven].conj()).real.sum())
    every = stack.response @ voltage
    lost = conductor_loss(currents=stack.currents, weights=every[None, :])
    heated = 0.5 * float((load[~driven] * np.abs(current[~driven]) ** 2).sum())
    beside = (every * (stack.currents.admittance[0] @ every).conj())[len(stack.beams) :]
    heated -= 0.5 * float(beside.real.sum())
    return StackReading(
        feeding=feeding,
        voltages=voltage,
        feed_currents=current,
        accepted=accepted,
        lost=float(lost[0]) + heated,
        source=stack.source(voltages=voltage),
        ground=stack.ground,
    )


def stack_gain_dbi(
    reading: StackReading,
    *,
    azimuth: Floats,
    elevation: Floats,
    far_ground: ZonedGround | None = None,
) -> Floats:
    """Gain of a stack, counted on the power all its feeds accept.

    Args:
        azimuth: counter-clockwise from the heading of the first beam [rad] (d,)
        elevation: above the horizon [rad] (d,)

    Returns:
        gain, losses included, floored at -60 [dBi] (d,)
    """
    source = reading.source
    if far_ground is None:
        vertical, horizontal = far_field(
            source=source, azimuth=azimuth, elevation=elevation, ground=reading.ground
        )
    else:
        weight = np.abs(source.vectors[0]).sum(axis=1)
        vertical, horizontal = zoned_far_field(
            source,
            azimuth=azimuth,
            elevation=elevation,
            ground=far_ground,
            height=float(weight @ source.points[:, 2] / weight.sum()),
        )
    return level_dbi(vertical[0], horizontal[0], accepted=reading.accepted)


def isolation_db(stack: Stack, *, reference: float = 50.0) -> Floats:
    """Isolation between the feeds, each ending in its line's resistance.

    Args:
        reference: resistance at each feed [ohm]

    Returns:
        -20 log |S| between each pair of feeds, infinite on the diagonal [dB] (n_beams, n_beams)
    """
    scattering = scattering_parameters(
        admittance=stack.admittance[None], reference=np.full(len(stack.beams), reference)
    )[0]
    isolation: Floats = -20.0 * np.log10(np.maximum(np.abs(scattering), 1e-12))
    np.fill_diagonal(isolation, np.inf)
    return isolation
