"""The raising as text for a terminal."""

from __future__ import annotations

import math
from functools import partial

from rich.console import Console
from rich.padding import Padding

from boomwright.base import UnitSystem, quantity_text, readers_order
from boomwright.raising import LiftPlan, PickPlan
from boomwright.render.terminal.lines import (
    make_console,
    print_notices,
    span_text,
    words,
)
from boomwright.report.structure.texts import speed_text
from boomwright.study.raising import RaisingResult

_TOLD = {
    f"raising.{code}" for code in ("no-method", "power-line", "ground", "weather", "structure")
}


def print_raising(result: RaisingResult, *, system: UnitSystem) -> None:
    """Print the lift plan of every beam."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for each in result.lifts:
        console.print()
        console.print(words(each.beam.name, style="bold"))
        for gap in each.gaps:
            console.print(words(f"missing: {gap}"))
        if each.lift is not None:
            _print_lift(console, each.lift, each.picks, system=system)
        found = result.declination
        if found is not None:
            console.print(
                f"Heading {math.degrees(each.beam.heading) % 360.0:.1f}° true, "
                f"{math.degrees(found.compass(each.beam.heading)):.1f}° by compass (declination "
                f"{math.degrees(found.angle):+.1f}° east, {found.model}, {found.day})."
            )
    console.print()
    # Why a lift is not a go stands below its answer already.
    print_notices(console, [each for each in result.notices if each.code not in _TOLD])


def _print_lift(
    console: Console, lift: LiftPlan, picks: PickPlan | None, *, system: UnitSystem
) -> None:
    job = lift.job
    newtons = partial(quantity_text, unit="N", system=system, form=".0f")
    mass = quantity_text(job.load.mass, unit="kg", system=system, form=".1f")
    console.print(
        words(
            f"{lift.verdict.upper()}: {lift.methods[0].name}; {mass} up to "
            f"{span_text(job.lift_height, system=system)}"
        )
    )
    for reason in lift.reasons:
        console.print(Padding(words(readers_order(reason, system=system)), (0, 0, 0, 2)))
    for method in lift.methods:
        console.print(words(f"{method.verdict:>5}  {method.name}"))
        for reason in method.reasons:
            told = words(readers_order(reason, system=system), style="dim")
            console.print(Padding(told, (0, 0, 0, 7)))
        for force in method.forces:
            limit = "" if force.limit is None else f", limit {newtons(force.limit)}"
            text = f"{force.name} {newtons(force.value)}{limit}"
            console.print(Padding(words(text, style="dim"), (0, 0, 0, 7)))
    surroundings = [
        *((check.verdict, f"overhead, {check.name}", check.reason) for check in lift.power_lines),
        *((check.verdict, f"ground, {check.name}", check.reason) for check in lift.ground),
    ]
    for verdict, name, found in surroundings:
        text = readers_order(found, system=system)
        console.print(words(f"{verdict:>5}  {name}: {text}"))
    if picks is not None:
        rear, front = (span_text(at, system=system) for at in (picks.rear, picks.front))
        balance = span_text(picks.balance, system=system)
        console.print(
            f"Balance {balance} from the rear end of the boom; bridle at {rear} and {front}, "
            f"{newtons(max(picks.forces.left, picks.forces.right))} in each leg."
        )
    stops = lift.stops
    console.print(
        f"Kept empty {span_text(lift.exclusion_radius, system=system)} around the foot, nobody "
        f"within {span_text(lift.dropped_tool_radius, system=system)} while people work above."
    )
    console.print(
        f"Hoist below {speed_text(stops.begin_hoist_below, system=system)}, lower the load at "
        f"{speed_text(stops.stop_hoist_at, system=system)}, nobody up at "
        f"{speed_text(stops.no_climb_at, system=system)}; forecast: "
        f"{readers_order(lift.weather.reason, system=system)}."
    )
    for point in lift.hold_points:
        console.print(words(f"Hold: {point.name} ({point.who}): {'; '.join(point.checks)}"))
