"""Beams fed together, and how much of one reaches another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations
from typing import Any

import numpy as np

from boomwright import reach
from boomwright.base.array_types import Floats
from boomwright.parts import Beam, Conductor
from boomwright.plan import Plan
from boomwright.plan.resolve import ground_zones, ring_beams
from boomwright.solver import PatternCut, Preparer, neighbour_reach, settled_feeds
from boomwright.study.reach_parts.results import Isolation, StackResult

#: resistance at the feeds for isolation [ohm]
_LINE = 50.0
#: heights at which the lower beam of a stack is tried
_HEIGHTS = 14


def read_stack(
    plan: Plan, beams: Sequence[Beam], *, wanted_deg: Sequence[float], prepare: Preparer
) -> StackResult:
    """Compute a stack alone, in phase and out of phase, with its best phase and spacing.

    Args:
        wanted_deg: wanted elevations [deg] (n,)
    """
    ordered = tuple(sorted(beams, key=lambda beam: beam.height))
    frequency = ordered[-1].design_frequency
    far = ground_zones(plan)
    beside, wires = _beside(plan, ordered), _conductors(ordered)
    tower: dict[str, Any] = {
        "beams": ordered,
        "beside": beside,
        "conductors": wires,
        "ground": plan.site.ground,
        "frequency": frequency,
        "prepare": prepare,
    }
    stack = reach.solve_stack(**tower)
    names = [beam.name for beam in ordered]
    readings = [
        reach.feed_stack(stack, feeding=feeding)
        for feeding in reach.usual_feedings(count=len(names), names=names)
    ]
    gain = reach.stacking_gain(**tower, far_ground=far)
    phases: tuple[reach.PhaseScan, ...] = ()
    spacings: tuple[reach.SpacingScan, ...] = ()
    if len(ordered) == 2:
        angles = tuple(dict.fromkeys((max(1.0, gain.peak_elevation_deg), *wanted_deg)))
        phases = tuple(
            reach.scan_phase(stack, elevation_deg=each, far_ground=far) for each in angles
        )
        tried = _clear_heights(ordered, beside, wires)
        spacings = reach.scan_spacing(**tower, elevations_deg=angles, heights=tried, far_ground=far)
    return StackResult(
        beams=ordered,
        beside=beside,
        conductors=wires,
        without=_without(ordered),
        frequency=frequency,
        gain=gain,
        cuts=tuple((each.feeding.name, _elevation_cut(each, far)) for each in readings),
        impedances=tuple(each.feed_impedances for each in readings),
        phases=phases,
        spacings=spacings,
    )


def _elevation_cut(reading: reach.StackReading, far: reach.ZonedGround | None) -> PatternCut:
    angle = np.arange(0.0, 90.0 + 1e-9, 0.5)
    level = reach.stack_gain_dbi(
        reading, azimuth=np.zeros(len(angle)), elevation=np.radians(angle), far_ground=far
    )
    return PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=level)


def _beside(plan: Plan, beams: Sequence[Beam]) -> tuple[Beam, ...]:
    """Other beams of the plan that matter to some of these, with what hangs on their feeds."""
    names = {beam.name for beam in beams}
    found: dict[str, Beam] = {}
    for beam in beams:
        others = {each.name for each in neighbour_reach(beam=beam) if each.counts} - names
        if others - found.keys():
            settled = {each.name: each.idle_feed for each in settled_feeds(beam=beam).neighbours}
            found |= {
                each.name: replace(each, idle_feed=settled[each.name])
                for each in plan.beams
                if each.name in others - found.keys()
            }
    return tuple(found.values())


def _without(beams: Sequence[Beam]) -> tuple[str, ...]:
    """What runs into the wires of these as drawn, which no stack is solved with."""
    names = {beam.name for beam in beams}
    found = [
        each.name
        for beam in beams
        for each in neighbour_reach(beam=beam)
        if each.in_reach and not each.counts and each.name not in names
    ]
    return tuple(dict.fromkeys(found))


def _conductors(beams: Sequence[Beam]) -> tuple[Conductor, ...]:
    """Mast and pieces of guy that matter to some of these and run into none of them."""
    found: dict[str, Conductor] = {}
    for beam in beams:
        counted = {each.name for each in neighbour_reach(beam=beam) if each.counts}
        found |= {wire.name: wire for wire in beam.conductors if wire.name in counted}
    for name in _without(beams):
        found.pop(name, None)
    return tuple(found.values())


def _clear_heights(
    beams: Sequence[Beam], beside: Sequence[Beam], conductors: Sequence[Conductor]
) -> Floats:
    """Heights for the lower of two beams at which its wires run into nothing [m] (n,).

    Its own height where there is none.
    """
    lower, upper = beams
    heights = np.linspace(max(0.25 * upper.height, 2.0), 0.9 * upper.height, _HEIGHTS)
    clear = [
        not any(
            each.touches
            for each in neighbour_reach(
                beam=replace(
                    lower,
                    height=float(height),
                    neighbours=tuple(other.alone for other in (upper, *beside)),
                    conductors=tuple(conductors),
                )
            )
        )
        for height in heights
    ]
    return heights[clear] if any(clear) else np.array([lower.height])


def read_ring(plan: Plan, *, prepare: Preparer) -> reach.RingSweep | None:
    """Turn the beam on a ring against the highest of the others.

    Returns:
        None when the plan names no ring or has no second beam
    """
    pair = ring_beams(plan)
    if pair is None:
        return None
    turning, fixed = pair
    return reach.sweep_ring(
        fixed=fixed,
        turning=turning,
        ground=plan.site.ground,
        far_ground=ground_zones(plan),
        prepare=prepare,
    )


def read_isolation(plan: Plan, *, prepare: Preparer) -> tuple[Isolation, ...]:
    """Compute the isolation between every two beams of a plan, each way."""
    found = []
    power = plan.transmitter.power if plan.transmitter else None
    for pair in permutations(plan.beams, 2):
        sender, receiver = pair
        stack = reach.solve_stack(
            beams=pair,
            beside=_beside(plan, pair),
            conductors=_conductors(pair),
            ground=plan.site.ground,
            frequency=sender.design_frequency,
            prepare=prepare,
        )
        decibels = float(reach.isolation_db(stack, reference=_LINE)[0, 1])
        found.append(
            Isolation(
                sender=sender.name,
                receiver=receiver.name,
                frequency=sender.design_frequency,
                decibels=decibels,
                received=None if power is None else power * 10.0 ** (-decibels / 10.0),
            )
        )
    return tuple(found)
