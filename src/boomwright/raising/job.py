"""The raising job as the owner describes it: load, tower, people, gear, lines, weather."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from boomwright.raising.answers import Said
from boomwright.raising.tackle import Bearing
from boomwright.raising.tilt_statics import Lifter, Part

RopeEnd = Literal["eye", "knot"]


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
        people on the ground, lift director and spotter included, hired operators not
    training
        whether the climbers' training and equipment have been looked at
    rescue_plan
        whether a rescue plan is written and the kit is on site
    trained_rigger
        whether somebody trained in rigging leads
    """

    trained_climbers: int = 0
    ground: int = 0
    training: Said | None = None
    rescue_plan: Said | None = None
    trained_rigger: Said | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Capstan:
    """A capstan winch for the hauling rope: for loads, never for people.

    Parameters
    ----------
    rated_pull
        pull its maker allows; None when unmarked [N]
    fastening
        pull that what it is fastened to may take; None when nobody knows [N]
    turns
        turns of rope on its drum
    """

    rated_pull: float | None = None
    fastening: float | None = None
    turns: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulLine:
    """Rope and blocks for hauling, by hand or with a capstan winch.

    Parameters
    ----------
    breaking_strength
        marked breaking strength of the rope [N]
    block_breaking_strength
        marked breaking strength of the weakest block, shackle or sling; None when unmarked [N]
    parts
        rope parts that carry the load, 1 over a single top block
    bearing
        what the sheaves turn on; None when not known
    ends
        how the rope is made fast; a knot is taken when nobody says
    capstan
        capstan winch; None when people haul
    """

    breaking_strength: float
    block_breaking_strength: float | None = None
    parts: int = 1
    bearing: Bearing | None = None
    ends: RopeEnd = "knot"
    capstan: Capstan | None = None


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
    anchor
        pull its ground anchor may take; None when nobody knows [N]
    back_guyed
        whether the tower top is guyed against the pull
    """

    span: float
    sag: float
    breaking_strength: float
    line_weight: float = 0.0
    anchor: float | None = None
    back_guyed: Said | None = None


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
    slings
        marked breaking strength of the weakest sling or shackle of the bridle; None when
        unmarked [N]
    wind_limit
        gust at which it stops, from its papers; None when not read [m/s]
    operator
        whether a trained operator runs it
    """

    radius: float
    hook_height: float
    capacity: float | None = None
    slings: float | None = None
    wind_limit: float | None = None
    operator: Said | None = None


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
    wind_limit
        gust at which it stops, from its papers; None when not read [m/s]
    operator
        whether a trained operator runs it
    carries_beam
        whether its maker or hirer allows the platform to carry the beam
    """

    platform_height: float
    outreach: float
    needed_outreach: float
    platform_capacity: float | None = None
    wind_limit: float | None = None
    operator: Said | None = None
    carries_beam: Said | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BackLine:
    """The hold-back line that keeps an upright support from going over.

    Parameters
    ----------
    breaking_strength
        marked breaking strength [N]
    line_at
        where it takes hold of the support, from the hinge [m]
    distance
        its anchor from the hinge, on the side where the support lies [m]
    anchor
        pull its anchor may take; None when nobody knows [N]
    """

    breaking_strength: float
    line_at: float
    distance: float
    anchor: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tilt:
    """Laying the support over about its hinge; a rating left out is asked for.

    Parameters
    ----------
    parts
        everything that turns with the support, the beam included
    unknown_parts
        weights and wind areas of what turns with it that the plan does not give
    hinged
        whether the foot turns in a hinge made for it
    side_guys
        whether side guys on the hinge axis hold throughout
    winch
        pull the winch's maker allows [N]
    winch_parts
        rope parts of a tackle in the winch line, 1 without
    rope
        marked breaking strength of the winch rope [N]
    ends
        how rope and line are made fast; a knot is taken when nobody says
    lift_line
        marked breaking strength of the line from gin pole to support [N]
    lifter_rating
        force along the gin pole, or load on the sheave and what carries it, that they may take [N]
    anchor
        pull the ground anchor of the winch line may take [N]
    hinge_rating
        force the hinge may take [N]
    allowed_moment
        bending moment that the support may take; None when neither maker nor steel tells [N m]
    back_line
        hold-back line; None when there is none
    operator_out
        whoever works the winch from the hinge [m]
    """

    parts: tuple[Part, ...]
    lifter: Lifter
    unknown_parts: tuple[str, ...] = ()
    hinged: Said | None = None
    side_guys: Said | None = None
    winch: float | None = None
    winch_parts: int = 1
    rope: float | None = None
    ends: RopeEnd = "knot"
    lift_line: float | None = None
    lifter_rating: float | None = None
    anchor: float | None = None
    hinge_rating: float | None = None
    allowed_moment: float | None = None
    back_line: BackLine | None = None
    operator_out: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyRing:
    """Guys of the support at one height, for what crosses their way.

    Parameters
    ----------
    height
        where they hold the support [m]
    radius
        anchors out from the foot [m]
    count
        guys in the ring, evenly spaced
    first
        direction of the first anchor, clockwise from true north [rad]
    """

    height: float
    radius: float
    count: int = 3
    first: float = 0.0


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
        whether somebody has looked for power lines; an empty list then means none
    power_lines
        power lines near the work (n_lines,)
    guys
        guys of the support
    clear_of_guys
        whether the beam passes guys and anchors on its way up
    level_access
        whether a machine stands level and firm beside the tower
    foot_set
        True when the foot of the support is set in its footing, so that it cannot tilt
    boundary
        distance from the foot to the nearest boundary; None when not measured [m]
    walkway
        distance from the foot to the nearest public way; None when there is none near [m]
    ground_beyond
        whether ground beyond them is kept empty during the lift
    tower_top_horizontal_rating
        horizontal load the tower's maker or an engineer allows at the top; None if unknown [N]
    forecast_gust
        highest gust forecast for the hours of the lift; None when not looked up [m/s]
    others
        names of the other beams of the support, with the height of each [m]
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
    tilt
        gear for laying the support over; None when not planned
    """

    load: Load
    tower_height: float
    lift_height: float
    crew: Crew
    lines_surveyed: Said | None = None
    power_lines: tuple[LineNear, ...] = ()
    guys: tuple[GuyRing, ...] = ()
    clear_of_guys: Said | None = None
    level_access: Said | None = None
    foot_set: bool = False
    boundary: float | None = None
    walkway: float | None = None
    ground_beyond: Said | None = None
    tower_top_horizontal_rating: float | None = None
    forecast_gust: float | None = None
    others: tuple[tuple[str, float], ...] = ()
    haul_line: HaulLine | None = None
    gin_pole: GinPole | None = None
    tram: Tram | None = None
    crane: Crane | None = None
    lift_truck: LiftTruck | None = None
    tilt: Tilt | None = None

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
