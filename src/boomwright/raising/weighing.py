"""Weighing a method: reasons against, open questions, forces, and the load on the tower's top.

``go`` means that the figures entered fit together. People on the spot still decide.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from boomwright.raising.job import Raising
from boomwright.raising.weather import Answer
from boomwright.raising.wording import force


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """One force of a method, held against what the owner entered.

    Parameters
    ----------
    name
        where it acts
    value
        force [N]
    limit
        least or largest allowed; None when not entered [N]
    """

    name: str
    value: float
    limit: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerTopLoad:
    """What the method puts on the top of the tower.

    Parameters
    ----------
    vertical
        downward [N]
    horizontal
        sideways [N]
    base_moment
        sideways load times its height, as on a tower that stands free [N m]
    """

    vertical: float
    horizontal: float
    base_moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodChoice:
    """One method.

    Parameters
    ----------
    name
        method in plain words
    verdict
        ``go``, ``no-go`` or ``ask``
    reasons
        why, the deciding ones first
    forces
        forces with their limits
    tower_top
        load on the tower's top
    people
        trained climbers and ground crew needed (2,)
    """

    name: str
    verdict: Answer
    reasons: tuple[str, ...]
    forces: tuple[Force, ...]
    tower_top: TowerTopLoad
    people: tuple[int, int]


@dataclass(slots=True, kw_only=True)
class Weighing:
    """Gathers reasons; no-go outweighs ask, ask outweighs go.

    Parameters
    ----------
    against
        reasons for no-go
    unanswered
        questions nobody has answered yet
    notes
        things to keep in mind
    """

    against: list[str] = field(default_factory=list)
    unanswered: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def need(self, holds: bool, reason: str) -> None:
        """Count the reason against the method when the need does not hold.

        Parameters
        ----------
        holds
            whether the need is met
        """
        if not holds:
            self.against.append(reason)

    def known(self, known: bool, question: str) -> bool:
        """Leave the question open when the figure is missing.

        Parameters
        ----------
        known
            whether the figure is there
        """
        if not known:
            self.unanswered.append(question)
        return known

    @property
    def verdict(self) -> Answer:
        """Verdict so far."""
        return "no-go" if self.against else "ask" if self.unanswered else "go"

    @property
    def reasons(self) -> tuple[str, ...]:
        """Deciding reasons first, then open questions, then notes."""
        return (*self.against, *self.unanswered, *self.notes)


def need_people(weighing: Weighing, job: Raising, *, climbers: int, ground: int) -> None:
    """Hold the crew against what a method needs."""
    if climbers:
        have = job.crew.trained_climbers
        weighing.need(
            have >= climbers,
            f"needs {climbers} trained climbers, there are {have}: hire climbers or use a machine",
        )
        weighing.need(
            job.crew.rescue_plan, "no rescue plan with kit on site: nobody climbs without one"
        )
    weighing.need(
        job.crew.ground >= ground,
        f"needs {ground} people on the ground, there are {job.crew.ground}",
    )


def tower_top_load(
    weighing: Weighing, job: Raising, *, vertical: float, horizontal: float
) -> TowerTopLoad:
    """Load on the tower's top, held against its maker's figure.

    Parameters
    ----------
    vertical
        downward load [N]
    horizontal
        sideways load [N]
    """
    rating = job.tower_top_horizontal_rating
    if rating is None:
        question = f"sideways load {force(horizontal)} at the tower top: "
        weighing.known(horizontal <= 0.0, question + "ask the tower's maker or an engineer")
    else:
        weighing.need(
            horizontal <= rating,
            f"sideways load {force(horizontal)} at the tower top is over the allowed "
            f"{force(rating)}",
        )
    return TowerTopLoad(
        vertical=vertical, horizontal=horizontal, base_moment=horizontal * job.lift_height
    )
