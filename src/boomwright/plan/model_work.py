"""Prices and the raising job, as the plan gives them. ``None`` means that it does not say.

A question of the raising is answered with yes or no, who says so and when; a bare ``true`` of an
older plan is kept as it stands, and asked about.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HirePlan:
    """Hired machines, people, papers and the owner's own hours.

    Parameters
    ----------
    lift_truck_days
        days of a lift truck [day]
    crane_days
        days of a crane [day]
    climber_days
        days of a trained climbing crew [day]
    permits
        permits and notices
    engineer_stamps
        engineer's stamps
    insurance_years
        years of insurance rider counted in [year]
    own_time
        owner's own time [s]
    """

    lift_truck_days: float = 0.0
    crane_days: float = 0.0
    climber_days: float = 0.0
    permits: int = 0
    engineer_stamps: int = 0
    insurance_years: float = 0.0
    own_time: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PricesPlan:
    """What the owner pays with, and what he can buy.

    Parameters
    ----------
    currency
        currency of the sums, e.g. ``EUR``
    price_list
        file with the price list, or empty
    budget
        owner's budget [currency]
    contingency
        share added to the likely sum [-]
    old_after
        age at which a price is flagged [s]
    stock
        lengths of tube that can be bought [m] (n_stock,)
    kerf
        length lost in a saw cut [m]
    overlap
        least length of a tube inside the next larger one [m]
    owned
        what need not be bought (n_owned,)
    hire
        hire, people and papers; None when not thought of yet
    """

    currency: str
    price_list: str = ""
    budget: float | None = None
    contingency: float | None = None
    old_after: float | None = None
    stock: tuple[float, ...] = ()
    kerf: float | None = None
    overlap: float | None = None
    owned: tuple[str, ...] = ()
    hire: HirePlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerPlan:
    """An answer to a question.

    Parameters
    ----------
    answer
        whether it holds
    by
        who says so
    on
        day it was said, ``2026-05-01``
    """

    answer: bool
    by: str
    on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CapstanPlan:
    """A capstan winch for the hauling rope.

    Parameters
    ----------
    rated_pull
        pull its maker allows [N]
    fastening
        pull that what it is fastened to may take [N]
    turns
        turns of rope on its drum
    """

    rated_pull: float | None = None
    fastening: float | None = None
    turns: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulLinePlan:
    """Rope and blocks for hauling.

    Parameters
    ----------
    breaking_strength
        marked breaking strength of the rope [N]
    block_breaking_strength
        marked breaking strength of the weakest block, shackle or sling [N]
    parts
        rope parts that carry the load
    bearing
        ``ball``, ``bush`` or ``plain``, or empty
    ends
        ``eye`` or ``knot``; a knot when the plan does not say
    capstan
        capstan winch
    """

    breaking_strength: float
    block_breaking_strength: float | None = None
    parts: int = 1
    bearing: str = ""
    ends: str = "knot"
    capstan: CapstanPlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GinPolePlan:
    """A gin pole with its maker's figures.

    Parameters
    ----------
    overhang
        pole above its upper grip as it will be used [m]
    rated_load
        rated load at this overhang [N]
    maximum_overhang
        maker's largest overhang [m]
    offset_angle
        angle of the hoist rope from upright [rad]
    tag_slope
        angle of the tag line below level [rad]
    """

    overhang: float
    rated_load: float | None = None
    maximum_overhang: float | None = None
    offset_angle: float | None = None
    tag_slope: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TramPlan:
    """A carrier line from the top of the support to a ground anchor.

    Parameters
    ----------
    span
        horizontal distance from support to anchor [m]
    sag
        sag below the chord with the load at midspan [m]
    breaking_strength
        marked breaking strength of the carrier [N]
    line_mass
        mass of one metre of the carrier [kg/m]
    anchor
        pull its ground anchor may take [N]
    back_guyed
        whether the top is guyed against the pull
    """

    span: float
    sag: float
    breaking_strength: float
    line_mass: float = 0.0
    anchor: float | None = None
    back_guyed: bool | AnswerPlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CranePlan:
    """A hired crane, figures from its chart.

    Parameters
    ----------
    radius
        working radius [m]
    hook_height
        highest hook position at that radius [m]
    capacity
        rated load at the working radius [kg]
    slings
        marked breaking strength of the weakest sling or shackle of the bridle [N]
    wind_limit
        gust at which it stops [m/s]
    operator
        whether a trained operator runs it
    """

    radius: float
    hook_height: float
    capacity: float | None = None
    slings: float | None = None
    wind_limit: float | None = None
    operator: bool | AnswerPlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftTruckPlan:
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
        rated load of the platform [kg]
    wind_limit
        gust at which it stops [m/s]
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
    operator: bool | AnswerPlan | None = None
    carries_beam: bool | AnswerPlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltPartPlan:
    """Something that turns with the support and that no other table weighs.

    Parameters
    ----------
    name
        what it is
    mass
        mass [kg]
    at
        its middle, along the support from the hinge [m]
    """

    name: str
    mass: float
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BackLinePlan:
    """The hold-back line.

    Parameters
    ----------
    breaking_strength
        marked breaking strength [N]
    line_at
        where it takes hold of the support, from the hinge [m]
    distance
        its anchor from the hinge, on the side where the support lies [m]
    anchor
        pull its anchor may take [N]
    """

    breaking_strength: float
    line_at: float
    distance: float
    anchor: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltPlan:
    """Gear for laying the support over about its hinge.

    Parameters
    ----------
    lifter
        ``gin pole`` or ``fixed sheave``
    lifter_height
        head of the gin pole from the hinge, or the sheave above the hinge [m]
    line_at
        where the line takes hold of the support, from the hinge [m]
    winch_distance
        gin pole: ground anchor of the line from the hinge [m]
    sheave_behind
        fixed sheave: from the hinge away from the lying support [m]
    hinged
        whether the foot turns in a hinge made for it
    side_guys
        whether side guys on the hinge axis hold throughout
    length
        length of the support while it turns, when that is not its height [m]
    allowed_moment
        bending moment that the support may take [N m]
    hinge_rating
        force the hinge may take [N]
    lifter_rating
        force along the gin pole, or load on the sheave and what carries it, that they may take [N]
    lift_line
        breaking strength of the line from gin pole to support [N]
    winch
        pull the winch's maker allows [N]
    winch_parts
        rope parts of a tackle in the winch line
    rope
        breaking strength of the winch rope [N]
    ends
        ``eye`` or ``knot``; a knot when the plan does not say
    anchor
        pull the ground anchor of the winch line may take [N]
    operator_out
        whoever works the winch from the hinge [m]
    back_line
        hold-back line
    part
        what else turns with the support (n_parts,)
    """

    lifter: str
    lifter_height: float
    line_at: float
    winch_distance: float | None = None
    sheave_behind: float = 0.0
    hinged: bool | AnswerPlan | None = None
    side_guys: bool | AnswerPlan | None = None
    length: float | None = None
    allowed_moment: float | None = None
    hinge_rating: float | None = None
    lifter_rating: float | None = None
    lift_line: float | None = None
    winch: float | None = None
    winch_parts: int = 1
    rope: float | None = None
    ends: str = "knot"
    anchor: float | None = None
    operator_out: float | None = None
    back_line: BackLinePlan | None = None
    part: tuple[TiltPartPlan, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisingPlan:
    """Who raises the beam, with what, and where.

    Parameters
    ----------
    trained_climbers
        people trained and equipped to climb and to rescue
    ground_crew
        people on the ground, lift director and spotter included
    training
        whether the climbers' training and equipment have been looked at
    rescue_plan
        whether a rescue plan is written and the kit is on site
    trained_rigger
        whether somebody trained in rigging leads
    guys_in_the_way
        whether the beam cannot go up past the guys
    level_access
        whether a truck can stand level and firm beside the support
    ground_beyond
        whether ground and ways beyond the boundary are kept empty during the lift
    top_rating
        horizontal load the maker or an engineer allows at the top [N]
    forecast_gust
        highest gust forecast for the hours of the lift [m/s]
    mass
        mass of the load as weighed, with balun, coax, clamp, bridle and hook [kg]
    haul_line
        rope and blocks
    tram
        tram line
    tilt
        gear for laying the support over
    """

    trained_climbers: int = 0
    ground_crew: int = 0
    training: bool | AnswerPlan | None = None
    rescue_plan: bool | AnswerPlan | None = None
    trained_rigger: bool | AnswerPlan | None = None
    guys_in_the_way: bool | AnswerPlan | None = None
    level_access: bool | AnswerPlan | None = None
    ground_beyond: bool | AnswerPlan | None = None
    top_rating: float | None = None
    forecast_gust: float | None = None
    mass: float | None = None
    haul_line: HaulLinePlan | None = None
    gin_pole: GinPolePlan | None = None
    tram: TramPlan | None = None
    crane: CranePlan | None = None
    lift_truck: LiftTruckPlan | None = None
    tilt: TiltPlan | None = None
