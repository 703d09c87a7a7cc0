"""What beams of one plan do to each other: fed together, one on a ring, power that strays."""

from __future__ import annotations

from typing import Any

import numpy as np

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.reach import RingReading, RingSweep
from boomwright.report.model import Column, Picture, Table, column
from boomwright.report.reach.curves import curves
from boomwright.report.reach.heights import at_angle
from boomwright.study.reach_parts.results import Isolation, ReachResult, StackResult


def together_pictures(result: ReachResult) -> tuple[Picture, ...]:
    """Beams fed alone and together, and one that turns on its ring."""
    stack, ring = result.stack, result.ring
    return (
        *(_stack_pictures(stack) if stack else ()),
        *([_phases(stack)] if stack and stack.phases else ()),
        *([_spacings(stack)] if stack and stack.spacings else ()),
        *(_ring_pictures(ring) if ring else ()),
    )


def together_tables(result: ReachResult) -> tuple[Table[Any], ...]:
    """Ways of feeding, best phase and height, stray power, the ring."""
    stack = result.stack
    return (
        *([feeding_table(stack)] if stack else ()),
        *([best_table(stack)] if stack and stack.phases else ()),
        *([isolation_table(result)] if result.isolation else ()),
        *([_ring_table(result.ring)] if result.ring else ()),
    )


def _at(degrees: float) -> Value:
    return at_angle(degrees, "angle")


def _stack_pictures(stack: StackResult) -> list[Picture]:
    return [
        curves(
            "stack",
            "Beams fed alone and together",
            group="stack",
            x=stack.cuts[0][1].angle_deg,
            lines=[(name, cut.gain_dbi) for name, cut in stack.cuts],
            deepest=35.0,
            caption="An idle beam stays on the tower, its feed open; coupling is solved.",
        )
    ]


def _phases(stack: StackResult) -> Picture:
    bounds = [
        listed([Quantity(phase.bound_dbi, "gain"), _at(phase.elevation_deg)], between=" ")
        for phase in stack.phases
    ]
    return curves(
        "stack-phase",
        "Phase between two beams",
        group="stack",
        x=stack.phases[0].phase_deg,
        x_head="upper beam behind the lower",
        x_kind="whole angle",
        x_names=("turn", "turn"),
        y_kind="gain",
        lines=[(_at(phase.elevation_deg), phase.gain_dbi) for phase in stack.phases],
        deepest=25.0,
        caption=phrase(
            "Gain at the strongest lobe and at the wanted angles, equal feed currents. No feeding "
            "of any size and phase exceeds {bounds}.",
            bounds=listed(bounds),
        ),
    )


def _spacings(stack: StackResult) -> Picture:
    first = stack.spacings[0]
    both = [(phrase("both, {at}", at=_at(one.elevation_deg)), one) for one in stack.spacings]
    best = [
        listed([Quantity(one.best_height, "height"), _at(one.elevation_deg)], between=" ")
        for one in stack.spacings
    ]
    return curves(
        "stack-spacing",
        "Height of the lower beam, both in phase",
        group="stack",
        x=first.heights,
        x_head="lower boom above ground",
        x_kind="height",
        x_names=("height", "feet"),
        y_kind="gain",
        lines=[
            *((name, one.gain_dbi) for name, one in both),
            (phrase("upper alone, {at}", at=_at(first.elevation_deg)), first.alone_dbi),
        ],
        deepest=25.0,
        caption=phrase(
            "The upper beam stays where the plan has it; alone means the lower one idle. Best "
            "from {best}.",
            best=listed(best),
        ),
    )


def feeding_table(stack: StackResult) -> Table[Any]:
    """Each way of feeding a stack: its name, its cut and the impedances at the feeds."""
    gain = stack.gain
    rows = [
        (name, cut, int(cut.gain_dbi.argmax()), impedances)
        for (name, cut), impedances in zip(stack.cuts, stack.impedances, strict=True)
    ]

    def seen(row: Any) -> Value:
        idle = float("nan")
        return listed([Quantity(idle if z is None else z, "feed impedance") for z in row[3]])

    return Table(
        name="stack-feeding",
        group="stack",
        caption=phrase(
            "{names} fed alone and together at {frequency:frequency}",
            names=listed([beam.name for beam in stack.beams], between=" and "),
            frequency=stack.frequency,
        ),
        columns=(
            column("fed", lambda row: row[0], key="name"),
            column(
                "peak gain",
                lambda row: float(row[1].gain_dbi[row[2]]),
                kind="gain over ground",
                key="peak_gain_dbi",
            ),
            column("at", lambda row: float(row[1].angle_deg[row[2]]), kind="angle"),
            column("impedance of each feed", seen, kind="feed impedance", key="feed_impedance_ohm"),
        ),
        items=rows,
        note=phrase(
            "In phase {gain} over the best alone, {bare:gain change} over it with the others off "
            "the tower; {peak:gain over ground} {at}.",
            gain=Quantity(gain.decibels, "gain change", gain.error_db),
            bare=gain.over_bare_db,
            peak=gain.peak_gain_dbi,
            at=_at(gain.peak_elevation_deg),
        ),
    )


def best_table(stack: StackResult) -> Table[Any]:
    """Best phase and best spacing of two beams at the wanted elevations."""
    return Table(
        name="stack-best",
        group="stack",
        caption="Best phase and best height of the lower beam",
        columns=(
            column("elevation", lambda b: b[0].elevation_deg, kind="angle", key="elevation_deg"),
            column(
                "best phase", lambda b: b[0].best_phase_deg, kind="whole angle", key="phase_deg"
            ),
            column("gain", lambda b: b[0].best_gain_dbi, kind="gain", key="phase_gain_dbi"),
            column("no feeding exceeds", lambda b: b[0].bound_dbi, kind="gain", key="bound_dbi"),
            column(
                "best lower height, in phase",
                lambda b: b[1].best_height,
                kind="height",
                key="lower_height_m",
            ),
            column(
                "gain there",
                lambda b: float(b[1].gain_dbi.max()),
                kind="gain",
                key="lower_height_gain_dbi",
            ),
        ),
        items=list(zip(stack.phases, stack.spacings, strict=True)),
        note="Phase: the upper feed current behind the lower, both equal.",
    )


def isolation_table(result: ReachResult) -> Table[Isolation]:
    """How much of one beam's power reaches another's feed."""
    return Table(
        name="stack-isolation",
        group="stack",
        caption="Isolation between the beams",
        columns=(
            column("from", lambda pair: pair.sender, key="sender"),
            column("to", lambda pair: pair.receiver, key="receiver"),
            column("at", lambda pair: pair.frequency, kind="frequency", key="frequency_hz"),
            column("isolation", lambda pair: pair.decibels, kind="ratio", key="isolation_db"),
            column("arrives", lambda pair: pair.received, kind="received power", key="received_w"),
        ),
        items=result.isolation,
        note="Both feeds end in 50 ohm; filters come on top.",
    )


def _ring_pictures(ring: RingSweep) -> tuple[Picture, ...]:
    both = (ring.fixed, ring.turning)
    # Left and right are alike unless the sweep runs all round.
    own = ring.own_deg % 360.0 if ring.turn_deg[-1] > 180.0 else abs(ring.own_deg)
    inside = ring.turn_deg[0] <= own <= ring.turn_deg[-1]

    def turned(name: str, title: str, x_name: str, kind: str, **given: Any) -> Picture:
        return curves(
            f"stack-ring-{name}",
            f"{title} as one beam turns on its ring",
            group="stack",
            x=ring.turn_deg,
            x_head=f"heading of {ring.turning.name} against {ring.fixed.name}",
            x_kind="whole angle",
            x_names=(x_name, x_name),
            y_head=title[0].lower() + title[1:],
            y_kind=kind,
            mark=(own, "plan") if inside else None,
            **given,
        )

    return (
        turned(
            "gain",
            "Gain",
            "ring",
            "gain",
            lines=[(_fed(each), each.gain_dbi) for each in both],
            caption=phrase(
                "Each fed alone, towards its own heading at its own strongest lobe; the other's "
                "feed is {idle}. Coupling is solved at every heading. {swings}",
                idle=ring.idle,
                swings=listed([_swing(each) for each in both], between=" "),
            ),
        ),
        turned(
            "front-to-back",
            "Front-to-back ratio",
            "ring_ratio",
            "ratio",
            lines=[(_fed(each), each.front_to_back_db) for each in both],
            caption="At the same elevations, exactly backwards.",
        ),
        turned(
            "impedance",
            "Impedance",
            "ring_ohm",
            "resistance",
            lines=[
                (f"{each.name}: {part}", values)
                for each in both
                for part, values in (("R", each.impedance.real), ("X", each.impedance.imag))
            ],
            caption="At each feed, at the design frequency of its beam.",
        ),
    )


def _swing(each: RingReading) -> Value:
    # Both ends of a swing have the band.
    swing = Quantity(float(np.ptp(each.gain_dbi)), "loss", 2.0 * each.gain_error_db)
    return phrase("{name} swings by {swing}.", name=each.name, swing=swing)


def _fed(each: RingReading) -> Value:
    angle = Quantity(each.elevation_deg, "angle")
    return listed([each.name, Quantity(each.frequency, "frequency"), angle])


def _ring_table(ring: RingSweep) -> Table[int]:
    """Both beams against the difference of their headings, each figure with its band."""
    both = (ring.fixed, ring.turning)

    def told(each: RingReading, head: str, kind: str, values: Any, error: float) -> Column[int]:
        def cell(row: int) -> Value:
            return Quantity(values[row].item(), kind, error)

        return column(f"{each.name}: {head}", cell, kind=kind)

    figures = [
        cell
        for each in both
        for cell in (
            told(each, "gain", "gain", each.gain_dbi, each.gain_error_db),
            told(
                each, "front-to-back", "ratio", each.front_to_back_db, each.front_to_back_error_db
            ),
            told(each, "impedance", "impedance", each.impedance, each.impedance_error),
        )
    ]
    return Table(
        name="stack-ring",
        group="stack",
        caption=f"{ring.turning.name} on a ring, turned against {ring.fixed.name}",
        columns=(
            column("apart", lambda row: float(ring.turn_deg[row]), kind="whole angle"),
            *figures,
        ),
        items=range(len(ring.turn_deg)),
        note=phrase(
            "Each fed alone, the other feed {idle}: {both}.",
            idle=ring.idle,
            both=listed([_fed(each) for each in both], between="; "),
        ),
    )
