"""What the owner wishes for. ``None`` means that the plan does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.parts import Feed

if TYPE_CHECKING:
    from boomwright.design import TubeStock


@dataclass(frozen=True, slots=True, kw_only=True)
class MattersPlan:
    """How much each aim counts against the others; 0 leaves it out."""

    gain: float = 0.0  #: weight of the gain [-]
    front_to_rear: float = 0.0  #: weight of the front-to-rear ratio [-]
    swr: float = 0.0  #: weight of the standing wave ratio over the band [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPlan:
    """A further band that the same boom shall serve."""

    band: tuple[float, float]  #: lowest and highest frequency [Hz] (2,)
    design_frequency: float  #: frequency it is matched at [Hz]
    driven: int  #: number of the element fed in this band, counted from 1 in the order of the plan
    handicap_db: float = 0.0  #: what this band may fall short of the others in gain [dB]
    feed: Feed | None = None  #: how it is fed in this band; None for the beam's own kind of feed


@dataclass(frozen=True, slots=True, kw_only=True)
class WishPlan:
    """What an improved beam shall do, and what it must not exceed."""

    beam: str = ""  #: name of the beam it is about; empty when the plan has one only
    elements: tuple[int, int] | None = None  #: fewest and most elements, or None (2,)
    boom_length: float | None = None  #: longest boom [m]
    element_length: float | None = None  #: longest element from tip to tip [m]
    gain_dbi: float | None = None  #: least gain over the band [dBi]
    front_to_rear_db: float | None = None  #: least front-to-rear ratio over the band [dB]
    #: half angle about the rear that the ratio is taken over; None for the half-plane [rad]
    rear_angle: float | None = None
    swr: float | None = None  #: greatest standing wave ratio over the band [-]
    #: True when the ratio counts after an ideal match at the design frequency
    matched: bool = False
    #: elevation at which the gain is wanted; None for the horizon [rad]
    take_off: float | None = None
    closest: float | None = None  #: smallest distance of neighbours [m]
    even_spacing: bool = False  #: True keeps all spacings equal
    equal_directors: bool = False  #: True keeps all directors alike
    #: lowest and highest feed resistance at the design frequency, or None [ohm] (2,)
    resistance: tuple[float, float] | None = None
    wind_area: float | None = None  #: largest area that the elements show broadside [m^2]
    mass: float | None = None  #: largest mass of the elements [kg]
    cost: float | None = None  #: largest cost of the elements' tubes [currency of the prices]
    stock: tuple[TubeStock, ...] = ()  #: tubes on hand that elements must be cut from (n_kinds,)
    cutting_error: float | None = None  #: error of every half length that the design must bear [m]
    matters: MattersPlan | None = None  #: how much each aim counts; None when not said
    frozen: tuple[str, ...] = ()  #: places of the plan that must stay as they are (n_places,)
    #: further bands that the same boom shall serve, searched all at once (n_bands,)
    bands: tuple[BandPlan, ...] = ()
