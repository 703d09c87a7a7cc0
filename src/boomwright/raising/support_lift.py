"""Raising the support itself: a pole in one piece by a machine, or whoever says that it stands.

Common practice {common-practice-raising}; a lattice tower goes up by its maker's instructions.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase, settled
from boomwright.base.records import dataclass
from boomwright.raising.answers import CRANE_OPERATOR, POLE_WHOLE, SUPPORT_STANDS, Answered
from boomwright.raising.job import Crane, Raising, SupportLift
from boomwright.raising.machines import CRANE_SHARE
from boomwright.raising.rigging import breaking_strength_needed, weight
from boomwright.raising.sheets import HoldPoint
from boomwright.raising.tilt_statics import weight_moment
from boomwright.raising.tilting import weigh_bending
from boomwright.raising.way import midway
from boomwright.raising.weather import Answer, WeatherStops
from boomwright.raising.weighing import Weighing
from boomwright.raising.wording import mass, span, speed

#: sling above the centre of gravity, over the length: it hangs upright and bends least
#: [-] {common-practice-raising}
SLING_ABOVE: Final = 0.10
#: foot over the ground while it swings in, and sling with shackle to the hook [m]
#: {common-practice-raising}
CLEAR_OF_GROUND: Final = 0.5
SLING_RISE: Final = 1.0

#: what to do with the foot: set in its hole, or bolted down
_LAID: Final = (
    "lay the pole down, foot at its {foot}; fit rings, guys and all that its top carries; tie "
    "feed line and rotator lead along it, ends booted"
)
_HOLE: Final = (
    "drain gravel in the hole, on it a steel plate or slab, level, for the pole to stand on; its "
    "end stays open"
)
_SET: Final = (
    "foot on its plate, wedged on all sides; only now people at the anchors, the hook still "
    "holding",
    "upper guys, then lower guys, hand tight, by turns; plumb in two directions",
    "hook off; foot poured at once, and left for the time of the concrete",
)
_BOLTED: Final = (
    "foot on its bolts, nuts on; only now people at the anchors, the hook still holding",
    "upper guys, then lower guys, hand tight, by turns; plumb in two directions",
    "hook off; nuts tightened",
)


def _sequence(*, buried: bool) -> tuple[str, ...]:
    """How work goes from the hole to the last guy."""
    return (
        "anchors and their concrete at least 7 days old; permission in hand",
        *((_HOLE,) if buried else ()),
        _LAID.format(foot="hole" if buried else "bolts"),
        "mark lines overhead and in the ground; rope off the ground kept empty",
        "sling choked at its mark, stopped against sliding, with a line that lets it off from "
        "below",
        "lift with the hold points, two tag lines at the foot",
        *(_SET if buried else _BOLTED),
    )


_BEFORE: Final = HoldPoint(
    name="before the pole is lifted",
    checks=(
        "looked for power lines once more, all round at twice its length",
        "machine level, outriggers out, chart read at this radius, sling marked",
        "wind read and below the limit, no thunder for 30 minutes, ground kept empty",
        "guys coiled apart, a person named for each upper anchor",
    ),
    reports=("spotter", "crane operator"),
)
_HOLDS: Final = (
    _BEFORE,
    HoldPoint(
        name="pole a hand's breadth up",
        checks=("sling holds and does not slide", "pole bends evenly, joints closed"),
        reports=("crane operator",),
    ),
    HoldPoint(
        name="before anybody goes to an anchor",
        checks=("foot stands where it stays and cannot walk", "pole plumb, hook holding"),
        reports=("crane operator",),
    ),
    HoldPoint(
        name="before the hook is let off",
        checks=("upper and lower guys fast at every anchor", "plumb in two directions",
                "sling comes off from below or from a platform: nobody climbs the pole"),
        reports=("everybody at an anchor",),
    ),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportRaising:
    """How the support gets up, or who says that it stands."""

    verdict: Answer  #: ``go`` once it stands or its lift fits as entered
    reasons: tuple[Value, ...]  #: what decides; empty for a go
    answers: tuple[Answered, ...] = ()  #: questions that it hangs on
    facts: tuple[tuple[str, Value], ...] = ()  #: weights and heights of the lift; none without one
    sequence: tuple[str, ...] = ()  #: order of the lift; none without one
    hold_points: tuple[HoldPoint, ...] = ()  #: where it stops


def raise_support(job: Raising) -> SupportRaising:
    """Weigh how the support gets up before the beam does."""
    weighing, said = Weighing(), job.support_stands
    if not job.stands or job.tilt is not None:
        # Nothing stands, or tilting it is a way up of its own.
        return SupportRaising(verdict="go", reasons=())
    if said is not None and said.yes:
        weighing.ask(SUPPORT_STANDS, said)
        return SupportRaising(
            verdict=weighing.verdict, reasons=weighing.deciding, answers=tuple(weighing.answers)
        )
    lift = job.support_lift
    if lift is None:
        weighing.unanswered.append(
            settled(
                "by its maker's instructions and trained people; say when it stands",
                "raising", "support_stands",
            )
        )  # fmt: skip
        return SupportRaising(verdict=weighing.verdict, reasons=weighing.deciding)
    if lift.crane is None:
        weighing.unanswered.append(
            settled("no machine entered that raises the pole", "raising.support_crane")
        )
    return _by_crane(weighing, lift, job)


def _by_crane(weighing: Weighing, lift: SupportLift, job: Raising) -> SupportRaising:
    """Hold the machine against the pole in one piece."""
    whole = sum(part.mass for part in lift.parts)
    centre = weight_moment(lift.parts) / weight(mass=whole)
    sling = min(centre + SLING_ABOVE * lift.length, 0.9 * lift.length)
    hook = sling + CLEAR_OF_GROUND + SLING_RISE
    needs = breaking_strength_needed(static_load=weight(mass=whole))
    weighing.ask(POLE_WHOLE, lift.whole)
    if lift.unknown:
        weighing.unanswered += [f"{name} not entered" for name in lift.unknown]
    weigh_bending(weighing, lift.parts, line_at=sling, allowed=lift.allowed_moment)
    machine = lift.crane
    if machine is not None:
        weighing.ask(CRANE_OPERATOR, machine.operator)
        weighing.known(machine.wind_limit is not None, "ask at what gust the crane stops")
        rated = machine.capacity
        if weighing.known(rated is not None, "crane's rated load at this radius not read"):
            weighing.need(
                whole <= CRANE_SHARE * (rated or 0.0),
                phrase("{whole} is over {share} of the chart, {rated}", whole=mass(whole),
                       share=f"{CRANE_SHARE:.0%}", rated=mass(CRANE_SHARE * (rated or 0.0))),
            )  # fmt: skip
        weighing.least(
            has=machine.slings, needs=needs,
            unknown="sling of the pole without a marked strength",
            short="sling of the pole too weak",
        )  # fmt: skip
        weighing.need(
            machine.hook_height >= hook,
            phrase("hook reaches {has} and {hook} is needed", has=span(machine.hook_height),
                   hook=span(hook)),
        )  # fmt: skip
    top = max(lift.length, lift.top)
    facts: list[tuple[str, Value]] = [
        ("Lifted", phrase("{whole} in one piece, {long} long, {top} with what its top carries; "
                          "rings and guys on it", whole=mass(whole), long=span(lift.length),
                          top=span(top))),
        ("Balance, sling", phrase("{centre}; {sling} from its lower end", centre=span(centre),
                                  sling=span(sling))),
        ("Hook", phrase("at {hook} or more", hook=span(hook))),
    ]  # fmt: skip
    if machine is not None:
        facts += _place(machine, top, job)
    facts += _lines(weighing, lift, job, top)
    facts += [("Strength", note) for note in weighing.notes[:1]]
    return SupportRaising(
        verdict=weighing.verdict,
        reasons=weighing.deciding,
        answers=tuple(weighing.answers),
        facts=tuple(facts),
        sequence=_sequence(buried=lift.buried > 0.0),
        hold_points=_HOLDS,
    )


def _place(machine: Crane, top: float, job: Raising) -> Iterator[tuple[str, Value]]:
    """Where the crane stands, who stands where, and when it begins and stops."""
    guys = sorted(guy % math.tau for ring in job.guys for guy in ring.azimuths)
    bearing, out = machine.bearing, span(machine.radius)
    if bearing is None and guys:
        bearing = midway(guys, job.load.heading)
    if bearing is None:
        yield "Crane", phrase("{out} from the foot", out=out)
    else:
        yield "Crane", phrase("{out} from the foot, at {bearing} true", out=out,
                              bearing=Quantity(math.degrees(bearing) % 360.0, "angle"))  # fmt: skip
    anchors = max((ring.count for ring in job.guys), default=0)
    yield (
        "People",
        (
            "lift director, spotter, crane operator in the crane, 2 at tag lines"
            + (f", {anchors} for the anchors" if anchors else "")
        ),
    )
    yield (
        "Nobody at all",
        phrase(
            "{top} around the foot while the pole hangs free; tag lines are longer", top=span(top)
        ),
    )
    yield "Kept empty", phrase("{all} around the foot", all=span(top + machine.radius))
    stops = WeatherStops()
    own = math.inf if machine.wind_limit is None else machine.wind_limit
    yield "Wind", phrase(
        "lift only with gusts below {begin}; lay it down at {stop}",
        begin=speed(min(stops.begin_hoist_below, own)), stop=speed(min(stops.stop_hoist_at, own)),
    )  # fmt: skip


def _lines(
    weighing: Weighing, lift: SupportLift, job: Raising, top: float
) -> list[tuple[str, Value]]:
    """Hold every power line against the hanging and falling pole and the crane's arm."""
    found: list[tuple[str, Value]] = []
    for near in job.power_lines:
        away = math.hypot(near.distance, near.height)
        gaps = [away - top]
        if lift.crane is not None:
            arm = lift.crane
            # The machine's place may be on the line's side, and its arm may turn towards it.
            gaps += [away - math.hypot(arm.radius, arm.hook_height),
                     near.distance - 2.0 * arm.radius]  # fmt: skip
        gap, least = max(0.0, min(gaps)), near.required_clearance
        weighing.need(
            gap >= least,
            phrase("pole or crane comes within {gap} of the power line {name}: at least {least}",
                   gap=span(gap), name=near.name, least=span(least)),
        )  # fmt: skip
        found.append(
            (f"Power line {near.name}", phrase("{gap} at the nearest, at least {least}",
                                               gap=span(gap), least=span(least)))
        )  # fmt: skip
    return found
