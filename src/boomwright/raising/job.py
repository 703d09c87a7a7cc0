"""The raising job as the owner describes it: load, tower, people, gear, lines, weather."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What goes up.

    Parameters
    ----------
    name
        owner's name for it
    mass
        antenna with balun, coax, mast clamp, bridle and hook [kg]
    drag_area
        drag coefficient times area, worst side [m^2]
    element_span
        longest element from tip to tip [m]
    boom_length
        length of the boom [m]
    balance_place
        balance point along the boom from its rear end; None when not computed [m]
    """

    name: str
    mass: float
    drag_area: float
    element_span: float
    boom_length: float
    balance_place: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Who is there.

    Parameters
    ----------
    trained_climbers
        people trained and equipped to climb and to rescue
    ground
        people on the ground, lift director and spotter included
    rescue_plan
        True when a rescue plan is written and the kit is on site
    trained_rigger
        True when somebody trained in rigging leads
    """

    trained_climbers: int = 0
    ground: int = 0
    rescue_plan: bool = False
    trained_rigger: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulLine:
    """Rope and blocks for hauling.

    Parameters
    ----------
    breaking_strength
        marked breaking strength of the rope [N]
    block_breaking_strength
        marked breaking strength of the weakest block, shackle or sling; None when unmarked [N]
    """

    breaking_strength: float
    block_breaking_strength: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GinPole:
    """A gin pole with its maker's figures.

    Parameters
    ----------
    rated_load
        rated load at this overhang; None when unmarked [N]
    overhang
        pole above its upper grip as it will be used [m]
    maximum_overhang
        maker's largest overhang; None when unmarked [m]
    offset_angle
        angle of the hoist rope from upright [rad]
    tag_slope
        angle of the tag line below level [rad]
    """

    overhang: float
    rated_load: float | None = None
    maximum_overhang: float | None = None
    offset_angle: float = 0.1
    tag_slope: float = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Tram:
    """A carrier line from the tower to a ground anchor.

    Parameters
    ----------
    span
        horizontal distance from tower to anchor [m]
    sag
        sag below the chord with the load at midspan [m]
    breaking_strength
        marked breaking strength of the carrier [N]
    line_weight
        weight of the carrier for each metre [N/m]
    back_guyed
        True when the tower top is guyed against the pull
    """

    span: float
    sag: float
    breaking_strength: float
    line_weight: float = 0.0
    back_guyed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Crane:
    """A hired crane with its operator, figures from its chart.

    Parameters
    ----------
    capacity
        rated load at the working radius, hook and rigging included; None when not read [kg]
    radius
        working radius [m]
    hook_height
        highest hook position at that radius [m]
    """

    radius: float
    hook_height: float
    capacity: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftTruck:
    """A hired lift truck with a platform for people, figures from its chart.

    Parameters
    ----------
    platform_height
        highest platform floor at the needed outreach [m]
    outreach
        largest horizontal reach at that height [m]
    needed_outreach
        horizontal distance from where it can stand to the mast [m]
    platform_capacity
        rated load of the platform; None when not read [kg]
    """

    platform_height: float
    outreach: float
    needed_outreach: float
    platform_capacity: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LineNear:
    """A power line near the work, with the clearance that the permits room asked for.

    Parameters
    ----------
    name
        owner's name for it
    distance
        horizontal distance from the tower's foot to the nearest conductor [m]
    height
        height of that conductor above the foot [m]
    required_clearance
        least distance to it [m]
    basis
        rule behind that distance
    voltage_known
        False when the distance is a presumption
    """

    name: str
    distance: float
    height: float
    required_clearance: float
    basis: str
    voltage_known: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Raising:
    """The whole job.

    Parameters
    ----------
    load
        what goes up
    tower_height
        top of the tower above its foot [m]
    lift_height
        height of the mast clamp above the foot [m]
    crew
        who is there
    lines_surveyed
        True when somebody has looked for power lines; an empty list then means none
    power_lines
        power lines near the work (n_lines,)
    guys_in_the_way
        True when the beam cannot go straight up past the guys
    level_access
        True when a truck can stand level and firm beside the tower
    tilt_over
        True when the tower tilts or cranks down and its maker allows it with this load
    tower_top_horizontal_rating
        horizontal load the tower's maker or an engineer allows at the top; None if unknown [N]
    forecast_gust
        highest gust forecast for the hours of the lift; None when not looked up [m/s]
    haul_line
        rope and blocks; None when there are none
    gin_pole
        gin pole; None when there is none
    tram
        tram line; None when not planned
    crane
        crane; None when not planned
    lift_truck
        lift truck; None when not planned
    """

    load: Load
    tower_height: float
    lift_height: float
    crew: Crew
    lines_surveyed: bool = False
    power_lines: tuple[LineNear, ...] = ()
    guys_in_the_way: bool = False
    level_access: bool = False
    tilt_over: bool = False
    tower_top_horizontal_rating: float | None = None
    forecast_gust: float | None = None
    haul_line: HaulLine | None = None
    gin_pole: GinPole | None = None
    tram: Tram | None = None
    crane: Crane | None = None
    lift_truck: LiftTruck | None = None

    def __post_init__(self) -> None:
        for name, value in (
            ("load.mass", self.load.mass),
            ("tower_height", self.tower_height),
            ("lift_height", self.lift_height),
        ):
            if not value > 0.0:
                msg = f"{name} is {value}; it must be above 0"
                raise ValueError(msg)

    @property
    def swing_radius(self) -> float:
        """Half the diagonal of the beam: how far it reaches while it turns in the ropes [m]."""
        return math.hypot(self.load.element_span, self.load.boom_length) / 2.0
