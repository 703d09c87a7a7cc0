"""The ways up: each with its verdict, its reasons, and what the best one asks of the gear."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any, Final

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.raising import Answered, Force, LiftPlan, MethodChoice, PickPlan, TiltState
from boomwright.raising.rigging import breaking_strength_needed, weight
from boomwright.raising.standing import tag_line
from boomwright.report.model import Fact, Table, column, facts_table

VERDICTS: Final = {"go": "GO", "no-go": "NO-GO", "ask": "ASK"}


def methods(lift: LiftPlan) -> Table[MethodChoice]:
    """List the ways up, best first."""
    return Table(
        name="methods",
        caption="Ways up, best first",
        columns=(
            column("way up", lambda one: one.name, key="name"),
            column("answer", lambda one: VERDICTS[lift.answer(one)]),
            column("why", lambda one: _why(lift, one), key="reasons"),
            column("people needed", lambda one: people_needed(one)),
        ),
        items=lift.methods,
        note="GO means that the figures entered fit together. It does not say that the lift is "
        "without danger: people on the spot decide, and any of them may stop it.",
        sentences=True,
    )


def _why(lift: LiftPlan, one: MethodChoice) -> Value:
    """Why a way up has its answer; what stands against every way is said before the table."""
    fits = one.verdict == "go" and lift.verdict != "go"
    first = ("fits as entered; what is said above stands against it",) if fits else ()
    return listed((*first, *one.reasons), between="; ")


def entered_methods(lift: LiftPlan) -> Table[MethodChoice]:
    """List the ways up whose gear is entered, for the sheet of the day; name the others."""
    table, best = methods(lift), lift.methods[0]
    kept = tuple(one for one in lift.methods if one.planned or one is best)
    left = ", ".join(one.name for one in lift.methods if one not in kept)
    note = f"{table.note} No gear entered to lift the beam by: {left}." if left else table.note
    return replace(table, items=kept, note=note)


def operators(best: MethodChoice) -> int:
    """People that come with the machines, beside the crew."""
    return (best.way == "crane") + best.platform


def people_needed(best: MethodChoice) -> str:
    """Say how many people a way up takes at least, and where."""
    climbers, ground = best.people
    hired = operators(best)
    told = [f"{ground - best.platform} on the ground"]
    if best.platform:
        told.append("1 on the platform beside its operator")
    if climbers:
        told.insert(0, f"{climbers} climbers")
    if hired:
        told.append("1 hired operator" if hired == 1 else f"{hired} hired operators")
    return ", ".join(told)


def forces(best: MethodChoice) -> Table[Force]:
    """List what the best way up asks of rope, blocks and the top of the support."""

    def limit(force: Force) -> Value:
        return "not entered" if force.limit is None else Quantity(force.limit, "load")

    top = best.tower_top
    on_top = (("downwards", top.vertical), ("sideways", top.horizontal))
    items = [
        *best.forces,
        *(
            Force(name=f"top of the support, {way}", value=value)
            for way, value in on_top
            if top.vertical or top.horizontal
        ),
    ]
    return Table(
        name="forces",
        caption=f"Forces, {best.name}",
        columns=(
            column("where", lambda force: force.name, key="name"),
            column("computed", lambda force: Quantity(force.value, "load"), key="value_n"),
            column("limit", limit),
        ),
        items=items,
    )


def course(best: MethodChoice) -> Table[TiltState]:
    """List the forces from angle to angle while the support goes up."""
    return Table(
        name="course",
        caption="Forces while the support goes up",
        columns=(
            column("support above level", lambda at: math.degrees(at.angle), kind="whole angle",
                   key="angle_deg"),
            column("turning effect", lambda at: at.turning, kind="large moment",
                   key="turning_n_m"),
            column("winch line", lambda at: at.winch_line, kind="load", key="winch_line_n"),
            column("lifter", lambda at: at.lifter, kind="load", key="lifter_n"),
            column("hinge, level", lambda at: at.thrust, kind="load", key="hinge_thrust_n"),
            column("hinge, down", lambda at: at.down, kind="load", key="hinge_down_n"),
        ),
        items=best.course,
        note="Steady forces with wind at the hoisting limit; a lifter below 0 is pulled out of its "
        "foot. Near upright the winch line has no hold: the hold-back line must be tight before.",
        folded=True,
    )  # fmt: skip


def questions(lift: LiftPlan) -> Table[Answered]:
    """Show who answered what, and when."""
    words = {None: "ask", True: "yes", False: "no"}
    return Table(
        name="questions",
        caption="Asked, and answered by",
        columns=(
            column("question", lambda each: each.question.matter),
            column("answer", lambda each: words[None if each.said is None else each.said.yes]),
            column("says", lambda each: "" if each.said is None else each.said.by),
            column("on", lambda each: "" if each.said is None else each.said.on),
        ),
        items=lift.answers,
        sentences=True,
        folded=True,
    )


def _rigging(lift: LiftPlan) -> tuple[str, Value]:
    """Slings, shackles and tag lines that the lift takes, with what they must bear."""
    heavy, best = weight(mass=lift.job.load.mass), lift.methods[0]
    slings = "the bridle and a safety sling" if best.hoists else "two slings and a safety sling"
    return "Rigging", phrase(
        "{slings}, each {least:load} or more with its shackle; two tag lines of {long:span} or "
        "more",
        slings=slings, least=breaking_strength_needed(static_load=heavy),
        long=tag_line(best, lift.job),
    )  # fmt: skip


def picks_table(picks: PickPlan, lift: LiftPlan) -> Table[Fact]:
    """Say where the balance point is, what it is rigged with and, where it hangs, the bridle."""
    best = lift.methods[0]

    def tape(place: float) -> Quantity:
        return Quantity(place, "sawn length")

    if not best.hoists:
        words = "{place} from the rear end of the boom; mark it, and check it by lifting there"
        told = phrase(words, place=tape(picks.balance))
        rigged = () if best.way == "tilt" else (_rigging(lift),)
        return facts_table("picks", "Balance", (("Balance point", told), *rigged))
    leg = max(picks.forces.left, picks.forces.right)
    return facts_table(
        "picks",
        "Bridle",
        (
            (
                "Balance point",
                phrase(
                    "{place} from the rear end of the boom; check it on one sling",
                    place=tape(picks.balance),
                ),
            ),
            (
                "Bridle takes hold at",
                phrase("{rear} and {front}", rear=tape(picks.rear), front=tape(picks.front)),
            ),
            ("Hook above the boom", tape(picks.rise)),
            (
                "Each leg carries",
                phrase("{:load}; breaking strength at least {:load}", leg, picks.least_strength),
            ),
            ("Push along the boom between the picks", Quantity(picks.forces.compression, "load")),
            _rigging(lift),
        ),
    )


def way_up_tables(lift: LiftPlan, picks: PickPlan | None) -> list[Table[Any]]:
    """Gather what is said of the ways up."""
    best = lift.methods[0]
    bridle = [] if picks is None else [picks_table(picks, lift)]
    return [methods(lift), forces(best), course(best), questions(lift), *bridle]
