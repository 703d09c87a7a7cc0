"""Laying a support over about its hinge: plane statics at every angle.

Angles count from the lying support up. The line pulls at a lifter: a gin pole that stands square
to the support at the hinge and turns with it, or a sheave that stands still. The line's lever arm
and the turning effect of the weight both fall with the cosine of the angle, so that the pull of
a gin pole does not vanish near upright and the line has no hold there {mast-raising-example}.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.records import dataclass

LifterKind = Literal["gin pole", "fixed sheave"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Something that turns with the support."""

    name: str  #: what it is
    mass: float  #: mass [kg]
    at: float  #: its middle, along the support from the hinge [m]
    length: float = 0.0  #: length along the support over which it spreads evenly, 0 for a point [m]
    wind: float = 0.0  #: force of the wind on it when upright [N]

    @property
    def weight(self) -> float:
        """Weight [N]."""
        return self.mass * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifter:
    """What gives the line its lever arm."""

    kind: LifterKind  #: ``gin pole`` square to the support at the hinge, or ``fixed sheave``
    height: float  #: head of the gin pole from the hinge, or the sheave above the hinge [m]
    line_at: float  #: where the line takes hold of the support, from the hinge [m]
    winch: float = 0.0  #: gin pole: ground anchor of the line from the hinge, on the winch side [m]
    behind: float = 0.0  #: fixed sheave: from the hinge away from the lying support [m]

    def __post_init__(self) -> None:
        needed = self.winch if self.kind == "gin pole" else 1.0
        if min(self.height, self.line_at, needed) <= 0.0 or self.behind < 0.0:
            raise ValueError(
                f"lifter {self.height} m high, line at {self.line_at} m, winch at {self.winch} m, "
                f"sheave {self.behind} m behind: all must be above 0"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltState:
    """Forces at one angle."""

    angle: float  #: support above level [rad]
    turning: float  #: turning effect of weight and wind about the hinge [N m]
    winch_line: float  #: pull in the line that runs to the winch [N]
    lift_line: float  #: pull in the line at the support [N]
    #: compression of the gin pole, negative when pulled, or load on the sheave with the rope turned
    #: half round [N]
    lifter: float
    thrust: float  #: level force on the hinge [N]
    down: float  #: downward force on the hinge, negative when it lifts [N]
    axial: float  #: force along the support into the hinge [N]

    @property
    def hinge(self) -> float:
        """Force on the hinge [N]."""
        return math.hypot(self.thrust, self.down)


def weight_moment(parts: Sequence[Part]) -> float:
    """Turning effect about the hinge of everything while it lies level, ``sum W x`` [N m]."""
    return sum(part.weight * part.at for part in parts)


def tilt_state(*, parts: Sequence[Part], lifter: Lifter, angle: float) -> TiltState:
    """Forces at one angle, wind blowing against the lift.

    Args:
        angle: support above level, below a right angle when there is wind [rad]
    """
    cosine, sine = math.cos(angle), math.sin(angle)
    moment = weight_moment(parts)
    push = sum(part.wind * part.at for part in parts)
    # Wind acts on what is upright: its lever arm grows with the sine.
    if push:
        moment += push * math.tan(angle)
    wind = sum(part.wind for part in parts) if push else 0.0
    weight = sum(part.weight for part in parts)
    if lifter.kind == "gin pole":
        return _gin_state(lifter, angle, moment=moment, weight=weight, wind=wind)
    # Line from s (cos, sin) on the support to the sheave at (-b, h).
    along = lifter.line_at * cosine + lifter.behind
    up = lifter.height - lifter.line_at * sine
    long = math.hypot(along, up)
    if lifter.behind == 0.0:
        pull = moment * long / (lifter.line_at * lifter.height)
    else:
        arm = lifter.line_at * (lifter.height * cosine + lifter.behind * sine)
        pull = moment * cosine * long / arm
    return TiltState(
        angle=angle,
        turning=moment * cosine,
        winch_line=pull,
        lift_line=pull,
        lifter=2.0 * pull,
        thrust=abs(pull * along / long - wind),
        down=weight - pull * up / long,
        axial=weight * sine + pull * (along * cosine - up * sine) / long,
    )


def _gin_state(
    lifter: Lifter, angle: float, *, moment: float, weight: float, wind: float
) -> TiltState:
    cosine, sine = math.cos(angle), math.sin(angle)
    height, held, winch = lifter.height, lifter.line_at, lifter.winch
    long = math.sqrt(winch**2 + height**2 - 2.0 * winch * height * sine)
    pull = moment * long / (winch * height)
    back = math.hypot(height, held)
    lift = moment * cosine * back / (height * held)
    # Where anchor and head of the gin pole meet the line has no direction left.
    level = (winch - height * sine) / long if long > 0.0 else 0.0
    into_pole = (height - winch * sine) / long if long > 0.0 else 0.0
    return TiltState(
        angle=angle,
        turning=moment * cosine,
        winch_line=pull,
        lift_line=lift,
        lifter=lift * height / back + pull * into_pole,
        thrust=abs(pull * level - wind),
        down=weight + moment * cosine / winch,
        axial=weight * sine + lift * held / back,
    )


def lying_moment(*, parts: Sequence[Part], line_at: float) -> tuple[float, float]:
    """Largest bending moment in the support while it hangs level from hinge and line.

    Args:
        line_at: where the line takes hold, from the hinge [m]

    Returns:
        moment [N m], and its place from the hinge [m] (2,)
    """
    ends = [(part.at - part.length / 2.0, part.at + part.length / 2.0, part) for part in parts]
    far = max(end for _, end, _ in ends)
    places = sorted({line_at, *(part.at for part in parts), *(far * i / 400 for i in range(401))})
    held = weight_moment(parts) / line_at

    def moment(place: float) -> float:
        turned = held * max(0.0, line_at - place)
        for start, end, part in ends:
            if part.length == 0.0:
                turned -= part.weight * max(0.0, part.at - place)
            elif end > place:
                first = max(start, place)
                share = part.weight * (end - first) / part.length
                turned -= share * (0.5 * (first + end) - place)
        return turned

    worst = max(places, key=lambda place: abs(moment(place)))
    return abs(moment(worst)), worst


def hold_back_pull(*, turning: float, line_at: float, anchor: float) -> float:
    """Pull in the hold-back line of an upright support [N].

    Args:
        turning: turning effect that pushes it over towards the winch [N m]
        line_at: where the line takes hold, from the hinge [m]
        anchor: its anchor from the hinge, on the side where the support lay [m]
    """
    return turning * math.hypot(line_at, anchor) / (line_at * anchor)
