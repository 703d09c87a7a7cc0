"""Questions on which a lift hangs, and what an answer is worth: who gave it, and when."""

from __future__ import annotations

from typing import Final

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """An answer to a question."""

    yes: bool  #: whether it holds
    by: str = ""  #: who says so, or empty
    on: str = ""  #: day it was said, ``2026-05-01``, or empty

    @property
    def signed(self) -> bool:
        """Whether it says who and when."""
        return bool(self.by and self.on)

    @property
    def whose(self) -> str:
        """Who and when in words, or empty."""
        return f"{self.by}, {self.on}" if self.signed else ""


#: bare answers, with nobody behind them
UNSIGNED: Final = {yes: Said(yes=yes) for yes in (True, False)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something that only a look at the place, the gear or the papers can tell."""

    matter: str  #: what must hold, as a statement
    denied: str  #: what stands against the lift when it does not hold


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """A question with its answer."""

    question: Question
    said: Said | None  #: the answer; None while nobody gave one


SUPPORT_STANDS: Final = Question(
    matter="the support stands plumb, its guys at their tensions, its concrete old enough",
    denied="the support does not stand yet",
)
POLE_WHOLE: Final = Question(
    matter="the pole is one piece, or every joint carries its full bending",
    denied="a joint of the pole does not carry its full bending",
)
POWER_LINES: Final = Question(
    matter="somebody has looked for power lines",
    denied="nobody has looked for power lines yet: walk the place and enter what you find",
)
LEVEL_ACCESS: Final = Question(
    matter="there is a level, firm place for the machine beside the support",
    denied="no level, firm place for the machine beside the support",
)
CLEAR_OF_GUYS: Final = Question(
    matter="the beam passes guys and anchors on its way up",
    denied="guys are in the way",
)
TRAINING: Final = Question(
    matter="the climbers' training and equipment have been looked at",
    denied="the climbers are not trained and equipped for it",
)
RESCUE_PLAN: Final = Question(
    matter="a rescue plan is written and its kit is on site",
    denied="no rescue plan with kit on site: nobody climbs without one",
)
CLIMBABLE: Final = Question(
    matter="the tube has rungs or steps and an anchor for the fall arrest, made to be climbed",
    denied="nobody climbs a bare tube: reach the clamp from a platform, or lay the tube down",
)
TRAINED_RIGGER: Final = Question(
    matter="somebody trained in rigging leads",
    denied="needs somebody trained in rigging to lead",
)
BACK_GUYED: Final = Question(
    matter="the top of the support is guyed against the tram line",
    denied="top of the support is not guyed against the pull of the tram line",
)
TRUCK_OPERATOR: Final = Question(
    matter="a trained operator runs the lift truck",
    denied="nobody trained runs the lift truck",
)
CARRIES_BEAM: Final = Question(
    matter="its maker or hirer allows the platform to carry the beam",
    denied="the platform may not carry the beam",
)
CRANE_OPERATOR: Final = Question(
    matter="a trained operator runs the crane",
    denied="nobody trained runs the crane",
)
HINGED: Final = Question(
    matter="the foot turns in a hinge made to lay this support down",
    denied="the foot has no hinge to lay this support down",
)
SIDE_GUYS: Final = Question(
    matter="side guys anchored on the hinge axis hold it from start to end",
    denied="no side guys on the hinge axis",
)
PULLEYS_UP: Final = Question(
    matter="a pulley with its rope hangs at every high point, and nobody climbs for it",
    denied="no pulley hangs at every high point: put one up with the pole down, or have it done by "
    "somebody trained",
)
HOLDS_SOUND: Final = Question(
    matter="every tree, roof hook and post that holds a rope is sound, and its owner agrees",
    denied="a tree, roof hook or post that holds a rope is not sound, or its owner says no",
)
ROPES_CLEAR: Final = Question(
    matter="no rope or wire, thrown, fallen or broken, can come near a power line",
    denied="a rope or wire can come near a power line: have the line moved, or hang it elsewhere",
)
GROUND_BEYOND: Final = Question(
    matter="ground and ways beyond the boundary are kept empty during the lift",
    denied="ground beyond the boundary cannot be kept empty",
)
