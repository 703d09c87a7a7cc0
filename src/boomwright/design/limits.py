"""Limits on sums over boom and elements that follow from the tubes themselves."""

from __future__ import annotations

import math
from collections.abc import Callable

from boomwright.base.records import dataclass, replace
from boomwright.design.space import LinearLimit, WishError
from boomwright.parts import Beam, TubeSection

PerMetre = Callable[[TubeSection], float]


def wind_area_limit(*, beam: Beam, most: float) -> LinearLimit:
    """Limit the area that elements and boom show broadside: diameter times length.

    Elements and boom never show all of it to one wind, so this is on the side of caution; the
    structure room says what the support must bear.

    Args:
        most: largest area [m^2]
    """
    return _limit("wind area", beam, most, lambda section: section.diameter)


def mass_limit(*, beam: Beam, most: float) -> LinearLimit:
    """Limit the mass of elements and boom, overlaps and fittings not counted.

    Args:
        beam: beam whose tubes are used; every tube needs its wall
        most: largest mass [kg]

    Raises:
        WishError: when a tube has no wall thickness
    """
    for number, element in enumerate(beam.elements):
        if any(section.wall <= 0.0 for section in element.half):
            raise WishError(
                f"element {number + 1} has a tube without wall thickness, so its mass is not known",
                remedy="give the wall as third value of its tubes",
            )

    def per_metre(section: TubeSection) -> float:
        inner = section.diameter - 2.0 * section.wall
        return math.pi / 4.0 * (section.diameter**2 - inner**2) * beam.material.density

    return _limit("mass", beam, most, per_metre)


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePrice:
    """What a metre of a kind of tube costs."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness, 0 when not known [m]
    per_metre: float  #: its price [currency/m]


def cost_limit(
    *, beam: Beam, most: float, prices: tuple[TubePrice, ...], overlap: float
) -> LinearLimit:
    """Limit what the tubes of the elements cost by the metre, overlaps counted, waste not.

    Args:
        most: largest cost [currency]
        overlap: length of a tube inside the next larger one [m]

    Raises:
        WishError: when a tube has no price
    """

    def per_metre(section: TubeSection) -> float:
        for price in prices:
            if math.isclose(price.diameter, section.diameter, abs_tol=5e-5) and math.isclose(
                price.wall, section.wall, abs_tol=5e-5
            ):
                return price.per_metre
        raise WishError(
            f"the cost is to be limited, but tube of {1e3 * section.diameter:.2f} mm with "
            f"{1e3 * section.wall:.2f} mm wall has no price",
            remedy="add it to the price list",
        )

    inside = sum(
        2.0 * overlap * per_metre(section) for one in beam.elements for section in one.half[1:]
    )
    limit = _limit("cost", beam, most, per_metre)
    return replace(limit, constant=limit.constant + inside)


def _limit(name: str, beam: Beam, most: float, per_metre: PerMetre) -> LinearLimit:
    constant, rates = 0.0, []
    for element in beam.elements:
        tip = per_metre(element.half[-1])
        rates.append(2.0 * tip)
        constant += sum(
            2.0 * section.length * (per_metre(section) - tip) for section in element.half[:-1]
        )
    return LinearLimit(
        name=name, constant=constant, per_boom=0.0, per_half_length=tuple(rates), most=most
    )
