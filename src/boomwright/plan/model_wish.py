"""What the owner wishes for. ``None`` means that the plan does not say."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class MattersPlan:
    """How much each aim counts against the others; 0 leaves it out.

    Parameters
    ----------
    gain
        weight of the gain [-]
    front_to_rear
        weight of the front-to-rear ratio [-]
    swr
        weight of the standing wave ratio over the band [-]
    """

    gain: float = 0.0
    front_to_rear: float = 0.0
    swr: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPlan:
    """A further band that the same boom shall serve.

    Parameters
    ----------
    band
        lowest and highest frequency [Hz] (2,)
    design_frequency
        frequency it is matched at [Hz]
    driven
        number of the element fed in this band, counted from 1 in the order of the plan
    handicap_db
        what this band may fall short of the others in gain [dB]
    """

    band: tuple[float, float]
    design_frequency: float
    driven: int
    handicap_db: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPlan:
    """Tubes of one kind that the owner has.

    Parameters
    ----------
    diameter
        outer diameter [m]
    length
        length of each [m]
    count
        how many
    wall
        wall thickness, 0 when not said [m]
    """

    diameter: float
    length: float
    count: int
    wall: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WishPlan:
    """What an improved beam shall do, and what it must not exceed.

    Parameters
    ----------
    beam
        name of the beam it is about; empty when the plan has one only
    elements
        fewest and most elements, or None (2,)
    boom_length
        longest boom [m]
    element_length
        longest element from tip to tip [m]
    gain_dbi
        least gain over the band [dBi]
    front_to_rear_db
        least front-to-rear ratio over the band [dB]
    rear_angle
        half angle about the rear that the ratio is taken over; None for the half-plane [rad]
    swr
        greatest standing wave ratio over the band [-]
    matched
        True when the ratio counts after an ideal match at the design frequency
    take_off
        elevation at which the gain is wanted; None for the horizon [rad]
    closest
        smallest distance of neighbours [m]
    even_spacing
        True keeps all spacings equal
    equal_directors
        True keeps all directors alike
    resistance
        lowest and highest feed resistance at the design frequency, or None [ohm] (2,)
    wind_area
        largest area that the elements show broadside [m^2]
    mass
        largest mass of the elements [kg]
    cost
        largest cost of the elements' tubes [currency of the prices]
    stock
        tubes on hand that elements must be cut from (n_kinds,)
    cutting_error
        error of every half length that the design must bear [m]
    matters
        how much each aim counts; None when not said
    frozen
        places of the plan that must stay as they are (n_places,)
    bands
        further bands that the same boom shall serve, searched all at once (n_bands,)
    """

    beam: str = ""
    elements: tuple[int, int] | None = None
    boom_length: float | None = None
    element_length: float | None = None
    gain_dbi: float | None = None
    front_to_rear_db: float | None = None
    rear_angle: float | None = None
    swr: float | None = None
    matched: bool = False
    take_off: float | None = None
    closest: float | None = None
    even_spacing: bool = False
    equal_directors: bool = False
    resistance: tuple[float, float] | None = None
    wind_area: float | None = None
    mass: float | None = None
    cost: float | None = None
    stock: tuple[StockPlan, ...] = ()
    cutting_error: float | None = None
    matters: MattersPlan | None = None
    frozen: tuple[str, ...] = ()
    bands: tuple[BandPlan, ...] = ()
