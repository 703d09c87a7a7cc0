"""What authorities and neighbours ask, as the plan gives it. ``None`` means it does not say."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.plan.model_work import AnswerPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerLinePlan:
    """An overhead line near the support.

    Parameters
    ----------
    name
        owner's name for it
    distance
        horizontal distance from the foot of the support to its nearest conductor [m]
    height
        height of that conductor above the foot [m]
    voltage
        line voltage; None when unknown [V]
    """

    name: str
    distance: float
    height: float
    voltage: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalLimitPlan:
    """Figures from a local rule that the owner looked up.

    Parameters
    ----------
    basis
        ordinance, covenant or letter, with its paragraph
    dated
        day of that text or of the enquiry, ``2026-01-31``
    ask
        office that gave it, or empty
    height
        highest part allowed above ground [m]
    setback
        least distance to the boundary [m]
    setback_ratio
        least distance to the boundary over height [-]
    """

    basis: str
    dated: str
    ask: str = ""
    height: float | None = None
    setback: float | None = None
    setback_ratio: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunwayPlan:
    """A runway by its ends.

    Parameters
    ----------
    airport
        location identifier of its airport
    ends
        latitude and longitude [rad], and elevation above mean sea level [m], of both (2, 2)
    """

    airport: str
    ends: tuple[tuple[tuple[float, float], float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposurePlan:
    """A place where people are.

    Parameters
    ----------
    place
        owner's name for it
    distance
        horizontal distance from the support [m]
    height
        height of the head above ground at the support [m]
    bearing
        direction from the support, clockwise from true north; None turns the beam to it [rad]
    group
        ``general`` or ``occupational``
    """

    place: str
    distance: float
    height: float
    bearing: float | None = None
    group: str = "general"


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitsPlan:
    """The surroundings that rules ask about.

    Parameters
    ----------
    country
        two-letter country code, or empty
    boundary
        foot of the support to the nearest boundary [m]
    walkway
        foot of the support to the nearest public way [m]
    lightning_rod
        tip of the lightning rod above ground, 0 when there is none [m]
    crane
        highest position of a crane or lift truck above ground, 0 when none comes [m]
    on_another_structure
        True when it stands on an existing antenna structure
    power_lines_surveyed
        whether somebody has looked for power lines
    power_line
        power lines near (n_lines,)
    local_limit
        limits the owner looked up (n_lists,)
    runway
        runways near by their ends (n_runways,)
    exposure
        places where people are (n_places,)
    """

    country: str = ""
    boundary: float | None = None
    walkway: float | None = None
    lightning_rod: float = 0.0
    crane: float = 0.0
    on_another_structure: bool = False
    power_lines_surveyed: bool | AnswerPlan | None = None
    power_line: tuple[PowerLinePlan, ...] = ()
    local_limit: tuple[LocalLimitPlan, ...] = ()
    runway: tuple[RunwayPlan, ...] = ()
    exposure: tuple[ExposurePlan, ...] = ()

    @property
    def lines_surveyed(self) -> bool:
        """Whether anybody, named or not, has looked for power lines."""
        said = self.power_lines_surveyed
        return said.answer if isinstance(said, AnswerPlan) else bool(said)
