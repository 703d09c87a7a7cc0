"""Where it happens: power lines, ground kept empty, weather, people, and the order of the day."""

from __future__ import annotations

from typing import Any

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.charts.blocks import TICK
from boomwright.raising import (
    CrewRole,
    FallFigures,
    GroundCheck,
    HoldPoint,
    LiftPlan,
    LineCheck,
    Signal,
)
from boomwright.report.model import Fact, Table, column, facts_table
from boomwright.report.raising.methods import VERDICTS


def power_lines(lift: LiftPlan) -> Table[LineCheck]:
    """Hold every power line against the whole lift."""

    def distance(value: float, check: LineCheck) -> Value:
        return Quantity(value, "span") if check.required else "–"

    return Table(
        name="power-lines",
        caption="Power lines",
        columns=(
            column("power line", lambda check: check.name),
            column("answer", lambda check: VERDICTS[check.verdict]),
            column("nearest it can come", lambda check: distance(check.gap, check)),
            column("least allowed", lambda check: distance(check.required, check)),
            column("why", lambda check: check.reason),
        ),
        items=lift.power_lines,
        note="Treat every line as live. Ask its owner before work begins whenever one is near.",
        sentences=True,
    )


def ground(lift: LiftPlan) -> Table[GroundCheck]:
    """Hold the ground kept empty against boundary, ways, guys and anchors."""

    def begins(check: GroundCheck) -> Value:
        return "not given" if check.distance is None else Quantity(check.distance, "span")

    return Table(
        name="ground",
        caption="Ground kept empty",
        columns=(
            column("ground kept empty", lambda check: check.name),
            column("answer", lambda check: VERDICTS[check.verdict]),
            column("reaches", lambda check: Quantity(check.reach, "span")),
            column("begins at", begins),
            column("found", lambda check: check.reason),
        ),
        items=lift.ground,
        sentences=True,
    )


def weather(lift: LiftPlan) -> Table[Fact]:
    """Say when to begin, when to stop, and where nobody stands."""
    stops = lift.stops

    def speed(value: float) -> Quantity:
        return Quantity(value, "speed")

    climbing = ", on wet or iced steps, in the dark" if lift.falls else ""
    return facts_table(
        "weather",
        "Weather and ground",
        (
            (
                "Begin hoisting",
                phrase("only with gusts below {gust}", gust=speed(stops.begin_hoist_below)),
            ),
            ("Lower the load", phrase("at {gust}", gust=speed(stops.stop_hoist_at))),
            ("Nobody up", phrase("at {gust}" + climbing, gust=speed(stops.no_climb_at))),
            (
                "Thunder",
                f"everybody down; {stops.wait_after_thunder / 60:.0f} min without any before "
                "anybody goes up",
            ),
            (
                "Kept empty",
                phrase("{radius} around the foot, roped off",
                       radius=Quantity(lift.exclusion_radius, "span")),
            ),
            (
                "Nobody at all",
                phrase("{radius} around the foot while people work above",
                       radius=Quantity(lift.dropped_tool_radius, "span")),
            ),
        ),
    )  # fmt: skip


def falls_table(falls: FallFigures) -> Table[Fact]:
    """Give the figures for climbers."""
    strength = Quantity(falls.anchor_strength, "large force")
    return facts_table(
        "falls",
        "For trained climbers",
        (
            ("Anchor", phrase("{strength} for each person tied to it", strength=strength)),
            ("Free fall", phrase("at most {fall}", fall=Quantity(falls.free_fall, "span"))),
            (
                "Arrest",
                phrase("at most {force} within {way}",
                       force=Quantity(falls.arrest_force, "large force"),
                       way=Quantity(falls.deceleration, "span")),
            ),
            ("Clear below the anchor", Quantity(falls.clearance_below, "span")),
        ),
    )  # fmt: skip


def crew(lift: LiftPlan) -> Table[CrewRole]:
    """Name the roles, with a line for who takes each."""
    return Table(
        name="crew",
        caption="People",
        columns=(
            column("role", lambda role: role.role),
            column("people", lambda role: role.people),
            column("task", lambda role: role.task),
            column("name", lambda role: ""),
        ),
        items=lift.crew,
        sentences=True,
        folded=True,
        large=True,
    )


def signals(lift: LiftPlan) -> Table[Signal]:
    """Give every word with its hand signal."""
    return Table(
        name="signals",
        caption="Signals",
        columns=(
            column("word", lambda signal: signal.word),
            column("hands", lambda signal: signal.hands),
        ),
        items=lift.signals,
        sentences=True,
        folded=True,
        large=True,
    )


def holds(points: tuple[HoldPoint, ...], *, name: str = "holds", tick: bool = False) -> Table[Any]:
    """List where work stops until somebody says on."""
    ticked: list[Any] = [column("done", lambda point: TICK)] if tick else []
    return Table(
        name=name,
        caption="Hold points: work stops",
        columns=(
            column("hold", lambda point: point.name),
            column("go-ahead by", lambda point: point.who),
            column("until", lambda point: "; ".join(point.checks)),
            *ticked,
        ),
        items=points,
        sentences=True,
    )
