"""The ways up, each with its verdict, its reasons and its forces."""

from __future__ import annotations

import math
from typing import Any

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.raising import Force, LiftPlan
from boomwright.report.model import Fact, Report, Table, column
from boomwright.study.raising import BeamLift, RaisingResult


def raising_report(result: RaisingResult, *, number: int) -> Report:
    """Say how a beam gets up, and what stands against it.

    Parameters
    ----------
    number
        number of the beam, from 0
    """
    each = result.lifts[number]
    lift = each.lift
    return Report(
        subject="raising",
        title=f"Raising of {each.beam.name}",
        answer=_answer(result, each),
        tables=() if lift is None else _tables(lift),
        # What holds the beam up and is not within stands against every lift.
        findings=each.findings if lift is None else (*lift.carried, *each.findings),
        notices=result.notices,
    )


def _tables(lift: LiftPlan) -> tuple[Table[Any], ...]:
    forces = [_forces(lift)] if lift.methods[0].forces else []
    return (_methods(lift), *forces, _around(lift))


def _answer(result: RaisingResult, each: BeamLift) -> tuple[Fact, ...]:
    lift = each.lift
    facts = [Fact(label="Missing", value=gap) for gap in each.gaps]
    if lift is not None:
        best = phrase("{verdict}: {name}", verdict=lift.verdict, name=lift.methods[0].name)
        facts += [
            Fact(label="Way up", value=best),
            *(Fact(label="Stands against a go", value=reason) for reason in lift.reasons),
            Fact(label="Mass on the hook", value=Quantity(lift.job.load.mass, "mass")),
            Fact(label="Lift height", value=Quantity(lift.job.lift_height, "span")),
            Fact(
                label="Ground kept empty around the foot",
                value=Quantity(lift.exclusion_radius, "span"),
            ),
        ]
    return (*facts, Fact(label="Heading", value=_heading(result, each)))


def _heading(result: RaisingResult, each: BeamLift) -> Value:
    true = Quantity(math.degrees(each.beam.heading) % 360.0, "angle")
    found = result.declination
    if found is None:
        return phrase("{true} true, compass bearing not known", true=true)
    compass = Quantity(math.degrees(found.compass(each.beam.heading)), "angle")
    return phrase("{true} true, {compass} by compass", true=true, compass=compass)


def _methods(lift: LiftPlan) -> Table[Any]:
    return Table(
        name="methods",
        caption="Ways up, best first",
        columns=(
            column("method", lambda one: one.name, key="name"),
            column("verdict", lambda one: one.verdict, key="verdict"),
            column("why", lambda one: "; ".join(one.reasons)),
        ),
        items=lift.methods,
        sentences=True,
    )


def _forces(lift: LiftPlan) -> Table[Force]:
    def limit(force: Force) -> Value:
        return "not entered" if force.limit is None else Quantity(force.limit, "force")

    return Table(
        name="forces",
        caption="Forces of the best way up",
        columns=(
            column("where", lambda force: force.name, key="name"),
            column("force", lambda force: Quantity(force.value, "force"), key="value_n"),
            column("limit", limit),
        ),
        items=lift.methods[0].forces,
    )


def _around(lift: LiftPlan) -> Table[Any]:
    rows = [(f"overhead, {one.name}", one.verdict, one.reason) for one in lift.power_lines]
    rows += [(f"ground, {one.name}", one.verdict, one.reason) for one in lift.ground]
    rows.append(("weather for hoisting", lift.weather.hoist, lift.weather.reason))
    rows.append(("weather for climbing", lift.weather.climb, ""))
    return Table(
        name="surroundings",
        caption="Power lines, ground and weather",
        columns=(
            column("what", lambda row: row[0]),
            column("verdict", lambda row: row[1]),
            column("why", lambda row: row[2]),
        ),
        items=rows,
        sentences=True,
    )
