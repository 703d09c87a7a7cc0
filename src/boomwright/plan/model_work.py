"""Prices and the raising job, as the plan gives them. ``None`` means that it does not say."""

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
class HaulLinePlan:
    """Rope and blocks for hauling.

    Parameters
    ----------
    breaking_strength
        marked breaking strength of the rope [N]
    block_breaking_strength
        marked breaking strength of the weakest block, shackle or sling [N]
    """

    breaking_strength: float
    block_breaking_strength: float | None = None


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
    back_guyed
        True when the top is guyed against the pull
    """

    span: float
    sag: float
    breaking_strength: float
    line_mass: float = 0.0
    back_guyed: bool = False


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
    """

    radius: float
    hook_height: float
    capacity: float | None = None


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
    """

    platform_height: float
    outreach: float
    needed_outreach: float
    platform_capacity: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisingPlan:
    """Who raises the beam, with what, and where.

    Parameters
    ----------
    trained_climbers
        people trained and equipped to climb and to rescue
    ground_crew
        people on the ground, lift director and spotter included
    rescue_plan
        True when a rescue plan is written and the kit is on site
    trained_rigger
        True when somebody trained in rigging leads
    guys_in_the_way
        True when the beam cannot go straight up past the guys
    level_access
        True when a truck can stand level and firm beside the support
    tilt_over
        True when the support tilts or cranks down and its maker allows it with this load
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
    """

    trained_climbers: int = 0
    ground_crew: int = 0
    rescue_plan: bool = False
    trained_rigger: bool = False
    guys_in_the_way: bool = False
    level_access: bool = False
    tilt_over: bool = False
    top_rating: float | None = None
    forecast_gust: float | None = None
    mass: float | None = None
    haul_line: HaulLinePlan | None = None
    gin_pole: GinPolePlan | None = None
    tram: TramPlan | None = None
    crane: CranePlan | None = None
    lift_truck: LiftTruckPlan | None = None
