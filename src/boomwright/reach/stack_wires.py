"""The wires of several beams on one tower, put into one system."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import BoomwrightError
from boomwright.parts import Beam
from boomwright.solver import (
    ElementWires,
    Ground,
    Mirror,
    PlacedRun,
    Port,
    RunShape,
    WireSystem,
    beam_wires,
    both_halves,
)

#: headings alike to this angle share a mirror plane [rad]
_SAME_HEADING = 1e-9


def stack_system(*, beams: Sequence[Beam], ground: Ground) -> tuple[WireSystem, float]:
    """Put the wires of several beams into one system.

    Booms are held by the mast at their middle. The axes are those of the first beam: x towards
    its heading. Beams with one heading share the mirror plane through their booms; others
    are modelled in full.

    Parameters
    ----------
    beams
        the beams (n_beams,)

    Returns
    -------
    tuple
        the system [-] and the height of its z = 0 above ground [m]

    Raises
    ------
    BoomwrightError
        without a beam
    """
    if not beams:
        msg = "stack: no beam is named; name two or more beams of the plan"
        raise BoomwrightError(msg)
    base = min(beam.height for beam in beams)
    first = beams[0]
    one_heading = all(
        abs(math.remainder(beam.heading - first.heading, math.tau)) < _SAME_HEADING
        and not beam.wires
        for beam in beams
    )
    runs: list[PlacedRun] = []
    joints: list[tuple[tuple[int, bool], ...]] = []
    ports: list[Port] = []
    for beam in beams:
        own = beam_wires(beam=beam)
        whole = own.runs
        if own.mirrors and not one_heading:
            whole = tuple(_unfolded(run) for run in own.runs)
        offset = len(runs)
        # Headings run clockwise, the solver's angles counter-clockwise.
        turn = -(beam.heading - first.heading)
        runs += [_placed(run, beam, turn=turn, rise=beam.height - base) for run in whole]
        joints += [tuple((run + offset, end) for run, end in joint) for joint in own.joints]
        ports += [Port(run=port.run + offset, gap=port.gap) for port in own.ports]
    mirrors = [Mirror(axis=1)] if one_heading else []
    if ground.kind == "perfect":
        mirrors.append(Mirror(axis=2, offset=-base, material=True))
    system = WireSystem(
        runs=tuple(runs),
        mirrors=tuple(mirrors),
        joints=tuple(joints),
        ports=tuple(ports),
        ground_height=base if ground.kind == "real" else math.inf,
    )
    return system, base


def _middle(beam: Beam) -> float:
    places = [element.position for element in beam.elements]
    return 0.5 * (min(places) + max(places))


def _unfolded(run: PlacedRun) -> PlacedRun:
    """A mirrored half as the whole element, from its far tip through the boom."""
    half = ElementWires(sections=run.shape.sections, inductance=run.inductance)
    whole = both_halves(left=half, right=half)
    return replace(
        run,
        shape=RunShape(
            sections=whole.sections,
            gaps=tuple((half.length + centre, width) for centre, width in run.shape.gaps),
            start=run.shape.end,
            end=run.shape.end,
        ),
        origin=(run.origin[0], -half.length, run.origin[2]),
        inductance=whole.inductance,
    )


def _placed(run: PlacedRun, beam: Beam, *, turn: float, rise: float) -> PlacedRun:
    cosine, sine = math.cos(turn), math.sin(turn)
    x, y, z = run.origin[0] - _middle(beam), run.origin[1], run.origin[2] + rise
    along = run.direction
    if turn == 0.0:
        return replace(run, origin=(x, y, z))
    return replace(
        run,
        origin=(x * cosine - y * sine, x * sine + y * cosine, z),
        direction=(
            along[0] * cosine - along[1] * sine,
            along[0] * sine + along[1] * cosine,
            along[2],
        ),
    )
