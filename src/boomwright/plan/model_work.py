"""Prices and the raising job, as the plan gives them. ``None`` means that it does not say.

A question of the raising is answered with yes or no, who says so and when; a bare ``true`` of an
older plan is kept as it stands, and asked about.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from boomwright.cost import Services
    from boomwright.raising import BackLine, Crane, GinPole, HaulLine, LiftTruck, Said, Tram


@dataclass(frozen=True, slots=True, kw_only=True)
class PricesPlan:
    """What the owner pays with, and what he can buy."""

    currency: str  #: currency of the sums, e.g. ``EUR``
    price_list: str = ""  #: file with the price list, or empty
    budget: float | None = None  #: owner's budget [currency]
    contingency: float | None = None  #: share added to the likely sum [-]
    tax: float | None = None  #: tax on top of the prices, as a share; None when not said [-]
    #: least volume of concrete that is delivered; None when not said [m^3]
    concrete_minimum: float | None = None
    old_after: float | None = None  #: age at which a price is flagged [s]
    stock: tuple[float, ...] = ()  #: lengths of tube that can be bought [m] (n_stock,)
    kerf: float | None = None  #: length lost in a saw cut [m]
    overlap: float | None = None  #: least length of a tube inside the next larger one [m]
    owned: tuple[str, ...] = ()  #: what need not be bought (n_owned,)
    hire: Services | None = None  #: freight, hire and papers; None when not thought of yet


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltPartPlan:
    """Something that turns with the support and that no other table weighs."""

    name: str  #: what it is
    mass: float  #: mass [kg]
    at: float  #: its middle, along the support from the hinge [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltPlan:
    """Gear for laying the support over about its hinge."""

    lifter: str  #: ``gin pole`` or ``fixed sheave``
    lifter_height: float  #: head of the gin pole from the hinge, or the sheave above the hinge [m]
    line_at: float  #: where the line takes hold of the support, from the hinge [m]
    winch_distance: float | None = None  #: gin pole: ground anchor of the line from the hinge [m]
    sheave_behind: float = 0.0  #: fixed sheave: from the hinge away from the lying support [m]
    hinged: Said | None = None  #: whether the foot turns in a hinge made for it
    #: whether side guys on the hinge axis hold throughout
    side_guys: Said | None = None
    #: length of the support while it turns, when that is not its height [m]
    length: float | None = None
    allowed_moment: float | None = None  #: bending moment that the support may take [N m]
    hinge_rating: float | None = None  #: force the hinge may take [N]
    #: force along the gin pole, or load on the sheave and what carries it, that they may take [N]
    lifter_rating: float | None = None
    lift_line: float | None = None  #: breaking strength of the line from gin pole to support [N]
    winch: float | None = None  #: pull the winch's maker allows [N]
    winch_parts: int = 1  #: rope parts of a tackle in the winch line
    rope: float | None = None  #: breaking strength of the winch rope [N]
    ends: str = "knot"  #: ``eye`` or ``knot``; a knot when the plan does not say
    anchor: float | None = None  #: pull the ground anchor of the winch line may take [N]
    operator_out: float | None = None  #: whoever works the winch from the hinge [m]
    back_line: BackLine | None = None  #: hold-back line
    part: tuple[TiltPartPlan, ...] = ()  #: what else turns with the support (n_parts,)


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisingPlan:
    """Who raises the beam, with what, and where."""

    trained_climbers: int = 0  #: people trained and equipped to climb and to rescue
    ground_crew: int = 0  #: people on the ground, lift director and spotter included
    #: whether the climbers' training and equipment have been looked at
    training: Said | None = None
    #: whether a rescue plan is written and the kit is on site
    rescue_plan: Said | None = None
    #: whether a support tube is made to be climbed
    climbable: Said | None = None
    trained_rigger: Said | None = None  #: whether somebody trained in rigging leads
    guys_in_the_way: Said | None = None  #: whether the beam cannot go up past the guys
    #: whether a truck can stand level and firm beside the support
    level_access: Said | None = None
    #: whether ground and ways beyond the boundary are kept empty during the lift
    ground_beyond: Said | None = None
    pulleys_up: Said | None = None  #: whether a pulley hangs at every high point of hung wire
    #: whether trees, roof hooks and posts that hold ropes are sound
    holds_sound: Said | None = None
    ropes_clear: Said | None = None  #: whether no rope or wire can come near a power line
    #: horizontal load the maker or an engineer allows at the top [N]
    top_rating: float | None = None
    forecast_gust: float | None = None  #: highest gust forecast for the hours of the lift [m/s]
    #: mass of the load as weighed, with balun, coax, clamp, bridle and hook [kg]
    mass: float | None = None
    haul_line: HaulLine | None = None  #: rope and blocks
    gin_pole: GinPole | None = None
    tram: Tram | None = None  #: tram line
    crane: Crane | None = None
    lift_truck: LiftTruck | None = None
    tilt: TiltPlan | None = None  #: gear for laying the support over
