"""Sheets for the pocket: cut list, places on the boom, the day of raising, one a page."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem
from boomwright.base.quantity import Value, listed, phrase, write
from boomwright.charts.blocks import TICK, Blanks, Block, Facts, Grid, Steps, Words
from boomwright.raising import CrewRole, HoldPoint, LiftPlan, SupportRaising
from boomwright.raising.sheets import LIFT_DIRECTOR, STOP_RULE
from boomwright.raising.standing import standing_radius
from boomwright.report.chapter import Chapter
from boomwright.report.wording import clean, first_upper
from boomwright.report.work.build import SAW_COLUMNS, Build, cut_grid, station_grid
from boomwright.report.work.wires import wire_grid

#: hand signals and roles stand in the book; the sheet of the day names who and how many
_CREW_COLUMNS = ("Role", "People", "Name")


def cut_sheet(build: Build, *, system: UnitSystem) -> Chapter:
    """Write the cut list of a beam for the saw."""
    return _sheet(
        f"Cut list: {build.beam.name}",
        *([Words(text=f"{build.stamp}.", tone="stamp")] if build.stamp else []),
        Words(
            text="Measure each piece from its inner end."
            if build.beam.bent
            else "Saw to these lengths; scribe the ring from the inner end.",
            tone="loud",
        ),
        _narrower(cut_grid(build, system), keep=SAW_COLUMNS),
    )


def boom_sheet(build: Build, *, system: UnitSystem) -> Chapter:
    """Write the places on the boom."""
    return _sheet(
        f"Places on the boom: {build.beam.name}",
        Words(text="Hook the tape over the rear end of the boom. Read every mark off it.",
              tone="loud"),
        _narrower(station_grid(build, system), keep=(0, 1, 3)),
        Blanks(labels=("Marked by", "Checked by", "Date")),
    )  # fmt: skip


def wire_sheet(build: Build, *, system: UnitSystem) -> Chapter:
    """Write the wires to cut, with the marks at their corners, one row a wire."""
    found = wire_grid(build.beam, build.parts, system=system)
    return _sheet(
        f"Wires: {build.beam.name}",
        Words(text="Lay each wire out straight. Measure from its middle, an upright one from its "
              "foot.", tone="loud"),
        _narrower(found, keep=(0, 2, 3, 4, 5)),
        Blanks(labels=("Cut and marked by", "Checked by", "Date")),
    )  # fmt: skip


def day_sheet(name: str, lift: LiftPlan, *, system: UnitSystem) -> Chapter:
    """Write the day of raising: go or not, weather, who, what in which order."""
    return _sheet(
        f"Day of raising: {name}",
        Words(text=_go(lift, system), tone="loud"),
        Facts(rows=_limits(lift, system)),
        Grid(
            columns=_CREW_COLUMNS,
            rows=tuple((first_upper(each.role), str(each.people), "") for each in lift.crew),
            align="lrl",
            shares=(2.4, 0.9, 3.0),
            large=True,
        ),
        Steps(title="Order of the day", items=lift.sequence),
        Words(text=lift.stop_rule, tone="loud"),
        Blanks(labels=("Emergency number", "Address for an ambulance", "Gate, map position",
                       "Owner of the power line", "Forecast read at", "Lift director")),
    )  # fmt: skip


def pole_sheets(support: SupportRaising, *, system: UnitSystem) -> tuple[Chapter, Chapter]:
    """Write the day on which the pole goes up: its figures, then its order with the holds."""
    holds = tuple((point.name, "; ".join(point.checks)) for point in support.hold_points)
    facts = tuple((label, write(value, system=system)) for label, value in support.facts)
    reasons = write(listed(support.reasons, between="; "), system=system)
    text = f"ASK: do not lift before this is settled: {reasons}."
    return (
        _sheet(
            "Raising the pole",
            *((Words(text=text, tone="loud"),) if support.reasons else ()),
            _pairs("Lift", "Figures", facts),
            _pairs("Hold", "Lift director says go on when", holds),
        ),
        _sheet(
            "Raising the pole: order of the day",
            Grid(columns=("Done", "Step"), rows=tuple((TICK, step) for step in support.sequence),
                 align="ll", shares=(0.4, 3.8), large=True),
            Words(text=STOP_RULE, tone="loud"),
        ),
    )  # fmt: skip


def role_sheets(name: str, lift: LiftPlan, *, system: UnitSystem) -> tuple[Chapter, ...]:
    """Write a sheet for each role to carry: its task, its own holds, the signals it obeys."""
    return tuple(_role_sheet(name, each, lift, system) for each in lift.crew)


def _role_sheet(name: str, crew: CrewRole, lift: LiftPlan, system: UnitSystem) -> Chapter:
    directs = crew.role == LIFT_DIRECTOR
    heard = frozenset(each.role for each in lift.crew if directs)
    holds = tuple(
        (point.name, _until(point, heard))
        for point in lift.hold_points
        if directs or crew.role in point.reports
    )
    says = "Say go on only when" if directs else "Tell the lift director when; wait for go on"
    signals = tuple((signal.word, signal.hands) for signal in lift.signals)
    return _sheet(
        f"{first_upper(crew.role)}: raising of {name}",
        Words(text=f"{first_upper(crew.task)}.", tone="loud"),
        Grid(
            columns=("Your place and the wind",),
            align="l",
            shares=(1.0,),
            large=True,
            rows=(
                (f"Stand {write(crew.place, system=system)}.",),
                (write(_wind(lift), system=system),),
            ),
        ),
        *((_pairs("Hold", says, holds),) if holds else ()),
        _pairs("Word", "Hands", signals),
        Words(text=lift.stop_rule, tone="loud"),
    )


def _wind(lift: LiftPlan) -> Value:
    """Limits of the wind for everybody who lifts or stands up there."""
    stops = lift.stops
    words = "Gusts: begin below {:speed}, lower at {:speed}, nobody up at {:speed}."
    return phrase(words, stops.begin_hoist_below, stops.stop_hoist_at, stops.no_climb_at)


def _until(point: HoldPoint, heard: frozenset[str]) -> str:
    """What a hold waits for.

    Args:
        heard: roles whose own sheets hold the list, for the lift director; none for others
    """
    if point.reports and heard.issuperset(point.reports):
        return f"{' and '.join(point.reports)} told you that their list holds"
    return "; ".join(point.checks)


def _pairs(first: str, second: str, rows: tuple[tuple[str, str], ...]) -> Grid:
    return Grid(columns=(first, second), rows=rows, align="ll", shares=(1.2, 3.0), large=True)


def _go(lift: LiftPlan, system: UnitSystem) -> str:
    if lift.verdict == "go":
        return "GO on the figures entered. People on the spot decide."
    word = "NO-GO" if lift.verdict == "no-go" else "ASK"
    open_ = write(listed(lift.reasons, between="; "), system=system)
    return f"{word}: do not lift before this is settled: {open_}."


def _limits(lift: LiftPlan, system: UnitSystem) -> tuple[tuple[str, str], ...]:
    stops = lift.stops
    told: tuple[tuple[str, Value], ...] = (
        ("Begin hoisting", phrase("gusts below {v:speed}", v=stops.begin_hoist_below)),
        ("Lower the load", phrase("at {v:speed}; between the two begin nothing, bolt or lower",
                                  v=stops.stop_hoist_at)),
        (
            "Nobody up",
            phrase("at {v:speed}; from thunder until {wait} min without any",
                   v=stops.no_climb_at,
                   wait=f"{stops.wait_after_thunder / 60:.0f}"),
        ),
        (
            "Load",
            phrase(
                "{v:mass}{rigging}",
                v=lift.job.load.mass,
                rigging="" if lift.job.load.hung else " with its rigging",
            ),
        ),
        *(
            [("Load goes up", phrase("{out:span} from the foot at {bearing:angle} true, boom along "
                                     "the arm",
                                     out=lift.way.out,
                                     bearing=math.degrees(lift.way.bearing) % 360.0))]
            if lift.way.bearing is not None
            else []
        ),
        *(
            (label, phrase("{v:span} " + words + lift.way.middle, v=radius))
            for label, words, radius in (
                ("Nobody at all", "around ", lift.dropped_tool_radius),
                ("People with a task", "or more from ", standing_radius(lift.methods[0], lift.job)),
                ("Kept empty", "around ", lift.exclusion_radius),
            )
        ),
    )  # fmt: skip
    return tuple((label, write(value, system=system)) for label, value in told)


def _narrower(grid: Grid, *, keep: tuple[int, ...]) -> Grid:
    """Keep the columns that the hand needs, in letters to be read at arm's length."""
    return Grid(
        columns=tuple(grid.columns[place] for place in keep),
        rows=tuple(
            row if len(row) == 1 else tuple(row[place] for place in keep) for row in grid.rows
        ),
        align="".join(grid.align[place] for place in keep),
        shares=tuple(grid.shares[place] for place in keep),
        large=True,
    )


def _sheet(title: str, *blocks: Block) -> Chapter:
    return Chapter(title=clean(title), blocks=blocks, place="pocket")
