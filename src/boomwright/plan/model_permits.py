"""What authorities and neighbours ask, as the plan gives it. ``None`` means it does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass

if TYPE_CHECKING:
    from boomwright.permits import LocalLimits, PowerLine, Roof
    from boomwright.raising import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class RunwayPlan:
    """A runway by its ends."""

    airport: str  #: location identifier of its airport
    #: latitude and longitude [rad], and elevation above mean sea level [m], of both (2, 2)
    ends: tuple[tuple[tuple[float, float], float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposurePlan:
    """A place where people are."""

    place: str  #: owner's name for it
    distance: float  #: horizontal distance from the support [m]
    height: float  #: height of the head above ground at the support [m]
    #: direction from the support, clockwise from true north; None turns the beam to it [rad]
    bearing: float | None = None
    group: str = "general"  #: ``general`` or ``occupational``


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitsPlan:
    """The surroundings that rules ask about."""

    country: str = ""  #: two-letter country code, or empty
    boundary: float | None = None  #: foot of the support to the nearest boundary [m]
    walkway: float | None = None  #: foot of the support to the nearest public way [m]
    lightning_rod: float = 0.0  #: tip of the lightning rod above ground, 0 when there is none [m]
    #: highest position of a crane or lift truck above ground, 0 when none comes [m]
    crane: float = 0.0
    on_another_structure: bool = False  #: True when it stands on an existing antenna structure
    #: whether somebody has looked for power lines
    power_lines_surveyed: Said | None = None
    power_line: tuple[PowerLine, ...] = ()  #: power lines near (n_lines,)
    roof: tuple[Roof, ...] = ()  #: roofs near (n_roofs,)
    local_limit: tuple[LocalLimits, ...] = ()  #: limits the owner looked up (n_lists,)
    runway: tuple[RunwayPlan, ...] = ()  #: runways near by their ends (n_runways,)
    exposure: tuple[ExposurePlan, ...] = ()  #: places where people are (n_places,)

    @property
    def lines_surveyed(self) -> bool:
        """Whether anybody, named or not, has looked for power lines."""
        said = self.power_lines_surveyed
        return said is not None and said.yes
