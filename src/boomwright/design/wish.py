"""What an owner wants of a beam, in SI values."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.design.limits import TubePrice
from boomwright.design.mutual_slopes import CLOSEST_WL
from boomwright.design.space import LinearLimit, WishError
from boomwright.design.stock import TubeStock
from boomwright.design.targets import Targets

#: smallest spacing of neighbours when nothing else is wished, in wavelengths: closer ones gain
#: hundredths of a decibel and cost most of the feed-point resistance (own trial)
USUAL_CLOSEST_WL = 0.07
#: smallest feed-point resistance when nothing else is wished: below it the loss in joints and
#: matching eats what is gained {common-practice-low-resistance} [ohm]
USUAL_LEAST_RESISTANCE = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tips:
    """How far the tip tubes of stepped elements may be pulled."""

    least: float = 0.1  #: shortest exposed length [m]
    piece: float = float("inf")  #: length of the piece a tip is made of [m]
    overlap: float = 0.1  #: shortest length of it that must stay inside the next tube [m]

    @property
    def most(self) -> float:
        """Longest exposed length [m]."""
        return self.piece - self.overlap


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is wanted of a beam and what may change."""

    #: what matters and what must be kept
    targets: Targets = field(
        default_factory=lambda: Targets(resistance=(USUAL_LEAST_RESISTANCE, float("inf")))
    )
    elements: tuple[int, int] | None = None  #: fewest and most elements; None keeps the number (2,)
    #: longest boom from first to last element; None keeps the present one [m]
    boom_limit: float | None = None
    closest: float | None = None  #: smallest distance of neighbours; None for 0.07 wavelengths [m]
    longest_element: float | None = None  #: longest element from tip to tip; None for no limit [m]
    tips: Tips = field(default_factory=Tips)  #: how far the tips of stepped elements may be pulled
    #: numbers of elements that keep their place or their length, counted from 0
    keep_positions: tuple[int, ...] = ()
    keep_lengths: tuple[int, ...] = ()
    keep_roles: bool = True  #: True keeps reflectors longer and directors shorter than resonance
    #: True keeps the driven element no longer than the reflector behind it and no shorter than the
    #: first director, each against its own resonance
    driven_between: bool = True
    even: bool = False  #: True keeps all spacings equal
    spacing: float | None = None  #: this spacing for all; None leaves it free [m]
    even_directors: bool = False  #: True keeps all directors alike
    #: largest area that elements show broadside; None for no limit [m^2]
    most_wind_area: float | None = None
    most_mass: float | None = None  #: largest mass of the elements; None for no limit [kg]
    #: largest cost of the elements' tubes; None for no limit [currency]
    most_cost: float | None = None
    #: what their tubes cost by the metre, needed with that limit
    tube_prices: tuple[TubePrice, ...] = ()
    #: tubes on hand: elements must be cut from them; kinds not listed can be bought
    stock: tuple[TubeStock, ...] = ()
    limits: tuple[LinearLimit, ...] = ()  #: further limits on sums over boom and elements
    #: error of every half length that the design must bear: the worst within it counts [m]
    length_error: float = 0.0
    #: dimensions are whole multiples of this; None for the shop's usual grid at the band [m]
    places: float | None = None

    def closest_in(self, *, wavelength: float) -> float:
        """Smallest distance of neighbours [m].

        Args:
            wavelength: wavelength at the design frequency [m]

        Raises:
            WishError: when it is too small to be computed
        """
        closest = USUAL_CLOSEST_WL * wavelength if self.closest is None else self.closest
        if closest < CLOSEST_WL * wavelength:
            raise WishError(
                f"elements {closest:.3f} m apart are too close for the search",
                remedy=f"allow {CLOSEST_WL * wavelength:.3f} m or more",
            )
        return closest
