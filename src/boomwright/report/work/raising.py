"""The raising sheet: who may, which method, what it carries, where nobody stands, when to stop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from boomwright.base import UnitSystem, both_quantities, quantity_text, readers_order
from boomwright.charts.blocks import (
    TICK,
    Blanks,
    Block,
    Facts,
    Grid,
    Heading,
    NewPage,
    SheetPicture,
    Steps,
    Words,
)
from boomwright.charts.lift_views import lift_ground_view, lift_side_view
from boomwright.charts.palette import Palette
from boomwright.raising import LiftPlan, MethodChoice, PickPlan, TiltState
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop_drawings import both_texts
from boomwright.report.wording import clean, first_upper, fixed, metres_and_feet

_WIDTH, _GROUND = 600.0, 520.0
_VERDICTS = {"go": "GO", "no-go": "NO-GO", "ask": "ASK"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisingPages:
    """What the raising sheet is written from, for one beam."""

    name: str  #: name of the beam
    gaps: tuple[str, ...]  #: what is missing before the lift can be planned, in words
    lift: LiftPlan | None  #: the lift plan; None while something is missing
    picks: PickPlan | None  #: where the bridle takes hold; None while not known
    matched: str  #: in words, where the expected SWR holds


def raising_blocks(
    pages: RaisingPages, *, palette: Palette, system: UnitSystem
) -> tuple[Block, ...]:
    """Write the raising sheet of one beam.

    Parameters
    ----------
    system
        unit system shown first
    """
    lift = pages.lift
    if lift is None:
        return (
            Words(text=f"The lift of {clean(pages.name)} cannot be planned yet.", tone="loud"),
            *(Words(text=f"Missing: {gap}.") for gap in pages.gaps),
        )
    return (
        Words(text=lift.trained_people, tone="loud"),
        *_verdict_blocks(lift, system),
        Facts(rows=_answers(lift, system)),
        Heading(text="Methods, best first"),
        _method_grid(lift.methods, system),
        *_best_blocks(lift.methods[0], system),
        *_question_blocks(lift),
        *_pick_blocks(pages.picks, system),
        NewPage(),
        Heading(text="The place"),
        SheetPicture(
            name="lift-side",
            svg=lift_side_view(lift, palette=palette, system=system, width=_WIDTH),
            caption="From the side, to scale. Power lines are drawn on one side whatever their "
            "bearing.",
            units=_WIDTH,
        ),
        SheetPicture(
            name="lift-ground",
            svg=lift_ground_view(lift, palette=palette, system=system, width=_GROUND),
            caption="The ground around the foot, north up, to scale. Boundary, ways and power "
            "lines are drawn all round, because the plan gives no bearing for them.",
            units=_GROUND,
        ),
        _line_grid(lift, system),
        NewPage(),
        *_people_blocks(lift),
        *_weather_blocks(lift, system),
        *_fall_blocks(lift, system),
        *_day_blocks(lift, pages.matched),
        *_taking_down_blocks(lift),
    )


def _quantity(value: float, *, unit: str, form: str, system: UnitSystem) -> str:
    """Write a value in both systems, the reader's own first."""
    return readers_order(both_quantities(value, unit=unit, form=form), system=system)


def _force(newtons: float, system: UnitSystem) -> str:
    if abs(newtons) < 1000.0:
        return _quantity(newtons, unit="N", form=".0f", system=system)
    metric = quantity_text(newtons / 1e3, unit="kN", system="metric", form=".2f")
    us = quantity_text(newtons, unit="N", system="us", form=".0f")
    return f"{metric} ({us})" if system == "metric" else f"{us} ({metric})"


def _moment(newton_metres: float, system: UnitSystem) -> str:
    both = both_quantities(newton_metres / 1e3, unit="kN m", form=".2f", us_form=".0f")
    return _below(readers_order(both, system=system))


def _speed(value: float, system: UnitSystem) -> str:
    return _quantity(value, unit="m/s", form=".1f", system=system)


def _verdict_blocks(lift: LiftPlan, system: UnitSystem) -> tuple[Block, ...]:
    """Say first whether it can go, and what stands against it."""
    if not lift.reasons:
        text = "GO on the figures entered: method, power lines, ground, forecast and support."
        return (Words(text=f"{text} People on the spot decide.", tone="loud"),)
    return (
        Words(
            text="NO-GO: not to be lifted as entered."
            if lift.verdict == "no-go"
            else "ASK: no go until these are answered.",
            tone="loud",
        ),
        *(
            Words(text=f"{first_upper(readers_order(clean(reason), system=system))}.")
            for reason in lift.reasons
        ),
    )


def _answers(lift: LiftPlan, system: UnitSystem) -> tuple[tuple[str, str], ...]:
    job = lift.job
    best = lift.methods[0]
    return (
        ("Best method", f"{best.name}: {_VERDICTS[best.verdict]}"),
        ("Weight", f"{_quantity(job.load.mass, unit='kg', form='.1f', system=system)}, to be "
         "weighed"),
        ("Clamp above ground", metres_and_feet(job.lift_height, system=system)),
        ("Top of the support", metres_and_feet(job.tower_height, system=system)),
        (
            "Turns within",
            f"{metres_and_feet(job.swing_radius, system=system)} of the rope",
        ),
        ("Weather as forecast", f"hoisting {_VERDICTS[lift.weather.hoist]}, climbing "
         f"{_VERDICTS[lift.weather.climb]}: {readers_order(lift.weather.reason, system=system)}"),
    )  # fmt: skip


def _method_grid(methods: Sequence[MethodChoice], system: UnitSystem) -> Grid:
    return Grid(
        columns=("Method", "Answer", "Why, and what it needs", "People up / down"),
        rows=tuple(
            (
                method.name,
                _VERDICTS[method.verdict],
                readers_order("; ".join(method.reasons), system=system) + ".",
                f"{method.people[0]} / {method.people[1]}",
            )
            for method in methods
        ),
        align="lllr",
        shares=(1.7, 0.9, 5.0, 1.2),
        note="GO means that the figures entered fit together. It does not say that the lift is "
        "without danger: people on the spot decide, and any of them may stop it.",
    )


def _best_blocks(best: MethodChoice, system: UnitSystem) -> tuple[Block, ...]:
    rows = [
        (
            force.name,
            _force(force.value, system),
            "–" if force.limit is None else _force(force.limit, system),
        )
        for force in best.forces
    ]
    top = best.tower_top
    if top.vertical or top.horizontal:
        rows += [
            ("top of the support, downwards", _force(top.vertical, system), "–"),
            ("top of the support, sideways", _force(top.horizontal, system), "–"),
        ]
    if not rows:
        return (
            Words(
                text=f"{first_upper(best.name)}: the machine carries the beam, so rope, blocks and "
                "the top of the support carry nothing of it. Its own chart and operator decide.",
            ),
        )
    loads = Grid(
        columns=(f"Loads, {best.name}", "Computed", "Limit"),
        rows=tuple(rows),
        align="lrr",
        shares=(3.0, 1.6, 1.6),
    )
    return (loads, _course_grid(best.course, system)) if best.course else (loads,)


def _course_grid(course: Sequence[TiltState], system: UnitSystem) -> Grid:
    """Forces from angle to angle while the support goes up."""
    return Grid(
        columns=("Support above level", "Turning effect", "Winch line", "Lifter", "Hinge, level",
                 "Hinge, down"),
        rows=tuple(
            (
                f"{math.degrees(state.angle):.0f}°",
                _moment(state.turning, system),
                *(
                    _below(_force(force, system))
                    for force in (state.winch_line, state.lifter, state.thrust, state.down)
                ),
            )
            for state in course
        ),
        align="rrrrrr",
        shares=(1.1, 1.5, 1.5, 1.5, 1.5, 1.5),
        note="Steady forces with wind at the hoisting limit; a lifter below 0 is pulled out of its "
        "foot. Near upright the winch line has no hold: the hold-back line must be tight before.",
    )  # fmt: skip


def _question_blocks(lift: LiftPlan) -> tuple[Block, ...]:
    """Show who answered what, and when; what nobody answered has a line to write on."""
    if not lift.answers:
        return ()
    words = {None: "ask", True: "yes", False: "no"}
    return (
        Grid(
            columns=("Question", "Answer", "Says", "On"),
            rows=tuple(
                (
                    first_upper(each.question.matter),
                    words[None if each.said is None else each.said.yes],
                    "" if each.said is None else clean(each.said.by),
                    "" if each.said is None else each.said.on,
                )
                for each in lift.answers
            ),
            align="llll",
            shares=(4.2, 0.8, 2.0, 1.2),
            caption="Asked, and answered by",
        ),
    )


def _pick_blocks(picks: PickPlan | None, system: UnitSystem) -> tuple[Block, ...]:
    if picks is None:
        return (
            Words(
                text="The balance point is not known: find it by lifting the beam a hand's breadth "
                "on one sling, mark it, and put the bridle evenly to either side of it.",
            ),
        )

    def tape(place: float) -> str:
        return " / ".join(both_texts(cut_length(place), system=system))

    leg = _force(max(picks.forces.left, picks.forces.right), system)
    pressed = _force(picks.forces.compression, system)
    return (
        Heading(text="Weight and picks"),
        Facts(
            rows=(
                ("Balance point", f"{tape(picks.balance)} from the rear end of the boom; check it "
                 "on one sling"),
                ("Bridle takes hold at", f"{tape(picks.rear)} and {tape(picks.front)}"),
                ("Hook above the boom", tape(picks.rise)),
                ("Each leg carries", f"{leg}; breaking strength at least "
                 f"{_force(picks.least_strength, system)}"),
                ("Boom between the picks", f"pressed with {pressed}"),
            )
        ),
    )  # fmt: skip


def _two_lines(length: float, system: UnitSystem) -> str:
    """Put the second unit below the first, for a narrow cell."""
    return _below(metres_and_feet(length, system=system))


def _below(text: str) -> str:
    """Put what stands in brackets on a line of its own."""
    return text.replace(" (", "\n").removesuffix(")")


def _line_grid(lift: LiftPlan, system: UnitSystem) -> Block:
    if not lift.power_lines:
        return Words(
            text="Power lines: the plan says that somebody has looked and found none. Look again "
            "from the foot of the support on the day; treat every line as live.",
            tone="loud",
        )
    return Grid(
        columns=("Power line", "Answer", "Nearest it can come", "Least allowed", "Why"),
        rows=tuple(
            (
                clean(check.name),
                _VERDICTS[check.verdict],
                _two_lines(check.gap, system) if check.required else "–",
                _two_lines(check.required, system) if check.required else "–",
                readers_order(check.reason, system=system),
            )
            for check in lift.power_lines
        ),
        align="llrrl",
        shares=(1.5, 0.9, 1.7, 1.7, 3.2),
        note="Treat every line as live. Ask its owner before work begins whenever one is near.",
    )


def _ground_grid(lift: LiftPlan, system: UnitSystem) -> Block:
    return Grid(
        columns=("Ground kept empty", "Answer", "Reaches", "Begins at", "What was found"),
        rows=tuple(
            (
                check.name,
                _VERDICTS[check.verdict],
                _two_lines(check.reach, system),
                "not given" if check.distance is None else _two_lines(check.distance, system),
                readers_order(check.reason, system=system),
            )
            for check in lift.ground
        ),
        align="llrrl",
        shares=(1.5, 0.9, 1.7, 1.7, 3.2),
    )


def _people_blocks(lift: LiftPlan) -> tuple[Block, ...]:
    return (
        Heading(text="People and signals"),
        Grid(
            columns=("Role", "People", "Task", "Name"),
            rows=tuple((role.role, str(role.people), role.task, "") for role in lift.crew),
            align="lrll",
            shares=(1.5, 0.8, 4.0, 2.2),
            large=True,
        ),
        Grid(
            columns=("Word", "Hands"),
            rows=tuple((signal.word, signal.hands) for signal in lift.signals),
            align="ll",
            shares=(1.4, 5.0),
            large=True,
        ),
        Words(text=lift.stop_rule, tone="loud"),
    )


def _weather_blocks(lift: LiftPlan, system: UnitSystem) -> tuple[Block, ...]:
    stops = lift.stops
    begin = _speed(stops.begin_hoist_below, system)
    nobody = _speed(stops.no_climb_at, system)
    climbing = ", on wet or iced steps, in the dark" if lift.falls else ""
    return (
        Heading(text="Weather and ground"),
        Facts(
            rows=(
                ("Begin hoisting", f"only with gusts below {begin}"),
                ("Lower the load", f"at {_speed(stops.stop_hoist_at, system)}"),
                ("Nobody up", f"at {nobody}{climbing}"),
                (
                    "Thunder",
                    f"everybody down; {stops.wait_after_thunder / 60:.0f} min without any before "
                    "anybody goes up",
                ),
                ("Kept empty", f"{metres_and_feet(lift.exclusion_radius, system=system)} around "
                 "the foot, roped off"),
                ("Nobody at all", f"{metres_and_feet(lift.dropped_tool_radius, system=system)} "
                 "around the foot while people work above"),
            )
        ),
        _ground_grid(lift, system),
    )  # fmt: skip


def _fall_blocks(lift: LiftPlan, system: UnitSystem) -> tuple[Block, ...]:
    falls = lift.falls
    if falls is None:
        return ()
    return (
        Heading(text="For trained climbers"),
        Facts(
            rows=(
                ("Anchor", f"{_force(falls.anchor_strength, system)} for each person tied to it"),
                ("Free fall", f"at most {metres_and_feet(falls.free_fall, system=system)}"),
                ("Arrest", f"at most {_force(falls.arrest_force, system)} within "
                 f"{metres_and_feet(falls.deceleration, system=system)}"),
                ("Clear below the anchor", metres_and_feet(falls.clearance_below, system=system)),
            )
        ),
        Words(
            text="Figures of the rules for employers in one country; local rules come first. "
            "Nobody learns climbing from a sheet: whoever is not trained gets someone who is.",
            tone="quiet",
        ),
    )  # fmt: skip


def _taking_down_blocks(lift: LiftPlan) -> tuple[Block, ...]:
    """Write the sheet of the day on which it comes down."""
    down = lift.taking_down
    order = "; ".join(clean(name) for name in down.order)
    return (
        NewPage(),
        Heading(text="Taking it down again"),
        Words(
            text=f"What was lifted last comes first: {order}. Plan that day anew: gear, people, "
            "ground and weather are looked at as for the lift, and rust is new.",
        ),
        Steps(title="Looked at first, from the ground", items=down.look_at),
        Steps(title="Order of the day", items=down.sequence),
        Grid(
            columns=("Hold: work stops", "Until", "Go on, says", ""),
            rows=tuple(
                (point.name, "; ".join(point.checks), point.who, TICK) for point in down.hold_points
            ),
            align="llll",
            shares=(2.2, 5.0, 1.7, 0.5),
        ),
        Blanks(labels=("Lifted on", "Taken down on", "Weighed", "Lift director")),
    )


def _day_blocks(lift: LiftPlan, matched: str) -> tuple[Block, ...]:
    check = lift.swr_check
    blocks: list[Block] = [NewPage(), Heading(text="The day")]
    if check is not None:
        blocks += [
            Heading(text="SWR on stands, before the lift", level=3),
            Words(
                text=f"Computed clear of the ground, {matched}: SWR {fixed(check.swr, 2)} at "
                f"{fixed(check.frequency / 1e6, 3)} MHz. {check.text}",
            ),
            Blanks(labels=("Dip at, MHz", "SWR there", "Measured by")),
        ]
    blocks.append(Steps(title="Order of the day", items=lift.sequence))
    blocks += [
        Steps(title=f"Hold: {point.name} (go on: {point.who})", items=point.checks)
        for point in lift.hold_points
    ]
    blocks.append(Steps(title="Emergency: written down and ready", items=lift.emergency))
    blocks.append(
        Blanks(
            labels=("Address for an ambulance", "Map position of the gate", "Nearest hospital",
                    "Owner of the power line, telephone", "Rescuer", "Lift director")
        )
    )  # fmt: skip
    return tuple(blocks)
