"""Currents of a beam over a band, for one ampere at its feed."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.parts.bends import Corner
from boomwright.solver.assembly import PreparedSystem, assemble
from boomwright.solver.beam_model import beam_wires, idle_cases, working_detail
from boomwright.solver.currents import Currents, conductor_loss, current_on_run, solve_currents
from boomwright.solver.effort import Effort, effort
from boomwright.solver.far_field import Moments, far_field, moments, radiated_power
from boomwright.solver.ground import FREE_SPACE, PERFECT_GROUND, Ground
from boomwright.solver.ground_coupling import GroundMethod, ground_seen
from boomwright.solver.ground_screen import foot_resistance
from boomwright.solver.impedance import system_matrices
from boomwright.solver.readings import ElementCurrent
from boomwright.solver.runs.mesh import Detail
from boomwright.solver.runs.prepared_run import Preparer, prepare_run

#: gain below which a pattern is not told apart from a null
FLOOR_DBI = -60.0
#: points nearer than this lie on a wire's axis [m]
_ON_WIRE = 1e-6
#: cosine of a piece that only crosses here [-]
_ASKEW = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamSolution:
    """A beam solved at some frequencies."""

    beam: Beam
    currents: Currents  #: solved currents
    impedance: Complexes  #: feed-point impedance [ohm] (f,)
    source: Moments  #: current moments for one ampere (peak) at the feed, heights from the boom
    accepted: Floats  #: power accepted at the feed for that ampere [W] (f,)
    lost: Floats  #: power lost in the metal [W] (f,)

    @property
    def frequencies(self) -> Floats:
        """Frequencies [Hz] (f,)."""
        return self.currents.frequencies

    @property
    def drives(self) -> Complexes:
        """Voltage and current at each driven gap for one ampere at the feed [V], [A] (f, 2, n)."""
        return np.asarray(self.currents.fed[:, :, :, 0] * self.impedance[:, None, None])

    @property
    def efficiency(self) -> Floats:
        """Radiated over accepted power (f,)."""
        return 1.0 - self.lost / self.accepted

    @property
    def radiated(self) -> Floats:
        """Power radiated, by integration over all directions [W] (f,).

        What stands on the ground radiates above a perfect plane.
        """
        if not self.beam.stands_on_ground:
            return radiated_power(source=self.source)
        foot = self.beam.elements[self.beam.driven_index].corners[0][2]
        return radiated_power(source=self.source.lifted(height=-foot), ground=PERFECT_GROUND)

    @property
    def symmetric(self) -> bool:
        """Whether the pattern is the same on both sides of the heading."""
        return any(not mirror.material for mirror in self.currents.assembly.system.mirrors)

    def at_frequency(self, *, number: int) -> BeamSolution:
        """Take one frequency out."""
        return self.rows(slice(number, number + 1))

    def rows(self, rows: slice) -> BeamSolution:
        """The same at some of the frequencies."""
        source = self.source
        return BeamSolution(
            beam=self.beam,
            currents=self.currents.rows(rows),
            impedance=self.impedance[rows],
            source=replace(
                source, vectors=source.vectors[rows], frequencies=source.frequencies[rows]
            ),
            accepted=self.accepted[rows],
            lost=self.lost[rows],
        )


def beam_effort(*, beam: Beam, ground: Ground = FREE_SPACE) -> Effort:
    """What one solution of a beam will take."""
    highest = max(beam.band[1], beam.design_frequency)
    return effort(
        # Whatever hangs on a neighbour's feed, its wires are the same.
        system=beam_wires(beam=idle_cases(beam=beam)[0], ground=ground),
        detail=working_detail(frequency=highest),
        wavelength=SPEED_OF_LIGHT / highest,
    )


def solve_beam(
    *,
    beam: Beam,
    frequencies: Floats,
    detail: Detail,
    ground: Ground = FREE_SPACE,
    method: GroundMethod = "exact",
    prepare: Preparer = prepare_run,
) -> BeamSolution:
    """Solve a beam in free space or over its ground.

    Perfect ground acts on the currents through images, real ground through Sommerfeld
    integrals or, as the quick way, through images weighted by reflection coefficients.

    Args:
        frequencies: [Hz] (f,)
    """
    assembly = assemble(
        system=beam_wires(beam=beam, ground=ground),
        detail=detail,
        highest_frequency=float(max(*beam.band, *frequencies)),
        prepare=prepare,
    )
    below = None
    if ground.kind == "real" and not beam.stands_on_ground:
        below = ground_seen(
            assembly=assembly, frequencies=frequencies, ground=ground, method=method
        )
    currents = solve_currents(
        assembly=assembly,
        frequencies=frequencies,
        below=below,
        series=foot_resistance(beam=beam, ground=ground, frequencies=frequencies),
    )
    return solution_of(beam=beam, currents=currents)


def solve_beam_both(
    *,
    beam: Beam,
    frequencies: Floats,
    detail: Detail,
    ground: Ground,
    method: GroundMethod = "exact",
    prepare: Preparer = prepare_run,
) -> tuple[BeamSolution, BeamSolution]:
    """Solve a beam in free space and over its ground, both from one preparation.

    Args:
        frequencies: [Hz] (f,)
    """
    assembly = assemble(
        system=beam_wires(beam=beam, ground=ground),
        detail=detail,
        highest_frequency=float(max(*beam.band, *frequencies)),
        prepare=prepare,
    )
    alone = system_matrices(assembly=assembly, frequencies=frequencies)
    below = None
    if not beam.stands_on_ground:
        seen = ground_seen(assembly=assembly, frequencies=frequencies, ground=ground, method=method)
        below = np.concatenate([np.zeros_like(seen), seen])
    # As if the band were swept twice, for that costs hardly more than once.
    count = len(frequencies)
    series = [
        foot_resistance(beam=beam, ground=under, frequencies=frequencies)
        for under in (FREE_SPACE, ground)
    ]
    both = solution_of(
        beam=beam,
        currents=solve_currents(
            assembly=assembly,
            frequencies=np.tile(frequencies, 2),
            below=below,
            alone=alone.twice(),
            series=np.concatenate(series),
        ),
    )
    return both.rows(slice(count)), both.rows(slice(count, None))


def solution_of(*, beam: Beam, currents: Currents) -> BeamSolution:
    """What follows from the currents for one ampere at the first port."""
    impedance: Complexes = 1.0 / currents.admittance[:, 0, 0]
    weights = np.zeros(currents.admittance.shape[:2], dtype=complex)
    weights[:, 0] = impedance
    return BeamSolution(
        beam=beam,
        currents=currents,
        impedance=impedance,
        source=moments(
            assembly=currents.assembly,
            unknowns=currents.unknowns[:, :, 0] * impedance[:, None],
            frequencies=currents.frequencies,
        ),
        accepted=0.5 * impedance.real,
        lost=conductor_loss(currents=currents, weights=weights),
    )


def gain_dbi(
    *,
    solution: BeamSolution,
    azimuth: Floats,
    elevation: Floats,
    ground: Ground = FREE_SPACE,
    height: float = 0.0,
) -> Floats:
    """Gain, losses included, total of both polarisations {ieee-145}.

    What stands on the ground has no gain in free space; over a perfect plane is as near.

    Args:
        azimuth: counter-clockwise from the heading [rad] (d,)
        elevation: above the horizon [rad] (d,)
        height: boom above ground [m]

    Returns:
        gain, floored [dBi] (f, d)
    """
    if ground.kind == "free space" and solution.beam.stands_on_ground:
        ground = PERFECT_GROUND
    lifted = solution.source.lifted(height=height)
    vertical, horizontal = far_field(
        source=lifted, azimuth=azimuth, elevation=elevation, ground=ground
    )
    density = (np.abs(vertical) ** 2 + np.abs(horizontal) ** 2) / (2.0 * VACUUM_IMPEDANCE)
    ratio = 4.0 * np.pi * density / solution.accepted[:, None]
    gain: Floats = 10.0 * np.log10(np.maximum(ratio, 10.0 ** (FLOOR_DBI / 10.0)))
    return gain


def element_currents(
    *, solution: BeamSolution, at: int, points: int = 41
) -> tuple[ElementCurrent, ...]:
    """Current along every element for one ampere at the feed, round its corners."""
    assembly = solution.currents.assembly
    unknowns = assembly.raw(solution.currents.unknowns[at, :, 0]) * solution.impedance[at]
    mirrored = any(not mirror.material for mirror in assembly.system.mirrors)
    found = []
    director = 0
    for element in solution.beam.elements:
        label: str = element.role
        if element.role == "director":
            director += 1
            label = f"director {director}"
        half = np.linspace(0.0, element.half_length, points)
        spots, ways = _walked(element.corners, half)
        out = _current_towards(assembly, unknowns, spots, ways)
        if not element.upright:
            across = np.array([1.0, -1.0, 1.0])
            other = out[1:]
            if not mirrored:
                back = -across * ways[1:]
                other = _current_towards(assembly, unknowns, across * spots[1:], back)
            half = np.concatenate([-half[:0:-1], half])
            out = np.concatenate([other[::-1], out])
        found.append(ElementCurrent(label=label, place=element.position, along=half, current=out))
    return tuple(found)


def _walked(corners: Sequence[Corner], half: Floats) -> tuple[Floats, Floats]:
    """Points on a half of an element, and the way the wire runs there.

    Args:
        corners: from its middle to its tip [m] (n, 3)
        half: distances along it from its middle [m] (p,)

    Returns:
        points [m] (p, 3)
        ways, of length 1 [-] (p, 3)
    """
    places = np.array(corners)
    steps = np.diff(places, axis=0)
    lengths = np.linalg.norm(steps, axis=1)
    starts = np.concatenate([[0.0], np.cumsum(lengths)])
    piece = np.clip(np.searchsorted(starts, half, side="right") - 1, 0, len(steps) - 1)
    ways = (steps / lengths[:, None])[piece]
    return places[piece] + (half - starts[piece])[:, None] * ways, ways


def _current_towards(
    assembly: PreparedSystem, raw: Complexes, spots: Floats, ways: Floats
) -> Complexes:
    """Current at points on wires, counted along given ways (n,)."""
    current = np.zeros(len(spots), dtype=complex)
    told = np.full(len(spots), _ASKEW)
    for index, placed in enumerate(assembly.system.runs):
        gap = spots - np.array(placed.origin)
        along = gap @ np.array(placed.direction)
        off = np.linalg.norm(gap - along[:, None] * np.array(placed.direction), axis=1)
        # At a corner two pieces meet: the one that runs as asked tells.
        same = ways @ np.array(placed.direction)
        here = (off < _ON_WIRE) & (along > -_ON_WIRE) & (along < placed.shape.length + _ON_WIRE)
        here &= np.abs(same) > told
        if here.any():
            block = slice(assembly.offsets[index], assembly.offsets[index + 1])
            current[here] = np.sign(same[here]) * current_on_run(
                mesh=assembly.runs[index].mesh, unknowns=raw[block], along=along[here]
            )
            told[here] = np.abs(same[here])
    return current
