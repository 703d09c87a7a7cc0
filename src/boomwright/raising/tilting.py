"""Mount the beam with the support laid down about its hinge, and pull it up with a winch."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from boomwright.base.quantity import phrase, settled
from boomwright.base.records import dataclass, replace
from boomwright.raising.answers import HINGED, SIDE_GUYS
from boomwright.raising.job import Raising, Tilt
from boomwright.raising.methods import kept_strength
from boomwright.raising.rigging import breaking_strength_needed
from boomwright.raising.tackle import JERK, tackle_pull
from boomwright.raising.tilt_statics import (
    Part,
    TiltState,
    hold_back_pull,
    lying_moment,
    tilt_state,
    weight_moment,
)
from boomwright.raising.weighing import Force, MethodChoice, TowerTopLoad, Weighing, need_people
from boomwright.raising.wording import moment, span

#: up to here the winch line holds the support against wind; beyond it only the hold-back line
#: and the side guys do [rad] {common-practice-tackle}
HOLDS_TO: Final = math.radians(80.0)
#: upright support past its balance, for the hold-back line [rad] {common-practice-tackle}
LEAN: Final = math.radians(5.0)
#: angles that the sheet shows [rad]
SHOWN: Final = tuple(math.radians(angle) for angle in (0, 15, 30, 45, 60, 75, 80))

_PEOPLE: Final = (0, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The largest value of a force over all angles."""

    value: float  #: force [N]
    angle: float  #: where it has it [rad]

    @property
    def place(self) -> str:
        """Angle in words."""
        return f"worst at {math.degrees(self.angle):.0f}°"


def tilt_course(tilt: Tilt) -> tuple[TiltState, ...]:
    """Forces at every whole degree, with wind as far as the line holds, and calm up to upright."""
    still = tuple(replace(part, wind=0.0) for part in tilt.parts)
    angles = [math.radians(angle) for angle in range(91)]
    return (
        *(
            tilt_state(parts=tilt.parts, lifter=tilt.lifter, angle=angle)
            for angle in angles
            if angle <= HOLDS_TO
        ),
        *(tilt_state(parts=still, lifter=tilt.lifter, angle=angle) for angle in angles),
    )


def worst_of(states: tuple[TiltState, ...], force: Callable[[TiltState], float]) -> Worst:
    """Find the largest value of a force and its angle."""
    found = max(states, key=force)
    return Worst(value=force(found), angle=found.angle)


def _winch(weighing: Weighing, tilt: Tilt, line: Worst) -> list[Force]:
    """Winch, its rope and its anchor."""
    pull = line.value
    if tilt.winch_parts > 1:
        pull = tackle_pull(load=line.value, parts=tilt.winch_parts)
    knotted = tilt.ends == "knot"
    rows = (
        ("winch, pull", JERK * pull, tilt.winch, "winch without a marked pull", "winch too weak"),
        (
            "winch rope, least breaking strength",
            breaking_strength_needed(static_load=pull),
            kept_strength(tilt.rope, knotted=knotted),
            "winch rope without a marked strength",
            "winch rope too weak" + (", a knot counting for half" if knotted else ""),
        ),
        (
            "ground anchor of the winch line",
            JERK * line.value,
            tilt.anchor,
            "ground anchor of the winch line: nobody knows what it may take",
            "ground anchor of the winch line too weak",
        ),
    )
    return [_held(weighing, *row, where=line.place) for row in rows]


def _held(
    weighing: Weighing,
    name: str,
    needs: float,
    has: float | None,
    unknown: str,
    short: str,
    *,
    where: str = "",
) -> Force:
    """Hold one strength, and tell it.

    Args:
        needs: what it must be at least [N]
        has: what was entered; None when it was not [N]
    """
    weighing.least(has=has, needs=needs, unknown=unknown, short=short)
    return Force(name=f"{name} ({where})" if where else name, value=needs, limit=has)


def _lifter(weighing: Weighing, tilt: Tilt, states: tuple[TiltState, ...]) -> list[Force]:
    """Gin pole with its line, or the sheave and what carries it; then the hinge."""
    load = worst_of(states, lambda state: abs(state.lifter))
    hinge = worst_of(states, lambda state: state.hinge)
    pole = tilt.lifter.kind == "gin pole"
    name = "gin pole" if pole else "sheave and what carries it"
    pulled = [state.angle for state in states if state.lifter < 0.0]
    if pulled:
        weighing.notes.append(
            f"from {math.degrees(min(pulled)):.0f}° up the lines pull the gin pole out of its "
            "foot: pin it to the hinge"
        )
    found = [
        _held(
            weighing,
            name,
            JERK * load.value,
            tilt.lifter_rating,
            f"{name}: nobody knows what it may take",
            f"{name} too weak",
            where=load.place,
        ),
        _held(
            weighing,
            "hinge",
            JERK * hinge.value,
            tilt.hinge_rating,
            "hinge: nobody knows what it may take",
            "hinge too weak",
            where=hinge.place,
        ),
    ]
    if pole:
        line = worst_of(states, lambda state: state.lift_line)
        knotted = tilt.ends == "knot"
        found.append(
            _held(
                weighing,
                "lift line, least breaking strength",
                breaking_strength_needed(static_load=line.value),
                kept_strength(tilt.lift_line, knotted=knotted),
                "line from gin pole to support without a marked strength",
                "lift line too weak" + (", a knot counting for half" if knotted else ""),
                where=line.place,
            )
        )
    return found


def weigh_bending(
    weighing: Weighing, parts: Sequence[Part], *, line_at: float, allowed: float | None
) -> None:
    """Hold the bending of the lying support against what it may take.

    Args:
        line_at: where line or sling takes hold, from its foot [m]
        allowed: what it may take; None when neither maker nor steel tells [N m]
    """
    bent, place = lying_moment(parts=parts, line_at=line_at)
    needs = JERK * bent
    told = phrase(
        "{needs} at {place} from its foot as it leaves the ground",
        needs=moment(needs),
        place=span(place),
    )
    if weighing.known(
        allowed is not None,
        phrase("bending of the lying support, {told}: ask its maker what it may take", told=told),
    ):
        weighing.need(
            needs <= (allowed or 0.0),
            phrase(
                "bending of the lying support, {told}, is over {moment}",
                told=told,
                moment=moment(allowed or 0.0),
            ),
        )
        weighing.notes.append(
            phrase(
                "bending of the lying support: {told}; limit {moment}",
                told=told,
                moment=moment(allowed or 0.0),
            )
        )


def _back_line(weighing: Weighing, tilt: Tilt) -> list[Force]:
    """Hold-back line and its anchor, upright in wind from behind and leaning over."""
    line = tilt.back_line
    if line is None:
        weighing.unanswered.append(
            "no hold-back line entered: near upright the winch line has no hold"
        )
        return []
    turning = sum(part.wind * part.at for part in tilt.parts)
    turning += weight_moment(tilt.parts) * math.sin(LEAN)
    pull = hold_back_pull(turning=turning, line_at=line.line_at, anchor=line.distance)
    knotted = tilt.ends == "knot"
    return [
        _held(
            weighing,
            "hold-back line, least breaking strength",
            breaking_strength_needed(static_load=pull),
            kept_strength(line.breaking_strength, knotted=knotted),
            "hold-back line without a marked strength",
            "hold-back line too weak" + (", a knot counting for half" if knotted else ""),
            where="worst at 90°",
        ),
        _held(
            weighing,
            "anchor of the hold-back line",
            JERK * pull,
            line.anchor,
            "anchor of the hold-back line: nobody knows what it may take",
            "anchor of the hold-back line too weak",
            where="worst at 90°",
        ),
    ]


def fall_reach(job: Raising, tilt: Tilt) -> float:
    """How far from the hinge the falling support and its beam can strike [m]."""
    far = max(part.at + part.length / 2.0 for part in tilt.parts)
    return math.hypot(far, job.swing_radius)


def _operator(weighing: Weighing, job: Raising, tilt: Tilt) -> None:
    reach, out = fall_reach(job, tilt), tilt.operator_out
    if weighing.known(out is not None, "how far from the hinge the winch is worked"):
        weighing.need(
            (out or 0.0) >= reach,
            phrase(
                "the winch is worked {span} from the hinge, and what falls reaches "
                "{reach}: lead the rope further out through a block",
                span=span(out or 0.0),
                reach=span(reach),
            ),
        )


def tilt_over(job: Raising) -> MethodChoice:
    """Lay the support down about its hinge, mount the beam, and pull it up."""
    weighing, tilt = Weighing(), job.tilt
    forces: list[Force] = []
    course: tuple[TiltState, ...] = ()
    if tilt is None:
        weighing.against.append(
            settled("no gear for laying the support over entered", "raising.tilt")
        )
    else:
        weighing.need(
            not job.foot_set, "the foot of the support is set in its footing and cannot tilt"
        )
        need_people(weighing, job, climbers=_PEOPLE[0], ground=_PEOPLE[1])
        weighing.ask(HINGED, tilt.hinged)
        weighing.ask(SIDE_GUYS, tilt.side_guys)
        weighing.unanswered += [f"{name} not entered" for name in tilt.unknown_parts]
        states = tilt_course(tilt)
        forces += _winch(weighing, tilt, worst_of(states, lambda state: state.winch_line))
        forces += _lifter(weighing, tilt, states)
        forces += _back_line(weighing, tilt)
        weigh_bending(
            weighing, tilt.parts, line_at=tilt.lifter.line_at, allowed=tilt.allowed_moment
        )
        _operator(weighing, job, tilt)
        weighing.notes.append("guys off the hinge axis hang slack until it stands")
        course = tuple(
            tilt_state(parts=tilt.parts, lifter=tilt.lifter, angle=angle) for angle in SHOWN
        )
    return MethodChoice(
        way="tilt",
        name="tilt over",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        deciding=weighing.deciding,
        forces=tuple(forces),
        tower_top=TowerTopLoad(vertical=0.0, horizontal=0.0, base_moment=0.0),
        people=_PEOPLE,
        answers=tuple(weighing.answers),
        course=course,
        planned=tilt is not None,
    )
