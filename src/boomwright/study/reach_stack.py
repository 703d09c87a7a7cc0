"""Beams fed together, and how much of one reaches another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from boomwright import reach
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import ground_zones, ring_beams
from boomwright.solver import PatternCut, Preparer, neighbour_reach, settled_feeds
from boomwright.study.reach_results import Isolation, StackResult

#: resistance at the feeds for isolation [ohm]
_LINE = 50.0


def read_stack(
    plan: Plan, beams: Sequence[Beam], *, wanted_deg: Sequence[float], prepare: Preparer
) -> StackResult:
    """Compute a stack alone, in phase and out of phase, with its best phase and spacing.

    Args:
        beams: the beams fed together (n_beams,)
        wanted_deg: wanted elevations [deg] (n,)
    """
    ordered = tuple(sorted(beams, key=lambda beam: beam.height))
    frequency = ordered[-1].design_frequency
    ground, far = plan.site.ground, ground_zones(plan)
    beside = _beside(plan, ordered)
    stack = reach.solve_stack(
        beams=ordered, beside=beside, ground=ground, frequency=frequency, prepare=prepare
    )
    angle = np.arange(0.0, 90.0 + 1e-9, 0.5)
    cuts, impedances = [], []
    for feeding in reach.usual_feedings(count=len(ordered), names=[beam.name for beam in ordered]):
        reading = reach.feed_stack(stack, feeding=feeding)
        level = reach.stack_gain_dbi(
            reading,
            azimuth=np.zeros(len(angle)),
            elevation=np.radians(angle),
            far_ground=far,
        )
        cut = PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=level)
        cuts.append((feeding.name, cut))
        impedances.append(reading.feed_impedances)
    gain = reach.stacking_gain(
        beams=ordered, beside=beside, ground=ground, frequency=frequency, far_ground=far,
        prepare=prepare,
    )  # fmt: skip
    phases: tuple[reach.PhaseScan, ...] = ()
    spacings: tuple[reach.SpacingScan, ...] = ()
    if len(ordered) == 2:
        angles = tuple(dict.fromkeys((max(1.0, gain.peak_elevation_deg), *wanted_deg)))
        phases = tuple(
            reach.scan_phase(stack, elevation_deg=each, far_ground=far) for each in angles
        )
        top = ordered[1].height
        spacings = reach.scan_spacing(
            beams=ordered,
            beside=beside,
            ground=ground,
            frequency=frequency,
            elevations_deg=angles,
            heights=np.linspace(max(0.25 * top, 2.0), 0.9 * top, 14),
            far_ground=far,
            prepare=prepare,
        )
    return StackResult(
        beams=ordered,
        beside=beside,
        without=_without(ordered),
        frequency=frequency,
        gain=gain,
        cuts=tuple(cuts),
        impedances=tuple(impedances),
        phases=phases,
        spacings=spacings,
    )


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
    """Mast, guys and beams with traps in reach of these, which no stack is solved with."""
    names = {beam.name for beam in beams}
    found: dict[str, None] = {}
    for beam in beams:
        conductors = {each.name for each in beam.conductors}
        for each in neighbour_reach(beam=beam):
            left = each.name in conductors or not each.counts
            if each.in_reach and left and each.name not in names:
                found[each.name] = None
    return tuple(found)


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
    for sender in plan.beams:
        for receiver in plan.beams:
            if sender is receiver:
                continue
            stack = reach.solve_stack(
                beams=(sender, receiver),
                beside=_beside(plan, (sender, receiver)),
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
