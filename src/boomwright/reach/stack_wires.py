"""The wires of several beams on one tower, put into one system."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import BoomwrightError
from boomwright.parts import Beam, Conductor
from boomwright.solver import (
    Feeder,
    Ground,
    Load,
    Mirror,
    PlacedRun,
    Port,
    WireSystem,
    beam_wires,
    conductor_run,
    placed_loads,
    placed_run,
    unfolded,
)

#: headings alike to this angle share a mirror plane [rad]
_SAME_HEADING = 1e-9


def stack_system(
    *, beams: Sequence[Beam], ground: Ground, conductors: Sequence[Conductor] = ()
) -> tuple[WireSystem, float]:
    """Put the wires of several beams into one system.

    Booms are held by the mast at their middle. The axes are those of the first beam: x towards
    its heading. Beams with one heading share the mirror plane through their booms; others, and all
    beams beside mast or guys, are modelled in full.

    Returns:
        the system [-] and the height of its z = 0 above ground [m]
    """
    _require_hanging(beams)
    base = min(beam.height for beam in beams)
    first = beams[0]
    one_heading = not conductors and all(
        abs(math.remainder(beam.heading - first.heading, math.tau)) < _SAME_HEADING
        and not beam.wires
        for beam in beams
    )
    runs: list[PlacedRun] = []
    joints: list[tuple[tuple[int, bool], ...]] = []
    ports: list[Port] = []
    feeders: list[Feeder] = []
    loads: list[Load] = []
    for beam in beams:
        own = beam_wires(beam=beam.alone)
        if own.mirrors and not one_heading:
            own = unfolded(system=own)
        offset = len(runs)
        # Headings run clockwise, the solver's angles counter-clockwise.
        turn = -(beam.heading - first.heading)
        along = ((first if beam.shares_boom(first) else beam).boom_middle, 0.0)
        runs += [
            placed_run(run=run, turn=turn, along=along, rise=beam.height - base) for run in own.runs
        ]
        loads += placed_loads(own.loads, behind=offset)
        joints += [tuple((run + offset, end) for run, end in joint) for joint in own.joints]
        moved = {gap: replace(gap, run=gap.run + offset) for gap in own.fed_gaps}
        feeders += [
            replace(
                line,
                gap=moved[line.gap],
                into=line.into + len(ports),
                past=None if line.past is None else moved[line.past],
            )
            for line in own.feeders
        ]
        ports += [moved[port] for port in own.ports]
    runs += [
        placed_run(
            run=conductor_run(wire, beam=first),
            turn=0.0,
            along=(first.boom_middle, 0.0),
            rise=first.height - base,
        )
        for wire in conductors
    ]
    mirrors = [Mirror(axis=1)] if one_heading else []
    if ground.kind == "perfect":
        mirrors.append(Mirror(axis=2, offset=-base, material=True))
    system = WireSystem(
        runs=tuple(runs),
        mirrors=tuple(mirrors),
        joints=tuple(joints),
        ports=tuple(ports),
        feeders=tuple(feeders),
        loads=tuple(loads),
        ground_height=base if ground.kind == "real" else math.inf,
    )
    return system, base


def _require_hanging(beams: Sequence[Beam]) -> None:
    if not beams:
        raise BoomwrightError("stack: no beam is named; name two or more beams of the plan")
    for beam in beams:
        if beam.upright:
            msg = f"stack: {beam.name} stands on end; name beams that hang above each other"
            raise BoomwrightError(msg)
