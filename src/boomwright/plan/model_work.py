"""Prices and the raising job, as the plan gives them. ``None`` means that it does not say.

A question of the raising is answered with yes or no, who says so and when; a bare ``true`` of an
older plan is kept as it stands, and asked about.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass

if TYPE_CHECKING:
    from boomwright.cost import Services
    from boomwright.raising import Crane, GinPole, HaulLine, LiftTruck, Said, Tilt, Tram


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
    support_stands: Said | None = None  #: whether the support stands, guyed and on old concrete
    support_crane: Crane | None = None  #: machine that raises a pole in one piece
    lift_truck: LiftTruck | None = None
    tilt: Tilt | None = None  #: gear for laying the support over
