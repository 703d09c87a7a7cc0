"""Weighing a method: reasons against, open questions, forces, and the load on the tower's top.

``go`` means that the figures entered fit together. People on the spot still decide.
"""

from __future__ import annotations

from typing import Literal

from boomwright.base.quantity import Value, phrase, settled
from boomwright.base.records import dataclass, field
from boomwright.raising.answers import CLIMBABLE, RESCUE_PLAN, TRAINING, Answered, Question, Said
from boomwright.raising.job import Raising
from boomwright.raising.tilt_statics import TiltState
from boomwright.raising.weather import Answer
from boomwright.raising.wording import force

Way = Literal["tilt", "truck", "crane", "tram", "gin pole", "hand line", "by hand"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """One force of a method, held against what the owner entered."""

    name: str  #: where it acts
    value: float  #: force [N]
    limit: float | None = None  #: least or largest allowed; None when not entered [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerTopLoad:
    """What the method puts on the top of the tower."""

    vertical: float  #: downward [N]
    horizontal: float  #: sideways [N]
    base_moment: float  #: sideways load times its height, as on a tower that stands free [N m]


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodChoice:
    """One method."""

    way: Way  #: its short name, for what depends on it
    name: str  #: method in plain words
    verdict: Answer  #: ``go``, ``no-go`` or ``ask``
    reasons: tuple[Value, ...]  #: why, the deciding ones first
    deciding: tuple[Value, ...]  #: those that make it a no-go or an ask; none for a go
    forces: tuple[Force, ...]  #: forces with their limits
    tower_top: TowerTopLoad  #: load on the tower's top
    people: tuple[int, int]  #: trained climbers and ground crew needed (2,)
    answers: tuple[Answered, ...] = ()  #: questions that it hangs on
    #: gust at which its machine stops; None when it has no limit of its own [m/s]
    wind_limit: float | None = None
    platform: bool = False  #: whether people work from a lift truck's platform
    #: forces from angle to angle while the support is laid over; empty for other methods
    course: tuple[TiltState, ...] = ()
    planned: bool = True  #: whether its gear is entered

    @property
    def hoists(self) -> bool:
        """Whether the beam hangs on a hook or rope, and so needs a bridle."""
        return self.way in {"crane", "tram", "gin pole", "hand line"}


@dataclass(slots=True, kw_only=True)
class Weighing:
    """Gathers reasons; no-go outweighs ask, ask outweighs go."""

    against: list[Value] = field(default_factory=list)  #: reasons for no-go
    unanswered: list[Value] = field(default_factory=list)  #: questions nobody has answered yet
    notes: list[Value] = field(default_factory=list)  #: things to keep in mind
    answers: list[Answered] = field(default_factory=list)  #: questions that it hangs on

    def need(self, holds: bool, reason: Value) -> None:
        """Count the reason against the method when the need does not hold."""
        if not holds:
            self.against.append(reason)

    def known(self, known: bool, question: Value) -> bool:
        """Leave the question open when the figure is missing."""
        if not known:
            self.unanswered.append(question)
        return known

    def ask(self, question: Question, said: Said | None) -> None:
        """Weigh an answer: nobody's, no, and yes without who and when each count against it.

        Args:
            said: the answer; None while nobody gave one
        """
        self.answers.append(Answered(question=question, said=said))
        if said is None:
            self.unanswered.append(f"ask whether {question.matter}")
        elif not said.yes:
            whose = f" ({said.whose})" if said.signed else ""
            self.against.append(f"{question.denied}{whose}")
        elif not said.signed:
            self.unanswered.append(f"{question.matter}: who says so, and when?")

    def least(self, *, has: float | None, needs: float, unknown: str, short: str) -> None:
        """Hold a strength against a force: not entered is a question, too little stands against.

        Args:
            has: what was entered; None when it was not [N]
            needs: what it must be at least [N]
        """
        if self.known(has is not None, unknown):
            self.need(
                (has or 0.0) >= needs,
                phrase(
                    "{short}: {force} entered, {needs} needed", short=short,
                    force=force(has or 0.0), needs=force(needs),
                ),
            )  # fmt: skip

    @property
    def verdict(self) -> Answer:
        """Verdict so far."""
        return "no-go" if self.against else "ask" if self.unanswered else "go"

    @property
    def deciding(self) -> tuple[Value, ...]:
        """Reasons behind the verdict; none for a go."""
        return tuple(self.against or self.unanswered)

    @property
    def reasons(self) -> tuple[Value, ...]:
        """Deciding reasons first, then open questions, then notes."""
        return (*self.against, *self.unanswered, *self.notes)


def need_people(weighing: Weighing, job: Raising, *, climbers: int, ground: int) -> None:
    """Hold the crew against what a method needs."""
    need_climbers(weighing, job, climbers=climbers)
    weighing.need(
        job.crew.ground >= ground,
        settled(
            f"needs {ground} people on the ground, there are {job.crew.ground}",
            "raising",
            "ground_crew",
        ),
    )


def need_climbers(weighing: Weighing, job: Raising, *, climbers: int) -> None:
    """Hold those who climb against what a method needs: enough, trained, and a rescue plan."""
    if climbers:
        have = job.crew.trained_climbers
        weighing.need(
            have >= climbers,
            settled(
                f"needs {climbers} trained climbers, there are {have}: hire climbers or use a "
                "machine",
                "raising",
                "trained_climbers",
            ),
        )
        if have >= climbers:
            weighing.ask(TRAINING, job.crew.training)
            weighing.ask(RESCUE_PLAN, job.crew.rescue_plan)
            if job.on_tube:
                weighing.ask(CLIMBABLE, job.climbable)


def tower_top_load(
    weighing: Weighing, job: Raising, *, vertical: float, horizontal: float
) -> TowerTopLoad:
    """Load on the tower's top, held against its maker's figure.

    Args:
        vertical: downward load [N]
        horizontal: sideways load [N]
    """
    rating = job.tower_top_horizontal_rating
    if rating is None:
        question = phrase(
            "sideways load {horizontal} at the top of the {support}: ask the {support}'s maker or "
            "an engineer",
            horizontal=force(horizontal),
            support=job.support,
        )
        weighing.known(horizontal <= 0.0, question)
    else:
        weighing.need(
            horizontal <= rating,
            phrase(
                "sideways load {horizontal} at the top of the {support} is over the allowed "
                "{rating}",
                support=job.support,
                horizontal=force(horizontal),
                rating=force(rating),
            ),
        )
    return TowerTopLoad(
        vertical=vertical, horizontal=horizontal, base_moment=horizontal * job.lift_height
    )
