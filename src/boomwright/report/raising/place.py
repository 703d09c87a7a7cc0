"""Where it happens: power lines, ground kept empty, weather, people, and the order of the day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
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
    MethodChoice,
    Signal,
)
from boomwright.raising.weather import ARMY_LIMIT
from boomwright.report.model import Fact, Table, column, facts_table
from boomwright.report.raising.methods import VERDICTS, operators, people_needed


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
            column("held against", lambda check: check.name),
            column("answer", lambda check: VERDICTS[check.verdict]),
            column("kept empty to", lambda check: Quantity(check.reach, "span")),
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
    inside = (
        "; only the machine and those on its platform stand inside"
        if lift.methods[0].platform
        else ""
    )
    found = facts_table(
        "weather",
        "Weather and ground",
        (
            (
                "Begin hoisting",
                phrase("only with gusts below {gust}", gust=speed(stops.begin_hoist_below)),
            ),
            (
                "Lower the load",
                phrase("at {gust}; between the two begin nothing, bolt or lower what hangs",
                       gust=speed(stops.stop_hoist_at)),
            ),
            ("Nobody up", phrase("at {gust}" + climbing, gust=speed(stops.no_climb_at))),
            *_own_limit(lift.methods[0]),
            (
                "Thunder",
                f"everybody down; {stops.wait_after_thunder / 60:.0f} min without any before "
                "anybody goes up",
            ),
            (
                "Kept empty",
                phrase("{:span} around {}, roped off", lift.exclusion_radius, lift.way.middle),
            ),
            (
                "Nobody at all",
                phrase("{radius:span} around {middle} while people work above" + inside,
                       middle=lift.way.middle, radius=lift.dropped_tool_radius),
            ),
        ),
    )  # fmt: skip
    basis = phrase(
        "Wind limits: common practice, on the careful side. A United States Army signal course "
        "puts up no mast above {army}. A machine's own limit and local rules come first.",
        army=speed(ARMY_LIMIT),
    )
    return replace(found, basis=basis)


def _own_limit(best: MethodChoice) -> Iterator[tuple[Value, Value]]:
    """Give the wind limit of the machine, which goes first when it is lower."""
    if best.way not in {"crane", "truck"}:
        return
    told: Value = "not entered: ask its hirer; the lower limit counts"
    if best.wind_limit is not None:
        told = phrase("{:speed}, as entered; the lower limit counts", best.wind_limit)
    yield "Machine stops", told


def falls_table(falls: FallFigures) -> Table[Fact]:
    """Give the figures for climbers."""
    strength = Quantity(falls.anchor_strength, "large force")
    return facts_table(
        "falls",
        "For trained climbers",
        (
            ("Anchor", phrase("{strength} for each person tied to it", strength=strength)),
            ("Free fall", phrase("at most {fall:span}", fall=falls.free_fall)),
            (
                "Arrest",
                phrase("at most {force:large force} within {way:span}",
                       force=falls.arrest_force,
                       way=falls.deceleration),
            ),
            ("Clear below the anchor", Quantity(falls.clearance_below, "span")),
        ),
    )  # fmt: skip


def crew(lift: LiftPlan) -> Table[CrewRole]:
    """Name the roles, with a line for who takes each."""
    best, there = lift.methods[0], sum(role.people for role in lift.crew)
    hired = operators(best)
    own = f"{there - hired} of your own"
    if hired:
        own += " and 1 hired operator" if hired == 1 else f" and {hired} hired operators"
    return Table(
        name="crew",
        caption="People",
        columns=(
            column("role", lambda role: role.role),
            column("people", lambda role: role.people),
            column("stands", lambda role: role.place),
            column("task", lambda role: role.task),
            column("name", lambda role: ""),
        ),
        items=lift.crew,
        note=f"{there} people: {own}. Needed at least: {people_needed(best)}.",
        sentences=True,
        folded=True,
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
        caption="Hold points: work stops" if name != "holds-down" else "Hold points of taking down",
        columns=(
            column("hold", lambda point: point.name),
            column("go-ahead by", lambda point: point.who),
            column("until", lambda point: "; ".join(point.checks)),
            *ticked,
        ),
        items=points,
        sentences=True,
    )
