"""Concrete in the units it is sold in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

#: cubic metres of one cubic yard, exact {nist-sp-811}
CUBIC_YARD: Final = 0.9144**3
#: yield of one 80 lb (36.3 kg) bag [m^3] {common-practice-estimating}
BAG_YIELD: Final = 0.60 * 0.3048**3
#: density of concrete, 150 lb/ft^3 [kg/m^3] {common-practice-estimating}
CONCRETE_DENSITY: Final = 150.0 * 0.45359237 / 0.3048**3


@dataclass(frozen=True, slots=True, kw_only=True)
class ConcreteQuantities:
    """Concrete in the units it is sold in, waste not included."""

    volume: float  #: volume [m^3]
    cubic_yards: float  #: the same [yd^3]
    bags: int  #: bags of 80 lb, rounded up
    mass: float  #: mass [kg]


def concrete_quantities(*, volume: float) -> ConcreteQuantities:
    """Concrete in cubic yards, bags and kilograms.

    Args:
        volume: [m^3]
    """
    return ConcreteQuantities(
        volume=volume,
        cubic_yards=volume / CUBIC_YARD,
        bags=math.ceil(volume / BAG_YIELD - 1e-9),
        mass=volume * CONCRETE_DENSITY,
    )
