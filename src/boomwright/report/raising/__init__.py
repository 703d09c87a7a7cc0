"""What there is to say of the day on which a beam goes up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.charts.blocks import Blanks, Heading, NewPage, Steps, Words
from boomwright.charts.lift_views import lift_ground_view, lift_side_view
from boomwright.raising import LiftPlan, MethodChoice, Raising
from boomwright.raising.machines import PLATFORM_CREW, floor_needed
from boomwright.report.model import (
    Fact,
    Part,
    Picture,
    Report,
    Said,
    Table,
    drawing,
    fact,
    facts_table,
)
from boomwright.report.raising.methods import (
    VERDICTS,
    course,
    entered_methods,
    forces,
    methods,
    picks_table,
    questions,
    way_up_tables,
)
from boomwright.report.raising.place import (
    crew,
    falls_table,
    ground,
    holds,
    power_lines,
    signals,
    weather,
)
from boomwright.report.wording import clean, first_upper
from boomwright.structure.checks.boom import sag_told
from boomwright.study.raising import BeamLift, RaisingResult

#: codes of notices that stand in the answer: why a lift is not a go
SAID_IN_THE_ANSWER: Final = frozenset(
    f"raising.{code}" for code in ("no-method", "power-line", "ground", "weather", "structure")
)


#: what a forecast is worth; the one GO belongs to the whole lift
_FORECAST: Final = {"go": "within the limit", "no-go": "over the limit", "ask": "not known"}


def raising_report(result: RaisingResult, *, number: int) -> Report:
    """Say how a beam gets up, and what stands against it."""
    each = result.lifts[number]
    lift = each.lift
    tables: list[Table[Any]] = []
    if lift is not None:
        tables = [
            *way_up_tables(lift, each.picks),
            power_lines(lift),
            ground(lift),
            weather(lift),
            crew(lift),
            signals(lift),
            *([] if lift.falls is None else [falls_table(lift.falls)]),
            holds(lift.hold_points),
        ]
    return Report(
        subject="raising",
        title=f"Raising of {each.beam.name}",
        answer=_answer(result, each),
        pictures=() if lift is None else _pictures(lift),
        tables=tuple(table for table in tables if table.items),
        brief=() if lift is None else _brief(lift),
        sheet=tuple(_sheet(each, result)),
        # What holds the beam up and is not within stands against every lift.
        findings=each.findings if lift is None else (*lift.carried, *each.findings),
        notices=result.notices,
    )


def _brief(lift: LiftPlan) -> tuple[Table[Any], ...]:
    """Who stands where, and the ways up without what each asks for."""
    ways = methods(lift)
    people = crew(lift)
    told = tuple(one for one in people.columns if one.head != "stands")
    people = replace(people, columns=told, note=None)
    return people, replace(ways, columns=(*ways.columns[:2], ways.columns[3]), sentences=False)


def _answer(result: RaisingResult, each: BeamLift) -> tuple[Fact, ...]:
    lift = each.lift
    heading = fact("Heading", _heading(result, each))
    gaps = [fact("Missing", listed(each.gaps, between="; "))] if each.gaps else []
    if lift is None:
        return (*gaps, heading)
    reasons = listed(lift.reasons, between="; ")
    label = "Stands against it" if lift.verdict == "no-go" else "To settle before a go"
    against = [fact(label, reasons)] if lift.reasons else []
    way, weight, *others, weather_ = _job(lift, result)
    return (*gaps, way, *against, weather_, weight, heading, *others)


def _job(lift: LiftPlan, result: RaisingResult) -> tuple[Fact, ...]:
    """The job in a few figures."""
    job, best = lift.job, lift.methods[0]
    climbing = f", {_FORECAST[lift.weather.climb]} for climbing" if best.people[0] else ""
    hoisting = f"{_FORECAST[lift.weather.hoist]} for hoisting{climbing}"
    forecast = phrase("{}; {}", hoisting, lift.weather.reason)
    rigging = "" if job.load.hung else " with its rigging"
    return (
        fact("Way up", f"{VERDICTS[lift.verdict]}: {best.name}"),
        fact("Weight", phrase("{:mass}{}, to be weighed", job.load.mass, rigging)),
        *_machine(lift),
        *_places(job),
        *_way(lift, result),
        fact("Forecast as entered", forecast),
    )


def _machine(lift: LiftPlan) -> Iterator[Fact]:
    """What the platform must reach and carry, as it is hired."""
    truck, best = lift.job.lift_truck, lift.methods[0]
    if truck is None or best.way != "truck":
        return
    words = "platform floor to {:span} or more at {:span} sideways, with {:mass} on it"
    load = PLATFORM_CREW + lift.job.load.mass
    needed = phrase(words, floor_needed(lift.job), truck.needed_outreach, load)
    yield fact("Lift truck to hire", needed)


def _way(lift: LiftPlan, result: RaisingResult) -> Iterator[Fact]:
    """Where the machine stands, and how the beam passes the guys."""
    way = lift.way
    if way.bearing is None:
        return
    told = phrase(
        "{machine} {out:span} from the foot at {bearing}; the beam goes up there, boom along the "
        "arm, rear end to the {support}",
        machine=lift.methods[0].name, out=way.out,
        bearing=_bearing(result, way.bearing), support=lift.job.support,
    )  # fmt: skip
    if way.gap is not None:
        told = phrase("{}, {:span} from the nearest guy", told, max(0.0, way.gap))
    if way.high > lift.job.lift_height:
        words = "{}; then in over the top of the mast, {} at {:span} or more, and down to the clamp"
        told = phrase(words, told, "hub" if lift.job.load.at_hub else "boom", way.high)
    if way.over is not None:
        told = phrase("{}, {:span} above the highest guy", told, way.over)
    yield fact("Way of the load", told)


def _places(job: Raising) -> tuple[Fact, ...]:
    top = fact("Top of the support", Quantity(job.tower_height, "span"))
    if job.load.hung:
        highest = fact("Highest point of the wire", Quantity(job.lift_height, "span"))
        return (highest, top) if job.stands else (highest,)
    return (
        fact("Clamp above ground", Quantity(job.lift_height, "span")),
        top,
        fact("Turning radius", Quantity(job.swing_radius, "span")),
    )


def _heading(result: RaisingResult, each: BeamLift) -> Value:
    found, told = result.declination, _bearing(result, each.beam.heading)
    if found is None:
        return told
    words = "{} (declination {:turn} east, {}, {})"
    return phrase(words, told, math.degrees(found.angle), found.model, found.day)


def _bearing(result: RaisingResult, angle: float) -> Value:
    """A bearing, true and by compass."""
    true, found = Quantity(math.degrees(angle) % 360.0, "angle"), result.declination
    if found is None:
        return phrase("{true} true, compass bearing not known", true=true)
    return phrase("{} true, {:angle} by compass", true, math.degrees(found.compass(angle)))


#: how guys are drawn from the side: square to the arm, or without one
_GUYS_DRAWN: Final = (
    " Seen square to the arm, which comes in between two guys.",
    " Guys are drawn left and right whatever their bearing.",
)


def _pictures(lift: LiftPlan) -> tuple[Picture, Picture]:
    guys = _GUYS_DRAWN[lift.way.bearing is None] if lift.job.guys else ""
    return (
        Picture(
            name="lift-side",
            title="The lift from the side",
            draw=drawing(lift_side_view, lift),
            caption="From the side, to scale. Power lines are drawn on one side whatever their "
            f"bearing.{guys}",
            behind=power_lines(lift),
        ),
        Picture(
            name="lift-ground",
            title="The ground around the foot",
            draw=drawing(lift_ground_view, lift),
            caption="The ground around the foot, north up, to scale. Boundary, ways and power "
            "lines have no bearing in the plan: circles show them all round, or the key their "
            "distance.",
            behind=ground(lift),
        ),
    )


def _sheet(each: BeamLift, result: RaisingResult) -> Iterator[Part]:
    """Put the sheet for the field in the order of the day."""
    lift = each.lift
    if lift is None:
        yield Said("The lift cannot be planned yet.", tone="loud")
        for gap in each.gaps:
            yield Said(phrase("Missing: {gap}.", gap=gap))
        return
    job = lift.job
    sag = sag_told(each.report.arms, above=max(0.0, job.mast_top - job.lift_height))
    side, above = _pictures(lift)
    yield Said(lift.trained_people, tone="loud")
    yield from _verdict(lift)
    yield facts_table("job", "", _job(lift, result))
    yield entered_methods(lift)
    best = lift.methods[0]
    yield from _best(best)
    if lift.answers:
        yield questions(lift)
    if lift.job.load.at_hub and best.hoists:
        yield Said(
            "It is picked up by its hub: one sling round the hub, tag lines at two spreaders "
            "opposite each other, never a hand or a hook at a wire."
        )
    elif each.picks is None and not (lift.job.load.hung or lift.job.load.at_hub):
        yield Said(
            "The balance point is not known: find it by lifting the beam a hand's breadth on one "
            "sling, mark it, and put the bridle evenly to either side of it."
        )
    elif each.picks is not None:
        yield picks_table(each.picks, lift)
    if sag is not None:
        yield Said(phrase("Before the lift: {sag}", sag=sag))
    yield from (Heading(text="The place"), side, above)
    if lift.power_lines:
        yield power_lines(lift)
    else:
        yield Said(
            "Power lines: the plan says that somebody has looked and found none. Look again from "
            f"the foot of the {lift.job.support} on the day; treat every line as live.",
            tone="loud",
        )
    yield from (crew(lift), signals(lift), Said(lift.stop_rule, tone="loud"))
    limits = weather(lift)
    # Paper sets facts without what they rest on.
    yield from (limits, Said(limits.basis, tone="quiet"), ground(lift))
    if lift.falls is not None:
        yield falls_table(lift.falls)
        yield Said(
            "Figures of the rules for employers in one country; local rules come first. Nobody "
            "learns climbing from a sheet: whoever is not trained gets someone who is.",
            tone="quiet",
        )
    yield from _day(lift)
    yield from _taking_down(lift)


def _verdict(lift: LiftPlan) -> Iterator[Part]:
    """Say first whether it can go, and what stands against it."""
    if not lift.reasons:
        text = "GO on the figures entered: method, power lines, ground, forecast and support."
        yield Said(f"{text} People on the spot decide.", tone="loud")
        return
    yield Said(
        "NO-GO: not to be lifted as entered."
        if lift.verdict == "no-go"
        else "ASK: do not lift before this is settled.",
        tone="loud",
    )
    for reason in lift.reasons:
        yield Said(phrase("{reason}.", reason=reason))


def _best(best: MethodChoice) -> Iterator[Part]:
    found = forces(best)
    if found.items:
        yield found
    else:
        yield Said(
            f"{first_upper(best.name)}: the machine carries the beam, so rope, blocks and the top "
            "of the support carry nothing of it. Its own chart and operator decide."
        )
    if best.course:
        yield course(best)


#: who brings down whoever is up, from a platform or not
_RESCUE: Final = ("Rescuer", "Lowers the platform from the ground")


def _day(lift: LiftPlan) -> Iterator[Part]:
    yield from (NewPage(), Heading(text="The day"))
    check = lift.swr_check
    if check is not None:
        yield Heading(text="SWR on stands, before the lift", level=3)
        words = "Computed at its height, at the match: SWR {:swr} at {:frequency}. {}"
        yield Said(phrase(words, check.swr, check.frequency, check.text))
        yield Said(check.trim)
        yield Blanks(labels=("Dip at, MHz", "SWR there", "Measured by"))
    yield Steps(title="Order of the day", items=lift.sequence)
    for point in lift.hold_points:
        yield Steps(title=f"Hold: {point.name} (go on: {point.who})", items=point.checks)
    yield Steps(title="Emergency: written down and ready", items=lift.emergency)
    yield Blanks(
        labels=("Address for an ambulance", "Map position of the gate", "Nearest hospital",
                "Owner of the power line, telephone", _RESCUE[lift.methods[0].platform],
                "Lift director")
    )  # fmt: skip


def _taking_down(lift: LiftPlan) -> Iterator[Part]:
    """Write the sheet of the day on which it comes down."""
    down = lift.taking_down
    order = "; ".join(clean(name) for name in down.order)
    yield from (NewPage(), Heading(text="Taking it down again"))
    yield Words(
        text=f"What was lifted last comes first: {order}. Plan that day anew: gear, people, "
        "ground and weather are looked at as for the lift, and look for rust."
    )
    yield Steps(title="Look at first, from the ground", items=down.look_at)
    yield Steps(title="Order of the day", items=down.sequence)
    yield holds(down.hold_points, name="holds-down", tick=True)
    yield Blanks(labels=("Lifted on", "Taken down on", "Weighed", "Lift director"))
